import type { Obstacle } from '../../course/course.ts';
import { drawnSizes } from '../../course/equipment.ts';
import { mannerOf } from '../../course/kinds.ts';
import type { GroundPoint } from '../../course/points.ts';
import { distance, from } from '../../course/pose.ts';
import type { Hider } from './hiders.ts';
import { asMetFrom, type Opening } from './opening.ts';
import { hiddenOf, type Hidden } from './sight.ts';
import type { ReadingThresholds } from './thresholds.ts';

/** What of a way in lies free before a dog's eyes, whichever way she looks. */
export interface WayInSeen {
  /** Share of the way in that nothing hides, 0 to 1. */
  readonly share: number;
  /** Weave poles: whether each of the first two stands free. */
  readonly poles?: { readonly first: boolean; readonly second: boolean };
  /** True where that is enough to read it: the same for what she is to take and for what lures her. */
  readonly free: boolean;
  /** What was looked at, the poles first. */
  readonly looks: readonly Hidden[];
}

/** Half of a pole's thickness as it is looked for, metres. */
const halfPole = 0.02;
/** So much of a pole must stand free. */
const ofPole = 0.5;

/**
 * What she sees of an obstacle's way in. Poles are read by the first two and the side at which she goes in (common
 * practice), everything else by its opening.
 */
export function wayInSeen(
  eye: GroundPoint,
  obstacle: Pick<Obstacle, 'id' | 'kind' | 'sizes'>,
  opening: Opening,
  hiders: readonly Hider[],
  t: Pick<ReadingThresholds, 'seenShare'>,
): WayInSeen {
  const others = othersThan(obstacle, hiders);
  const { left, right } = asMetFrom(eye, opening);
  const wayIn = hiddenOf(eye, left, right, others);
  const share = 1 - wayIn.share;
  if (obstacle.kind !== 'weavePoles') return { share, free: share >= t.seenShare, looks: [wayIn] };
  const looks = [0, drawnSizes(obstacle.kind, obstacle.sizes).spacing].map((along) =>
    poleFrom(eye, from(opening.aim, along), others),
  );
  const [first = false, second = false] = looks.map((pole) => pole.share < ofPole);
  return {
    share,
    poles: { first, second },
    free: share >= t.seenShare && first && second,
    looks: [...looks, wayIn],
  };
}

/** What may hide a way in: a jump's own wings stand beside it; the body of a tunnel or a ramp may hide its own. */
const othersThan = ({ id, kind }: Pick<Obstacle, 'id' | 'kind'>, hiders: readonly Hider[]) =>
  mannerOf(kind) === 'jumped' || kind === 'table' ? hiders.filter((h) => h.obstacleId !== id) : hiders;

function poleFrom(eye: GroundPoint, at: GroundPoint, hiders: readonly Hider[]): Hidden {
  const far = distance(eye, at) || 1;
  const [x, y] = [((at.y - eye.y) / far) * halfPole, ((eye.x - at.x) / far) * halfPole];
  return hiddenOf(eye, { x: at.x - x, y: at.y - y }, { x: at.x + x, y: at.y + y }, hiders);
}
