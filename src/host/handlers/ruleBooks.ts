import { basename, join } from 'node:path';
import { largestRuleBook, readBook } from '../../course/rules/readBook.ts';
import type { RuleBook } from '../../course/rules/book.ts';
import { hostTroubles } from '../../words/hostTroubles.ts';
import { ruleBookWords } from '../../words/ruleBook.ts';
import type { CallHandler } from '../desk.ts';
import { given, type Given } from '../fileSource.ts';
import { givenText } from '../givenText.ts';
import { safeFileName } from '../fileName.ts';
import { contentOf, ruleBookOf, summaryOf, workedBook } from '../ruleBooks.ts';
import { trouble } from '../troubles.ts';
import { writeWhole } from '../wholeFile.ts';

export const ruleBookRead: CallHandler<'ruleBook.read'> = (desk, { id }) => {
  const book = ruleBookOf(desk.library, id);
  return { book, content: contentOf(book) };
};

/** Takes in the rule book in a file. Read and checked as a whole before anything is kept. */
export const ruleBookTake: CallHandler<'ruleBook.take'> = async (desk, { source, replace }) => {
  const file = await given(desk, source);
  try {
    const book = await read(file);
    if (book.id === workedBook.id) {
      if (contentOf(book) !== contentOf(workedBook))
        throw trouble('conflict', hostTroubles.workedBookId(file.name, book.id, workedBook.name));
      return { was: 'same', act: null, book: summaryOf(workedBook) };
    }
    const { was, act } = desk.library.ruleBooks.take(book, replace);
    if (act !== null) desk.hub.ruleBooksChanged();
    return { was, act, book: summaryOf(book) };
  } finally {
    if (file.uploadId !== null) await desk.uploads.forget(file.uploadId);
  }
};

async function read(file: Given): Promise<RuleBook> {
  // A character of UTF-8 takes four bytes at the most; the reader counts characters.
  if (file.bytes > 4 * largestRuleBook) {
    throw trouble(
      'badInput',
      hostTroubles.ruleBookFile(file.name, [ruleBookWords.tooLarge(file.bytes, largestRuleBook)]),
    );
  }
  const reading = readBook(await givenText(file));
  if (!reading.ok) throw trouble(reading.code, hostTroubles.ruleBookFile(file.name, reading.problems));
  return reading.book;
}

export const ruleBookRemove: CallHandler<'ruleBook.remove'> = (desk, { id }) => {
  if (id === workedBook.id) throw trouble('conflict', hostTroubles.workedBookStays(workedBook.name));
  const act = desk.library.ruleBooks.remove(id);
  desk.hub.ruleBooksChanged();
  return { act };
};

export const ruleBookTakeBack: CallHandler<'ruleBook.takeBack'> = (desk, { act }) => {
  desk.library.ruleBooks.takeBack(act);
  desk.hub.ruleBooksChanged();
  return {};
};

/**
 * Writes a rule book into the library's folder of things to hand over, as a file that can be taken in elsewhere.
 * A file of an earlier writing gives way; it belongs to the library and is named after the book.
 */
export const ruleBookWrite: CallHandler<'ruleBook.write'> = async (desk, { id }) => {
  const book = ruleBookOf(desk.library, id);
  const path = join(desk.library.layout.reports, safeFileName(`${book.id}.rules.json`));
  const bytes = await writeWhole(path, `${JSON.stringify(book, null, 2)}\n`);
  return { mediaId: desk.media.idFor(path), path, name: basename(path), bytes };
};
