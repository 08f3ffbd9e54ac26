/** A held key begins at this pace: each frame can still be seen. Frames a second. */
const atFirst = 30;
/** For so long it keeps it; a short hold stays under the coach's hand. Milliseconds. */
const steadyFor = 1000;
/** After that the pace doubles in so long. Milliseconds. */
const doublesIn = 700;
/** No clip is worth travelling faster. Frames a second. */
const most = 960;

/**
 * How fast a held key travels: as many frames a second, `held` milliseconds after it went down. What the decoder
 * cannot deliver is not skipped: travelling then goes at the decoder's own pace.
 */
export function paceOf(held: number): number {
  return Math.min(most, atFirst * 2 ** (Math.max(0, held - steadyFor) / doublesIn));
}
