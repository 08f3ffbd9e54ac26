import { plural } from './locale.ts';

/** Words of the Library. */
export const libraryWords = {
  title: 'Library',
  acts: {
    bringIn: 'Bring in a video',
    fromMachine: 'Choose from this machine',
    newReview: 'New review without a video',
    find: 'Find a review',
    down: 'Next review',
    up: 'Previous review',
    remove: 'Remove the chosen review',
  },
  obstacles: (n: number) => plural(n, { one: '# obstacle', other: '# obstacles' }),
} as const;
