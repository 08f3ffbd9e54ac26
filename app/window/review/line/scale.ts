import type { Span } from '../../../../src/review/cells.ts';

export type { Span } from '../../../../src/review/cells.ts';

const length = (s: Span): number => s.to - s.from;

/** Place of a run time on a line `width` pixels wide that shows `view`. */
export function xAt(view: Span, width: number, at: number): number {
  return ((at - view.from) / length(view)) * width;
}

/** Run time at a place on the line. */
export function timeAt(view: Span, width: number, x: number): number {
  return view.from + (x / width) * length(view);
}

/** The view moved and shortened so that it lies within the whole; at least `least` seconds long where that fits. */
export function within(view: Span, whole: Span, least: number): Span {
  const most = length(whole);
  const enough = Math.min(least, most);
  if (view.from >= whole.from && view.to <= whole.to && length(view) >= enough) return view;
  const size = Math.min(most, Math.max(enough, length(view)));
  const middle = (view.from + view.to) / 2;
  const from = Math.min(whole.to - size, Math.max(whole.from, middle - size / 2));
  return { from, to: from + size };
}

/** The view made `factor` times as long, keeping the run time `about` where it is on the screen. */
export function zoomed(view: Span, whole: Span, factor: number, about: number, least: number): Span {
  const size = Math.min(length(whole), Math.max(least, length(view) * factor));
  const share = (about - view.from) / length(view);
  const from = about - share * size;
  return within({ from, to: from + size }, whole, least);
}

/** The view moved by `by` seconds, as far as there is film. */
export function panned(view: Span, whole: Span, by: number): Span {
  return within({ from: view.from + by, to: view.to + by }, whole, length(view));
}

/** How much of the view stays free ahead of the playhead and behind it. */
const margin = 0.06;

/**
 * The view that keeps `now` in sight: unchanged while it is, turned like a page where it runs off at an end. Pages
 * do not move under the eye as a steady scroll would.
 */
export function following(view: Span, whole: Span, now: number): Span {
  const size = length(view);
  if (now > view.to - size * margin && view.to < whole.to) {
    return within({ from: now - size * 0.15, to: now + size * 0.85 }, whole, size);
  }
  if (now < view.from + size * margin && view.from > whole.from) {
    return within({ from: now - size * 0.85, to: now + size * 0.15 }, whole, size);
  }
  return view;
}

/** Steps that people read easily, seconds. */
const readable = [
  0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1800, 3600,
];

/** Run times of the ruler's ticks within the view, at least `room` pixels apart, and the step between them. */
export function ticks(
  view: Span,
  width: number,
  room: number,
): { readonly step: number; readonly at: number[] } {
  const least = (length(view) / width) * room;
  const step = readable.find((s) => s >= least) ?? Math.ceil(least / 3600) * 3600;
  const at: number[] = [];
  const first = Math.ceil(view.from / step - 1e-9);
  for (let n = first; n * step <= view.to + 1e-9; n++) at.push(n * step);
  return { step, at };
}

/** Digits after the point that tell ticks of this step apart. */
export function digitsOfStep(step: number): number {
  return step >= 1 ? 0 : Math.min(3, Math.ceil(-Math.log10(step) - 1e-9));
}
