import type { RuleBook } from './book.ts';
import { named, type RuleNamed } from './entries.ts';
import { quotientTo, type Hundredths } from './hundredths.ts';
import type { Discipline, Rounding, TimeRule, TimeRuleFor } from './runRules.ts';

/** What is known of a class when its course times are worked out. */
export interface ClassFacts {
  readonly discipline?: Discipline | undefined;
  readonly level?: string | undefined;
  /** Metres, as the book measures it. */
  readonly length?: number | undefined;
  /** Metres per second, where the judge chooses the speed. */
  readonly judgesSpeed?: number | undefined;
  /** Time of the best dog. */
  readonly bestTime?: Hundredths | undefined;
  /** Times as the judge has stated them; they go before what the book would give. */
  readonly statedStandard?: Hundredths | undefined;
  readonly statedMaximum?: Hundredths | undefined;
}

/** What is missing for a course time. */
export type MissingForTime =
  'noRule' | 'discipline' | 'level' | 'length' | 'judgesSpeed' | 'bestTime' | 'standardTime' | 'statedTime';

/** A course time: known, with the entry it follows where one does, or what is missing for it. */
export type CourseTime =
  | {
      readonly known: true;
      readonly time: Hundredths;
      readonly stated: boolean;
      readonly rule: RuleNamed | null;
    }
  | { readonly known: false; readonly missing: MissingForTime; readonly rule: RuleNamed | null };

/** Standard and maximum course time of a class, and whether a stated maximum is below what the book allows. */
export interface TimesOfClass {
  readonly standard: CourseTime;
  readonly maximum: CourseTime;
  /** The least that the book allows as maximum, where the stated one is below it. */
  readonly belowLeast: { readonly least: Hundredths; readonly rule: RuleNamed } | null;
}

/**
 * Works out the course times of a class as the book says.
 * @throws RangeError where a length or speed is not a positive number
 */
export function courseTimes(book: RuleBook, facts: ClassFacts): TimesOfClass {
  checkPositive(facts.length);
  checkPositive(facts.judgesSpeed);
  const standard = oneTime('times.standard', book.times.standard, facts, facts.statedStandard, null);
  const base = standard.known ? standard.time : null;
  const maximum = oneTime('times.maximum', book.times.maximum, facts, facts.statedMaximum, base);
  return { standard, maximum, belowLeast: belowLeast(book, facts, base) };
}

function oneTime(
  name: string,
  rules: readonly TimeRuleFor[],
  facts: ClassFacts,
  stated: Hundredths | undefined,
  standard: Hundredths | null,
): CourseTime {
  const found = ruleFor(name, rules, facts);
  const rule = 'rule' in found ? found.rule : null;
  if (stated !== undefined) return { known: true, time: stated, stated: true, rule };
  if ('missing' in found) return { known: false, missing: found.missing, rule: null };
  const time = timeBy(found.form, facts, standard);
  return typeof time === 'number'
    ? { known: true, time, stated: false, rule }
    : { known: false, missing: time.missing, rule };
}

type Found = { readonly rule: RuleNamed; readonly form: TimeRule } | { readonly missing: MissingForTime };

/** The first rule that holds. Where an earlier one might hold, what would tell is missing. */
function ruleFor(name: string, rules: readonly TimeRuleFor[], { discipline, level }: ClassFacts): Found {
  for (const [i, { disciplines, levels, rule }] of rules.entries()) {
    if (disciplines && discipline !== undefined && !disciplines.includes(discipline)) continue;
    if (levels && level !== undefined && !levels.includes(level)) continue;
    if (disciplines && discipline === undefined) return { missing: 'discipline' };
    if (levels && level === undefined) return { missing: 'level' };
    return { rule: named(`${name}.${i}`, rule), form: rule.value };
  }
  return { missing: 'noRule' };
}

function timeBy(
  form: TimeRule,
  facts: ClassFacts,
  standard: Hundredths | null,
): Hundredths | { readonly missing: MissingForTime } {
  switch (form.form) {
    case 'stated':
      return { missing: 'statedTime' };
    case 'lengthOverSpeed': {
      const speed = form.metresPerSecond ?? facts.judgesSpeed;
      if (speed === undefined) return { missing: 'judgesSpeed' };
      if (facts.length === undefined) return { missing: 'length' };
      // Whole centimetres over whole centimetres per second, in hundredths of a second.
      return rounded(Math.round(facts.length * 100) * 100, Math.round(speed * 100), form.rounding);
    }
    case 'bestTime':
      if (facts.bestTime === undefined) return { missing: 'bestTime' };
      return rounded(facts.bestTime * (10_000 + Math.round(form.addPercent * 100)), 10_000, form.rounding);
    case 'timesStandard':
      if (standard === null) return { missing: 'standardTime' };
      return rounded(standard * Math.round(form.usual * 100), 100, form.rounding);
  }
}

function rounded(dividend: number, divisor: number, rounding: Rounding | undefined): Hundredths {
  if (!rounding) return quotientTo(dividend, divisor, 1, 'nearest');
  return quotientTo(dividend, divisor, Math.round(rounding.toSeconds * 100), rounding.way);
}

function belowLeast(
  book: RuleBook,
  facts: ClassFacts,
  standard: Hundredths | null,
): TimesOfClass['belowLeast'] {
  const found = ruleFor('times.maximum', book.times.maximum, facts);
  if (facts.statedMaximum === undefined || standard === null || 'missing' in found) return null;
  if (found.form.form !== 'timesStandard') return null;
  const least = quotientTo(standard * Math.round(found.form.least * 100), 100, 1, 'up');
  return facts.statedMaximum < least ? { least, rule: found.rule } : null;
}

function checkPositive(n: number | undefined): void {
  if (n !== undefined && !(n > 0 && n <= 100_000))
    throw new RangeError(`${String(n)} cannot be a course length or a speed: it has to be more than 0`);
}
