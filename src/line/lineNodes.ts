import type { GroundPoint } from '../course/points.ts';
import { plainHeading } from '../course/pose.ts';
import type { LikelyLine, LineStep } from './line.ts';

const hundredth = (v: number): number => Math.round(v * 100) / 100;
const kept = ({ x, y }: GroundPoint): GroundPoint => ({ x: hundredth(x), y: hundredth(y) });

/** How much of a turn a stretch may hold before it gets nodes of its own, degrees. */
const turnsFrom = 25;

/**
 * Nodes for a coach to draw the wanted line from: where the likely line goes in and comes out, along each turn, and along
 * what lies bent.
 * At most 200, as a plan keeps them.
 */
export function nodesOf(line: LikelyLine): readonly GroundPoint[] {
  const nodes: GroundPoint[] = [];
  line.stretches.forEach((stretch, i) => {
    const { points } = stretch;
    const first = points[0];
    if (i === 0 && first) nodes.push(kept(first));
    if (Math.abs(stretch.turnDegrees) > turnsFrom) {
      for (const share of [1 / 3, 2 / 3]) {
        const at = alongWay(points, share);
        if (at) nodes.push(kept(at));
      }
    }
    const step = line.steps[i];
    if (step) nodes.push(kept(step.entry), ...bendsOf(step).map(kept), kept(step.exit));
    const last = points.at(-1);
    if (!step && last) nodes.push(kept(last));
  });
  return nodes.slice(0, 200);
}

/** Places along a step that is run in a bend, as a tunnel that lies bent is. */
function bendsOf({ through, entry, exit }: LineStep): readonly GroundPoint[] {
  const turned = Math.abs(plainHeading(exit.headingDegrees - entry.headingDegrees));
  if (through.length < 3 || turned < turnsFrom) return [];
  return [1 / 4, 1 / 2, 3 / 4].flatMap((share) => alongWay(through, share) ?? []);
}

/** The point a share of the way along a line of points. */
function alongWay(points: readonly GroundPoint[], share: number): GroundPoint | undefined {
  const lengths = points.slice(1).map((p, i) => {
    const q = points[i] ?? p;
    return Math.hypot(p.x - q.x, p.y - q.y);
  });
  let left = share * lengths.reduce((sum, l) => sum + l, 0);
  for (const [i, length] of lengths.entries()) {
    const [a, b] = [points[i], points[i + 1]];
    if (a && b && length > 0 && left <= length) {
      const t = left / length;
      return { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) };
    }
    left -= length;
  }
  return points.at(-1);
}
