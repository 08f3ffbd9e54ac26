import { plural } from './locale.ts';

const entries = (n: number): string => plural(n, { one: '# entry', other: '# entries' });

/** Words about the rule books of a library: the list, a look into one, taking in, handing over. */
export const ruleBooksWords = {
  title: 'Rule books',
  intro:
    'Courses are checked by a rule book. The worked one is always here; books of your own are JSON files. To write one, save the worked one, give it an id and a name of your own, change its entries, and take it in.',
  list: 'Rule books in this library',
  worked: 'part of Walkback',
  facts: (all: number, fromMemory: number): string =>
    fromMemory === 0 ? entries(all) : `${entries(all)}, ${fromMemory} of them from memory`,
  damaged: 'What is stored of it is damaged. Remove it, then take it in again.',
  take: 'Take in a rule book',
  look: 'Look into it',
  lookNamed: (name: string) => `Look into “${name}”`,
  save: 'Save a copy',
  saveNamed: (name: string) => `Save a copy of “${name}”`,
  remove: 'Remove',
  removeNamed: (name: string) => `Remove “${name}”`,
  taken: (name: string) => `“${name}” was taken in.`,
  replaced: (name: string) => `“${name}” was replaced.`,
  same: (name: string) => `“${name}” is here already, with the same entries.`,
  removed: (name: string) => `“${name}” was removed. Courses that are built by it keep its name.`,
  undo: 'Undo',
  undone: (name: string) => `“${name}” is as it was.`,
  saved: (name: string) => `“${name}” was saved.`,
  other: (there: string, id: string, file: string) =>
    `A rule book with the id “${id}” is here already (“${there}”), and its entries differ from those in “${file}”. Courses that are built by it would be checked by the new one.`,
  replace: 'Replace it',
  leave: 'Leave it as it is',
  /** A look into one. */
  close: 'Close',
  rule: 'Rule',
  says: 'What it says',
  from: 'Where it is from',
  reading: 'One moment…',
  find: 'Find an entry',
  noneFound: 'No entry has these words.',
  onlyMemory: 'Only what is from memory',
  book: (id: string) => `Its id is “${id}”. Figures stand as the book has them: cm, m and s.`,
} as const;
