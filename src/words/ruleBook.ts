import type { BookProblem } from '../course/rules/bookProblems.ts';
import type { EntryStatus, Source } from '../course/rules/entry.ts';
import { plural } from './locale.ts';

const characters = (n: number): string => plural(n, { one: '# character', other: '# characters' });

const cm = (n: number): string => `${String(n)} cm`;

/** "common practice" is both the source and the status of what the trade does: once is enough. */
const parts = (...all: readonly string[]): string =>
  all.filter((part, i) => part !== '' && all.indexOf(part) === i).join('; ');

/** Words about rule books: what is wrong with one that somebody wrote, and how well an entry is known. */
export const ruleBookWords = {
  leastOverMost: '"least" is more than "most". Swap them, or correct one.',
  tooLarge: (length: number, most: number): string =>
    `The file is too large for a rule book: ${characters(length)}, and ${characters(most)} is the most.`,
  notRuleBook: 'This is not a rule book: its "format" should be "walkback.rules".',
  tooNew: (version: number, known: number): string =>
    `This rule book has version ${version}; this program reads up to version ${known}. Update the program to use it.`,
  problem: (p: BookProblem): string => {
    switch (p.problem) {
      case 'repeated':
        return `${p.where}: "${p.what}" occurs more than once; each may stand only once.`;
      case 'emptyCategory':
        return `categories: no dog fits into "${p.category}": it begins where it ends, or above. Correct "from" or "below".`;
      case 'overlap':
        return `categories: "${p.categories[0]}" and "${p.categories[1]}" overlap; a dog would belong to both. Let the one end where the next begins.`;
      case 'gap':
        return `categories: dogs from ${cm(p.from)} to below ${cm(p.to)} belong neither to "${p.categories[0]}" nor to "${p.categories[1]}". Let the one end where the next begins.`;
      case 'unknownCategory':
        return `${p.where}: there is no height category "${p.what}" in this book. Add it under "categories", or correct the name.`;
      case 'unknownLevel':
        return `${p.where}: there is no level "${p.what}" in this book. Add it under "scoring.levels", or correct the name.`;
      case 'resultClassOrder':
        return `scoring.resultClasses: "${p.classes[1]}" has to reach further than "${p.classes[0]}", which stands before it. Put the best class first.`;
      case 'leastOverMost':
        return `${p.where}: the least is more than the usual or the most. Swap them, or correct one.`;
      case 'standardOfItself':
        return `${p.where}: the standard course time cannot be a multiple of itself. Choose another form.`;
    }
  },
  status: {
    seen: 'read',
    recomputed: 'read and worked out again',
    derived: 'worked out',
    memory: 'from memory, not read',
    practice: 'common practice',
    stated: 'as the book’s writer states it',
  } satisfies Record<EntryStatus, string>,
  kind: {
    original: 'the regulations',
    nationalBody: 'a national body',
    secondary: 'a page that retells the rules',
    own: '',
  } satisfies Record<Source['kind'], string>,
  edition: {
    this: '',
    earlier: 'an earlier edition',
    otherBody: 'another body’s rules',
    unstated: 'edition not stated',
  } satisfies Record<Source['edition'], string>,
  /** Where an entry comes from. */
  from: (source: Source): string =>
    parts(source.text, ruleBookWords.kind[source.kind], ruleBookWords.edition[source.edition]),
  /** Where an entry comes from and how well it is known. */
  provenance: ({ source, status }: { readonly source: Source; readonly status: EntryStatus }): string =>
    parts(
      source.text,
      ruleBookWords.kind[source.kind],
      ruleBookWords.edition[source.edition],
      ruleBookWords.status[status],
    ),
} as const;
