import { clipLength } from './library.ts';
import { plural } from './locale.ts';

/** A place in a clip, as players show it: "0:07", "12:30". */
export function placeInClip(seconds: number): string {
  const whole = Math.floor(seconds + 1e-6);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** Words about runs of several dogs in one clip, and the part of a clip that a review is about. */
export const clipCutWords = {
  title: 'Cut this clip by dog',
  titleCut: 'The part this review is about',
  intro:
    'Go through the clip once: press where a run begins and where it ends. Each becomes a review of its own. The clip stays one file; nothing is copied.',
  none: 'No run is found yet.',
  run: (n: number) => `Run ${n}`,
  from: (clock: string) => `from ${clock}`,
  fromTo: (from: string, to: string, seconds: number) => `${from} to ${to}, ${clipLength(seconds)}`,
  open: 'its end is not said yet',
  dog: 'Dog',
  handler: 'Handler',
  dogOf: (n: number) => `Dog of run ${n}`,
  handlerOf: (n: number) => `Handler of run ${n}`,
  goOf: (n: number, when: string) => `Go to run ${n}, ${when}`,
  remove: 'Remove',
  removeOf: (n: number) => `Remove run ${n}`,
  made: 'Open its review',
  madeOf: (n: number) => `Open the review of run ${n}`,
  make: (n: number) => plural(n, { one: 'Make # review', other: 'Make # reviews' }),
  makeNone: 'Make the reviews',
  begin: 'A run begins here',
  end: 'It ends here',
  beginCut: 'It begins here',
  endCut: 'It ends here',
  now: (from: string, to: string, seconds: number, clip: string) =>
    `${from} to ${to} of “${clip}”, ${clipLength(seconds)}.`,
  within: 'Stepping, playing and the line of time keep to this part.',
  beyondOn: 'Look beyond it',
  beyondOff: 'Keep to it again',
  wholeClip: 'Use the whole clip',
  chip: 'Part of a clip',
  chipBeyond: 'Looking beyond the cut',
  done: 'Done',
  titleOf: (dog: string, clip: string, n: number) => (dog === '' ? `${clip}, run ${n}` : `${dog}, ${clip}`),
  said: {
    noClip: 'There is no clip here to cut.',
    beginFirst: 'Say first where a run begins.',
    endsBefore: 'A run cannot end before it begins.',
    beginsAfter: 'It cannot begin after it ends.',
    nothingToMake: 'No run has both its ends yet, or all have their review.',
    full: 'That is as many runs as one clip can hold.',
    beyond: 'Looking beyond the cut. Marks made there count as well.',
    within: 'Keeping to the cut again.',
    making: 'Making the reviews …',
  },
  /** How a failure to make one of the reviews is told. */
  notMade: (n: number, why: string) => `The review of run ${n} was not made. ${why}`,
  allMade: (n: number) => plural(n, { one: '# review was made.', other: '# reviews were made.' }),
  /** Labels of acts, as undo names them. */
  acts: {
    begins: (n: number) => `run ${n} begins`,
    ends: (n: number) => `run ${n} ends`,
    named: (n: number) => `names of run ${n}`,
    removed: (n: number) => `run ${n}, removed`,
    made: (n: number) => plural(n, { one: '# review made', other: '# reviews made' }),
    cut: 'part of the clip, changed',
    whole: 'whole clip',
    course: 'course of the class',
  },
  /** Acts as the sheet of keys names them. */
  keys: {
    open: 'Cut this clip by dog',
    begin: 'Cut: a run begins here',
    end: 'Cut: it ends here',
    name: 'Cut: name the dog',
    make: 'Cut: make the reviews',
    beyond: 'Cut: look beyond it, or keep to it',
    remove: 'Cut: remove the run here',
  },
  /** The strip of keys. */
  strip: {
    title: 'Cut this clip',
    open: 'cut by dog',
    begin: 'begins here',
    end: 'ends here',
    name: 'name',
    make: 'make the reviews',
    beyond: 'look beyond',
    remove: 'remove',
  },
} as const;
