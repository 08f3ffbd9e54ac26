import { mannerOf } from '../course/kinds.ts';
import type { GroundPoint } from '../course/points.ts';
import { distance, headingTo, lengthOf, type Pose } from '../course/pose.ts';
import type { LikelyLine, LineStep, LineStretch } from '../line/line.ts';
import type { Runner } from '../line/runner.ts';

/** When the dog is where, at one number. Seconds from her first movement. */
export interface DogTimes {
  readonly step: LineStep;
  /** She will take it, with or without help. */
  readonly committed: number;
  readonly in: number;
  readonly out: number;
  /** Her way to it, and on from it. */
  readonly before: LineStretch | undefined;
  readonly after: LineStretch | undefined;
}

/** What the timetable needs to know of the dog besides her line. */
export type Commits = Pick<Runner, 'committedAt' | 'takeOff'>;

/**
 * When the dog is committed to each number, in it and out of it, by number. Her commitment is measured to the bar: of
 * that, what she takes off before it is in the air. Where the way to it is shorter, she is committed where it begins.
 */
export function dogTimes(line: LikelyLine, runner: Commits): ReadonlyMap<number, DogTimes> {
  return new Map(
    line.steps.map((step, i) => {
      const before = line.stretches[i];
      const manner = mannerOf(step.kind);
      const inAir = manner === 'jumped' || manner === 'unknown' ? runner.takeOff : 0;
      const metres = Math.max(0, runner.committedAt - inAir);
      const share = before && before.length > 0 ? Math.min(1, metres / before.length) : 1;
      const running = step.inAt - (line.steps[i - 1]?.outAt ?? 0);
      const committed = step.inAt - share * running;
      const after = line.stretches[i + 1];
      return [step.number, { step, committed, in: step.inAt, out: step.outAt, before, after }];
    }),
  );
}

/** Where the dog is at a moment, and the number she is on; null while she runs between two. */
export interface DogNow extends Pose {
  readonly on: number | null;
}

/** The dog's place at `t` seconds along her line, at even speed on each part of it. Before 0 she waits. */
export function dogAt(line: LikelyLine, t: number): DogNow | null {
  let from = 0;
  for (const [i, step] of line.steps.entries()) {
    const way = line.stretches[i]?.points ?? [];
    if (t < step.inAt || i === 0) {
      const gone = share(from, step.inAt, t);
      if (gone < 1) return { ...(alongWay(way, gone) ?? step.entry), on: null };
    }
    if (t < step.outAt) {
      const on = alongWay(step.through, share(step.inAt, step.outAt, t));
      return { ...(on ?? step.entry), on: step.number };
    }
    from = step.outAt;
  }
  const last = line.stretches[line.steps.length];
  const end = alongWay(last?.points ?? [], share(from, from + (last?.seconds ?? 0), t));
  const exit = line.steps.at(-1)?.exit;
  return end ? { ...end, on: null } : exit ? { ...exit, on: null } : null;
}

const share = (from: number, to: number, t: number): number =>
  to > from ? Math.max(0, Math.min(1, (t - from) / (to - from))) : 1;

/** The point at a share of a way, and the way it runs there; null where the way has no two points. */
export function alongWay(way: readonly GroundPoint[], part: number): Pose | null {
  let left = part * lengthOf(way);
  let last: Pose | null = null;
  for (let i = 1; i < way.length; i++) {
    const [a, b] = [way[i - 1], way[i]];
    if (!a || !b) continue;
    const piece = distance(a, b);
    const headingDegrees: number = piece > 0 ? headingTo(a, b) : (last?.headingDegrees ?? 0);
    if (piece > 0 && left <= piece) {
      const u = left / piece;
      return { x: a.x + u * (b.x - a.x), y: a.y + u * (b.y - a.y), headingDegrees };
    }
    left -= piece;
    last = { ...b, headingDegrees };
  }
  return last;
}

/** How far a spot lies to the left of a way, metres, measured from the nearest part of it; null where there is none. */
export function leftOf(way: readonly GroundPoint[], p: GroundPoint): number | null {
  let nearest = Infinity;
  let left: number | null = null;
  for (let i = 1; i < way.length; i++) {
    const [a, b] = [way[i - 1], way[i]];
    if (!a || !b) continue;
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const size = dx * dx + dy * dy;
    if (size === 0) continue;
    const u = Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / size));
    const far = Math.hypot(p.x - (a.x + u * dx), p.y - (a.y + u * dy));
    if (far >= nearest) continue;
    nearest = far;
    left = Math.sign(dx * (p.y - a.y) - dy * (p.x - a.x)) * far;
  }
  return left;
}
