import { useEffect, useMemo } from 'react';
import { builtBy } from '../../../src/course/builtBy.ts';
import type { Course } from '../../../src/course/course.ts';
import type { RuleBook } from '../../../src/course/rules/book.ts';
import type { RuleBookSummary } from '../../../src/host/contract/shapes.ts';
import { useRuleBooks, useWorkbench } from './react.ts';
import { ruleBookIn } from './ruleBooks.ts';

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

/** A course as it stands when its equipment is built by its rule book, as soon as that is read. */
export function useBuilt(course: Course): Course {
  const { book } = useBookOf(course);
  return useMemo(() => builtBy(course, book), [course, book]);
}

/** The course built by a book, or by none. */
export function withBook(course: Course, book: RuleBookSummary | undefined): Course {
  const { ruleBook: _, ruleBookChosen: __, ...rest } = course;
  if (!book) return rest;
  const { id, name, content } = book;
  return { ...rest, ruleBook: id, ...(content === null ? {} : { ruleBookChosen: { name, content } }) };
}

/** What a list of rule books offers for a course: those that can be read, none, and the one it names though it is not here. */
export interface BookChoice {
  readonly usable: readonly RuleBookSummary[];
  readonly options: readonly (readonly [id: string, name: string])[];
  /** What the course calls its book; empty where it has none. */
  readonly name: string;
}

/** @param none what is said for no book */
export function bookChoice(
  { ruleBook, ruleBookChosen }: Course,
  books: readonly RuleBookSummary[],
  none: string,
): BookChoice {
  const usable = books.filter((b) => b.content !== null);
  const name = ruleBookChosen?.name ?? ruleBook ?? '';
  const elsewhere = ruleBook !== undefined && !usable.some((b) => b.id === ruleBook);
  const here = usable.map((b) => [b.id, b.name] as const);
  return { usable, name, options: [['', none], ...here, ...(elsewhere ? [[ruleBook, name] as const] : [])] };
}
