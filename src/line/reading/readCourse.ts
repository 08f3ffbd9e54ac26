import type { Course } from '../../course/course.ts';
import type { LikelyLine } from '../line.ts';
import type { Runner } from '../runner.ts';
import type { DogSkills } from '../skills.ts';
import { entryRemark } from './entryRemark.ts';
import { hidersOf } from './hiders.ts';
import { legsOf, placesOf } from './legs.ts';
import type { Reading, Remark } from './remark.ts';
import { sideChangeRemarks } from './sideChanges.ts';
import { sightRemark } from './sightRemark.ts';
import { neverMetRemarks, sentRemark } from './skillRemarks.ts';
import type { ReadingThresholds } from './thresholds.ts';
import { invitationsOf, trapRemarks } from './traps.ts';
import { sliceRemark, startRemark, wayRemark } from './wayRemarks.ts';

/** What a reading is made of. Courses that are built by a rule book come with its sizes (builtBy). */
export interface ToRead {
  readonly course: Course;
  /** Her line through it. Where she lands and faces is taken from it, and so is "what if she lands there?". */
  readonly line: LikelyLine;
  readonly thresholds: ReadingThresholds;
  /** What she can do; absent where nobody has said. */
  readonly skills?: DogSkills | undefined;
  /** How she runs: what a change behind her would cost is told where it is known. */
  readonly runner?: Runner | undefined;
}

/** Reads a course as a coach does: what each number asks of this dog, as facts with figures. */
export function readCourse({ course, line, thresholds: t, skills, runner }: ToRead): Reading {
  const places = placesOf(course, line);
  const legs = legsOf(places, line);
  const hiders = hidersOf(course, t.eyeHeight);
  const invitations = invitationsOf(course);
  const remarks: (Remark | undefined)[] = [
    startRemark(places, line, skills),
    ...legs.flatMap((leg) => [
      wayRemark(leg, t, skills),
      sightRemark(leg, hiders, t),
      entryRemark(leg, t, skills),
      ...trapRemarks(leg, invitations, hiders, t),
    ]),
    ...places.map((place) => sliceRemark(place, t)),
    ...sideChangeRemarks(places, line, t, skills, runner),
    ...(skills ? [...neverMetRemarks(places, skills), sentRemark(legs, skills)] : []),
  ];
  const order = new Map(places.map((p, i) => [p.line.number, i]));
  const at = (r: Remark): number => order.get(r.numbers[0] ?? 0) ?? 0;
  return { remarks: remarks.filter((r) => r !== undefined).sort((a, b) => at(a) - at(b)) };
}
