/**
 * Sets of four out of `n` places, the same ones each time: all where there are no more than `most`, else `most` of them
 * spread by the additive recurrence of the plastic number's kin (Roberts' R4 sequence, common practice).
 */
export function* foursOf(n: number, most: number): Generator<readonly [number, number, number, number]> {
  const all = (n * (n - 1) * (n - 2) * (n - 3)) / 24;
  if (all <= most) {
    for (let a = 0; a < n; a++)
      for (let b = a + 1; b < n; b++)
        for (let c = b + 1; c < n; c++) for (let d = c + 1; d < n; d++) yield [a, b, c, d];
    return;
  }
  let given = 0;
  for (let i = 1; given < most && i < 4 * most; i++) {
    const [a, b, c, d] = steps.map((s) => Math.floor(((0.5 + i * s) % 1) * n));
    if (a === undefined || b === undefined || c === undefined || d === undefined) return;
    if (new Set([a, b, c, d]).size < 4) continue;
    given++;
    yield [a, b, c, d];
  }
}

/** Powers of 1/g, where g is the root of x⁵ = x + 1. */
const root = 1.1673039782614187;
const steps = [1, 2, 3, 4].map((k) => root ** -k);
