import type { RuleBook, Category } from './book.ts';
import type { RangeByCategory } from './entry.ts';
import type { TimeRuleFor } from './runRules.ts';

/** What does not fit together in a rule book whose shape is right, as facts for the reader's sentences. */
export type BookProblem =
  | { readonly problem: 'repeated'; readonly where: string; readonly what: string }
  | { readonly problem: 'emptyCategory'; readonly category: string }
  | { readonly problem: 'overlap'; readonly categories: readonly [string, string] }
  | {
      readonly problem: 'gap';
      readonly categories: readonly [string, string];
      readonly from: number;
      readonly to: number;
    }
  | { readonly problem: 'unknownCategory' | 'unknownLevel'; readonly where: string; readonly what: string }
  | { readonly problem: 'resultClassOrder'; readonly classes: readonly [string, string] }
  | { readonly problem: 'leastOverMost'; readonly where: string }
  | { readonly problem: 'standardOfItself'; readonly where: string };

/** Checks that the parts of a rule book fit together. An empty list: they do. */
export function bookProblems(book: RuleBook): BookProblem[] {
  return [
    ...categoryProblems(book.categories?.value ?? []),
    ...byCategoryProblems(book),
    ...courseProblems(book),
    ...timeProblems(book),
    ...scoringProblems(book),
  ];
}

function categoryProblems(categories: readonly Category[]): BookProblem[] {
  const problems = repeats(
    'categories',
    categories.map((c) => c.id),
  );
  const end = (c: Category): number => c.below ?? Infinity;
  for (const c of categories)
    if (!(c.from < end(c))) problems.push({ problem: 'emptyCategory', category: c.id });
  const sorted = categories.filter((c) => c.from < end(c)).sort((a, b) => a.from - b.from);
  sorted.forEach((next, i) => {
    const before = sorted[i - 1];
    if (!before) return;
    const pair = [before.id, next.id] as const;
    if (next.from < end(before)) problems.push({ problem: 'overlap', categories: pair });
    else if (next.from > end(before))
      problems.push({ problem: 'gap', categories: pair, from: end(before), to: next.from });
  });
  return problems;
}

function byCategoryProblems(book: RuleBook): BookProblem[] {
  const { equipment: e, course } = book;
  const lists: [string, RangeByCategory | undefined][] = [
    ['bars', book.bars?.value],
    ['course.spacing', course.spacing?.value.byCategory],
    ['equipment.spread.depth', e.spread?.depth?.value],
    ['equipment.tyre.centreHeight', e.tyre?.centreHeight?.value],
    ['equipment.longJump.length', e.longJump?.length?.value],
    ['equipment.longJump.units', e.longJump?.units?.value],
    ['equipment.table.height', e.table?.height?.value],
  ];
  const known = new Set((book.categories?.value ?? []).map((c) => c.id));
  return lists.flatMap(([where, list]) => {
    const named = (list ?? []).map((r) => r.category);
    return [...repeats(where, named), ...unknown('unknownCategory', where, named, known)];
  });
}

function courseProblems({ course }: RuleBook): BookProblem[] {
  const { least = 0, most = Infinity } = course.obstacles?.value ?? {};
  return [
    ...(least > most ? [{ problem: 'leastOverMost', where: 'course.obstacles' } as const] : []),
    ...repeats('course.hurdles.kinds', course.hurdles?.value.kinds ?? []),
  ];
}

function timeProblems({ times, scoring }: RuleBook): BookProblem[] {
  const levels = new Set(scoring.levels.map((l) => l.value.id));
  const one = (where: string, { rule, levels: named = [], disciplines = [] }: TimeRuleFor): BookProblem[] => [
    ...unknown('unknownLevel', where, named, levels),
    ...repeats(where, named),
    ...repeats(where, disciplines),
    ...(rule.value.form === 'timesStandard' && rule.value.least > rule.value.usual
      ? [{ problem: 'leastOverMost', where } as const]
      : []),
  ];
  return [
    ...times.standard.flatMap((t, i) => [
      ...one(`times.standard.${i}`, t),
      ...(t.rule.value.form === 'timesStandard'
        ? [{ problem: 'standardOfItself', where: `times.standard.${i}` } as const]
        : []),
    ]),
    ...times.maximum.flatMap((t, i) => one(`times.maximum.${i}`, t)),
  ];
}

function scoringProblems({ scoring: s }: RuleBook): BookProblem[] {
  const classes = s.resultClasses?.value ?? [];
  const order = classes.flatMap((c, i): BookProblem[] => {
    const before = classes[i - 1];
    return before && before.upTo >= c.upTo
      ? [{ problem: 'resultClassOrder', classes: [before.id, c.id] }]
      : [];
  });
  return [
    ...repeats(
      'scoring.levels',
      s.levels.map((l) => l.value.id),
    ),
    ...s.levels.flatMap((l, i) => repeats(`scoring.levels.${i}.notCounted`, l.value.notCounted)),
    ...repeats(
      'scoring.resultClasses',
      classes.map((c) => c.id),
    ),
    ...order,
    ...repeats('scoring.refusals', s.refusals?.value ?? []),
    ...repeats('scoring.eliminations', s.eliminations?.value ?? []),
    ...repeats(
      'scoring.contacts',
      (s.contacts?.value ?? []).map((c) => c.kind),
    ),
    ...repeats('scoring.ranking.keys', s.ranking?.value.keys ?? []),
  ];
}

function repeats(where: string, ids: readonly string[]): BookProblem[] {
  const seen = new Set<string>();
  const told = new Set<string>();
  for (const id of ids) (seen.has(id) ? told : seen).add(id);
  return [...told].map((what) => ({ problem: 'repeated', where, what }));
}

function unknown(
  problem: 'unknownCategory' | 'unknownLevel',
  where: string,
  named: readonly string[],
  known: ReadonlySet<string>,
): BookProblem[] {
  return [...new Set(named)].filter((id) => !known.has(id)).map((what) => ({ problem, where, what }));
}
