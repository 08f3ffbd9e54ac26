import { gapAt, wayAbout } from './aroundCross.ts';
import type { CrossKind, PlannedCross } from '../plan/plan.ts';
import { toldCrossed, type Pair, type PathCrossed } from './pairs.ts';
import { nearestOn } from './figures.ts';
import type { Quantity } from '../time/quantity.ts';
import { unseenAt, whereAt } from './whereAt.ts';

/** An obstacle as the coach marked it, seconds of the run. */
export interface TakenAt {
  readonly place: number;
  readonly in: number;
  readonly out: number;
}

/** A cross that the two paths show. A proposal: the coach takes it or does not. */
export interface CrossFound {
  readonly crossed: PathCrossed;
  readonly place: number;
  readonly kind: CrossKind;
  /** The plan's cross at that number, where what happened is its first or its second choice. */
  readonly plannedId: string | null;
  /** True where the paths leave it open which kind of cross it was: front and blind leave the same tracks. */
  readonly kindOpen: boolean;
  /** The handler is off the dog's line on the new side. */
  readonly finished: Quantity;
}

/** Half as wide as a handler is, with a hand's breadth for the dog: nearer than this she stands in her way, metres (ours). */
export const clearOfWay = 0.4;
/** A handler who is not clear of it so long after goes along the dog's way more than across it, seconds (ours). */
const clearWithin = 2;
/** An obstacle that the dog took so long before or after the handler crossed behind her is not the one meant, seconds (ours). */
const beside = 1;
/** Slower across the dog's way than this she stands beside it, m/s (ours). */
const slowest = 0.5;
/** Between two looks, seconds. */
const look = 0.02;

/**
 * Crosses by the geometry of the two paths. Where the handler crossed before the dog came it is a cross in front of
 * her, at the obstacle taken last before the dog was there; behind the dog it is a rear cross, at the obstacle nearest
 * to her when the handler crossed, of two that the plan's (common practice: a front or blind cross turns her off the
 * obstacle that she lands from, a rear cross may lie on either side of it).
 * @param taken obstacles of the try that counts, in their order
 * @returns in the order in which the handler crossed; without those of which time or order cannot be told
 */
export function crossesFound(
  pair: Pair,
  crossed: readonly PathCrossed[],
  taken: readonly TakenAt[],
  plans: readonly PlannedCross[],
): readonly CrossFound[] {
  return crossed.flatMap((c): CrossFound[] => {
    if (!toldCrossed(c) || c.first === 'cannotTell') return [];
    const place = placeOf(c, taken, plans);
    const finished = place === null ? null : finishedAt(pair, c);
    if (place === null || !finished) return [];
    const plan = plans.find((p) => p.place === place);
    const fits = (kind: CrossKind | undefined): boolean =>
      kind !== undefined && kind !== 'leadOutPivot' && (kind === 'rear') === (c.first === 'dog');
    const meant = plan && [plan.kind, plan.secondChoice].find(fits);
    return [
      {
        crossed: c,
        place,
        kind: meant ?? (c.first === 'dog' ? 'rear' : 'front'),
        plannedId: meant && plan ? plan.id : null,
        kindOpen: c.first === 'handler',
        finished,
      },
    ];
  });
}

function placeOf(
  { first, dogAt, handlerAt }: PathCrossed,
  taken: readonly TakenAt[],
  plans: readonly PlannedCross[],
): number | null {
  if (first === 'handler') return taken.findLast((t) => t.in <= dogAt.value)?.place ?? null;
  const far = (t: TakenAt): number => Math.max(0, t.in - handlerAt.value, handlerAt.value - t.out);
  const meant = (t: TakenAt): boolean =>
    plans.some((p) => p.place === t.place && (p.kind === 'rear' || p.secondChoice === 'rear'));
  const near = taken.filter((t) => far(t) <= beside).toSorted((a, b) => far(a) - far(b));
  const [nearest] = near;
  if (!nearest) return null;
  // She is over that one: no other can be meant.
  return far(nearest) === 0 ? nearest.place : (near.find(meant) ?? nearest).place;
}

/** When she is first clear of the way that she has crossed; null where she was not marked on, or stays on it. */
function finishedAt(pair: Pair, { handlerAt, dogAt, onto }: PathCrossed): Quantity | null {
  const { handler } = pair;
  const way = wayAbout(pair.dog, { from: dogAt.value, to: dogAt.value });
  for (let t = handlerAt.value; t <= Math.min(handler.to, handlerAt.value + clearWithin); t += look) {
    if (unseenAt(handler, t)) return null;
    const here = whereAt(handler, t);
    const off = here && nearestOn(way, here);
    if (!off || (onto === 'left' ? off.left : -off.left) < clearOfWay) continue;
    // Going along the way rather than across it, she is clear of it sooner or later by more than by its crossing.
    const across = Math.abs(here.vx * off.normal.x + here.vy * off.normal.y);
    const late = (gapAt(pair, t, way)?.metres.plusMinus ?? 0) / Math.max(slowest, across);
    return { ...handlerAt, value: t, plusMinus: Math.max(handlerAt.plusMinus, late) };
  }
  return null;
}
