import type { CrossKind } from '../plan/plan.ts';
import type { Split } from '../review/analysis.ts';
import { figure } from './figures.ts';
import { plural } from './locale.ts';
import { capital } from './sentence.ts';
import { crossWords } from './trade.ts';

const shares: Readonly<Record<number, string>> = { 0.5: '1/2', 0.25: '1/4', 0.125: '1/8' };

/** "1/4", as a share of real time is written. */
const share = (speed: number): string => shares[speed] ?? String(speed);

const seconds = (s: number): string => `${s < 10 ? s.toFixed(1) : Math.round(s)} s`;

/** Words about clips to hand over: in the clip, in the dialog, and where one could not be made. */
export const clipWords = {
  onScreen: {
    speed: (speed: number) => `${share(speed)} speed`,
    split: ({ from, to, time }: Split) => `${from === null ? 'start' : from} → ${to}: ${figure(time)}`,
    broke: (of: number) =>
      of === 1 ? 'A paw moved before the release.' : `Try ${of}: a paw moved before the release.`,
    event: (place: number | null, name: string, note: string) =>
      `${place === null ? capital(name) : `${place}: ${name}`}${note === '' ? '' : `. ${note}`}`,
    cross: (place: number, kind: CrossKind, verdict: string, sentence: string) =>
      `${place}, ${crossWords[kind]}: ${verdict}. ${sentence}`,
  },
  acts: {
    open: 'Make a clip',
    short: 'Make the short clip',
  },
  short: {
    title: 'A short clip',
    intro: (points: number) =>
      plural(points, {
        one: '# point of this run, slowed, held and told: a film for the phone, without place or device in it.',
        other:
          '# points of this run, slowed, held and told: a film for the phone, without place or device in it.',
      }),
  },
  dialog: {
    title: 'Make a clip',
    what: 'What it shows',
    idea: {
      short: (points: number) => `The short one: ${plural(points, { one: '# point', other: '# points' })}`,
      cross: (place: number, kind: CrossKind, verdict: string) => `${place}: ${crossWords[kind]}, ${verdict}`,
      stretch: ({ from, to }: Split) => (from === null ? `Start to ${to}` : `Stretch ${from} to ${to}`),
      range: 'From one frame to another',
      beside: 'From here, side by side',
    },
    from: 'First frame',
    to: 'Last frame',
    frameHint: (most: number) => `A whole number up to ${most}.`,
    badFrames: 'The last frame has to come after the first, and both have to be frames of this clip.',
    speed: 'Slow motion',
    speeds: {
      none: 'none: real speed',
      about: (speed: number) => `${share(speed)} about the moment`,
      all: (speed: number) => `${share(speed)} all through`,
    },
    hold: 'Hold the frame for',
    holdHint: 'The frame that decides, with the words below under it.',
    holds: (s: number) => (s === 0 ? 'not at all' : plural(s, { one: '# second', other: '# seconds' })),
    caption: 'Words under it',
    captionOf: (n: number) => `Words under point ${n}`,
    over: 'Drawn over the picture',
    overlays: {
      numbers: 'numbers of the course',
      wanted: 'wanted line',
      likely: 'likely line',
      real: 'real line',
      captions: 'splits and words',
      drawings: 'your drawings',
    },
    noFit: 'Numbers and lines need the course fitted to the picture: see Ground.',
    sound: 'Keep the sound',
    soundHint: 'It is silent while the picture is slowed or held.',
    noSoundBeside: 'Side by side there is no sound.',
    lasts: (s: number) => `It will last about ${seconds(s)}.`,
    make: 'Make the clip',
    close: 'Close',
    another: 'Another clip',
    goOn: 'You can close this and go on: the clip is made meanwhile, and a line tells when it is there.',
    making: 'Clips',
    none: 'What you make here is a film file (MP4) that phones play. It carries no place and no device.',
  },
  job: {
    waiting: 'waiting',
    done: (name: string) => `The clip is there: ${name}.`,
    stopped: 'stopped; nothing was left behind',
    left: 'Making',
  },
  notMade: (why: string) => `The clip could not be made. ${why}`,
  nothingMarked:
    'Nothing is marked yet that a short clip could point at. Mark a cross, or choose the frames yourself.',
  refused: {
    noFootage: 'The footage of this clip is not at hand. Show where its file lies first.',
    badRange: 'There are no such frames in this clip. Choose the first and the last one again.',
    tooLong: 'This would be longer than ten minutes. Choose fewer frames, or less slow motion.',
    nothingShared:
      'The two runs share nothing by which they could be held side by side. Mark the same numbers in both.',
  },
  fileEnding: {
    short: 'short-clip',
    cross: (place: number) => `cross-${place}`,
    stretch: (to: number) => `stretch-${to}`,
    range: 'clip',
    beside: 'side-by-side',
  },
} as const;
