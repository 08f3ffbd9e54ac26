import { z } from 'zod';
import type { ObstacleKind } from './kinds.ts';

/** How well a value is known: read in the text it names, computed from such, from memory, or our own assumption. */
type Status = 'seen' | 'derived' | 'memory' | 'assumed';

/** A size of equipment in metres (or a count), with where it comes from. */
export interface Dimension {
  readonly value: number;
  /** The least and the most that the source allows, where it gives a range. */
  readonly range?: Range;
  readonly source: string;
  readonly status: Status;
}

type Range = readonly [number, number];

function d(value: number, status: Status, source: string): Dimension;
function d(
  value: number,
  status: Status,
  source: string,
  range: Range,
): Dimension & { readonly range: Range };
function d(value: number, status: Status, source: string, range?: Range): Dimension {
  return range ? { value, range, source, status } : { value, source, status };
}

const CZ12 = 'FCI changes from 1 January 2012 as a club page restates them';
const SK = 'FCI regulations as two club pages restate them';
const OLD = 'FCI text before 2012 as a club page restates it';
const F18 = 'FCI Agility Regulations 1 January 2018';
const ours = 'not from a rule: our choice for a drawing';

/**
 * Equipment as it stands in plan: what is drawn where a course says nothing else. Metres, but for counts.
 * Angles of ramps: A-frame 39.02°, dog walk 19.47°, from apex and ramp length (arithmetic).
 */
export const equipment = {
  barWidth: d(1.3, 'seen', `${CZ12}; ${SK}`, [1.2, 1.5]),
  wingWidth: d(0.5, 'seen', CZ12, [0.4, 0.6]),
  spreadDepth: d(0.5, 'seen', `greatest depth for large dogs; ${OLD}`, [0, 0.55]),
  backBarLonger: d(0.1, 'seen', `${CZ12}; ${SK}`),
  wallDepth: d(0.2, 'seen', OLD),
  longJumpLength: d(1.3, 'seen', `for large dogs; ${OLD}; ${SK}`, [0.4, 1.5]),
  longJumpWidth: d(1.2, 'seen', SK),
  longJumpUnits: d(4, 'seen', `for large dogs; ${OLD}; ${SK}`, [2, 5]),
  longJumpUnitDepth: d(0.15, 'seen', SK),
  tyreAperture: d(0.55, 'seen', `${SK}; an equipment maker’s sheet`, [0.45, 0.6]),
  tyreFrame: d(1.5, 'assumed', ours),
  tunnelDiameter: d(0.6, 'seen', 'a shop’s sheet'),
  tunnelLength: d(5, 'seen', 'a shop’s and a maker’s sheet', [3, 6]),
  poles: d(12, 'seen', 'a maker’s sheet'),
  poleSpacing: d(0.6, 'memory', F18),
  poleDiameter: d(0.04, 'memory', F18, [0.03, 0.05]),
  aFrameFootprint: d(4.195, 'derived', 'apex 1.70 m, ramps 2.70 m'),
  aFrameWidth: d(0.9, 'seen', SK, [0.9, 1.15]),
  aFrameContact: d(0.824, 'derived', 'zone of 1.06 m along a ramp of 39.02°'),
  dogWalkFootprint: d(10.388, 'derived', 'planks 3.60 m, height 1.20 m'),
  dogWalkContact: d(0.849, 'derived', 'zone of 0.90 m along a ramp of 19.47°'),
  plankWidth: d(0.3, 'seen', SK),
  seeSawLength: d(3.7, 'memory', F18, [3.6, 3.8]),
  seeSawContact: d(0.9, 'seen', SK),
  tableSide: d(0.9, 'assumed', ours),
} as const satisfies Record<string, Dimension>;

const metres = (least: number, most: number) => z.number().min(least).max(most).optional();

/** Sizes of one piece of equipment where they differ from the table. Metres, but for counts. */
export const Sizes = z.strictObject({
  /** Length of the bar of a jump, spread, panel or wall. */
  barWidth: metres(0.6, 3),
  /** Whether a jump, spread, panel or wall stands between wings. */
  wings: z.boolean().optional(),
  /** Height of the bar (jumps), of the highest unit (long jump) or of the board (table). */
  height: metres(0, 2),
  /** Front to back of a spread, a wall or a long jump. */
  depth: metres(0.05, 3),
  /** Boards of a long jump. */
  units: z.int().min(1).max(8).optional(),
  poles: z.int().min(2).max(24).optional(),
  /** Between two poles. */
  spacing: metres(0.3, 1.2),
  /** Length of a tunnel along its centre line, where it lies straight. */
  tunnelLength: metres(1, 15),
});
export type Sizes = z.infer<typeof Sizes>;

/** What can be chosen about a kind of equipment, in the order in which it is asked. */
export const choicesOf = (kind: ObstacleKind): readonly (keyof Sizes)[] => choices[kind];

const choices: Readonly<Record<ObstacleKind, readonly (keyof Sizes)[]>> = {
  barJump: ['barWidth', 'wings', 'height'],
  spread: ['barWidth', 'depth', 'wings', 'height'],
  panel: ['barWidth', 'wings', 'height'],
  wall: ['barWidth', 'depth', 'wings', 'height'],
  longJump: ['depth', 'units'],
  tyre: ['height'],
  tunnel: ['tunnelLength'],
  weavePoles: ['poles', 'spacing'],
  aFrame: [],
  dogWalk: [],
  seeSaw: [],
  table: ['height'],
  unknown: [],
};

/** The sizes of a piece as it is drawn: its own, else those of the table. Heights are only known where given. */
export interface DrawnSizes {
  readonly barWidth: number;
  readonly wings: boolean;
  readonly depth: number;
  readonly units: number;
  readonly poles: number;
  readonly spacing: number;
  readonly tunnelLength: number;
}

/** Sizes for drawing a piece of this kind. What a kind does not have is given too, and means nothing. */
export function drawnSizes(kind: ObstacleKind, own: Sizes = {}): DrawnSizes {
  const depth: Partial<Record<ObstacleKind, number>> = {
    spread: equipment.spreadDepth.value,
    longJump: equipment.longJumpLength.value,
    wall: equipment.wallDepth.value,
  };
  const said = (name: keyof Sizes): boolean => choices[kind].includes(name);
  return {
    barWidth: (said('barWidth') ? own.barWidth : undefined) ?? equipment.barWidth.value,
    wings: (said('wings') ? own.wings : undefined) ?? true,
    depth: (said('depth') ? own.depth : undefined) ?? depth[kind] ?? 0,
    units: (said('units') ? own.units : undefined) ?? equipment.longJumpUnits.value,
    poles: (said('poles') ? own.poles : undefined) ?? equipment.poles.value,
    spacing: (said('spacing') ? own.spacing : undefined) ?? equipment.poleSpacing.value,
    tunnelLength: (said('tunnelLength') ? own.tunnelLength : undefined) ?? equipment.tunnelLength.value,
  };
}
