import { builtBy } from './builtBy.ts';
import type { Course, CourseTiming } from './course.ts';
import { checkBars } from './checkBars.ts';
import { checkGround } from './checkGround.ts';
import { checkSpacing } from './checkSpacing.ts';
import { cannotTell, judge, type CourseFinding } from './courseFindings.ts';
import { courseLengths, type CourseLengths, type LengthFound } from './courseLength.ts';
import type { ObstacleKind } from './kinds.ts';
import type { RuleBook } from './rules/book.ts';
import { courseTimes, type ClassFacts, type TimesOfClass } from './rules/courseTime.ts';
import { named, type RuleNamed } from './rules/entries.ts';
import { hundredths, type Hundredths } from './rules/hundredths.ts';

/** What is asked of the check beside course and book. Absent: as the head of the course says. */
export interface CheckedFor {
  /** Id of a height category of the book. */
  readonly category?: string | undefined;
  /** What is known of the class; the length is measured. */
  readonly facts?: Omit<ClassFacts, 'length'> | undefined;
}

/** A course held against a rule book. */
export interface CourseCheck {
  readonly findings: readonly CourseFinding[];
  readonly lengths: CourseLengths;
  /** The length as the book measures it, with the entry that says so; null where the book does not say. */
  readonly bookLength: { readonly length: LengthFound; readonly rule: RuleNamed } | null;
  readonly times: TimesOfClass;
}

/**
 * Checks a course against a rule book, as far as it is drawn: each finding names the entry it goes by and the
 * numbers it is about, and says "cannot tell" where something is missing. What the book does not say is not checked.
 * Figures are judged as they are shown: metres to the centimetre, bars to the millimetre.
 */
export function checkCourse(
  drawn: Course,
  book: RuleBook,
  { category, facts }: CheckedFor = {},
): CourseCheck {
  const course = builtBy(drawn, book, category);
  const lengths = courseLengths(course);
  const measured = book.course.lengthMeasured;
  const bookLength = measured
    ? { length: lengths[measured.value], rule: named('course.lengthMeasured', measured) }
    : null;
  const categoryId = category ?? headEntry(course.head?.heightCategory);
  return {
    findings: [
      ...checkCounts(course, book),
      ...checkSpacing(course, book, categoryId),
      ...checkGround(course, book),
      ...checkBars(course, book, categoryId),
      ...checkLength(book, bookLength?.length ?? null),
    ],
    lengths,
    bookLength,
    times: courseTimes(book, classFacts(course, book, facts, bookLength?.length)),
  };
}

function checkCounts(course: Course, { course: rules }: RuleBook): CourseFinding[] {
  const kinds = new Map(course.obstacles.map((o) => [o.id, o.kind]));
  const kindOf = (id: string): ObstacleKind => kinds.get(id) ?? 'unknown';
  const findings: CourseFinding[] = [];
  if (rules.obstacles) {
    const { least = null, most = null } = rules.obstacles.value;
    findings.push({
      about: { what: 'obstacles' },
      judgement: judge(course.steps.length, { least, most }, 0),
      // What is over the most is told by its numbers.
      numbers: most === null ? [] : course.steps.map((s) => s.number).filter((n) => n > most),
      rule: named('course.obstacles', rules.obstacles),
    });
  }
  if (rules.hurdles) {
    const { least, kinds: hurdles } = rules.hurdles.value;
    const numbersOf = (is: (kind: ObstacleKind) => boolean): number[] =>
      course.steps.filter((s) => is(kindOf(s.obstacleId))).map((s) => s.number);
    const sure = numbersOf((k) => hurdles.includes(k));
    const unknown = numbersOf((k) => k === 'unknown' && !hurdles.includes(k));
    const open = sure.length < least && sure.length + unknown.length >= least;
    findings.push({
      about: { what: 'hurdles' },
      judgement: open ? cannotTell('kindUnknown') : judge(sure.length, { least, most: null }, 0),
      numbers: open ? unknown : sure,
      rule: named('course.hurdles', rules.hurdles),
    });
  }
  return findings;
}

function checkLength({ course: rules }: RuleBook, length: LengthFound | null): CourseFinding[] {
  if (!rules.length) return [];
  const of = { about: { what: 'length' }, rule: named('course.length', rules.length) } as const;
  if (!length) return [{ ...of, judgement: cannotTell('notSaidHow'), numbers: [] }];
  return [
    length.known
      ? { ...of, judgement: judge(length.metres, rules.length.value, 2), numbers: [] }
      : { ...of, judgement: cannotTell(length.why), numbers: length.numbers },
  ];
}

/** What stands in the head of the course counts where the book knows it and nobody said otherwise. */
function classFacts(
  course: Course,
  book: RuleBook,
  facts: CheckedFor['facts'],
  length: LengthFound | undefined,
): ClassFacts {
  const headLevel = headEntry(course.head?.level);
  const level = book.scoring.levels.some((l) => l.value.id === headLevel) ? headLevel : undefined;
  return {
    ...timingFacts(course.timing),
    ...facts,
    level: facts?.level ?? level,
    length: length?.known === true && length.metres > 0 ? length.metres : undefined,
  };
}

function timingFacts(timing: CourseTiming | undefined): NonNullable<CheckedFor['facts']> {
  const exact = (seconds: number | undefined): Hundredths | undefined =>
    seconds === undefined ? undefined : hundredths(seconds);
  return {
    discipline: timing?.discipline,
    judgesSpeed: timing?.judgesSpeed,
    bestTime: exact(timing?.bestTime),
    statedStandard: exact(timing?.statedStandard),
    statedMaximum: exact(timing?.statedMaximum),
  };
}

const headEntry = (text: string | undefined): string | undefined =>
  text === undefined || text.trim() === '' ? undefined : text.trim();
