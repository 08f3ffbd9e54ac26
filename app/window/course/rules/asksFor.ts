import type { RuleBook } from '../../../../src/course/rules/book.ts';

/** What the course times of a book can hang on, beside the length of the course. */
export interface AsksFor {
  readonly discipline: boolean;
  readonly judgesSpeed: boolean;
  readonly bestTime: boolean;
}

export function asksFor({ times }: RuleBook): AsksFor {
  const rules = [...times.standard, ...times.maximum];
  return {
    discipline: rules.some((r) => r.disciplines !== undefined),
    judgesSpeed: rules.some(
      ({ rule: { value } }) => value.form === 'lengthOverSpeed' && value.metresPerSecond === undefined,
    ),
    bestTime: rules.some((r) => r.rule.value.form === 'bestTime'),
  };
}
