import { describe, expect, it } from 'vitest';
import {
  cssVariables,
  movement,
  stage,
  target,
  themes,
  type,
  type ColourName,
  type ThemeName,
} from '../../../src/look/tokens.ts';

/**
 * Contrast ratio of two colours "#rrggbb", as WCAG 2.2 defines it (w3c/wcag, guidelines/terms: relative luminance,
 * contrast ratio; the threshold 0.04045 since May 2021).
 */
function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return ((light ?? 0) + 0.05) / ((dark ?? 0) + 0.05);
}

function luminance(colour: string): number {
  const channel = (at: number): number => {
    const c = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

describe('the formula, against values worked from WCAG 2.2', () => {
  it.each([
    ['#000000', '#FFFFFF', 21],
    ['#767676', '#FFFFFF', 4.5422],
    ['#777777', '#FFFFFF', 4.4781],
    ['#595959', '#FFFFFF', 7.0047],
    ['#949494', '#FFFFFF', 3.0335],
    ['#959595', '#FFFFFF', 2.9953],
    ['#FF0000', '#FFFFFF', 3.9985],
    ['#00FF00', '#FFFFFF', 1.3722],
    ['#0000FF', '#FFFFFF', 8.5925],
    ['#FFFF00', '#000000', 19.556],
  ])('%s on %s', (a, b, ratio) => {
    expect(contrast(a, b)).toBeCloseTo(ratio, 4);
    expect(contrast(b, a)).toBeCloseTo(ratio, 4);
  });
});

const grounds: readonly ColourName[] = ['ground', 'raised', 'sunken'];

/** Text that is written on a colour somewhere in the window. */
const textPairs: readonly (readonly [ColourName, readonly ColourName[]])[] = [
  ['text', [...grounds, 'pineSoft', 'accentSoft']],
  ['textSoft', [...grounds, 'pineSoft', 'accentSoft']],
  ['pine', [...grounds, 'pineSoft']],
  ['accent', grounds],
  ['inTime', grounds],
  ['tight', grounds],
  ['late', grounds],
  ['open', grounds],
  ['onPine', ['pine']],
  ['onAccent', ['accent']],
];

/** Lines and rings that must be seen (WCAG 1.4.11): edges of fields and buttons, the ring of the focus. */
const edgePairs: readonly (readonly [ColourName, readonly ColourName[]])[] = [
  ['lineStrong', grounds],
  ['focus', [...grounds, 'pineSoft', 'accentSoft']],
];

const ratios = (pairs: typeof textPairs, least: number): string[] =>
  (Object.keys(themes) as ThemeName[]).flatMap((theme) =>
    pairs.flatMap(([front, backs]) =>
      backs.flatMap((back) => {
        const ratio = contrast(themes[theme][front], themes[theme][back]);
        return ratio >= least ? [] : [`${theme}: ${front} on ${back} is ${ratio.toFixed(4)}`];
      }),
    ),
  );

describe('the colours of both themes', () => {
  it('carry text at 4.5 to 1 or better (WCAG 1.4.3)', () => {
    expect(ratios(textPairs, 4.5)).toEqual([]);
  });

  it('show edges and the focus at 3 to 1 or better (WCAG 1.4.11)', () => {
    expect(ratios(edgePairs, 3)).toEqual([]);
  });

  it('carry text around the picture', () => {
    expect(contrast(stage.text, stage.surround)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(stage.textSoft, stage.surround)).toBeGreaterThanOrEqual(4.5);
  });

  it('would be found out if a text colour were too pale', () => {
    expect(contrast('#777777', '#FFFFFF')).toBeLessThan(4.5);
  });
});

describe('sizes', () => {
  it('keep text at 13 px or more and targets at 24 px or more (WCAG 2.5.8)', () => {
    expect(Math.min(...Object.values(type))).toBeGreaterThanOrEqual(13);
    expect(target).toBeGreaterThanOrEqual(24);
    expect(movement).toBeLessThan(150);
  });

  it('reach the window as variables of the same names in both themes', () => {
    const names = (theme: ThemeName): string[] =>
      [...cssVariables(theme).matchAll(/--[\w-]+(?=:)/g)].map(([name]) => name).sort();
    expect(names('paper')).toEqual(names('dark'));
    expect(new Set(names('paper')).size).toBe(names('paper').length);
    expect(names('paper')).toContain('--text-soft');
  });
});
