import { listed, plural } from './locale.ts';

/** Words of the page of rules beside a course. */
export const rulesPageWords = {
  title: 'Held against the rules',
  book: 'Rule book',
  noBook: 'none: an exercise',
  /** Not chosen yet. */
  choose: 'Choose the rule book that this course is built by; it is then checked while you draw.',
  use: (name: string) => `Use “${name}”`,
  more: 'Rule books of your own are taken in under Settings.',
  notHere: (name: string) =>
    `This course is built by “${name}”, which is not in this library. Take it in under Settings, or choose another.`,
  differs: (name: string) =>
    `“${name}” has other entries here than the book that this course was built by. What is said below goes by the one here.`,
  goByIt: 'Go by the one here',
  reading: 'Reading the rule book…',
  category: 'Height category',
  level: 'Level',
  discipline: 'Discipline',
  disciplines: { agility: 'agility', jumping: 'jumping' },
  unsaid: 'not said',
  notInBook: (text: string) => `${text} (not in this book)`,
  times: 'Lengths and course times',
  speed: 'Speed the judge chose, m/s',
  bestTime: 'Best dog’s time, s',
  standard: 'Standard course time as stated, s',
  maximum: 'Maximum course time as stated, s',
  bookMeasures: {
    centres: 'The book measures straight from centre to centre.',
    wheelPath: 'The book measures along the path dogs will take.',
    unsaid: 'The book does not say how the length is measured.',
  },
  notANumber: (label: string, least: number, most: number) =>
    `“${label}” takes a number from ${String(least)} to ${String(most)}. It was left as it was.`,
  cautions: 'Heights and dogs',
  /** Counts over all findings. */
  sum: (off: number, open: number, held: number): string =>
    [
      off === 0 ? '' : plural(off, { one: '# not as the book asks', other: '# not as the book asks' }),
      open === 0 ? '' : `${open} cannot be told`,
      held === 0 ? '' : `${held} as the book asks`,
    ]
      .filter((part) => part !== '')
      .join(', '),
  nothingToCheck: 'This book says nothing about courses that could be checked.',
  kept: (n: number): string =>
    plural(n, { one: '# rule is kept altogether', other: '# rules are kept altogether' }),
  held: (n: number): string => plural(n, { one: '# as the book asks', other: '# as the book asks' }),
  show: (numbers: readonly number[]): string => `Show ${listed(numbers.map(String))} on the map`,
  verdicts: { off: 'not as the book asks', open: 'cannot tell' },
  source: (provenance: string): string => `Rule: ${provenance}`,
  unofficial: 'Measured on the drawing and unofficial: the judge’s wheel and the judge’s call stand.',
  labels: {
    book: (name: string) => `Choose the rule book “${name}”`,
    noBook: 'Choose no rule book',
    head: (field: string) => `Field: ${field}`,
  },
} as const;
