import { plural } from './locale.ts';

const characters = (n: number): string => plural(n, { one: '# character', other: '# characters' });

/** Words about the file in which a dog is handed over: what is wrong with one that somebody wrote. */
export const dogFileWords = {
  tooLarge: (length: number, most: number): string =>
    `The file is too large for a dog: ${characters(length)}, and ${characters(most)} is the most.`,
  notDog: 'This is not the file of a dog: its "format" should be "walkback.dog".',
  tooNew: (version: number, known: number): string =>
    `This file of a dog has version ${version}; this program reads up to version ${known}. Update the program to use it.`,
  more: (n: number): string => plural(n, { one: 'And # more problem.', other: 'And # more problems.' }),
} as const;
