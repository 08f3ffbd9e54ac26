import { randomStream, type RandomStream } from '../../../../scripts/simulator/base/random.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { likelyLine } from '../../../../src/line/likelyLine.ts';
import type { LikelyLine } from '../../../../src/line/line.ts';
import { runnerWith, type Runner } from '../../../../src/line/runner.ts';
import { PlanSheet } from '../../../../src/plan/plan.ts';
import { timePlan, type CrossTime } from '../../../../src/plan/spare.ts';
import { solidGround, type Solid } from '../../../../src/plan/wayRound.ts';
import { measure, type Measured } from './film.ts';
import { courseOf, type Layout } from './layouts.ts';
import { play, teamOf, type Hold, type Team } from './play.ts';

/** One cross, planned and then run. Seconds. */
export interface Trial {
  readonly seed: number;
  readonly layout: Layout;
  readonly hold: Hold | null;
  readonly planned: CrossTime;
  /** How long after the dog's take-off the first sign of the cross came; below 0: before it. */
  readonly begunLate: number;
  /** How long after landing or exit it was finished; Infinity: never. */
  readonly finishedLate: number;
  /** The dog on the plan and in the run: when she landed or came out. */
  readonly landing: { readonly planned: number; readonly run: number };
}

/** A team on one layout: what was measured of it, and the line that follows. */
export interface Drawn {
  readonly team: Team;
  readonly layout: Layout;
  readonly measured: Measured;
  readonly line: LikelyLine;
  readonly runner: Runner;
  readonly solid: Solid;
  readonly random: RandomStream;
}

/** The team of a seed, filmed in practice; null where no practice run could be used. */
export function drawn(seed: number, from: readonly Layout[]): Drawn | null {
  const team = teamOf(seed);
  const layout = from[seed % from.length];
  if (!layout) return null;
  const measured = measure(team, layout.cross.kind === 'front' ? 'front' : 'blind');
  if (!measured) return null;
  const course = courseOf(layout);
  const runner = runnerWith(measured.dog);
  const line = likelyLine(course, { runner, start: layout.start });
  if (!line) return null;
  const random = randomStream(seed).branch('plans of the bench');
  return { team, layout, measured, line, runner, solid: solidGround(course), random };
}

/** The time to spare as the plan tells it, or what is left at the end of the cross alone. */
export type Margin = 'spare' | 'end';

const marginOf = (planned: CrossTime, by: Margin): number =>
  by === 'spare' ? planned.spare : (planned.mustFinish ?? NaN) - planned.finishes;

/**
 * True where the cross came too late in the run: begun after take-off or a tunnel's entry, or finished after landing or
 * exit.
 */
export const wasLate = ({ planned, begunLate, finishedLate }: Trial, by: Margin): boolean =>
  (planned.mustFinish !== null && finishedLate > 0) ||
  (by === 'spare' && planned.mustBegin !== null && begunLate > 0);

/**
 * Draws plans until one has a margin within bounds, and runs it; null where none was found that could be run.
 * @param knowsHold false for the control: the plan is not told of the support that holds her in the run
 */
export function trialWithin(
  d: Drawn,
  by: Margin,
  least: number,
  most: number,
  knowsHold = true,
): Trial | null {
  for (let i = 0; i < 4000; i++) {
    const { leadOut, hold, planned } = planFrom(d, knowsHold);
    if (!planned || marginOf(planned, by) < least || marginOf(planned, by) >= most) continue;
    const trial = runPlan(d, leadOut, hold, planned, d.random.whole(1e9));
    if (trial) return trial;
  }
  return null;
}

interface Planned {
  readonly leadOut: GroundPoint;
  readonly hold: Hold | null;
  readonly planned: (CrossTime & { readonly way: readonly GroundPoint[] }) | null;
}

function planFrom({ layout, measured, line, runner, solid, random }: Drawn, knowsHold: boolean): Planned {
  const [a, b] = layout.leadOut;
  const u = random.uniform();
  const leadOut = { x: a.x + u * (b.x - a.x), y: a.y + u * (b.y - a.y) };
  const ends = ['committed', 'in', 'out'] as const;
  const until = ends[random.whole(3)] ?? 'in';
  const hold =
    knowsHold && random.chance(0.3) ? null : { place: 1 + random.whole(layout.cross.place), until };
  const sheet = PlanSheet.parse({
    leadOut,
    sides: [{ after: 0, side: layout.before }],
    supports: hold && knowsHold ? [{ id: 's', ...hold, at: leadOut }] : [],
    crosses: [{ id: 'c', ...layout.cross, at: layout.spot }],
    pace: measured.pace,
  });
  const { crosses, stays } = timePlan(courseOf(layout), sheet, line, runner, solid);
  const [planned] = crosses;
  const way = stays.at(-1)?.leg?.points.slice(1) ?? [];
  return { leadOut, hold, planned: planned ? { ...planned, way } : null };
}

function runPlan(
  { team, layout }: Drawn,
  leadOut: GroundPoint,
  hold: Hold | null,
  planned: CrossTime & { readonly way: readonly GroundPoint[] },
  chance: number,
): Trial | null {
  const played = play(team, layout, leadOut, planned.way, hold, chance);
  const { place } = layout.cross;
  const taken = played?.at('in', place) ?? null;
  const left = played?.at('out', place) ?? null;
  if (!played || taken === null || left === null) return null;
  const { cross, firstStep } = played;
  return {
    ...{ seed: team.seed, layout, hold, planned },
    begunLate: cross.begun - firstStep - taken,
    finishedLate: (cross.finished ?? Infinity) - firstStep - left,
    landing: { planned: planned.mustFinish ?? NaN, run: left },
  };
}
