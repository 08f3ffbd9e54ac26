import { z } from 'zod';
import type { ObstacleKind } from './kinds.ts';
import type { EntryStatus } from './rules/entry.ts';
import { fciEquipment } from './rules/fci2023Course.ts';
import { aFrameFootprint, dogWalkFootprint, onGround } from './rules/ramps.ts';

/** A size of equipment in metres (or a count), with where it comes from. */
export interface Dimension {
  readonly value: number;
  /** The least and the most that the source allows, where it gives a range. */
  readonly range?: readonly [number, number];
  readonly source: string;
  /** `assumed`: no rule says it, a drawing needs it. */
  readonly status: EntryStatus | 'assumed';
}

type Ranged = Dimension & { readonly range: readonly [number, number] };

/** An entry of the rule book about equipment, as far as a drawing needs it. */
interface OfBook {
  readonly value: { readonly least: number; readonly most: number };
  readonly source: { readonly text: string };
  readonly status: EntryStatus;
}

/** What is drawn of an entry in centimetres: `drawn` within its range, or its one value. */
function cm({ value: { least, most }, source, status }: OfBook, drawn: number): Ranged {
  return { value: drawn / 100, range: [least / 100, most / 100], source: source.text, status };
}

/** The same of an entry that counts. */
function count({ value: { least, most }, source, status }: OfBook, drawn: number): Ranged {
  return { value: drawn, range: [least, most], source: source.text, status };
}

/** An entry by category as it stands for large dogs. */
function forLarge({
  value,
  ...entry
}: Omit<OfBook, 'value'> & {
  readonly value: readonly { readonly category: string; readonly least: number; readonly most: number }[];
}): OfBook {
  const large = value.find((v) => v.category === 'L') ?? { least: 0, most: 0 };
  return { ...entry, value: large };
}

/** A length on the ground that follows from other sizes (arithmetic), metres to the millimetre. */
const derived = (centimetres: number, source: string): Dimension => ({
  value: Math.round(centimetres * 10) / 1000,
  source,
  status: 'derived',
});

const assumed = (value: number): Dimension => ({
  value,
  source: 'not from a rule: our choice for a drawing',
  status: 'assumed',
});

const { barJump, spread, wall, tyre, longJump, tunnel, weavePoles, aFrame, dogWalk, seeSaw } = fciEquipment;
/** Sizes that the ramps are drawn with, centimetres; both allowed by the entries. */
const frame = { apex: 170, ramp: 270 };
const walk = { height: 120, plank: 360 };

/**
 * Equipment as it stands in plan: what is drawn where a course says nothing else. Metres, but for counts. Sources and
 * ranges are those of the rule book's entries.
 */
export const equipment = {
  barWidth: cm(barJump.barLength, 130),
  wingWidth: cm(barJump.wingWidth, 50),
  spreadDepth: cm(forLarge(spread.depth), 50),
  backBarLonger: cm(spread.backBarLonger, 10),
  wallDepth: cm(wall.thickness, 20),
  longJumpLength: cm(forLarge(longJump.length), 130),
  longJumpWidth: cm(longJump.unitWidth, 120),
  longJumpUnits: count(forLarge(longJump.units), 4),
  longJumpUnitDepth: cm(longJump.unitDepth, 15),
  tyreAperture: cm(tyre.aperture, 55),
  tyreFrame: assumed(1.5),
  tunnelDiameter: cm(tunnel.diameter, 60),
  tunnelLength: cm(tunnel.length, 500),
  poles: count(weavePoles.poles, 12),
  poleSpacing: cm(weavePoles.spacing, 60),
  poleDiameter: cm(weavePoles.poleDiameter, 4),
  aFrameFootprint: derived(aFrameFootprint(frame.apex, frame.ramp), 'apex 1.70 m, ramps 2.70 m'),
  aFrameWidth: cm(aFrame.widthAtTop, 90),
  aFrameContact: derived(
    onGround(aFrame.contactLength.value.least, frame.apex, frame.ramp),
    'zone of 1.06 m along the ramp',
  ),
  dogWalkFootprint: derived(dogWalkFootprint(walk.plank, walk.height), 'planks 3.60 m, height 1.20 m'),
  dogWalkContact: derived(
    onGround(dogWalk.contactLength.value.least, walk.height, walk.plank),
    'zone of 0.90 m along the ramp',
  ),
  plankWidth: cm(dogWalk.plankWidth, 30),
  seeSawLength: cm(seeSaw.plankLength, 370),
  seeSawContact: cm(seeSaw.contactLength, 90),
  tableSide: assumed(0.9),
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
