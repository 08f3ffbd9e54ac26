import type { PaperShape, Size } from './paper.ts';

/** Scales that a ruler can be laid on: one centimetre of paper is so many centimetres of grass. */
export const scales = [50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000, 1500, 2000, 5000] as const;
export type Scale = (typeof scales)[number];

/** The largest of the scales at which ground of this size, metres, fits a piece of paper, millimetres; null: none. */
export function fittingScale(ground: Size, paper: Size): Scale | null {
  return scales.find((s) => fits(ground, paper, s)) ?? null;
}

/** True where ground of this size, metres, fits a piece of paper, millimetres, at a scale. */
export const fits = (ground: Size, paper: Size, scale: number): boolean =>
  ground.width * (1000 / scale) <= paper.width + 1e-9 &&
  ground.height * (1000 / scale) <= paper.height + 1e-9;

const foot = 0.3048;

/** A round length of the ground for the scale bar, no more than `most` metres. */
export function barLength(most: number, unit: 'metres' | 'feet'): { metres: number; count: number } {
  const one = unit === 'metres' ? 1 : foot;
  const count = [1, 2, 5, 10, 20, 50, 100, 200].filter((n) => n * one <= most).at(-1) ?? 1;
  return { metres: count * one, count };
}

/**
 * A scale bar: its line with a tick at either end and one in the middle, from (x, y) to the right, `length` long in
 * the drawing's units, with its words beside it.
 */
export function scaleBar(at: {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly textSize: number;
  readonly words: string;
}): PaperShape[] {
  const { x, y, length, textSize, words } = at;
  const width = textSize / 10;
  const tick = (tx: number, high: number): PaperShape => ({
    shape: 'path',
    as: 'scale',
    width,
    points: [
      [tx, y - textSize * high],
      [tx, y],
    ],
  });
  return [
    {
      shape: 'path',
      as: 'scale',
      width,
      points: [
        [x, y],
        [x + length, y],
      ],
    },
    tick(x, 0.6),
    tick(x + length / 2, 0.35),
    tick(x + length, 0.6),
    {
      shape: 'text',
      x: x + length + textSize * 0.6,
      y,
      text: words,
      textSize,
      tone: 'plain',
      from: 'left',
    },
  ];
}
