import { data, sheetOfPaper, themes } from '../../look/tokens.ts';
import type { PaperRole, PaperShape } from './paper.ts';

/** How a shape is painted: a filled area, or a line with its edge under it. Widths in the drawing's units. */
export interface Ink {
  readonly fill?: string;
  readonly stroke?: string;
  /** A wider line of this colour under the line, and how much wider. */
  readonly edge?: string;
  /** Lengths of line and gap, in widths of the line. */
  readonly dash?: readonly [number, number];
  readonly round?: boolean;
}

const paper = themes.paper;

/** Colours on white paper: dark lines and pale areas, so that it reads in black and white as well. */
const inks: Readonly<Record<PaperRole, Ink>> = {
  ring: { stroke: paper.lineStrong },
  order: { stroke: paper.lineStrong, dash: [4, 4] },
  start: { stroke: paper.pine },
  finish: { stroke: paper.pine },
  bar: { stroke: paper.text },
  wing: { stroke: paper.textSoft },
  tube: { stroke: data.sky, edge: paper.text, round: true },
  mouth: { fill: paper.text },
  plank: { stroke: sheetOfPaper, edge: paper.text },
  contact: { stroke: data.yellow },
  pole: { fill: paper.text },
  spot: { fill: sheetOfPaper, stroke: paper.textSoft },
  hairline: { stroke: paper.line },
  scale: { stroke: paper.text },
};

export const inkOf = (as: PaperRole): Ink => inks[as];

/** Colours of numbers' boards and of text. */
export const boardInk = { fill: sheetOfPaper, edge: paper.text, text: paper.text } as const;
export const toneInk: Readonly<Record<Extract<PaperShape, { shape: 'text' }>['tone'], string>> = {
  strong: paper.text,
  plain: paper.text,
  soft: paper.textSoft,
};

/** Thinnest line on paper, and the edge round tubes and planks, millimetres. */
export const thinnest = 0.18;
export const edgeWidth = 0.3;
/** The sheet itself: white, so that a printer leaves it alone. */
export const sheetInk = sheetOfPaper;
/** Letters of boards and titles are this heavy. */
export const strongWeight = 600;
/** From the middle of a board down to its text's base line, in heights of the text: half the height of a figure. */
export const boardBase = 0.34;
