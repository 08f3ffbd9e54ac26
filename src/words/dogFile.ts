import { plural } from './locale.ts';

const characters = (n: number): string => plural(n, { one: '# character', other: '# characters' });

/** Words about the file in which a dog is handed over: the ways in and out, and what is wrong with one. */
export const dogFileWords = {
  tooLarge: (length: number, most: number): string =>
    `The file is too large for a dog: ${characters(length)}, and ${characters(most)} is the most.`,
  notDog: 'This is not the file of a dog: its "format" should be "walkback.dog".',
  tooNew: (version: number, known: number): string =>
    `This file of a dog has version ${version}; this program reads up to version ${known}. Update the program to use it.`,

  save: (name: string) => `Save a file of ${name}`,
  saved: (name: string) => `A file of ${name} was saved.`,
  take: 'Take in a dog’s file',
  taken: (name: string) => `${name} is in the library now, with all that her file knows.`,
  replaced: (name: string) => `${name} is as her file has her.`,
  same: (name: string) => `${name} is here already, with the same figures.`,
  /** What is known here is left; the file is one press away. */
  other: (there: string, file: string) =>
    `${there} is here already, and what is known of her differs from “${file}”. She was left as she was.`,
  replace: 'Take what the file has',
  undo: 'Undo',
} as const;
