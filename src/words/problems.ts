import type { CourseProblem } from '../course/course.ts';
import { fileSize, plural } from './locale.ts';

/** Sentences about a review file that cannot be taken in: what is wrong, where, and what to do. */
export const problemWords = {
  tooLarge: (bytes: number, most: number): string =>
    `The file is too large for a review: ${fileSize(bytes)}, and ${fileSize(most)} is the most.`,
  empty: 'The file is empty.',
  notJson: (detail: string): string => `The file is not JSON: ${detail}.`,
  notReview: 'This is not a review file: its "format" should be "walkback.review".',
  isRuleBook: 'This is a rule book, not a review. Take it in under Settings, Rule books.',
  isDog:
    'This is the file of a dog, not a review. Take it in on the page Dog of a course, or drop it on the window.',
  more: (n: number): string => plural(n, { one: 'And # more problem.', other: 'And # more problems.' }),
  tooNew: (version: number, known: number): string =>
    `This review file has version ${version}; this program reads up to version ${known}. Update the program to open it.`,
  at: (path: string, what: string): string => `${path}: ${what}`,
  course: (p: CourseProblem): string => {
    switch (p.problem) {
      case 'repeatedNumber':
        return `course: number ${p.number} occurs more than once; each number may stand only once.`;
      case 'skippedNumber':
        return `course: number ${p.number} is missing; numbers run 1, 2, 3 … without a gap.`;
      case 'unknownObstacle':
        return `course: number ${p.number} stands on "${p.obstacleId}", which is not among the obstacles.`;
      case 'repeatedObstacle':
        return `course: the obstacle id "${p.obstacleId}" occurs more than once.`;
    }
  },
  unknownFootage: (mark: string, footage: string): string =>
    `mark "${mark}" points to footage "${footage}", which is not in the file.`,
  unknownCross: (mark: string, cross: string): string =>
    `mark "${mark}" belongs to cross "${cross}", which is not in the file.`,
  outsideFootage: (mark: string, name: string): string =>
    `mark "${mark}" lies outside the footage "${name}": its time is before the first frame or after the last.`,
  unknownPlace: (what: string, place: number, count: number): string =>
    `${what} names obstacle ${place}, but the course has ${count === 0 ? 'no numbers' : `numbers 1 to ${count}`}.`,
  repeatedId: (what: string, id: string): string => `${what} id "${id}" occurs more than once.`,
  frames: (name: string, detail: string): string => `footage "${name}": ${detail}.`,
  speed: (name: string, detail: string): string => `footage "${name}": ${detail}.`,
  cutOutside: (name: string): string =>
    `footage "${name}": its cut ends before it begins, or lies outside of the clip's first and last frame.`,
  runOutside: (name: string, dog: string): string =>
    `footage "${name}": ${dog === '' ? 'a run' : `the run of ${dog}`} ends before it begins, or lies outside of the clip.`,
} as const;

/** The longest piece of a file that is repeated to the reader. */
const longestTold = 300;
const cut = (text: string): string => (text.length > longestTold ? `${text.slice(0, longestTold)}…` : text);

/** One sentence for what a schema found: where in the file, and what. Names of the file's own are cut where long. */
export function issueTold(issue: {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}): string {
  const path = issue.path.map(String).join('.');
  return problemWords.at(path === '' ? 'file' : cut(path), cut(issue.message));
}
