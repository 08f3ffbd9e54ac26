import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Light } from '../../../src/host/contract/looks.ts';
import {
  asFilmed,
  isAsFilmed,
  lightRange,
  lightWithin,
  lit,
  transferOf,
} from '../../../app/window/review/look/light.ts';
import { ghostOf, layersOf, rgbOf, strengthOf } from '../../../app/window/review/look/layers.ts';

describe('the light', () => {
  it('stays within its range whatever number is asked for, so that it can always be kept', () => {
    fc.assert(
      fc.property(fc.constantFrom('brightness', 'contrast', 'gamma'), fc.double(), (part, value) => {
        const light = lit(asFilmed, part, value);
        expect(Light.safeParse(light).success).toBe(true);
        expect(light[part]).toBeGreaterThanOrEqual(lightRange[part].least);
        expect(light[part]).toBeLessThanOrEqual(lightRange[part].most);
      }),
    );
    expect(lightWithin('gamma', NaN)).toBe(1);
  });

  it('changes nothing as filmed, and comes back there by as many steps as it left by', () => {
    expect(isAsFilmed(asFilmed)).toBe(true);
    expect(transferOf(asFilmed)).toEqual({ amplitude: 1, exponent: 1, slope: 1, intercept: 0 });
    let light = asFilmed;
    for (let i = 0; i < 4; i++) light = lit(light, 'gamma', light.gamma + 0.1);
    for (let i = 0; i < 4; i++) light = lit(light, 'gamma', light.gamma - 0.1);
    expect(isAsFilmed(light)).toBe(true);
  });

  /** Filter Effects Module Level 1 (W3C): gamma is amplitude * C ^ exponent + offset, linear is slope * C + intercept. */
  it('lifts the dark parts with gamma, leaves black and white, and turns contrast about mid-grey', () => {
    const { amplitude, exponent } = transferOf({ ...asFilmed, gamma: 2 });
    expect(amplitude * 0.25 ** exponent).toBeCloseTo(0.5, 12);
    expect([0, 1].map((v) => amplitude * v ** exponent)).toEqual([0, 1]);
    const { slope, intercept } = transferOf({ ...asFilmed, contrast: 1.5 });
    expect(slope * 0.5 + intercept).toBeCloseTo(0.5, 12);
    expect(slope * 0.6 + intercept).toBeCloseTo(0.65, 12);
  });
});

describe('frames laid over', () => {
  it('are the nearest before and after, none beyond the clip', () => {
    expect(layersOf(10, 2, 100).map((l) => l.frame)).toEqual([9, 11, 8, 12]);
    expect(layersOf(0, 3, 100).map((l) => l.frame)).toEqual([1, 2, 3]);
    expect(layersOf(99, 3, 100).map((l) => l.frame)).toEqual([98, 97, 96]);
    expect(layersOf(0, 3, 1)).toEqual([]);
  });

  it('show fainter the further away they are', () => {
    const row = [1, 2, 3].map(strengthOf);
    expect([...row].sort((a, b) => b - a)).toEqual(row);
    expect(strengthOf(-2)).toBe(strengthOf(2));
  });

  it('show only where they differ, in their own tint, never more than half', () => {
    const grass = [80, 140, 60, 255];
    const dog = [30, 20, 20, 255];
    const frame = [...grass, ...grass, ...grass, ...grass, ...grass, ...grass];
    const layer = [...grass, ...dog, ...grass, ...grass, ...grass, ...grass];
    const ghost = ghostOf(frame, layer, rgbOf('#56B4E9'), 0.5);
    expect(ghost[3]).toBe(0);
    expect(ghost[7]).toBe(Math.round(255 * 0.5));
    expect([...ghost.slice(4, 7)]).toEqual([
      Math.round(30 + (0x56 - 30) * 0.4),
      Math.round(20 + (0xb4 - 20) * 0.4),
      Math.round(20 + (0xe9 - 20) * 0.4),
    ]);
  });

  it('pass over the noise of compressed film, and show more faintly where the camera moved', () => {
    const frame = Array.from({ length: 400 }, (_, i) => (i % 4 === 3 ? 255 : 100));
    const noisy = frame.map((v, i) => (i % 4 === 3 ? v : v + (i % 9)));
    expect(ghostOf(frame, noisy, [0, 0, 0], 0.5).some((v) => v > 0)).toBe(false);
    const all = ghostOf(
      frame,
      frame.map((v, i) => (i % 4 === 3 ? v : 250)),
      [0, 0, 0],
      0.5,
    );
    expect(all[3]).toBeLessThan(127 * 0.7);
    expect(all[3]).toBeGreaterThan(0);
  });
});
