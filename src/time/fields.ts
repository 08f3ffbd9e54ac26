import { frameTable, type FrameTable } from './frameTable.ts';

/**
 * The two half-pictures of every frame as frames of their own: the first at the frame's time, the second exactly
 * half-way to the next frame (after the last: half of the gap before it). Ticks are half as long, so that every half
 * is a whole number; so do ffmpeg's filters bwdif and yadif with mode send_field.
 * A clip of one frame has no gap: its second half-picture stands one tick of the clip's own clock after the first.
 */
export function fieldsOf(table: FrameTable): FrameTable {
  const { num, den } = table.timeBase;
  const { pts } = table;
  const ticks: number[] = [];
  let gap = 2;
  for (const [i, at] of pts.entries()) {
    const next = pts[i + 1];
    if (next !== undefined) gap = next - at;
    ticks.push(at * 2, at * 2 + gap);
  }
  return frameTable({ num, den: den * 2 }, ticks);
}

/** The whole frames again: the inverse of `fieldsOf`. Throws a RangeError for a table that is not one of fields. */
export function framesOfFields(fields: FrameTable): FrameTable {
  const { num, den } = fields.timeBase;
  const whole = fields.pts.filter((_, i) => i % 2 === 0).map((at) => at / 2);
  if (den % 2 !== 0) throw new RangeError(`A clock of ${num}/${den} has no half-pictures`);
  const table = frameTable({ num, den: den / 2 }, whole);
  if (!sameTable(fieldsOf(table), fields)) throw new RangeError('These are not the half-pictures of frames');
  return table;
}

/** Whether two tables hold the same times on the same clock. */
export function sameTable(a: FrameTable, b: FrameTable): boolean {
  return (
    a.timeBase.num === b.timeBase.num &&
    a.timeBase.den === b.timeBase.den &&
    a.pts.length === b.pts.length &&
    a.pts.every((at, i) => at === b.pts[i])
  );
}
