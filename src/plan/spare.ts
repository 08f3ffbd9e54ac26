import type { Course } from '../course/course.ts';
import { mannerOf, turnsUntil } from '../course/kinds.ts';
import type { LikelyLine } from '../line/line.ts';
import type { DogSkills } from '../line/skills.ts';
import { dogTimes, leftOf, type Commits, type DogTimes } from './dogTimes.ts';
import { waysTo, type HandlerLeg, type Standing } from './handlerWay.ts';
import { dash, paceOf, type HandlerPace } from './pace.ts';
import type { CrossKind, PlannedCross, PlanSheet, Side, Support } from './plan.ts';
import { sideAlong, sidesOf } from './sides.ts';
import { leadOutSpot, tasksOf, type Spot, type Task } from './spots.ts';
import { solidGround, type Solid } from './wayRound.ts';

/** What the handler came from when she ran to a spot. */
export type CameFrom =
  | { readonly was: 'leadOut' }
  | { readonly was: 'support'; readonly place: number; readonly until: Support['until'] }
  | { readonly was: 'cross'; readonly place: number; readonly kind: CrossKind };

/** A cross against the dog's timetable. Seconds from her first movement. */
export interface CrossTime {
  readonly cross: PlannedCross;
  readonly choice: 'first' | 'second';
  readonly kind: CrossKind;
  readonly spot: Spot;
  readonly from: CameFrom;
  /** When the last thing before it let her go. */
  readonly leaves: number;
  /** Metres she runs for it. */
  readonly metres: number;
  readonly arrives: number;
  /** When the dog is out of the number before; 0 at the first. */
  readonly dogComes: number;
  readonly begins: number;
  readonly finishes: number;
  /** By when it must have begun: take-off, or a tunnel's entry; null where the deadline is its end alone. */
  readonly mustBegin: number | null;
  /** True where her word for the turn is cue enough, so that the cross itself may begin later. */
  readonly byWord: boolean;
  /** By when it must be finished: landing or exit; null where the deadline is its beginning alone. */
  readonly mustFinish: number | null;
  /** Which of both is the nearer. */
  readonly limit: 'begin' | 'finish';
  /** Time to spare, seconds; below 0 she is late. */
  readonly spare: number;
}

/** One halt of the handler: from when to when she is there, and what for. */
export interface HandlerStay {
  readonly spot: Spot;
  readonly arrives: number;
  readonly leaves: number;
  readonly does:
    | { readonly what: 'leadOut' }
    | { readonly what: 'support'; readonly support: Support; readonly late: number }
    | {
        readonly what: 'cross';
        readonly cross: PlannedCross;
        readonly begins: number;
        readonly finishes: number;
      };
  /** The way she came; null at the start. */
  readonly leg: HandlerLeg | null;
}

/** The handler's whole way through a plan, and the time to spare at each cross of it. */
export interface PlanTimes {
  readonly stays: readonly HandlerStay[];
  /** In the order of the course; a second choice follows the first. */
  readonly crosses: readonly CrossTime[];
  /** Crosses at numbers that the line does not reach: nothing can be said of them. */
  readonly untimed: readonly PlannedCross[];
}

/**
 * The handler's way between the spots of a plan against the dog's timetable. She leaves the lead-out spot when the dog
 * first moves, a support when the dog is committed, in or out as the plan says, and the spot of a front or blind cross
 * or a lead-out pivot not before the dog is committed to that obstacle (design: the two commitments). After the first
 * choice of a cross the plan goes on; the second is timed from the same place.
 * @param solid the course's solid ground, where it is at hand
 * @param turnsOnWord which way she turns on a word alone; what is not said counts as no word
 */
export function timePlan(
  course: Course,
  sheet: PlanSheet,
  line: LikelyLine,
  runner: Commits,
  solid: Solid = solidGround(course),
  turnsOnWord: DogSkills['verbalTurns'] = {},
): PlanTimes {
  const times = dogTimes(line, runner);
  const pace = paceOf(sheet.pace);
  const sideAfter = sidesAlong(course, sheet, line);
  const start = leadOutSpot(sheet, line, sideAfter(0));
  const untimed = sheet.crosses.filter((cross) => !times.has(cross.place));
  if (!start) return { stays: [], crosses: [], untimed };
  const tasks = tasksOf(sheet, times, sideAfter);
  const stays: HandlerStay[] = [{ spot: start, arrives: 0, leaves: 0, does: { what: 'leadOut' }, leg: null }];
  const crosses: CrossTime[] = [];
  let standing: Standing = { at: start.at, leaves: 0, speed: 0 };
  let cameFrom: CameFrom = { was: 'leadOut' };
  for (const [i, task] of tasks.entries()) {
    // Where nothing else is planned she goes on the way the dog goes.
    const next = tasks[i + 1]?.spot.at ?? task.dog.after?.points.at(-1) ?? null;
    const scene = { standing, next, pace, solid, newSide: sideAfter(task.dog.step.number), turnsOnWord };
    if (task.does === 'supports') {
      const halt = haltAt(task.spot, releaseOf(task), false, scene);
      const late = Math.max(0, halt.leg.arrives - releaseOf(task));
      stays.push({ ...halt, does: { what: 'support', support: task.support, late } });
      standing = halt.on;
      cameFrom = { was: 'support', place: task.support.place, until: task.support.until };
      continue;
    }
    const { cross, dog, spot, second } = task;
    const done = crossAt(cross.kind, dog, spot, scene);
    const dogComes = times.get(cross.place - 1)?.out ?? 0;
    const told = { cross, from: cameFrom, leaves: standing.leaves, dogComes };
    crosses.push({ ...told, choice: 'first', ...done.time });
    if (cross.secondChoice && second) {
      const other = crossAt(cross.secondChoice, dog, second, scene);
      crosses.push({ ...told, choice: 'second', ...other.time });
    }
    stays.push({
      ...done.halt,
      does: { what: 'cross', cross, begins: done.time.begins, finishes: done.time.finishes },
    });
    standing = done.halt.on;
    cameFrom = { was: 'cross', place: cross.place, kind: cross.kind };
  }
  return { stays, crosses, untimed };
}

/** The side on each stretch, by the number it follows, with the lead-out spot taken for the start. */
function sidesAlong(course: Course, sheet: PlanSheet, line: LikelyLine): (number: number) => Side | null {
  const numbers = course.steps.reduce((most, step) => Math.max(most, step.number), 0);
  const [a, b] = [line.stretches[0]?.points[0], line.steps[0]?.entry];
  const atStart = sheet.leadOut && a && b ? sideAlong(sheet.leadOut, a, b) : null;
  const { stretches } = sidesOf(sheet, numbers, atStart);
  return (number) => stretches[number]?.side ?? null;
}

interface Scene {
  readonly standing: Standing;
  readonly next: Spot['at'] | null;
  readonly pace: HandlerPace;
  readonly solid: Solid;
  readonly newSide: Side | null;
  readonly turnsOnWord: DogSkills['verbalTurns'];
}

interface Halt {
  readonly spot: Spot;
  readonly leg: HandlerLeg;
  readonly arrives: number;
  readonly leaves: number;
  readonly on: Standing;
}

/** Runs to a spot and stays until `until`; where she is no earlier than that, she runs through, unless she must stop. */
function haltAt(spot: Spot, until: number, stops: boolean, scene: Scene): Halt {
  const { stopping, running } = waysTo(scene.standing, spot.at, scene.next, scene.pace, scene.solid);
  const through = !stops && running.arrives >= until;
  const leg = through ? running : stopping;
  const leaves = Math.max(leg.arrives, until);
  const speed = through ? running.run.speedThere : 0;
  return { spot, leg, arrives: leg.arrives, leaves, on: { at: spot.at, leaves, speed } };
}

const releaseOf = (task: Extract<Task, { does: 'supports' }>): number => task.dog[task.support.until];

type Timed = Omit<CrossTime, 'cross' | 'choice' | 'from' | 'leaves' | 'dogComes'>;

/** One choice of a cross: when it is begun and finished, and by when it must be. */
function crossAt(
  kind: CrossKind,
  dog: DogTimes,
  spot: Spot,
  scene: Scene,
): { readonly time: Timed; readonly halt: Halt } {
  const ahead = kind === 'front' || kind === 'blind' || kind === 'leadOutPivot';
  const pivots = kind === 'front' || kind === 'leadOutPivot';
  const halt = haltAt(spot, dog.committed, pivots, scene);
  const { arrives } = halt;
  const turn = kind === 'serpentine' || kind === 'threadle' ? 0 : scene.pace.turnSeconds;
  // She turns while she comes in and is turned at the spot, where the way is long enough. A rear cross waits for the dog.
  const begins = kind === 'rear' ? halt.leaves : Math.max(halt.leg.leaves, arrives - turn);
  const turned = begins + turn;
  const finishes = turned + (ahead ? secondsOffLine(dog, spot, scene) : 0);
  const cue = cueDeadline(dog, ahead, scene.turnsOnWord);
  const { mustBegin } = cue;
  const mustFinish = ahead ? dog.out : null;
  const toBegin = mustBegin === null ? Infinity : mustBegin - begins;
  const toFinish = mustFinish === null ? Infinity : mustFinish - finishes;
  const limit = toBegin < toFinish ? 'begin' : 'finish';
  const metres = halt.leg.run.metres;
  const spare = Math.min(toBegin, toFinish);
  const time = {
    kind,
    spot,
    metres,
    arrives,
    begins,
    finishes,
    ...cue,
    mustFinish,
    limit,
    spare,
  } as const;
  // She may leave a pivot only when she is turned; the other crosses are made in running.
  const leaves = Math.max(halt.leaves, pivots ? finishes : 0);
  return { time, halt: { ...halt, leaves, on: { ...halt.on, leaves } } };
}

/** Coming out of a tunnel to turn by less than this she needs no cue for it, degrees; our choice. */
const cuedFrom = 30;

/**
 * By when the cue for the turn must show (common practice, design facts). A jump: by take-off. A tunnel: before she
 * goes in, since she sees nothing inside; a word will do, and running straight on needs no cue. On poles and contacts
 * she can be turned until she leaves, so that a cross ahead of her is held by its end alone.
 */
function cueDeadline(
  dog: DogTimes,
  ahead: boolean,
  turnsOnWord: DogSkills['verbalTurns'],
): Pick<CrossTime, 'mustBegin' | 'byWord'> {
  const { kind } = dog.step;
  if (turnsUntil(kind) === 'out') return { mustBegin: ahead ? null : dog.out, byWord: false };
  if (!ahead || mannerOf(kind) !== 'through') return { mustBegin: dog.in, byWord: false };
  const turn = dog.after?.turnDegrees ?? 0;
  if (Math.abs(turn) < cuedFrom) return { mustBegin: null, byWord: false };
  const byWord = turnsOnWord[turn > 0 ? 'left' : 'right'] === true;
  return { mustBegin: byWord ? null : dog.in, byWord };
}

/** Seconds from the spot until she stands clear of the dog's line on the new side; 0 where the spot is clear of it. */
function secondsOffLine(dog: DogTimes, spot: Spot, { newSide, pace }: Scene): number {
  const left = leftOf(dog.after?.points ?? [], spot.at);
  if (left === null || newSide === null) return 0;
  // Dog on her left: she belongs to the right of the dog's line.
  const clear = newSide === 'left' ? -left : left;
  const short = pace.offLine - clear;
  return short > 0 ? dash(short, pace, 0, pace.topSpeed).seconds : 0;
}
