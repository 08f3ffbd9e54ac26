import { carried, entry, inverseOf, plus, times, timesTransposed, transposed, type Mat } from './matrices.ts';
import { onward, pushed, pushInAir, type Flight } from './motion.ts';
import type { Smoothed } from './smoother.ts';

/** A time over which a body is pushed about alike. */
export interface Span {
  readonly from: number;
  readonly to: number;
  /** Intensity of its accelerations, m²/s³. */
  readonly push: number;
}

/** A body turns and runs straight by turns: no longer than this is it taken to be pushed alike, seconds. */
const longest = 2;

/** Most pieces of one time on the ground: a mark set hours away must not make work without end. */
const most = 30;

/** What a span's own readings are weighed against: as one of the four figures that a stride gives, of the line's push. */
const belief = 1;

/** The time of a line on the ground, cut at flights, each piece with the line's push to begin with. */
export function spansOf(from: number, to: number, flights: readonly Flight[], push: number): readonly Span[] {
  const spans: Span[] = [];
  let begin = from;
  const close = (end: number): void => {
    const pieces = Math.min(most, Math.ceil((end - begin) / longest));
    for (let k = 0; k < pieces; k++) {
      const at = (share: number): number => begin + ((end - begin) * share) / pieces;
      spans.push({ from: at(k), to: at(k + 1), push });
    }
  };
  for (const flight of flights.toSorted((a, b) => a.from - b.from)) {
    if (flight.to <= begin || flight.from >= to) continue;
    if (flight.from > begin) close(flight.from);
    begin = Math.max(begin, flight.to);
  }
  if (to > begin) close(to);
  return spans;
}

/**
 * Each span's push as its own readings make it likeliest, weighed against that of the whole line: one step of
 * expectation and maximisation (Shumway and Stoffer 1982) with an inverse χ² belief. What is added between two moments
 * is the state after less the state before carried on; its expected square over what a push of 1 would add is the push.
 */
export function pushedAnew(
  spans: readonly Span[],
  usual: number,
  moments: readonly number[],
  { states, back }: Smoothed,
): readonly Span[] {
  return spans.map((span) => {
    let sum = belief * usual;
    let count = belief;
    moments.forEach((t, i) => {
      const then = moments[i + 1];
      const [a, b, gain] = [states[i], states[i + 1], back[i]];
      // Two clicks within a moment tell of no push between them, only of rounding.
      if (then === undefined || !a || !b || !gain || then - t < 1e-3) return;
      const half = (t + then) / 2;
      if (half < span.from || half >= span.to) return;
      const f = onward(then - t);
      const unit = inverseOf(pushed(1, then - t));
      if (!unit) return;
      const added = plus(b.mean, times(f, a.mean), -1);
      const crossed = timesTransposed(times(b.cov, transposed(gain)), f);
      const spread = plus(plus(plus(b.cov, carried(f, a.cov)), crossed, -1), transposed(crossed), -1);
      let square = 0;
      for (let r = 0; r < 4; r++)
        for (let c = 0; c < 4; c++)
          square +=
            entry(unit.inverse, r, c) * (entry(spread, r, c) + entry(added, r, 0) * entry(added, c, 0));
      // Over very short times rounding alone may make it less than nothing.
      sum += Math.max(0, square);
      count += 4;
    });
    return { ...span, push: Math.max(usual / 1000, sum / count) };
  });
}

/** How a line is pushed: in the air and on the ground. */
export interface Pushes {
  readonly spans: readonly Span[];
  readonly flights: readonly Flight[];
}

/** What is added between two moments, between which no flight and no span begins or ends. */
export function shakeBetween(from: number, to: number, { spans, flights }: Pushes): Mat {
  const middle = (from + to) / 2;
  const flying = flights.some((f) => f.from <= middle && middle <= f.to);
  return pushed(flying ? pushInAir : pushAt(spans, middle), to - from);
}

/** The push at a moment on the ground; that of the nearest span where none holds it. */
function pushAt(spans: readonly Span[], at: number): number {
  let best = spans[0];
  let far = Infinity;
  for (const span of spans) {
    const off = Math.max(span.from - at, at - span.to, 0);
    if (off < far) {
      best = span;
      far = off;
    }
    if (off === 0) break;
  }
  return best?.push ?? 0;
}
