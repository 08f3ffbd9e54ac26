import type { Quantity } from '../time/quantity.ts';
import { figure } from '../words/figures.ts';
import type { Sentence } from '../words/sentence.ts';
import type { Sized } from '../words/verdicts.ts';

/**
 * A figure of the report. `path` says where the same figure stands in the analysis document
 * ("splits[3].time"), so that a reader or a test can hold one against the other. `text` may give the size only,
 * where the words around it say which way it points; `quantity` keeps its sign.
 */
export interface Figure {
  readonly path: string;
  readonly quantity: Quantity;
  readonly text: string;
}

/** Words that a person wrote: shown as written, never read as anything else. */
export interface Written {
  readonly written: string;
}

export type Piece = Figure | Written;
/** A line of the report: our words, figures, and words of the people it is about. */
export type Line = Sentence<Piece>;

export const isFigure = (p: Piece): p is Figure => 'quantity' in p;

/** The figure that stands at `path` of the analysis document. */
export function figureAt(path: string, q: Quantity): Figure {
  return { path, quantity: q, text: figure(q) };
}

/** The same by its size, for words that say before or after; null stays null. */
export function sizedAt(path: string, q: Quantity | null): Sized<Piece> | null {
  if (!q) return null;
  const text = figure({ ...q, value: Math.abs(q.value) });
  return { piece: { path, quantity: q, text }, value: q.value };
}

export const written = (text: string): Written => ({ written: text });

/** A line as text: what a figure shows, what a person wrote. */
export function lineText(line: Line): string {
  return line.map((p) => (typeof p === 'string' ? p : 'written' in p ? p.written : p.text)).join('');
}
