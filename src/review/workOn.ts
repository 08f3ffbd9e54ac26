import { least, type Quantity } from '../time/quantity.ts';
import type { Analysis, CrossAnalysis, EventRow, Moment, StartTry } from './analysis.ts';
import type { WorkSaid } from './coachSays.ts';
import type { Header } from './document.ts';
import type { EventKind } from './marks.ts';

export type Stage = Header['stage'];

/** What there may be to work on: one theme gathers everything in a run that the same training would help. */
export const workThemes = [
  'stay',
  'happy',
  'lateCross',
  'earlyCross',
  'entry',
  'contact',
  'refusal',
  'order',
  'turn',
  'bar',
] as const;
export type WorkTheme = (typeof workThemes)[number];

/** One time that it happened: where to look. */
export interface Instance {
  readonly place: number | null;
  readonly moment: Moment | null;
  /** Seconds that it cost, where they were measured. */
  readonly lost: Quantity | null;
  readonly of:
    | { readonly what: 'try'; readonly try: StartTry }
    | { readonly what: 'cross'; readonly cross: CrossAnalysis }
    | { readonly what: 'event'; readonly event: EventRow };
}

export interface WorkItem {
  readonly theme: WorkTheme;
  readonly instances: readonly [Instance, ...Instance[]];
  /** Sum of what was measured to be lost, as far as its plus or minus leaves no doubt that something was; seconds. */
  readonly surelyLost: number;
  readonly weight: number;
}

export interface WorkOn {
  /** One or two things, the first first; none where nothing asks for it. What the coach put first may make it more. */
  readonly first: readonly WorkItem[];
  /** What else was seen: information, not homework. */
  readonly also: readonly WorkItem[];
}

/** More than two things rarely get trained (common practice). */
export const mostToWorkOn = 2;

/**
 * What weighs how much at which stage of the dog (common practice, from coaches' order of teaching): a green dog
 * learns to wait and to enjoy running before anything else, and her bars tell how she jumps, not what to train; a
 * growing dog learns criteria; with a finished dog it is the handling and the seconds. Only the order of these
 * numbers counts; a second surely lost weighs as much as ten of them.
 */
const weights: Readonly<Record<Stage, Readonly<Record<WorkTheme, number>>>> = {
  green: {
    stay: 100,
    happy: 95,
    contact: 60,
    entry: 50,
    refusal: 45,
    lateCross: 40,
    earlyCross: 40,
    order: 30,
    turn: 10,
    bar: 0,
  },
  growing: {
    stay: 90,
    contact: 80,
    entry: 70,
    lateCross: 65,
    earlyCross: 65,
    happy: 60,
    refusal: 55,
    order: 50,
    bar: 40,
    turn: 35,
  },
  finished: {
    lateCross: 80,
    contact: 78,
    bar: 75,
    earlyCross: 74,
    entry: 70,
    order: 65,
    refusal: 60,
    stay: 58,
    happy: 55,
    turn: 50,
  },
};
const weightOfSecond = 10;

const themeOf: Partial<Record<EventKind, WorkTheme>> = {
  barDown: 'bar',
  refusal: 'refusal',
  offCourse: 'order',
  missedEntry: 'entry',
  poppedOut: 'entry',
  missedContact: 'contact',
  wide: 'turn',
  lateCross: 'lateCross',
  worried: 'happy',
};

/**
 * What this run says to work on: gathered by theme, weighed by the criterion that was broken, the time surely lost
 * and the dog's stage. A proposal: the coach's word goes before it.
 * @param lost seconds that the way after each number took longer than it need have, where that was measured
 * @param said what she put first or set aside; what she said of both comes first
 */
export function workOn(
  { startLine, crosses, events }: Pick<Analysis, 'startLine' | 'crosses' | 'events'>,
  stage: Stage,
  lost: ReadonlyMap<number, Quantity> = new Map(),
  said: WorkSaid = { first: [], notNow: [] },
): WorkOn {
  const found = new Map<WorkTheme, Instance[]>();
  const add = (theme: WorkTheme, instance: Instance): void => {
    const list = found.get(theme);
    if (list) list.push(instance);
    else found.set(theme, [instance]);
  };
  const lostAt = (place: number | null): Quantity | null =>
    place === null ? null : (lost.get(place) ?? null);

  for (const t of startLine) {
    if (t.verdict !== 'broken') continue;
    const step = t.moments.find((m) => m.part === 'step') ?? t.moments[0];
    add('stay', { place: null, moment: step?.moment ?? null, lost: null, of: { what: 'try', try: t } });
  }
  for (const cross of crosses) {
    if (cross.verdict !== 'late' && cross.verdict !== 'tooEarly') continue;
    add(cross.verdict === 'late' ? 'lateCross' : 'earlyCross', {
      place: cross.place,
      moment: cross.parts.cueBegins ?? cross.deadline,
      lost: lostAt(cross.place),
      of: { what: 'cross', cross },
    });
  }
  for (const event of events) {
    const theme = isKind(event.mark.event) ? themeOf[event.mark.event] : undefined;
    // A late cue that was judged from its moments is not told a second time by the coach's remark.
    if (!theme || (theme === 'lateCross' && judgedAt(crosses, event.place))) continue;
    // Only what turns her costs on the way after it; and the wide turn of a late cross costs once.
    const turns = theme === 'turn' || theme === 'lateCross';
    const counted = turns && !judgedAt(crosses, event.place) ? lostAt(event.place) : null;
    add(theme, { place: event.place, moment: event.moment, lost: counted, of: { what: 'event', event } });
  }

  const items = [...found].flatMap(([theme, [first, ...others]]): WorkItem[] => {
    if (!first) return [];
    const instances: WorkItem['instances'] = [first, ...others];
    const surelyLost = sure(instances);
    const base = weights[stage][theme];
    // Information at this stage stays information, however often it was seen.
    const weight = base === 0 ? 0 : base + (instances.length - 1) + weightOfSecond * surelyLost;
    return [{ theme, instances, surelyLost, weight }];
  });
  items.sort((a, b) => b.weight - a.weight || workThemes.indexOf(a.theme) - workThemes.indexOf(b.theme));
  const chosen = said.first.flatMap((theme) => items.find((item) => item.theme === theme) ?? []);
  const proposed = items.filter(
    (item) => item.weight > 0 && !chosen.includes(item) && !said.notNow.includes(item.theme),
  );
  const first = [...new Set(chosen), ...proposed.slice(0, Math.max(0, mostToWorkOn - chosen.length))];
  return { first, also: items.filter((item) => !first.includes(item)) };
}

const isKind = (event: string): event is EventKind => !event.startsWith('own:');

const judgedAt = (crosses: readonly CrossAnalysis[], place: number | null): boolean =>
  crosses.some((c) => c.place === place && c.verdict === 'late');

function sure(instances: readonly Instance[]): number {
  // The same stretch is not lost twice, whatever was noted at it.
  const byPlace = new Map<number | null, number>();
  for (const { place, lost } of instances)
    if (lost && least(lost) > 0) byPlace.set(place, Math.max(byPlace.get(place) ?? 0, lost.value));
  return [...byPlace.values()].reduce((sum, s) => sum + s, 0);
}
