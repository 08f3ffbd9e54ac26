import { useEffect, useMemo } from 'react';
import { checkCourse } from '../../../../src/course/checkCourse.ts';
import type { Course } from '../../../../src/course/course.ts';
import type { RuleBook } from '../../../../src/course/rules/book.ts';
import type { RuleBookSummary } from '../../../../src/host/contract/shapes.ts';
import { useRuleBooks, useWorkbench } from '../../stores/react.ts';
import { ruleBookIn } from '../../stores/ruleBooks.ts';
import { counted, findingGroups } from './findingGroups.ts';

/** The rule book that a course is built by, as far as this library has it. */
export function useBookOf({ ruleBook }: Course): {
  readonly summary: RuleBookSummary | undefined;
  readonly book: RuleBook | undefined;
} {
  const { ruleBooks } = useWorkbench();
  const found = ruleBookIn(
    useRuleBooks((view) => view),
    ruleBook,
  );
  const { summary } = found;
  useEffect(() => {
    if (ruleBook !== undefined) ruleBooks.want(ruleBook);
  }, [ruleBooks, ruleBook, summary]);
  return found;
}

/** How many findings are not as the book asks; 0 while there is no book. */
export function useCountOff(course: Course): number {
  const { book } = useBookOf(course);
  return useMemo(
    () => (book ? counted(findingGroups(checkCourse(course, book).findings)).off : 0),
    [course, book],
  );
}
