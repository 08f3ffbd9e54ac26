/** A frame that is shown: its place among the frames of a range, and the picture of the clip with which it begins. */
export interface Picked {
  readonly place: number;
  readonly at: number;
}

/** A run of picked frames, evenly spaced in both. */
interface Even {
  /** How many were picked before. */
  readonly before: number;
  readonly count: number;
  readonly place: number;
  readonly everyPlace: number;
  readonly at: number;
  readonly everyAt: number;
}

/** Picked frames as few even runs, so that even a long uneven clip is told in a short expression. */
function evenRuns(picked: readonly Picked[]): Even[] {
  const runs: Even[] = [];
  let i = 0;
  while (i < picked.length) {
    const [a, b] = [picked[i], picked[i + 1]];
    if (!a) break;
    const everyPlace = b ? b.place - a.place : 1;
    const everyAt = b ? b.at - a.at : 1;
    let count = 1;
    for (;;) {
      const [last, next] = [picked[i + count - 1], picked[i + count]];
      if (!last || !next) break;
      if (next.place - last.place !== everyPlace || next.at - last.at !== everyAt) break;
      count++;
    }
    runs.push({ before: i, count, place: a.place, everyPlace, at: a.at, everyAt });
    i += count;
  }
  return runs;
}

/** An expression of ffmpeg's that is not 0 for the frames picked; `n` counts the frames of the range. */
export function keepExpression(picked: readonly Picked[]): string {
  return tree(
    evenRuns(picked),
    'n',
    (run) => run.place,
    (run) => {
      const last = run.place + (run.count - 1) * run.everyPlace;
      const among = `between(n,${run.place},${last})`;
      return run.everyPlace === 1 ? among : `${among}*not(mod(n-${run.place},${run.everyPlace}))`;
    },
  );
}

/**
 * An expression of ffmpeg's for the picture with which the N-th picked frame begins. The frame after the last one
 * stands for the end of the clip.
 */
export function beginExpression(picked: readonly Picked[], ticks: number): string {
  const all = [...picked, { place: Infinity, at: ticks }];
  return tree(
    evenRuns(all),
    'N',
    (run) => run.before,
    (run) => (run.count === 1 ? String(run.at) : `${run.at}+(N-${run.before})*${run.everyAt}`),
  );
}

/** A choice among runs by halves: as many comparisons as a run has digits in base two. */
function tree(
  runs: readonly Even[],
  by: string,
  from: (run: Even) => number,
  leaf: (run: Even) => string,
): string {
  const [only] = runs;
  if (!only) return '0';
  if (runs.length === 1) return leaf(only);
  const half = runs.length >> 1;
  const [left, right] = [runs.slice(0, half), runs.slice(half)];
  const [next = only] = right;
  return `if(lt(${by},${from(next)}),${tree(left, by, from, leaf)},${tree(right, by, from, leaf)})`;
}
