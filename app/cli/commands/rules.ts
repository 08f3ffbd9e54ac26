import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { entriesOf } from '../../../src/course/rules/entries.ts';
import type { RuleBook } from '../../../src/course/rules/book.ts';
import { largestRuleBook, readBook } from '../../../src/course/rules/readBook.ts';
import { cliWords } from '../../../src/words/cli.ts';
import { ruleBookWords } from '../../../src/words/ruleBook.ts';
import type { Output } from '../output.ts';
import { readTextFile } from '../textFile.ts';
import { BadInput } from '../trouble.ts';

/**
 * Prints a rule book: every entry with where it comes from, or the whole as JSON. Without a file, the worked book,
 * which is also what to begin a book of one's own from.
 * @throws BadInput where the file is no rule book; each further problem is a remark before it
 */
export async function printRules(path: string | undefined, json: boolean, out: Output): Promise<void> {
  const book = path === undefined ? fci2023 : await readRuleBook(path, out);
  if (json) {
    out.json(book);
    return;
  }
  const entries = entriesOf(book);
  out.text(cliWords.rulesTitle(book.name, entries.length));
  if (book.about !== '') out.text(book.about);
  for (const e of entries)
    out.text(cliWords.ruleLine(e.name, JSON.stringify(e.value), ruleBookWords.provenance(e), e.remark ?? ''));
}

async function readRuleBook(path: string, out: Output): Promise<RuleBook> {
  const text = await readTextFile(path, {
    // A character of UTF-8 takes four bytes at the most; readBook counts characters.
    largest: largestRuleBook * 4,
    tooLarge: (size) => cliWords.badRules(path, ruleBookWords.tooLarge(size, largestRuleBook)),
    notText: cliWords.notTextRules(path),
  });
  const reading = readBook(text);
  if (reading.ok) return reading.book;
  const [first = '', ...others] = reading.problems;
  for (const other of others) out.remark(cliWords.badRules(path, other));
  throw new BadInput(
    reading.code === 'tooNew' ? cliWords.tooNewReview(path, first) : cliWords.badRules(path, first),
  );
}
