import type { CaptureFinding } from '../review/captureFindings.ts';
import type { SpeedMap, SpeedPiece } from '../time/captureClock.ts';
import { locale } from './locale.ts';

const plain = new Intl.NumberFormat(locale, { maximumFractionDigits: 2, useGrouping: false });
const exact = new Intl.NumberFormat(locale, { maximumSignificantDigits: 3, useGrouping: false });

/** How many times slower than life a speed plays, with its plus or minus where it has one: "4", "4.03 ± 0.05". */
function timesTold({ speed, plusMinus = 0 }: Omit<SpeedPiece, 'from'>): string {
  const faster = speed > 1;
  const times = faster ? speed : 1 / speed;
  if (plusMinus === 0) return plain.format(times);
  const low = faster ? speed - plusMinus : 1 / (speed + plusMinus);
  const high = faster ? speed + plusMinus : 1 / (speed - plusMinus);
  const half = Math.max(high - times, times - low);
  const digits = Math.min(3, Math.max(0, Math.ceil(-Math.log10(half))));
  const up = Math.ceil(half * 10 ** digits - 1e-9) / 10 ** digits;
  return `${times.toFixed(digits)} ± ${up.toFixed(digits)}`;
}

/** "real time", "4 times slower", "2 times faster". */
export function speedTold(piece: Omit<SpeedPiece, 'from'>): string {
  if (piece.speed === 1 && !piece.plusMinus) return 'real time';
  const word = piece.speed > 1 ? 'faster' : 'slower';
  const times = timesTold(piece);
  return times === '1' ? `a little ${word}` : `${times} times ${word}`;
}

/** A share of real speed: "1/4", "0.8". */
export function shareTold(share: number): string {
  const parts = 1 / share;
  return Math.abs(parts - Math.round(parts)) < 0.01 ? `1/${Math.round(parts)}` : plain.format(share);
}

const inParts = 'slowed in parts';

/** A whole clip in a few words: nothing said, one speed, or several. */
export function clipSpeedTold(map: SpeedMap): string {
  const [first] = map;
  if (!first) return 'taken for real time';
  return map.length === 1 ? speedTold(first) : inParts;
}

/** Words about the speed at which a clip was filmed. */
export const captureSpeedWords = {
  title: 'How fast was this filmed?',
  nothingSaid: 'Nobody has said. It is taken for real time.',
  whole: (told: string) => `Said: ${told}, throughout.`,
  parts: 'Said, stretch by stretch:',
  part: (frame: number, told: string) => `from frame ${frame}: ${told}`,
  ask: 'Filmed at another speed?',
  chip: (told: string) => (told === inParts ? 'Slowed in parts' : `Plays ${told}`),
  here: (told: string) => told,
  found: {
    title: 'What the clip itself says',
    useNamed: (told: string) => `Use this: ${told}`,
    inUse: 'in use',
  },
  say: {
    title: 'Say it',
    fps: 'Filmed at, frames a second',
    plays: (rate: number) => `Here it plays ${plain.format(rate)} frames a second.`,
    times: 'Plays how many times slower',
    plusMinus: 'give or take',
    wholeSlow: (told: string) => `All of it ${told}`,
    wholeLife: 'All of it real time',
    fromSlow: (told: string) => `From this frame on ${told}`,
    fromLife: 'From this frame on real time',
    takeAway: 'Take the last change away',
    badNumber: 'A number above 0, please.',
  },
  clock: {
    title: 'Or by a clock in the picture',
    text: 'Go to the frame where a clock or stopwatch in the picture turns, and to a later one; then type the seconds between.',
    from: 'It starts here',
    to: 'It ends here',
    none: 'not said',
    seconds: 'Seconds between',
    plusMinus: 'give or take',
    workOut: 'Work it out',
    stretch: 'It counts for the stretch between the two changes around it.',
  },
  done: 'Done',
  limit:
    'What a speed may be off is in every plus or minus here. A speed given as exact is taken at its word: whether the phone kept its nominal rate, the clip cannot tell.',
  asFilmed: 'Play it as fast as it was',
  asFilmedShort: 'as it was',
  said: {
    noClip: 'There is no clip here to say it of.',
    nothingToTakeAway: 'There is no change of speed before this frame.',
    asFilmed: (told: string) => `Plays as fast as it was: ${told} than the file.`,
    notThatFast: (share: string) => `Plays as fast as it can be played: ${share} of real speed.`,
    asFile: 'Plays as the file does.',
    countFrom: (frame: number) => `The clock starts on frame ${frame}.`,
    countTo: (frame: number) => `The clock ends on frame ${frame}.`,
    twoFrames: 'Say on which frames the clock starts and ends, first one, then a later one.',
    oneStretch: 'The clock starts and ends in two stretches of different speed. Choose frames within one.',
    tooClose: 'These frames are too close, or the seconds too unsure, to tell a speed from.',
  },
  /** Labels of acts, as undo names them. */
  acts: {
    whole: (told: string) => `clip filmed: ${told}`,
    from: (told: string) => `${told} from here`,
    takenAway: 'change of speed, taken away',
    found: (told: string) => `clip filmed: ${told}`,
    byClock: (told: string) => `clip by its clock: ${told}`,
  },
  /** Acts as the sheet of keys names them. */
  keys: {
    open: 'Say how fast this clip was filmed',
    asFilmed: 'Play a slowed clip as fast as it was',
    type: 'Speed: type it',
    wholeSlow: 'Speed: all of the clip slowed so',
    wholeLife: 'Speed: all of the clip real time',
    fromSlow: 'Speed: slowed so from this frame on',
    fromLife: 'Speed: real time from this frame on',
    takeAway: 'Speed: take the last change away',
    countFrom: 'Speed: a clock in the picture starts here',
    countTo: 'Speed: a clock in the picture ends here',
  },
  /** The strip of keys. */
  strip: {
    title: 'How fast was it filmed?',
    open: 'filmed speed',
    type: 'type it',
    wholeSlow: 'all so',
    wholeLife: 'all real time',
    fromSlow: 'so from here',
    fromLife: 'real time from here',
    takeAway: 'take away',
    countFrom: 'clock starts',
    countTo: 'clock ends',
  },
} as const;

/** A finding as a sentence with its source. */
export function findingSentence(f: CaptureFinding): string {
  switch (f.source) {
    case 'captureFps': {
      const filmed = `The file says it was filmed at ${exact.format(f.fps)} frames a second`;
      const plays = `here they come ${exact.format(f.plays)} a second`;
      return f.speed.every((p) => p.speed === 1)
        ? `${filmed}, and ${plays}: it plays in real time. (${f.key})`
        : `${filmed}; ${plays}. (${f.key})`;
    }
    case 'ramp':
      return `From frame to frame it goes ${exact.format(f.times)} times slower in places than in others. That may be slow motion, or too little light.`;
    case 'soundLength':
      return `Its sound lasts ${exact.format(f.sound)} s, its pictures ${exact.format(f.picture)} s. If the sound is all there, the pictures are slowed down.`;
    case 'playFullRate':
      return f.full
        ? `The file asks to be played as fast as it was filmed. (${f.key})`
        : `The file asks to be played slowed down; the times of its frames are those of life. (${f.key})`;
    case 'editRates':
      return `The file asks for parts of it to be played at ${f.rates.map((r) => exact.format(r)).join(', ')} times its speed (edit list). Frames are shown at their own times; say what they are.`;
    case 'noSound':
      return 'It has no sound, as slow motion often has none. Was it filmed at another speed?';
  }
}
