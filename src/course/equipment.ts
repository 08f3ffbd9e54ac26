import { z } from 'zod';
import type { ObstacleKind } from './kinds.ts';
import type { EntryStatus } from './rules/entry.ts';
import type { EquipmentRules } from './rules/equipment.ts';
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

/** An entry with a range for each height category. */
type ByCategory = Omit<OfBook, 'value'> & {
  readonly value: readonly { readonly category: string; readonly least: number; readonly most: number }[];
};

/** An entry by category as it stands for one of them; where that has none, for the last. */
function forCategory({ value, ...entry }: ByCategory, category: string | undefined): OfBook {
  const its = value.find((v) => v.category === category) ?? value.at(-1) ?? { least: 0, most: 0 };
  return { ...entry, value: its };
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
  spreadDepth: cm(forCategory(spread.depth, 'L'), 50),
  backBarLonger: cm(spread.backBarLonger, 10),
  wallDepth: cm(wall.thickness, 20),
  longJumpLength: cm(forCategory(longJump.length, 'L'), 130),
  longJumpWidth: cm(longJump.unitWidth, 120),
  longJumpUnits: count(forCategory(longJump.units, 'L'), 4),
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

/** The nearest to a length that an entry allows. */
const within = (wish: number, { value: { least, most } }: OfBook): number =>
  Math.min(most, Math.max(least, wish));

/**
 * Equipment as a rule book has it: what the table draws, brought within what the book allows. What the book does not
 * say, or says of ramps that could not stand, is as in the table.
 * @param category of entries by height category; without it the largest dogs' count
 */
export function equipmentBy(rules: EquipmentRules, category?: string): EquipmentTable {
  const t = equipment;
  const of = (entry: OfBook | undefined, table: Dimension): Dimension =>
    entry ? cm(entry, within(table.value * 100, entry)) : table;
  const counted = (entry: OfBook | undefined, table: Dimension): Dimension =>
    entry ? count(entry, Math.round(within(table.value, entry))) : table;
  const by = (entry: ByCategory | undefined): OfBook | undefined => entry && forCategory(entry, category);
  const { barJump: bar, spread: wide, wall: w, tyre: ty, longJump: long, tunnel: tube } = rules;
  const { weavePoles: weave, aFrame: a, dogWalk: d, seeSaw: s, table } = rules;
  const [apex, ramp] = [
    a?.apex ? within(frame.apex, a.apex) : frame.apex,
    a?.rampLength ? within(frame.ramp, a.rampLength) : frame.ramp,
  ];
  const [height, plank] = [
    d?.height ? within(walk.height, d.height) : walk.height,
    d?.plankLength ? within(walk.plank, d.plankLength) : walk.plank,
  ];
  const frameStands = apex < ramp && (a?.apex ?? a?.rampLength ?? a?.contactLength) !== undefined;
  const walkStands = height < plank && (d?.height ?? d?.plankLength ?? d?.contactLength) !== undefined;
  const frameZone = within(106, a?.contactLength ?? aFrame.contactLength);
  const walkZone = within(90, d?.contactLength ?? dogWalk.contactLength);
  const said = (what: string, one: number, other: number): string => `${what} ${one} cm and ${other} cm`;
  return {
    barWidth: of(bar?.barLength, t.barWidth),
    wingWidth: of(bar?.wingWidth, t.wingWidth),
    spreadDepth: of(by(wide?.depth), t.spreadDepth),
    backBarLonger: of(wide?.backBarLonger, t.backBarLonger),
    wallDepth: of(w?.thickness, t.wallDepth),
    longJumpLength: of(by(long?.length), t.longJumpLength),
    longJumpWidth: of(long?.unitWidth, t.longJumpWidth),
    longJumpUnits: counted(by(long?.units), t.longJumpUnits),
    longJumpUnitDepth: of(long?.unitDepth, t.longJumpUnitDepth),
    tyreAperture: of(ty?.aperture, t.tyreAperture),
    tyreFrame: t.tyreFrame,
    tunnelDiameter: of(tube?.diameter, t.tunnelDiameter),
    tunnelLength: of(tube?.length, t.tunnelLength),
    poles: counted(weave?.poles, t.poles),
    poleSpacing: of(weave?.spacing, t.poleSpacing),
    poleDiameter: of(weave?.poleDiameter, t.poleDiameter),
    aFrameFootprint: frameStands
      ? derived(aFrameFootprint(apex, ramp), said('apex and ramps', apex, ramp))
      : t.aFrameFootprint,
    aFrameWidth: of(a?.widthAtTop, t.aFrameWidth),
    aFrameContact: frameStands
      ? derived(onGround(Math.min(frameZone, ramp), apex, ramp), said('zone and ramp', frameZone, ramp))
      : t.aFrameContact,
    dogWalkFootprint: walkStands
      ? derived(dogWalkFootprint(plank, height), said('planks and height', plank, height))
      : t.dogWalkFootprint,
    dogWalkContact: walkStands
      ? derived(onGround(Math.min(walkZone, plank), height, plank), said('zone and plank', walkZone, plank))
      : t.dogWalkContact,
    plankWidth: of(d?.plankWidth, t.plankWidth),
    seeSawLength: of(s?.plankLength, t.seeSawLength),
    seeSawContact: of(s?.contactLength, t.seeSawContact),
    tableSide: of(table?.side, t.tableSide),
  };
}

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

/** Sizes of equipment that a piece is not given by hand: they follow from the rule book it is built by. */
const bookOnly = [
  'wingWidth',
  'backBarLonger',
  'longJumpWidth',
  'longJumpUnitDepth',
  'tyreAperture',
  'tyreFrame',
  'tunnelDiameter',
  'aFrameFootprint',
  'aFrameWidth',
  'aFrameContact',
  'dogWalkFootprint',
  'dogWalkContact',
  'plankWidth',
  'seeSawLength',
  'seeSawContact',
  'tableSide',
] as const satisfies readonly (keyof typeof equipment)[];
type BookSizes = { readonly [K in (typeof bookOnly)[number]]: number };

/** The equipment of a rule book: the same sizes as the table's. */
export type EquipmentTable = { readonly [K in keyof typeof equipment]: Dimension };

/** Sizes of a piece with those that its rule book adds; never stored. See builtBy. */
export type BuiltSizes = Sizes & Partial<BookSizes>;

/** The sizes of a piece as it is drawn: its own, else those of the table. Heights are only known where given. */
export interface DrawnSizes extends BookSizes {
  readonly barWidth: number;
  readonly wings: boolean;
  readonly depth: number;
  readonly units: number;
  readonly poles: number;
  readonly spacing: number;
  readonly tunnelLength: number;
}

/** Sizes for drawing a piece of this kind. What a kind does not have is given too, and means nothing. */
export function drawnSizes(
  kind: ObstacleKind,
  own?: BuiltSizes,
  table: EquipmentTable = equipment,
): DrawnSizes {
  if (own || table !== equipment) return sizesOf(kind, own ?? {}, table);
  const known = asInTable.get(kind) ?? sizesOf(kind, {}, table);
  asInTable.set(kind, known);
  return known;
}

/** Most pieces have no sizes of their own, and are asked for theirs many times while they are dragged. */
const asInTable = new Map<ObstacleKind, DrawnSizes>();

function sizesOf(kind: ObstacleKind, own: BuiltSizes, table: EquipmentTable): DrawnSizes {
  const depth: Partial<Record<ObstacleKind, number>> = {
    spread: table.spreadDepth.value,
    longJump: table.longJumpLength.value,
    wall: table.wallDepth.value,
  };
  const said = (name: keyof Sizes): boolean => choices[kind].includes(name);
  // A loop, since this is asked for each piece many times in a drag.
  const ofBook: Partial<Record<keyof BookSizes, number>> = {};
  for (const name of bookOnly) ofBook[name] = own[name] ?? table[name].value;
  return {
    ...(ofBook as BookSizes),
    barWidth: (said('barWidth') ? own.barWidth : undefined) ?? table.barWidth.value,
    wings: (said('wings') ? own.wings : undefined) ?? true,
    depth: (said('depth') ? own.depth : undefined) ?? depth[kind] ?? 0,
    units: (said('units') ? own.units : undefined) ?? table.longJumpUnits.value,
    poles: (said('poles') ? own.poles : undefined) ?? table.poles.value,
    spacing: (said('spacing') ? own.spacing : undefined) ?? table.poleSpacing.value,
    tunnelLength: (said('tunnelLength') ? own.tunnelLength : undefined) ?? table.tunnelLength.value,
  };
}
