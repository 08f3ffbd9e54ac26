import { ruleBookWords } from '../../words/ruleBook.ts';
import { readHandedIn, type NotHandedIn } from '../file/handedIn.ts';
import { RuleBook, ruleBookFormat, ruleBookVersion } from './book.ts';
import { bookProblems } from './bookProblems.ts';

/** The largest rule book that is read, characters. */
export const largestRuleBook = 1024 * 1024;

export type BookReading = { readonly ok: true; readonly book: RuleBook } | NotHandedIn;

/** Reads a rule book that somebody wrote, and checks that its parts fit together; see `readHandedIn`. */
export function readBook(text: string): BookReading {
  const reading = readHandedIn(text, {
    format: ruleBookFormat,
    version: ruleBookVersion,
    largest: largestRuleBook,
    schema: RuleBook,
    words: { ...ruleBookWords, notThis: () => ruleBookWords.notRuleBook },
    problems: (book) => bookProblems(book).map(ruleBookWords.problem),
  });
  return reading.ok ? { ok: true, book: reading.value } : reading;
}
