import type { SoundRefusal } from '../time/lineUp/bySound.ts';
import { figure } from './figures.ts';

/** Why two clips cannot be lined up by sound, and what to do instead. */
export const lineUpRefusals: Readonly<Record<SoundRefusal, string>> = {
  tooShort: 'The clips are too short to be lined up by sound. Use a moment that both show.',
  silent: 'There is too little to hear on one of the clips. Use a moment that both show.',
  unlike:
    'The two clips do not hold the same sounds, so they may not be of the same run. Use a moment that both show, if there is one.',
  ambiguous:
    'The sound fits in more than one place, as a steady beep or music does. Use a moment that both show.',
};

/** A plus or minus of seconds, as people read it: milliseconds would pretend too much. */
const within = (seconds: number): string =>
  figure({ value: 0, plusMinus: seconds, unit: 's' }).replace(/^.*± /, '± ') + ' s';

/** How clips of one run are lined up, and what is said about it. */
export const lineUpWords = {
  about: (to: string, of: string): string => `${of} to ${to}`,
  title: 'Clips of this run',
  open: 'Line up',
  oneClip: 'This review has one clip. Add another one of the same run, and both can be lined up.',
  intro: (moves: string, stays: string): string =>
    `Puts “${moves}” onto the clock of “${stays}”, so that both show the same instant. It can be undone.`,
  standing: {
    loose: 'Not lined up yet. Times between the two clips say nothing until they are.',
    sound: (plusMinus: number, metres: number): string =>
      `Lined up by sound, ${within(plusMinus)}, with ${metres} m between the cameras.`,
    moment: (plusMinus: number): string => `Lined up by a moment that both show, ${within(plusMinus)}.`,
  },
  other: 'The other clip',
  bySound: 'By sound',
  bySoundWhy:
    'Compares what both clips hear. A far camera hears later than it sees, so the plus or minus grows with the distance.',
  spacing: 'Metres between the cameras',
  spacingBad: 'A distance from 0 to 1000 m.',
  listen: 'Line up by sound',
  listening: 'Listening …',
  stop: 'Stop',
  byMoment: 'By a moment that both show',
  byMomentWhy: 'You show the same moment on both clips, such as a paw touching the ground. Surer than sound.',
  showMoment: 'Show the moment',
  close: 'Close',
  slowMotion: 'Sound cannot line up slow motion: what is heard is stretched. Use a moment that both show.',
  momentStays:
    'These clips are lined up by a moment that both show. That is surer than sound, so it stays. Undo it first to use sound.',
  agrees: (compared: number, agree: number): string => `${agree} of ${compared} sounds agree.`,
  label: {
    sound: (moves: string, plusMinus: number): string => `${moves} lined up by sound, ${within(plusMinus)}`,
    moment: (moves: string, plusMinus: number): string =>
      `${moves} lined up by a moment, ${within(plusMinus)}`,
  },
  mode: {
    title: (n: 1 | 2): string => (n === 1 ? 'The same moment, first clip' : 'The same moment, second clip'),
    first: 'Go to a moment that both clips show, then mark it here.',
    second: 'Now go to the same moment on this clip, at the first frame that shows it.',
    same: 'this is the moment',
    sameClip: 'That is the same clip. Change to the other one first.',
  },
  away: {
    before: (seconds: string): string => `This clip begins ${seconds} s later. Its first frame is shown.`,
    after: (seconds: string): string => `This clip ended ${seconds} s before. Its last frame is shown.`,
  },
  chip: { loose: 'not lined up', linedUp: (plusMinus: number): string => within(plusMinus) },
  addClip: 'Add a clip of this run',
} as const;
