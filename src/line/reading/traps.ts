import type { Course, Obstacle, Step } from '../../course/course.ts';
import { mannerOf, type Manner } from '../../course/kinds.ts';
import type { GroundPoint } from '../../course/points.ts';
import { distance, headingTo, type Pose } from '../../course/pose.ts';
import type { GroundShape } from '../groundShapes.ts';
import type { Hider } from './hiders.ts';
import type { Leg } from './legs.ts';
import { obliquely, offHeading, openingOf, straightOnTo, type Opening } from './opening.ts';
import type { Remark, TrapFacts, TrapKind } from './remark.ts';
import { wayInSeen } from './seen.ts';
import type { ReadingThresholds } from './thresholds.ts';

/** A way in which a piece on the grass can be taken, whether the course asks for it or not. */
export interface Invitation {
  readonly obstacle: Obstacle;
  readonly direction: Step['direction'];
  readonly opening: Opening;
  /** True where the course takes the piece this way at some number. */
  readonly asked: boolean;
}

const directions = ['forward', 'reverse'] as const;
/** Nearer by this than something wrong, the right obstacle is taken first, metres. */
const first = 1;
/** So much more in line with her, degrees, and no farther, the right obstacle wins. */
const clearly = 10;

/** All ways in which the pieces of a course can be taken. */
export function invitationsOf(course: Course): readonly Invitation[] {
  const asked = new Set(course.steps.map((s) => `${s.direction} ${s.obstacleId}`));
  return course.obstacles.flatMap((obstacle) => {
    const { stand } = obstacle;
    if (!stand) return [];
    return directions.map((direction) => ({
      obstacle,
      direction,
      opening: openingOf(obstacle, stand, direction),
      asked: asked.has(`${direction} ${obstacle.id}`),
    }));
  });
}

/** What invites her wrongly on her straight way on from where she lands or comes out, and back where she turns. */
export function trapRemarks(
  leg: Leg,
  invitations: readonly Invitation[],
  hiders: readonly Hider[],
  t: ReadingThresholds,
): Remark[] {
  const { here, next } = leg;
  const eye = here.line.exit;
  const right = { ...straightOnTo(eye, next.opening), oblique: obliquely(eye, next.opening) };
  const rightInvites =
    Math.abs(right.degrees) <= t.trapHalf &&
    (next.opening.anySide || Math.abs(right.oblique) <= t.takenWithin);
  const rightOff = offHeading(eye, next.opening.aim);
  const found = new Map<string, Remark>();
  for (const it of invitations) {
    if (isNext(it, leg) || it.obstacle.id === here.drawn.obstacle.id) continue;
    const at = invites(eye, it, hiders, t, t.trapReach);
    if (!at) continue;
    const beaten =
      rightInvites &&
      (right.metres < at.metres - first ||
        (Math.abs(right.degrees) + clearly < Math.abs(at.degrees) && right.metres <= at.metres + first));
    if (beaten) continue;
    const told = remarkOf(leg, it, eye, at, rightOff, 'landing', t);
    const before = found.get(it.obstacle.id);
    if (!before || before.weight < told.weight) found.set(it.obstacle.id, told);
  }
  return [...found.values(), ...backAtIt(leg, invitations, hiders, rightOff, t)];
}

const isNext = (it: Invitation, { next }: Leg): boolean =>
  it.obstacle.id === next.drawn.obstacle.id &&
  (next.opening.anySide || it.direction === next.drawn.step.direction);

/** No opening reaches farther from where she aims for, metres; what lies farther off than that need not be measured. */
const widest = 3;

/** Metres that a point lies ahead of a pose. */
const ahead = (pose: Pose, p: GroundPoint): number => {
  const h = (pose.headingDegrees * Math.PI) / 180;
  return (p.x - pose.x) * Math.cos(h) + (p.y - pose.y) * Math.sin(h);
};

interface Met {
  /** How obliquely it would be taken, degrees without sign. */
  readonly obliquely: number;
  readonly degrees: number;
  readonly metres: number;
  readonly point: GroundPoint;
}

/** Where a piece invites her on the straight way on from a pose; undefined where it does not: a lure must be seen. */
function invites(
  pose: Pose,
  { obstacle, opening }: Invitation,
  hiders: readonly Hider[],
  t: ReadingThresholds,
  reach: number,
): Met | undefined {
  if (distance(pose, opening.aim) > reach + widest || ahead(pose, opening.aim) < -widest) return undefined;
  const at = straightOnTo(pose, opening);
  if (at.metres > reach || Math.abs(at.degrees) > Math.min(t.trapHalf, t.viewHalf)) return undefined;
  const slant = opening.anySide ? 0 : Math.abs(obliquely(pose, opening));
  if (slant > t.takenWithin) return undefined;
  return wayInSeen(pose, obstacle, opening, hiders, t).free ? { ...at, obliquely: slant } : undefined;
}

/** The jump she has just taken, where her way turns her back to it. */
function backAtIt(
  leg: Leg,
  invitations: readonly Invitation[],
  hiders: readonly Hider[],
  rightOff: number,
  t: ReadingThresholds,
): Remark[] {
  const { drawn } = leg.here;
  if (mannerOf(drawn.obstacle.kind) !== 'jumped' || isSameAsNext(leg)) return [];
  const back = invitations.find(
    (i) => i.obstacle.id === drawn.obstacle.id && i.direction !== drawn.step.direction,
  );
  if (!back) return [];
  const points = leg.way.points;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]];
    if (!a || !b || distance(a, b) < 1e-6) continue;
    const pose: Pose = { ...a, headingDegrees: headingTo(a, b) };
    const at = invites(pose, back, hiders, t, t.backReach);
    if (at) return [remarkOf(leg, back, pose, at, rightOff, 'turning', t)];
  }
  return [];
}

const isSameAsNext = ({ here, next }: Leg): boolean => here.drawn.obstacle.id === next.drawn.obstacle.id;

function kindOf({ obstacle, asked }: Invitation, { next }: Leg): TrapKind {
  if (obstacle.kind === 'tunnel')
    return obstacle.id === next.drawn.obstacle.id ? 'wrongMouth' : 'wrongObstacle';
  return mannerOf(obstacle.kind) === 'jumped' && !asked ? 'backJump' : 'wrongObstacle';
}

/** Manners in which a piece is taken from one of two ends that lie apart. */
const twoEnded: ReadonlySet<Manner> = new Set(['woven', 'climbed']);

function remarkOf(
  leg: Leg,
  it: Invitation,
  pose: Pose,
  at: Met,
  rightOffHeading: number,
  seenFrom: TrapFacts['seenFrom'],
  t: ReadingThresholds,
): Remark {
  const facts: TrapFacts = {
    remark: 'trap',
    from: leg.here.line.number,
    to: leg.next.line.number,
    trap: kindOf(it, leg),
    obstacleId: it.obstacle.id,
    wrongEnd: !it.asked && twoEnded.has(mannerOf(it.obstacle.kind)),
    metres: at.metres,
    offHeading: at.degrees,
    rightOffHeading,
    seenFrom,
  };
  const near = 1 - at.metres / (seenFrom === 'landing' ? t.trapReach : t.backReach);
  const inLine = 1 - Math.abs(at.degrees) / t.trapHalf;
  const away = Math.min(1, Math.max(0, Math.abs(rightOffHeading) - Math.abs(at.degrees)) / 90);
  const squarely = 1 - at.obliquely / t.takenWithin;
  const eye = { x: pose.x, y: pose.y };
  const shapes: GroundShape[] = [
    { shape: 'body', at: eye, headingDegrees: pose.headingDegrees, as: 'dog' },
    {
      shape: 'fan',
      at: eye,
      headingDegrees: pose.headingDegrees,
      half: t.trapHalf,
      metres: at.metres,
      as: 'trap',
    },
    { shape: 'way', points: [eye, at.point], as: 'trap', dashed: true },
  ];
  return {
    ...facts,
    numbers: [facts.from, facts.to],
    weight: 0.35 + 0.2 * inLine + 0.15 * near + 0.15 * away + 0.15 * squarely,
    highlight: { shapes, obstacleIds: [it.obstacle.id] },
  };
}
