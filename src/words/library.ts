import type { JobName } from '../host/contract/calls.ts';
import type { clipStates } from '../host/contract/shapes.ts';
import { fileSize, locale, plural } from './locale.ts';

/** Words of the Library. */
export const libraryWords = {
  title: 'Library',
  acts: {
    bringIn: 'Bring in a video',
    fromMachine: 'Choose from this machine',
    newReview: 'New review without a video',
    reviewFile: 'Take in a review file',
    compare: 'Compare runs',
    find: 'Find a review',
    down: 'Next review',
    up: 'Previous review',
    remove: 'Remove the chosen review',
    undoRemove: 'Bring the removed review back',
  },
  find: 'Find by title, dog, handler or day',
  findNone: (text: string) => `No review has “${text}” in its title, dog, handler or day.`,
  findClear: 'Show all',
  count: (n: number) => plural(n, { one: '# review', other: '# reviews' }),
  countOf: (shown: number, all: number) =>
    `${shown} of ${plural(all, { one: '# review', other: '# reviews' })}`,
  list: 'Reviews',
  columns: {
    review: 'Review',
    team: 'Dog and handler',
    day: 'Day',
    obstacles: 'Obstacles',
    marks: 'Marks',
    footage: 'Footage',
    acts: 'Acts',
  },
  noDay: 'no day',
  none: 'none',
  team: (dog: string, handler: string) =>
    dog !== '' && handler !== '' ? `${dog}, with ${handler}` : dog !== '' ? dog : handler,
  open: (title: string) => `Open ${title}`,
  remove: 'Remove',
  removeNamed: (title: string) => `Remove ${title}`,
  removed: (title: string) => `“${title}” was removed from the list. Its videos and marks are still there.`,
  broughtBack: (title: string) => `“${title}” is back.`,
  undo: 'Bring it back',
  footage: {
    none: 'no video',
    ready: (n: number) => plural(n, { one: 'ready', other: '# clips ready' }),
    missing: (n: number) => plural(n, { one: 'a video is missing', other: '# videos are missing' }),
    needsCopy: 'needs a working copy',
    copying: (percent: string) => `working copy ${percent}`,
  },

  empty: {
    title: 'Your reviews will stand here',
    text: 'A review ties the video of one run to the numbers of its course: what you mark, what is measured, and the report.',
    drop: 'Drop a video of a run anywhere in this window, or bring one in. Review files that somebody handed to you can be dropped too.',
    kept: 'Videos stay on this machine and are never altered.',
  },
  waiting: 'Reading the library…',

  clips: {
    title: 'Videos',
    noReview: 'in no review yet',
    inReviews: (n: number) => plural(n, { one: 'in # review', other: 'in # reviews' }),
    makeReview: 'Make a review',
    makeReviewOf: (name: string) => `Make a review of ${name}`,
    find: 'Find the file',
    findNamed: (name: string) => `Find the file of ${name}`,
    found: (name: string) => `“${name}” is linked again.`,
    notFound: (name: string, why: string) => `“${name}” is not linked yet. ${why}`,
    facts: (
      clip: { readonly seconds: number; readonly bytes: number; readonly codec: string },
      uses: string,
    ) => [clipLength(clip.seconds), fileSize(clip.bytes), codecs[clip.codec] ?? clip.codec, uses].join(', '),
    states: {
      ready: 'ready',
      workingCopy: 'ready, through a working copy',
      needsCopy: 'needs a working copy before it can be watched',
      missing: 'the file is not where it was',
    } satisfies Record<(typeof clipStates)[number], string>,
  },

  jobs: {
    title: 'At work',
    names: {
      'clip.import': 'Reading frames',
      'clip.workingCopy': 'Making a working copy',
      'clips.lineUp': 'Lining up by sound',
      'review.import': 'Taking in a review',
      'report.write': 'Writing the report',
      'clip.write': 'Making a clip',
    } satisfies Record<JobName, string> as Readonly<Record<string, string>>,
    other: 'Working',
    stop: 'Stop',
    stopNamed: (about: string) => `Stop work on ${about}`,
    failed: 'did not work',
    left: (seconds: number) =>
      seconds < 55
        ? 'less than a minute left'
        : plural(Math.ceil(seconds / 60), { one: 'about # minute left', other: 'about # minutes left' }),
  },

  drop: {
    title: 'Let go to bring these in',
    text: 'Videos become footage, review files and dogs are taken in. Originals are not touched.',
    elsewhere: {
      picture: 'A picture of the map belongs to a course: open a review, go to Course, and drop it there.',
      rules: 'A rule book belongs to Settings: go there, and drop it again.',
      course: 'A course belongs to a review: open one, go to Course, and drop the file there.',
    },
    nothing: 'There was no file in what you dropped.',
  },

  form: {
    title: 'New review',
    titleWithout: 'New review without a video',
    name: 'Title',
    names: 'Titles are taken from the names of the videos.',
    dog: 'Dog',
    handler: 'Handler',
    obstacles: 'How many obstacles',
    obstaclesHint: 'The highest number on the course. A map can be added later. 0 where you do not know yet.',
    videos: 'Videos',
    together: 'These videos show',
    togetherOptions: {
      each: 'a run each: one review for each',
      one: 'the same run: one review with all of them',
    },
    addTo: 'Put them into',
    addToNew: 'a new review',
    addToOpen: (title: string) => `the open review, “${title}”`,
    make: 'Make the review',
    makeMany: (n: number) => plural(n, { one: 'Make # review', other: 'Make # reviews' }),
    add: 'Add to the review',
    added: (n: number, title: string) =>
      `${plural(n, { one: '# video was added', other: '# videos were added' })} to “${title}”.`,
    addedLabel: (n: number) => plural(n, { one: 'Add a video', other: 'Add # videos' }),
    made: (n: number) => plural(n, { one: '# review was made.', other: '# reviews were made.' }),
    cancel: 'Not now',
    waits: 'The review opens as soon as every frame has been read.',
    keptClips: (n: number) =>
      plural(n, {
        one: 'The video stays in the Library; make a review of it whenever you like.',
        other: 'The # videos stay in the Library; make reviews of them whenever you like.',
      }),
    stages: {
      handingOver: 'handing over',
      reading: 'reading frames',
      in: 'read',
      failed: 'cannot be used',
      stopped: 'stopped',
    },
    stop: 'Stop',
    stopNamed: (name: string) => `Stop ${name}`,
    noneLeft: 'None of these videos can be used. You can still make a review without one.',
    defaultTitle: (day: string) => `Run of ${day}`,
    badCount: 'A whole number from 0 to 200, please.',
  },

  files: {
    title: 'Choose from this machine',
    relinkTitle: (name: string) => `Where is “${name}” now?`,
    intro: 'Files chosen here stay where they are; nothing is copied.',
    roots: 'Folders',
    up: 'Up',
    empty: 'Nothing in this folder that Walkback can use.',
    noRoots: 'No folder is open to this window. Start Walkback with --allow FOLDER to open one.',
    choose: (n: number) => plural(n, { one: 'Bring in # file', other: 'Bring in # files' }),
    chooseNone: 'Bring in',
    chooseOne: 'This is the file',
    folder: 'folder',
    upload: 'Hand a file over through the browser instead',
    cancel: 'Close',
  },
} as const;

/** Names of picture codecs as people know them, by the names that ffmpeg gives. */
const codecs: Readonly<Record<string, string>> = {
  av1: 'AV1',
  h264: 'H.264',
  hevc: 'HEVC',
  mjpeg: 'Motion JPEG',
  mpeg2video: 'MPEG-2',
  mpeg4: 'MPEG-4',
  prores: 'ProRes',
  vp8: 'VP8',
  vp9: 'VP9',
};

const short = new Intl.DateTimeFormat(locale, {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});

/** A day (YYYY-MM-DD) in a list: "25 Nov 2026"; as it stands where it is no day of the calendar. */
export function dayInList(day: string): string {
  const at = new Date(`${day}T00:00:00Z`);
  return Number.isNaN(at.getTime()) ? day : short.format(at);
}

/** The day of a moment by the clock of this machine, as YYYY-MM-DD. */
export function dayOf(moment: Date): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}

/** How long a clip is: "42 s", "3:05 min". */
export function clipLength(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')} min`;
}

/** A part of a whole: "43 %". */
export function percent(done: number, total: number): string {
  const part = total > 0 ? Math.min(1, Math.max(0, done / total)) : 0;
  return `${Math.floor(part * 100)} %`;
}
