import { foot } from '../course/grid.ts';
import type { CourseFinding, Limits, WhyNot } from '../course/courseFindings.ts';
import type { LengthFound } from '../course/courseLength.ts';
import { inUnits } from '../course/rules/hundredths.ts';
import type { CourseTime, MissingForTime, TimesOfClass } from '../course/rules/courseTime.ts';
import type { RuleNamed } from '../course/rules/entries.ts';
import { listed, locale } from './locale.ts';
import { ruleBookWords } from './ruleBook.ts';

/** The unit in which ground is told. Rules and drawings are kept in metres. */
export type GroundUnit = 'metres' | 'feet';

function figure(n: number, least: number, most: number): string {
  return new Intl.NumberFormat(locale, {
    minimumFractionDigits: least,
    maximumFractionDigits: most,
    useGrouping: false,
  }).format(n);
}

const ground = (unit: GroundUnit, metres: number, digits: number): string =>
  unit === 'metres' ? `${figure(metres, digits, 2)} m` : `${figure(metres / foot, digits, 1)} ft`;

/** How a finding's figures are written: what was measured with all its digits, limits as the book has them. */
function writers(
  f: CourseFinding,
  unit: GroundUnit,
): { measured: (n: number) => string; limit: (n: number) => string } {
  switch (f.about.what) {
    case 'obstacles':
    case 'hurdles':
      return { measured: (n) => figure(n, 0, 0), limit: (n) => figure(n, 0, 0) };
    case 'bar':
      return { measured: (n) => `${figure(n, 0, 1)} cm`, limit: (n) => `${figure(n, 0, 1)} cm` };
    default:
      return {
        measured: (n) => ground(unit, n, unit === 'metres' ? 2 : 1),
        limit: (n) => ground(unit, n, 0),
      };
  }
}

function asked({ least, most }: Limits, write: (n: number) => string): string {
  if (least !== null && most !== null)
    return least === most ? `${write(least)} is asked` : `${write(least)} to ${write(most)} is asked`;
  if (least !== null) return `at least ${write(least)} is asked`;
  return most === null ? 'nothing is asked' : `at most ${write(most)} is asked`;
}

/** At most so many numbers are named one by one. */
const mostNamed = 8;

function numbersNamed(numbers: readonly number[]): string {
  const named = numbers.slice(0, mostNamed).map(String);
  const left = numbers.length - named.length;
  return listed(left > 0 ? [...named, `${left} more`] : named);
}

function subject({ about, numbers }: CourseFinding, brief: boolean): string {
  switch (about.what) {
    case 'obstacles':
      return 'Obstacles';
    case 'hurdles':
      return 'Hurdles';
    case 'length':
      return 'Length of the course';
    case 'spacing':
      if (numbers.length < 2) return 'Distances between obstacles';
      if (brief) return numbers.join(' to ');
      return about.measured === 'centres'
        ? `${numbers.join(' to ')}, centre to centre`
        : `${numbers.join(' to ')}, from the end of the one to the beginning of the next`;
    case 'bar':
      return numbers.length === 0 ? 'Bars' : `Bar at ${numbersNamed(numbers)}`;
    case 'ring':
      return about.side === 'shorter' ? 'Shorter side of the ring' : 'Longer side of the ring';
    case 'area':
      return about.side === 'shorter'
        ? 'Ground of the course, shorter way'
        : 'Ground of the course, longer way';
  }
}

function whyNot(why: WhyNot, numbers: readonly number[]): string {
  switch (why) {
    case 'notDrawn':
      return numbers.length === 0
        ? 'the course is not drawn'
        : `not drawn: ${numbersNamed(numbers)}. Place them on the grass`;
    case 'kindUnknown':
      return `it is not said what stands at ${numbersNamed(numbers)}. Choose the kinds`;
    case 'noRing':
      return 'the ring has no size yet. Set it';
    case 'noCategory':
      return 'no height category is chosen. Choose one';
    case 'categoryNotInRule':
      return 'the book says nothing about this height category';
    case 'fewNumbers':
      return 'it takes two numbers at the least';
    case 'noWheelPath':
      return 'the book measures along the path dogs will take. Roll the wheel along it';
    case 'notSaidHow':
      return 'the book does not say how the length is measured';
  }
}

const missing: Record<MissingForTime, string> = {
  noRule: 'the book has none for this class',
  discipline: 'say whether it is agility or jumping',
  level: 'say which level it is',
  length: 'the length of the course is not known',
  judgesSpeed: 'enter the speed the judge chose',
  bestTime: 'it follows from the best dog’s time, which is not known',
  standardTime: 'it follows from the standard course time, which is not known',
  statedTime: 'the judge states it: enter it',
};

/** Sentences about a course held against a rule book. */
export const courseCheckWords = {
  /** What came of a rule, in one sentence; brief where it stands under a heading that says what is measured and how. */
  told: (f: CourseFinding, unit: GroundUnit, brief = false): string => {
    const j = f.judgement;
    if (j.verdict === 'cannotTell') return `${subject(f, brief)}: cannot tell; ${whyNot(j.why, f.numbers)}.`;
    const { measured, limit } = writers(f, unit);
    const verdict = { holds: '', below: 'too little, ', above: 'too much, ' }[j.verdict];
    return `${subject(f, brief)}: ${measured(j.measured)}; ${verdict}${asked(j, limit)}.`;
  },
  /** How distances are measured, for the heading over them. */
  spacing: {
    centres: 'Straight from centre to centre.',
    ends: 'Straight from the end of the one to the beginning of the next.',
  },
  /** The entry a finding goes by, with where it comes from. */
  by: (rule: RuleNamed): string => `${rule.name}: ${ruleBookWords.provenance(rule)}`,
  length: (measured: 'centres' | 'wheelPath', found: LengthFound, unit: GroundUnit): string => {
    const how = measured === 'centres' ? 'straight from centre to centre' : 'along the wheel’s path';
    if (found.known) return `Length, ${how}: ${ground(unit, found.metres, unit === 'metres' ? 2 : 1)}.`;
    return `Length, ${how}: cannot tell; ${
      found.why === 'noWheelPath' ? 'no wheel has been rolled' : whyNot(found.why, found.numbers)
    }.`;
  },
  time: (which: 'standard' | 'maximum', time: CourseTime): string => {
    const name = which === 'standard' ? 'Standard course time' : 'Maximum course time';
    if (!time.known) return `${name}: cannot tell; ${missing[time.missing]}.`;
    return `${name}: ${figure(inUnits(time.time), 2, 2)} s${time.stated ? ', as the judge stated it' : ''}.`;
  },
  belowLeast: ({ least }: NonNullable<TimesOfClass['belowLeast']>): string =>
    `The maximum course time is below what the book allows: at least ${figure(inUnits(least), 2, 2)} s.`,
} as const;
