import { mannerOf } from '../../course/kinds.ts';
import type { GroundPoint } from '../../course/points.ts';
import { distance, type Pose } from '../../course/pose.ts';
import type { GroundShape } from '../groundShapes.ts';
import type { Hider } from './hiders.ts';
import type { Leg, Place } from './legs.ts';
import { obliquely, offHeading } from './opening.ts';
import type { Remark, SightFacts } from './remark.ts';
import { wayInSeen } from './seen.ts';
import type { Hidden } from './sight.ts';
import type { ReadingThresholds } from './thresholds.ts';

/** How far her view is drawn beyond what she looks for, metres. */
const beyond = 1;
/** A share that no one would call hidden. */
const dust = 0.02;

/** What she sees of the next obstacle from where she lands or comes out. */
export function sightRemark({ here, next }: Leg, hiders: readonly Hider[], t: ReadingThresholds): Remark {
  const eye = here.line.exit;
  const { aim, anySide } = next.opening;
  const { share, poles, free, looks } = wayInSeen(eye, next.drawn.obstacle, next.opening, hiders, t);
  const off = offHeading(eye, aim);
  const inView = Math.abs(off) <= t.viewHalf;
  const facts: SightFacts = {
    remark: 'sight',
    from: here.line.number,
    to: next.line.number,
    past: pastOf(here),
    offHeading: off,
    metres: distance(eye, aim),
    inView,
    fromBehind: !anySide && !poles && Math.abs(obliquely(eye, next.opening)) > 90,
    share,
    seen: inView && free,
    ...(poles ? { poles: { ...poles, side: share } } : {}),
    hiddenBy: hidingMost(looks),
  };
  return {
    ...facts,
    numbers: [facts.from, facts.to],
    weight: weightOf(facts, t),
    highlight: {
      shapes: shapesOf(eye, facts, aim, t),
      obstacleIds: [next.drawn.obstacle.id, ...facts.hiddenBy.map((h) => h.obstacleId)],
    },
  };
}

/** How far behind what she jumped she is, along the way it is taken, metres. */
function pastOf({ drawn, line }: Place): number {
  if (mannerOf(drawn.obstacle.kind) !== 'jumped') return 0;
  const { x, y, headingDegrees } = drawn.exit;
  const h = (headingDegrees * Math.PI) / 180;
  return (line.exit.x - x) * Math.cos(h) + (line.exit.y - y) * Math.sin(h);
}

function hidingMost(found: readonly Hidden[]): SightFacts['hiddenBy'] {
  const most = new Map<string, { part: Hider['part']; share: number }>();
  for (const { by } of found) {
    for (const { hider, share } of by) {
      if (share < dust || share <= (most.get(hider.obstacleId)?.share ?? 0)) continue;
      most.set(hider.obstacleId, { part: hider.part, share });
    }
  }
  return [...most]
    .sort(([, a], [, b]) => b.share - a.share)
    .map(([obstacleId, { part }]) => ({ obstacleId, part }));
}

function weightOf(f: SightFacts, t: ReadingThresholds): number {
  const poles = f.poles !== undefined;
  if (!f.inView) {
    const out = (Math.abs(f.offHeading) - t.viewHalf) / 180;
    return Math.min(1, 0.4 + 0.4 * out + (poles ? 0.15 : 0) + (f.hiddenBy.length > 0 ? 0.1 : 0));
  }
  if (!f.seen) return poles ? 0.85 : 0.65;
  if (f.fromBehind) return 0.45;
  return f.share < 1 - dust ? 0.3 * (1 - f.share) + 0.1 : 0.05;
}

function shapesOf(eye: Pose, f: SightFacts, aim: GroundPoint, t: ReadingThresholds): GroundShape[] {
  const at = { x: eye.x, y: eye.y };
  const { headingDegrees } = eye;
  return [
    { shape: 'body', at, headingDegrees, as: 'dog' },
    { shape: 'fan', at, headingDegrees, half: t.viewHalf, metres: f.metres + beyond, as: 'remark' },
    { shape: 'way', points: [at, { x: aim.x, y: aim.y }], as: f.seen ? 'remark' : 'trap', dashed: true },
  ];
}
