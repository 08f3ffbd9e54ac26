import { createHash } from 'node:crypto';
import type { Course } from '../course/course.ts';
import { RuleBook } from '../course/rules/book.ts';
import { entriesOf } from '../course/rules/entries.ts';
import { fci2023 } from '../course/rules/fci2023.ts';
import type { Library } from '../library/library.ts';
import { LibraryTrouble } from '../library/trouble.ts';
import type { RuleBookSummary } from './contract/shapes.ts';

/** The worked rule book: part of the program, in every library, not to be removed or replaced. */
export const workedBook = fci2023;

/** A book by its id: the worked one, or one that a user took in. Throws LibraryTrouble `notFound`, `damaged`. */
export function ruleBookOf(library: Library, id: string): RuleBook {
  return id === workedBook.id ? workedBook : library.ruleBooks.read(id);
}

/** The book that a course is built by; undefined where it names none, or this library has none that can be read. */
export function bookOfCourse(library: Library, { ruleBook }: Course): RuleBook | undefined {
  if (ruleBook === undefined) return undefined;
  try {
    return ruleBookOf(library, ruleBook);
  } catch (error) {
    // A drawing does not wait for a book: the Rules page says what is wrong with it.
    if (error instanceof LibraryTrouble) return undefined;
    throw error;
  }
}

/** SHA-256 of a book's entries. The same book has the same, however its file was written. */
export function contentOf(book: RuleBook): string {
  // Parsed anew: then its parts stand in the order of the schema, and what may be left out is filled in.
  return createHash('sha256')
    .update(JSON.stringify(RuleBook.parse(book)))
    .digest('hex');
}

/** Summaries by book; a library tells its list far more often than a book changes. */
const summaries = new WeakMap<RuleBook, RuleBookSummary>();

/** What the list of rule books shows: the worked one first, then those of the user in the order they came. */
export function ruleBookSummaries(library: Library): RuleBookSummary[] {
  const own = library.ruleBooks.list().filter(({ id }) => id !== workedBook.id);
  return [
    summaryOf(workedBook),
    ...own.map(({ id, name, body: book }): RuleBookSummary =>
      book
        ? summaryOf(book)
        : { id, name, worked: false, content: null, entries: 0, fromMemory: 0, categories: [], levels: [] },
    ),
  ];
}

export function summaryOf(book: RuleBook): RuleBookSummary {
  const there = summaries.get(book);
  if (there) return there;
  const entries = entriesOf(book);
  const made: RuleBookSummary = {
    id: book.id,
    name: book.name,
    worked: book.id === workedBook.id,
    content: contentOf(book),
    entries: entries.length,
    fromMemory: entries.filter((e) => e.status === 'memory').length,
    categories: (book.categories?.value ?? []).map(({ id, name }) => ({ id, name })),
    levels: book.scoring.levels.map(({ value: { id, name } }) => ({ id, name })),
  };
  summaries.set(book, made);
  return made;
}
