import { issueTold, problemWords } from '../../words/problems.ts';
import { ruleBookWords } from '../../words/ruleBook.ts';
import { RuleBook, ruleBookFormat, ruleBookVersion } from './book.ts';
import { bookProblems } from './bookProblems.ts';

/** The largest rule book that is read, characters. */
export const largestRuleBook = 1024 * 1024;
/** Problems told at once; a file of ten thousand mistakes is told by its first few. */
const mostProblems = 20;

export type BookReading =
  | { readonly ok: true; readonly book: RuleBook }
  | { readonly ok: false; readonly code: 'badInput' | 'tooNew'; readonly problems: readonly string[] };

/**
 * Reads a rule book that somebody wrote. Never throws: what is wrong comes back as sentences, one a problem.
 * Checked: size, JSON, format and version, schema, and that its parts fit together.
 */
export function readBook(text: string): BookReading {
  if (text.length > largestRuleBook) return bad([ruleBookWords.tooLarge(text.length, largestRuleBook)]);
  if (text.trim() === '') return bad([problemWords.empty]);
  let raw: unknown;
  try {
    raw = JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
  } catch (error) {
    return bad([problemWords.notJson(error instanceof Error ? error.message : String(error))]);
  }
  if (typeof raw !== 'object' || raw === null || !('format' in raw) || raw.format !== ruleBookFormat)
    return bad([ruleBookWords.notRuleBook]);
  if ('version' in raw && typeof raw.version === 'number' && raw.version > ruleBookVersion)
    return {
      ok: false,
      code: 'tooNew',
      problems: [ruleBookWords.tooNew(raw.version, ruleBookVersion)],
    };
  const parsed = RuleBook.safeParse(raw);
  if (!parsed.success) return bad(parsed.error.issues.map(issueTold));
  const problems = bookProblems(parsed.data);
  return problems.length > 0 ? bad(problems.map(ruleBookWords.problem)) : { ok: true, book: parsed.data };
}

function bad(problems: readonly string[]): BookReading {
  const told = problems.slice(0, mostProblems);
  const left = problems.length - told.length;
  return { ok: false, code: 'badInput', problems: left > 0 ? [...told, ruleBookWords.more(left)] : told };
}
