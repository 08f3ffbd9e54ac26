import type { Course } from '../course/course.ts';
import { distance } from '../course/pose.ts';
import type { LikelyLine } from '../line/line.ts';
import { entryRemark } from '../line/reading/entryRemark.ts';
import { legsOf, placesOf } from '../line/reading/legs.ts';
import { rearPrices, type RearPrices } from '../line/reading/rearPrices.ts';
import type { EntryFacts } from '../line/reading/remark.ts';
import type { ReadingThresholds } from '../line/reading/thresholds.ts';
import type { Runner } from '../line/runner.ts';
import type { DogSkills, DoneOf } from '../line/skills.ts';
import type { CrossTime } from './spare.ts';

/** What speaks for and against a planned cross beside its time: the course, and what this dog can do. */
export type CrossArgument =
  | { readonly argues: 'rearPrices'; readonly prices: RearPrices }
  /** The poles that follow, as she comes to them. */
  | { readonly argues: 'entry'; readonly entry: EntryFacts }
  | { readonly argues: 'rearAtPoles'; readonly count: DoneOf; readonly few: boolean }
  /** Whether she has a word for the turn that the cross is for. */
  | {
      readonly argues: 'word';
      readonly way: 'left' | 'right';
      readonly turns: boolean;
      readonly enough: boolean;
    }
  /** Behind her the handler sends her on, farther than she has been sent. */
  | { readonly argues: 'sent'; readonly metres: number; readonly sentMetres: number };

/** What the arguments are drawn from. */
export interface Argued {
  readonly course: Course;
  readonly line: LikelyLine;
  readonly runner: Runner;
  readonly skills: DogSkills | undefined;
  readonly thresholds: ReadingThresholds;
}

/** What to hold against the time of a cross, the course's own prices first. */
export function crossArguments(
  time: CrossTime,
  { course, line, runner, skills, thresholds }: Argued,
): readonly CrossArgument[] {
  const number = time.cross.place;
  const places = placesOf(course, line);
  const leg = legsOf(places, line).find((l) => l.here.line.number === number);
  const here = places.find((p) => p.line.number === number);
  const found: CrossArgument[] = [];
  const rear = time.kind === 'rear';
  const prices = rear ? rearPrices(places, line, number, runner, skills) : undefined;
  if (prices) found.push({ argues: 'rearPrices', prices });
  const entry = leg && !prices ? entryRemark(leg, thresholds, skills) : undefined;
  if (entry?.remark === 'entry' && entry.poles) found.push({ argues: 'entry', entry });
  const atPoles = here?.drawn.obstacle.kind === 'weavePoles' ? skills?.rearCrossAtPoles : undefined;
  if (rear && atPoles)
    found.push({ argues: 'rearAtPoles', count: atPoles, few: atPoles.tried < thresholds.fewTries });
  const turn = leg?.way.turnDegrees ?? 0;
  const way = turn > 0 ? 'left' : 'right';
  const turns = skills?.verbalTurns[way];
  if (turns !== undefined && Math.abs(turn) >= thresholds.turnFrom)
    found.push({ argues: 'word', way, turns, enough: time.byWord });
  const alone = here ? distance(time.spot.at, here.line.entry) : 0;
  if (rear && skills?.sentMetres !== undefined && alone > skills.sentMetres)
    found.push({ argues: 'sent', metres: alone, sentMetres: skills.sentMetres });
  return found;
}
