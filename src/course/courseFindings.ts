import type { RuleNamed } from './rules/entries.ts';

/** Why the check cannot say whether a rule is kept. */
export type WhyNot =
  | 'notDrawn'
  | 'kindUnknown'
  | 'noRing'
  | 'noCategory'
  | 'categoryNotInRule'
  | 'fewNumbers'
  | 'noWheelPath'
  | 'notSaidHow';

/** What a rule asks of a figure, in the unit of what the finding is about. An end that is null is open. */
export interface Limits {
  readonly least: number | null;
  readonly most: number | null;
}

/** What the check made of a rule. */
export type Judgement =
  | ({ readonly verdict: 'holds' | 'below' | 'above'; readonly measured: number } & Limits)
  | { readonly verdict: 'cannotTell'; readonly why: WhyNot };

/** What a finding is about. Counts; metres, but for bars: centimetres. */
export type About =
  | { readonly what: 'obstacles' | 'hurdles' | 'length' }
  | { readonly what: 'spacing'; readonly measured: 'centres' | 'ends' }
  | { readonly what: 'bar'; readonly category: string | null }
  | { readonly what: 'ring' | 'area'; readonly side: 'shorter' | 'longer' };

/** A rule of the book held against the course: what came of it, at which numbers, and by which entry. */
export interface CourseFinding {
  readonly about: About;
  readonly judgement: Judgement;
  readonly numbers: readonly number[];
  readonly rule: RuleNamed;
}

/** A figure against its limits, each as the reader sees it: to so many digits. */
export function judge(measured: number, { least, most }: Limits, digits: 0 | 1 | 2): Judgement {
  // A drawing whose numbers are no numbers has no size.
  if (!Number.isFinite(measured)) return cannotTell('notDrawn');
  const scale = 10 ** digits;
  const seen = (n: number): number => Math.round(n * scale);
  const verdict =
    least !== null && seen(measured) < seen(least)
      ? 'below'
      : most !== null && seen(measured) > seen(most)
        ? 'above'
        : 'holds';
  return { verdict, measured, least, most };
}

export const cannotTell = (why: WhyNot): Judgement => ({ verdict: 'cannotTell', why });
