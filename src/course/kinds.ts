/** Kinds of equipment, in the words of the trade. `unknown` stands where a course is only a count of obstacles. */
export const obstacleKinds = [
  'barJump',
  'spread',
  'panel',
  'wall',
  'longJump',
  'tyre',
  'tunnel',
  'weavePoles',
  'aFrame',
  'dogWalk',
  'seeSaw',
  'table',
  'unknown',
] as const;
export type ObstacleKind = (typeof obstacleKinds)[number];

/** What ends the dog's freedom to turn at an obstacle, and what its in and out are called (design facts). */
export type Manner = 'jumped' | 'through' | 'woven' | 'climbed' | 'unknown';

const manners: Record<ObstacleKind, Manner> = {
  barJump: 'jumped',
  spread: 'jumped',
  panel: 'jumped',
  wall: 'jumped',
  longJump: 'jumped',
  tyre: 'jumped',
  tunnel: 'through',
  weavePoles: 'woven',
  aFrame: 'climbed',
  dogWalk: 'climbed',
  seeSaw: 'climbed',
  table: 'climbed',
  unknown: 'unknown',
};

/** How a dog takes this kind of obstacle. */
export const mannerOf = (kind: ObstacleKind): Manner => manners[kind];

/**
 * Until which edge a dog can still be turned (design facts, common practice): a jump until take-off, a tunnel until
 * its entry; on poles and contact equipment she keeps her feet on the ground and can be turned until she leaves.
 */
export function turnsUntil(kind: ObstacleKind): 'in' | 'out' {
  const manner = mannerOf(kind);
  return manner === 'woven' || manner === 'climbed' ? 'out' : 'in';
}

/**
 * The longest a dog is taken to be on an obstacle, seconds. Used only to widen a single mark: in and out both lie
 * within this of it. Assumed, generous; DiMichele et al. (PLoS ONE 2024) saw dog walks of 2.26 s (SD 1.03).
 */
const longest: Record<Manner, number> = { jumped: 0.8, through: 3, woven: 6, climbed: 6, unknown: 6 };
export const longestOn = (kind: ObstacleKind): number => longest[mannerOf(kind)];
