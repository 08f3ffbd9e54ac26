/** Presentation times as the decoder gave them, one entry a frame, in the order it gave them; null where none. */
export interface DecodedTimes {
  /** As the container states them. */
  readonly stated: readonly (number | null)[];
  /** As the decoder makes them out where the container is silent (AVI) or wrong. */
  readonly made: readonly (number | null)[];
  /** Ticks that a frame usually stays; for the places where no time is known at all. */
  readonly usual: number | null;
}

export interface OrderedTimes {
  /** Strictly rising. */
  readonly ticks: number[];
  /** Frames that were given a time between or beyond their neighbours, because none was known. */
  readonly guessed: number;
  /** Frames left out because their time does not come after that of the frame before. */
  readonly leftOut: number;
}

/**
 * The times by which frames are told apart. Whole and rising lists are taken as they are: first what the container
 * states, then what the decoder made of it. Only where neither is (damaged streams, old AVI, an edit list that jumps
 * among B-frames): gaps are filled evenly, and a frame that does not come after the one before it is left out, since
 * no player could be asked for it. The same rule stands in the filter of working copies (`risingOnly`).
 */
export function orderTimes(times: DecodedTimes): OrderedTimes {
  for (const list of [times.stated, times.made]) {
    if (isRising(list)) return { ticks: list, guessed: 0, leftOut: 0 };
  }
  const known = times.made.map((made, i) => made ?? times.stated[i] ?? null);
  const { filled, guessed } = fill(known, times.usual);
  const ticks: number[] = [];
  for (const at of filled) {
    const before = ticks.at(-1);
    if (at !== null && (before === undefined || at > before)) ticks.push(at);
  }
  return { ticks, guessed, leftOut: known.length - ticks.length };
}

function isRising(list: readonly (number | null)[]): list is number[] {
  return list.every((at, i) => at !== null && (i === 0 || at > (list[i - 1] ?? Infinity)));
}

function fill(
  known: readonly (number | null)[],
  usual: number | null,
): { filled: (number | null)[]; guessed: number } {
  const filled = [...known];
  const step = usual ?? usualGap(known) ?? 1;
  let guessed = 0;
  let from = 0;
  while (from < filled.length) {
    if (filled[from] !== null) {
      from++;
      continue;
    }
    let until = from;
    while (until < filled.length && filled[until] === null) until++;
    const left = from > 0 ? (filled[from - 1] ?? null) : null;
    const right = filled[until] ?? null;
    const run = until - from;
    for (let i = from; i < until; i++) {
      const place = i - from + 1;
      let at: number | null;
      if (left !== null && right !== null) {
        // Where there is no room between the neighbours the frame stays without a time and is left out.
        at = right - left > run ? left + Math.round(((right - left) * place) / (run + 1)) : null;
      } else if (right !== null) at = right - step * (until - i);
      else at = (left ?? -step) + step * place;
      filled[i] = at;
      if (at !== null) guessed++;
    }
    from = until;
  }
  return { filled, guessed };
}

/** The gap that occurs most. */
function usualGap(known: readonly (number | null)[]): number | null {
  const counts = new Map<number, number>();
  for (let i = 1; i < known.length; i++) {
    const a = known[i - 1] ?? null;
    const b = known[i] ?? null;
    if (a !== null && b !== null && b > a) counts.set(b - a, (counts.get(b - a) ?? 0) + 1);
  }
  let best: number | null = null;
  for (const [gap, n] of counts) if (best === null || n > (counts.get(best) ?? 0)) best = gap;
  return best;
}
