import { listed, plural } from './locale.ts';

/** Words of the parts under the splits: sections, kinds of obstacle, speeds. */
export const splitPartWords = {
  sections: {
    title: 'Sections',
    none: 'Name a part of the course, and its time stands here: the opening, the poles, the way home.',
    add: 'Add a section',
    newName: (n: number): string => `Part ${n}`,
    name: (n: number): string => `Name of section ${n}`,
    from: (name: string): string => `${name}: from`,
    to: (name: string): string => `${name}: to`,
    fromStart: 'start',
    number: (n: number): string => String(n),
    remove: (name: string): string => `Take out ${name}`,
    removeShort: 'Take out',
    missing: (numbers: readonly number[]): string =>
      `not marked: ${listed(numbers.map((n) => (n === 0 ? 'the start of the clock' : String(n))))}`,
    outOfOrder: 'its marks are out of order',
    act: 'Sections',
  },
  kinds: {
    title: 'Time on each kind of obstacle',
    count: (n: number): string => plural(n, { one: '# taken', other: '# taken' }),
    none: 'Both edges of an obstacle are needed, in and out.',
  },
  speeds: {
    title: 'Speed by stretch',
    real: 'real line',
    realPart: 'real line, part of it a guess',
    likely: 'likely line',
    how: 'From out to out. Where her line was marked it is the real line, and where only part of it was, that is said; elsewhere it is the line she was likely to take, with the range of a dog that turns tightly or widely.',
    none: 'Neither a real line nor a drawn course is there to measure along.',
  },
} as const;
