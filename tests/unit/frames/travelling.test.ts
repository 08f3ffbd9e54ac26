import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { paceOf } from '../../../src/frames/pace.ts';
import { Journey } from '../../../src/frames/travelling.ts';

beforeEach(() => void vi.useFakeTimers({ toFake: ['performance'] }));
afterEach(() => void vi.useRealTimers());

describe('the pace of a held key', () => {
  it('holds still at first, then grows, never shrinks, and has an end', () => {
    expect(paceOf(0)).toBe(paceOf(900));
    for (let ms = 0; ms < 20_000; ms += 50) expect(paceOf(ms + 50)).toBeGreaterThanOrEqual(paceOf(ms));
    expect(paceOf(2400)).toBeCloseTo(4 * paceOf(0), 6);
    expect(paceOf(1e9)).toBe(960);
  });
});

/** A road on which a decoder delivers `deliver` frames at most between two refreshes of 1/60 s. */
function drive(by: 1 | -1, at: number, until: number, deliver: () => number) {
  const passed: number[] = [];
  const settled: number[] = [];
  let here = at;
  let asked: number | null = null;
  const journey = new Journey(by, at, until, {
    ask: (target) => (asked = target),
    later: () => (asked = null),
    settle: () => {
      settled.push(here);
      return Promise.resolve();
    },
  });
  const refresh = (): void => {
    vi.advanceTimersByTime(1000 / 60);
    asked = null;
    journey.next();
    if (asked === null) return;
    const far = Math.min(Math.abs(asked - here), deliver());
    if (far === 0) return;
    here += far * by;
    passed.push(here);
    journey.reached(here);
  };
  return { journey, passed, settled, refresh };
}

describe('a journey', () => {
  it('begins frame by frame, and goes both ways', () => {
    for (const by of [1, -1] as const) {
      const { passed, refresh } = drive(by, 500, by > 0 ? 1000 : 0, () => Infinity);
      for (let i = 0; i < 55; i++) refresh();
      expect(passed).toEqual(Array.from({ length: passed.length }, (_, i) => 500 + (i + 1) * by));
      // 55 refreshes at 60 a second are 0.92 s: about 27 frames at the first pace.
      expect(passed.length).toBeGreaterThan(24);
      expect(passed.length).toBeLessThan(30);
    }
  });

  it('stops exactly at the end, once', async () => {
    const { journey, passed, settled, refresh } = drive(1, 90, 100, () => Infinity);
    for (let i = 0; i < 600; i++) refresh();
    await journey.done;
    expect(passed.at(-1)).toBe(100);
    expect(settled).toEqual([100]);
  });

  it('goes at the pace of the decoder, and owes nothing for the time it waited', () => {
    let stuck = true;
    const { passed, refresh } = drive(1, 0, 100_000, () => (stuck ? 0 : Infinity));
    for (let i = 0; i < 600; i++) refresh();
    expect(passed).toEqual([]);
    stuck = false;
    refresh();
    // Ten seconds at the highest pace would be thousands of frames; a tenth of a second is what counts.
    expect(passed[0]).toBeLessThanOrEqual(96);
  });

  it('stops where it is told to, and says when the last picture cannot be had', async () => {
    const { journey, settled, refresh } = drive(1, 0, 1000, () => Infinity);
    for (let i = 0; i < 30; i++) refresh();
    await journey.stop();
    await journey.stop();
    expect(settled).toHaveLength(1);
    const lost = new Journey(1, 0, 10, {
      ask: () => undefined,
      later: () => undefined,
      settle: () => Promise.reject(new Error('out of reach')),
    });
    await expect(lost.stop()).rejects.toThrow('out of reach');
  });

  it('broken off paints no last picture', async () => {
    const { journey, settled } = drive(-1, 10, 0, () => 1);
    journey.breakOff();
    await journey.done;
    await journey.stop();
    expect(settled).toEqual([]);
  });
});
