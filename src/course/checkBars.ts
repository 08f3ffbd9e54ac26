import type { Course } from './course.ts';
import { cannotTell, judge, type CourseFinding } from './courseFindings.ts';
import type { ObstacleKind } from './kinds.ts';
import type { RuleBook } from './rules/book.ts';
import { named } from './rules/entries.ts';

/** Kinds with a bar whose height the category sets. */
const barred: ReadonlySet<ObstacleKind> = new Set(['barJump', 'spread']);

/** Heights of bars, where they are given: one finding an obstacle that carries a number. */
export function checkBars(course: Course, book: RuleBook, category: string | undefined): CourseFinding[] {
  const entry = book.bars;
  if (!entry) return [];
  const of = { about: { what: 'bar', category: category ?? null }, rule: named('bars', entry) } as const;
  const limits = entry.value.find((l) => l.category === category);
  const given = course.obstacles.flatMap((o) => {
    const numbers = course.steps.filter((s) => s.obstacleId === o.id).map((s) => s.number);
    const height = o.sizes?.height;
    return barred.has(o.kind) && height !== undefined && numbers.length > 0 ? [{ numbers, height }] : [];
  });
  if (given.length === 0) return [];
  if (!limits) {
    const why = category === undefined ? 'noCategory' : 'categoryNotInRule';
    return [{ ...of, judgement: cannotTell(why), numbers: given.flatMap((g) => g.numbers) }];
  }
  return given.map(({ numbers, height }) => ({ ...of, judgement: judge(height * 100, limits, 1), numbers }));
}
