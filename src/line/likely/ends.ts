import type { Course } from '../../course/course.ts';
import { usualLine } from '../../course/postLines.ts';
import type { GroundPoint } from '../../course/points.ts';
import type { DrawnStep } from '../../course/sequence.ts';
import type { LineWish } from '../line.ts';
import { facing } from './barGate.ts';
import { fromFacing, spot, type Gate } from './gates.ts';
import { toNearest, type Solids } from './solids.ts';

/** The dog waits this far before the start line, metres (our choice: her front paws stand behind it). */
const behindLine = 1;

/** Where she may wait instead where equipment stands in that place, metres nearer to the line or farther from it. */
const elsewhere = [0, 0.25, -0.25, 0.5, -0.5, 0.75, -0.75, 1, 1.25, 1.5, 1.75, 2] as const;

/**
 * Where she stands before the run: the place wished, else before the start line on the way in to the first number,
 * where nothing stands in that place. Not clear where something does.
 */
export function startGate(course: Course, first: DrawnStep, wish: LineWish, { boxes }: Solids): Gate {
  const gap = wish.runner.besideWing;
  const places = wish.start ? [wish.start] : beforeLine(course, first);
  const free = places.find((p) => toNearest(boxes, p) >= gap);
  const { x = 0, y = 0 } = free ?? places[0] ?? {};
  const taking = spot({ x, y, angle: NaN }, free !== undefined);
  return { step: null, speedIn: 0, speedOut: 0, free: [], taking: () => taking };
}

/** Places to wait, the usual one first. */
function beforeLine(course: Course, first: DrawnStep): readonly GroundPoint[] {
  const entry = facing(first.entry);
  const line = course.startLine ?? usualLine(course, 'start');
  const on = crossing(line.from, line.to, entry, fromFacing(entry, -1));
  const back = Math.atan2(entry.y - on.y, entry.x - on.x);
  const far = Math.hypot(entry.x - on.x, entry.y - on.y);
  const angle = far < 1e-6 ? entry.angle : back;
  return elsewhere.map((more) => fromFacing({ ...on, angle }, -behindLine - more));
}

/** Where the straight line through two points crosses a piece between two posts; the nearer post where it does not. */
function crossing(a: GroundPoint, b: GroundPoint, p: GroundPoint, q: GroundPoint): GroundPoint {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const [ex, ey] = [q.x - p.x, q.y - p.y];
  const cross = dx * ey - dy * ex;
  const t =
    Math.abs(cross) < 1e-9 ? 0.5 : Math.max(0, Math.min(1, ((p.x - a.x) * ey - (p.y - a.y) * ex) / cross));
  return { x: a.x + t * dx, y: a.y + t * dy };
}

/** The run ends on the finish line, anywhere between its posts; she arrives running. */
export function finishGate(course: Course, wish: LineWish, centred: boolean): Gate {
  const line = course.finishLine ?? usualLine(course, 'finish');
  const { topSpeed } = wish.runner;
  return {
    step: null,
    speedIn: topSpeed,
    speedOut: topSpeed,
    free: [{ count: centred ? 1 : 9, between: !centred }],
    taking: ([along = 0]) => {
      const t = 0.5 + along * 0.45;
      const at = {
        x: line.from.x + t * (line.to.x - line.from.x),
        y: line.from.y + t * (line.to.y - line.from.y),
      };
      return spot({ ...at, angle: NaN }, true);
    },
  };
}
