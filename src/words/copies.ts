import { fileSize, plural } from './locale.ts';

/** Words about working copies: why one is made, how it stands, what they take up. */
export const copyWords = {
  /** Why a clip is looked at through a working copy, in one sentence. */
  why: {
    codec: 'Its pictures are stored in a way that cannot be shown here frame by frame.',
    container: 'This kind of file cannot be stepped through as it is.',
    interlaced: 'Each of its pictures is made of two half-pictures, which have to be put together first.',
    bitDepth: 'It has ten bits a colour, which step slowly and not on every machine.',
    pixelFormat: 'Its colours are stored in a way that cannot be shown here frame by frame.',
    pixelShape: 'Its picture elements are not square, so everything would look too wide or too narrow.',
    editList: 'It was cut without being written anew, so its frames do not follow each other in the file.',
    longGop: 'Its key frames lie more than 250 frames apart, so every step back would be slow.',
    largePicture: 'Its picture is 4K or more, which steps slowly; the copy is 1920 wide or high at most.',
  },
  make: 'Make a working copy',
  makeOf: (name: string) => `Make a working copy of ${name}`,
  original: 'Back to the original',
  originalOf: (name: string) => `Show the original of ${name} again`,
  made: (bytes: number) => `Stepped through by a working copy with the same frames (${fileSize(bytes)}).`,
  waiting: 'A working copy will be made. The original serves until then.',
  making: (percent: number | null) =>
    `A working copy is being made${percent === null ? '' : `: ${percent} %`}. The original serves until then.`,
  whenOpened: 'Its working copy made room for others, and is made again when a review of it is opened.',
  declined: 'No working copy is made until you ask for one.',
  switched: 'Now on the working copy: the same frames at the same times.',
  asked: 'A working copy will be made; go on meanwhile.',
  there: 'This clip has its working copy already.',
  fields: 'Half-pictures as frames',
  fieldsOf: (name: string) => `Half-pictures as frames of ${name}`,
  fieldsHint: 'Twice as many frames, each half as long. Choose before anything is marked on this clip.',
  line: {
    next: 'waiting: next in line',
    place: (before: number) => `waiting: ${plural(before, { one: '# before it', other: '# before it' })}`,
    first: 'Do this first',
    firstNamed: (about: string) => `Do ${about} first`,
    again: 'Try again',
    againNamed: (about: string) => `Try ${about} again`,
  },
  store: {
    title: 'Working copies',
    intro:
      'Clips that cannot be shown as they are, or step slowly, get a copy that steps well. Originals stay as they are. ' +
      'When the copies need more room than this, those not opened for the longest time go; they are made again when ' +
      'they are needed.',
    held: (count: number, bytes: number) =>
      count === 0
        ? 'There are none now.'
        : `${plural(count, { one: '# copy', other: '# copies' })}, ${fileSize(bytes)} in all.`,
    most: 'Most room, in gigabytes',
    bad: 'A whole number of gigabytes from 1 to 100,000, please.',
    clear: 'Remove them all',
    clearHint: 'What a window shows just now stays.',
    cleared: (count: number) =>
      count === 0
        ? 'All working copies were removed.'
        : `The others were removed; ${plural(count, { one: '# copy is', other: '# copies are' })} still needed.`,
  },
} as const;

/** The sentence for a reason, by its key of the catalogue; empty for none. */
export function whyCopied(key: string | null): string {
  const sentences: Readonly<Record<string, string>> = copyWords.why;
  return key === null ? '' : (sentences[key] ?? '');
}
