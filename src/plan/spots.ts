import type { Course } from '../course/course.ts';
import type { GroundPoint } from '../course/points.ts';
import { from } from '../course/pose.ts';
import type { LikelyLine } from '../line/line.ts';
import { alongWay, type DogTimes } from './dogTimes.ts';
import type { CrossKind, PlannedCross, PlanSheet, Side, Support } from './plan.ts';
import { supportEnds } from './plan.ts';
import { inside } from './wait.ts';

/** A spot that the coach placed, or one that is proposed because she did not. */
export interface Spot {
  readonly at: GroundPoint;
  readonly proposed: boolean;
}

/** What the handler does on the way, in the order in which she does it. */
export type Task =
  | { readonly does: 'supports'; readonly support: Support; readonly dog: DogTimes; readonly spot: Spot }
  | {
      readonly does: 'crosses';
      readonly cross: PlannedCross;
      readonly dog: DogTimes;
      readonly spot: Spot;
      readonly second: Spot | null;
    };

/** Something of a plan's spots that a coach should look at again. */
export type SpotFinding =
  | {
      readonly finding: 'outsideRing';
      readonly what: 'wait' | 'leadOut' | 'support' | 'cross' | 'secondChoice';
      /** The number it belongs to; null at the start. */
      readonly place: number | null;
    }
  | { readonly finding: 'noLeadOut' };

/** Metres; where a spot is proposed, as a coach would first try it. */
const proposal = { pastLanding: 0.45, beforeRear: 2.5, beside: 1.5, clear: 0.7, atStart: 0.8 };

const toHandler = (dogOn: Side | null): number => (dogOn === 'left' ? -1 : dogOn === 'right' ? 1 : 0);

/**
 * The spot of a cross where none is placed. Front, blind, lead-out pivot: between the obstacle and the next, off the
 * dog's line on the new side. Rear: on her path, behind her, before the obstacle. Serpentine, threadle: beside where
 * she lands. All common practice for a first try.
 */
function crossSpot(kind: CrossKind, dog: DogTimes, before: Side | null, after: Side | null): GroundPoint {
  const { entry, exit } = dog.step;
  if (kind === 'rear') {
    const long = dog.before?.length ?? 0;
    const back = Math.min(proposal.beforeRear, 0.6 * long);
    const on = alongWay(dog.before?.points ?? [], long > 0 ? 1 - back / long : 1);
    return on ? from(on, 0) : from(entry, -back);
  }
  if (kind === 'serpentine' || kind === 'threadle') {
    return from(exit, 0, toHandler(before) * proposal.beside);
  }
  const on = alongWay(dog.after?.points ?? [], proposal.pastLanding) ?? { ...exit, ...from(exit, 2) };
  return from(on, 0, toHandler(after) * proposal.clear);
}

/** Where the handler releases the dog; beside her where the plan does not say. */
export function leadOutSpot(sheet: PlanSheet, line: LikelyLine, dogOn: Side | null): Spot | null {
  if (sheet.leadOut) return { at: sheet.leadOut, proposed: false };
  const start = alongWay(line.stretches[0]?.points ?? [], 0);
  return start && { at: from(start, 0, (toHandler(dogOn) || 1) * proposal.atStart), proposed: true };
}

/**
 * All that the handler has to do, in the order of the course: at one number supports before crosses. What stands on a
 * number that the line does not reach is left out.
 */
export function tasksOf(
  sheet: PlanSheet,
  times: ReadonlyMap<number, DogTimes>,
  sideAfter: (number: number) => Side | null,
): readonly Task[] {
  const tasks: Task[] = [];
  for (const support of sheet.supports) {
    const dog = times.get(support.place);
    if (!dog) continue;
    const aside = toHandler(sideAfter(support.place - 1)) * proposal.beside;
    const spot = spotOf(support.at, () => from(dog.step.entry, -0.5, aside));
    tasks.push({ does: 'supports', support, dog, spot });
  }
  for (const cross of sheet.crosses) {
    const dog = times.get(cross.place);
    if (!dog) continue;
    const sides = [sideAfter(cross.place - 1), sideAfter(cross.place)] as const;
    const { kind, secondChoice } = cross;
    const spot = spotOf(cross.at, () => crossSpot(kind, dog, ...sides));
    const second = secondChoice ? spotOf(cross.secondAt, () => crossSpot(secondChoice, dog, ...sides)) : null;
    tasks.push({ does: 'crosses', cross, dog, spot, second });
  }
  return tasks.sort((a, b) => a.dog.step.number - b.dog.step.number || rank(a) - rank(b));
}

const rank = (task: Task): number =>
  task.does === 'supports' ? supportEnds.indexOf(task.support.until) : supportEnds.length;

const spotOf = (at: GroundPoint | undefined, propose: () => GroundPoint): Spot =>
  at ? { at, proposed: false } : { at: propose(), proposed: true };

/** Spots that lie outside of the ring, and a start without a lead-out spot. */
export function spotFindings(sheet: PlanSheet, course: Pick<Course, 'ring'>): readonly SpotFinding[] {
  const findings: SpotFinding[] = sheet.leadOut ? [] : [{ finding: 'noLeadOut' }];
  type What = Extract<SpotFinding, { finding: 'outsideRing' }>['what'];
  const look = (what: What, place: number | null, at: GroundPoint | undefined): void => {
    if (at && !inside(course, at)) findings.push({ finding: 'outsideRing', what, place });
  };
  look('wait', null, sheet.wait);
  look('leadOut', null, sheet.leadOut);
  for (const support of sheet.supports) look('support', support.place, support.at);
  for (const cross of sheet.crosses) {
    look('cross', cross.place, cross.at);
    look('secondChoice', cross.place, cross.secondAt);
  }
  return findings;
}
