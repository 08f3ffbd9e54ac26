import { drawnSizes } from '../../../../src/course/equipment.ts';
import type { Course } from '../../../../src/course/course.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { tunnelMouths } from '../../../../src/course/tunnelLine.ts';
import { assumedRunner } from '../../../../src/line/runner.ts';
import type { Analysis } from '../../../../src/review/analysis.ts';
import { middle, runTimeAt, type ClipClock } from '../../../../src/time/bracket.ts';
import { frameAt, lastFrame, ptsOf } from '../../../../src/time/frameTable.ts';
import { frameIndex, pts } from '../../../../src/time/units.ts';
import { frameShownAt } from '../../../../src/review/cells.ts';
import type { Span } from '../line/scale.ts';

/** Run time at which a frame begins. */
export const timeOf = (clock: ClipClock, frame: number): number =>
  runTimeAt(
    clock,
    ptsOf(clock.table, frameIndex(Math.max(0, Math.min(lastFrame(clock.table), Math.round(frame))))),
  );

/** A step goes on to a mark that stands there already where it is no further than this many strides away. */
const near = 1.5;

/**
 * The next frame to mark, a stride on: the frame of the next mark where one stands about there, else the frame shown
 * then; past the time in a tunnel, where nobody sees her. Null at the end.
 * @param step seconds of the run
 * @param marked presentation times that carry a mark of this track
 * @param hidden times of the run in which she cannot be seen
 * @param last the last frame that may be marked
 */
export function nextFrame(
  clock: ClipClock,
  frame: number,
  step: number,
  marked: readonly number[],
  hidden: readonly Span[],
  last: number,
): number | null {
  if (frame >= last) return null;
  const now = timeOf(clock, frame);
  const there = marked
    .map((at) => frameAt(clock.table, pts(at)))
    .filter((f) => f > frame && f <= last && timeOf(clock, f) <= now + near * step)
    .sort((a, b) => a - b)[0];
  if (there !== undefined) return there;
  let wanted = now + step;
  for (const { from, to } of hidden) if (wanted >= from && wanted < to) wanted = to;
  const shown = frameShownAt(clock, wanted);
  // The frame shown when she comes out may have begun before: she is seen on the one after.
  const out = hidden.some(({ from, to }) => timeOf(clock, shown) >= from && timeOf(clock, shown) < to);
  return Math.max(frame + 1, Math.min(last, out ? shown + 1 : shown));
}

/** The frame of the mark before; null where none is. */
export function frameBefore(clock: ClipClock, frame: number, marked: readonly number[]): number | null {
  const before = marked.map((at) => frameAt(clock.table, pts(at))).filter((f) => f < frame);
  return before.length > 0 ? Math.max(...before) : null;
}

/** Times in a tunnel by the coach's marks: from entry to exit. */
export function tunnelTimes({ taken }: Pick<Analysis, 'taken'>, footageId: string): readonly Span[] {
  return taken.flatMap((t): Span[] => {
    if (t.kind !== 'tunnel' || t.single || t.in?.footageId !== footageId || !t.out) return [];
    const [from, to] = [middle(t.in.bracket), middle(t.out.bracket)];
    return to > from ? [{ from, to }] : [];
  });
}

/** A place at a time of the run. */
export interface Seen extends GroundPoint {
  readonly at: number;
}

/**
 * The time in a tunnel into which the last two places lead within a stride: from the mouth on, as long as a dog of
 * usual speed takes through it (assumedRunner). Null where they lead into none.
 * @param course built by its rule book
 */
export function tunnelAhead(course: Course, before: Seen, last: Seen, step: number): Span | null {
  const seconds = last.at - before.at;
  if (!(seconds > 0) || seconds > 4 * step) return null;
  const [vx, vy] = [(last.x - before.x) / seconds, (last.y - before.y) / seconds];
  const speed = Math.hypot(vx, vy);
  if (speed < 0.5) return null;
  for (const o of course.obstacles) {
    if (o.kind !== 'tunnel' || !o.stand) continue;
    const size = drawnSizes(o.kind, o.sizes);
    const [first, second] = tunnelMouths(o.stand, size.tunnelLength, 'forward');
    for (const [mouth, sign] of [
      [first, 1],
      [second, -1],
    ] as const) {
      const angle = (mouth.headingDegrees * Math.PI) / 180;
      const [nx, ny] = [sign * Math.cos(angle), sign * Math.sin(angle)];
      const left = (mouth.x - last.x) * nx + (mouth.y - last.y) * ny;
      const across = vx * nx + vy * ny;
      // She may be a little past the mouth when she is last seen.
      if (across <= 0 || left < -size.tunnelDiameter || left > across * step) continue;
      const t = left / across;
      const aside = (last.x + vx * t - mouth.x) * -ny + (last.y + vy * t - mouth.y) * nx;
      // A dog that heads for a mouth from the side still bends into it.
      if (Math.abs(aside) > 1.5 * size.tunnelDiameter) continue;
      const from = last.at + Math.max(0, t);
      return { from, to: from + size.tunnelLength / assumedRunner.tunnelSpeed.usual };
    }
  }
  return null;
}
