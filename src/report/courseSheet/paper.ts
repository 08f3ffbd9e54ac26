import type { PlanRole } from '../../course/planShapes.ts';

/** Sizes of paper, upright, millimetres (ISO 216). */
export const papers = {
  a4: { width: 210, height: 297 },
  a5: { width: 148, height: 210 },
} as const;
export type PaperName = keyof typeof papers;

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A point in the units of a drawing. */
export type PaperPoint = readonly [number, number];

/** What a line or dot of a drawing is; who paints it gives it its colours. */
export type PaperRole = PlanRole | 'hairline' | 'scale';

/** A piece of a drawing for paper, in the order in which it is painted. All lengths are in the drawing's own units. */
export type PaperShape =
  | {
      readonly shape: 'path';
      readonly points: readonly PaperPoint[];
      readonly width: number;
      readonly as: PaperRole;
      readonly closed?: boolean;
    }
  | {
      readonly shape: 'dot';
      readonly x: number;
      readonly y: number;
      readonly r: number;
      readonly as: PaperRole;
    }
  /** The board of a number, by its middle. */
  | {
      readonly shape: 'board';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly text: string;
      readonly textSize: number;
    }
  /** One line of text; y is its base line. */
  | {
      readonly shape: 'text';
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly textSize: number;
      readonly tone: 'strong' | 'plain' | 'soft';
      readonly from: 'left' | 'middle' | 'right';
      /** Widest that it may become; narrower letters beyond. */
      readonly most?: number;
    }
  /** The picture of the judge's map, upright. */
  | {
      readonly shape: 'picture';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
    };

/** A drawing for paper: its size in its own units, and what one unit is on the paper. */
export interface PaperDrawing extends Size {
  /** Millimetres of paper to one unit of the drawing. */
  readonly unit: number;
  readonly title: string;
  readonly shapes: readonly PaperShape[];
}

/** The shapes of another drawing, placed on this one: scaled first, then moved. */
export function placed(
  shapes: readonly PaperShape[],
  scale: number,
  x0: number,
  y0: number,
): readonly PaperShape[] {
  const x = (v: number): number => x0 + v * scale;
  const y = (v: number): number => y0 + v * scale;
  return shapes.map((s): PaperShape => {
    switch (s.shape) {
      case 'path':
        return { ...s, points: s.points.map(([px, py]) => [x(px), y(py)] as const), width: s.width * scale };
      case 'dot':
        return { ...s, x: x(s.x), y: y(s.y), r: s.r * scale };
      case 'board':
      case 'text':
      case 'picture':
        return {
          ...s,
          x: x(s.x),
          y: y(s.y),
          ...('width' in s ? { width: s.width * scale, height: s.height * scale } : {}),
          ...('textSize' in s ? { textSize: s.textSize * scale } : {}),
          ...('most' in s ? { most: s.most * scale } : {}),
        };
    }
  });
}

/** How wide a letter is about, in its text heights; the little that is too long is written narrower. */
const letter = 0.44;

/** A text cut to fit a width, with a mark that it was. */
export function fitted(text: string, textSize: number, width: number): string {
  const most = Math.max(1, Math.floor(width / (textSize * letter)));
  const letters = [...text];
  return letters.length <= most
    ? text
    : `${letters
        .slice(0, most - 1)
        .join('')
        .trimEnd()}…`;
}
