import { fromUnit, inUnit, type LengthUnit } from '../course/grid.ts';
import { figureBounds, type RunnerFigure } from '../line/dog.ts';
import type { EntryBand, EntrySide } from '../line/skills.ts';
import { wilson } from '../progress/spread.ts';
import { plainFigure } from './drawing.ts';
import { listed } from './locale.ts';
import type { obstacleWords } from './trade.ts';
import { typedWithin } from './typed.ts';

type Trade = (typeof obstacleWords)['british'];

/** What a figure of the dog is, and on what ground its value is assumed. */
interface FigureWords {
  readonly name: (trade: Trade) => string;
  readonly why: string;
}

const named = (name: string, why: string): FigureWords => ({ name: () => name, why });
const along = (kind: keyof Trade, why: string): FigureWords => ({
  name: (trade) => `Speed, ${trade[kind]}`,
  why,
});

const figures: Record<RunnerFigure, FigureWords> = {
  topSpeed: named('Top speed', 'galloping between obstacles; common practice'),
  pickUp: named('Picking up speed', 'on the ground'),
  braking: named('Slowing down', 'on the ground, before a turn'),
  grip: named('Grip in a turn', 'sideways on dry grass, somewhat under 1 g; wet grass holds less'),
  leastRadius: named('Tightest turn, radius', 'on the ground'),
  besideWing: named('Room beside a wing', 'from the middle of the dog to whatever is solid'),
  takeOff: named('Takes off before the bar', 'last hind paw to the bar, along the flight'),
  landing: named('Lands behind the bar', 'bar to the first front paw, along the flight'),
  sliceMost: named('Slices a bar up to', 'how obliquely she takes it'),
  tunnelSpeed: along('tunnel', 'entry to exit'),
  weaveSpeed: along('weavePoles', 'along the poles'),
  aFrameSpeed: along('aFrame', 'seen from above'),
  dogWalkSpeed: along('dogWalk', 'DiMichele et al. 2024: 2.26 s for 10.8 to 11.4 m'),
  seeSawSpeed: along('seeSaw', 'along the plank'),
  seeSawWait: {
    name: (trade) => `Wait on the ${trade.seeSaw}`,
    why: 'until it has tipped',
  },
  committedAt: named('Committed from', 'before the obstacle: from there she takes it without help'),
  tableWait: { name: (trade) => `Wait on the ${trade.table}`, why: 'where no time is set' },
};

const groups: readonly (readonly [string, readonly RunnerFigure[]])[] = [
  ['On the ground', ['topSpeed', 'pickUp', 'braking', 'grip', 'leastRadius', 'besideWing', 'committedAt']],
  ['Over a bar', ['takeOff', 'landing', 'sliceMost']],
  [
    'On other equipment',
    ['tunnelSpeed', 'weaveSpeed', 'aFrameSpeed', 'dogWalkSpeed', 'seeSawSpeed', 'seeSawWait', 'tableWait'],
  ],
];

const units = {
  metres: { m: 'm', 'm/s': 'm/s', 'm/s2': 'm/s²', degrees: '°', s: 's' },
  feet: { m: 'ft', 'm/s': 'ft/s', 'm/s2': 'ft/s²', degrees: '°', s: 's' },
} as const satisfies Record<LengthUnit, unknown>;

/** The unit of a figure, as it is written; lengths, and what is so much of a length a second, as the coach likes them. */
const unitOf = (figure: RunnerFigure, lengths: LengthUnit): string => {
  const { unit } = figureBounds(figure);
  return units[lengths][unit];
};

/** Whether a figure is measured in lengths: then it is told in the coach's unit of them. */
const ofLength = (figure: RunnerFigure): boolean => figureBounds(figure).unit.startsWith('m');

/** A figure in the unit it is shown in, to the hundredth. */
const shown = (figure: RunnerFigure, value: number, lengths: LengthUnit): string => {
  const inside = ofLength(figure) ? inUnit(value, lengths) : value;
  return plainFigure(Math.round(inside * 100) / 100);
};

/**
 * A typed figure in the unit it is kept in; undefined where nothing was typed, null where it is no such figure. What
 * is shown and typed again unchanged may differ by half a hundredth.
 */
export function typedFigure(
  figure: RunnerFigure,
  text: string,
  lengths: LengthUnit,
): number | undefined | null {
  const { lowest, highest } = figureBounds(figure);
  return typedWithin(text, lowest, highest, (typed) => (ofLength(figure) ? fromUnit(typed, lengths) : typed));
}

const bands: Record<EntryBand, string> = {
  to30: 'up to 30°',
  to60: 'to 60°',
  to90: 'to 90°',
  over90: 'over 90°',
};
const sides: Record<EntrySide, string> = { on: 'From the right', off: 'From the left' };

const hundredths = (share: number): string => `${Math.round(share * 100)}`;

/** Words of the page about the dog beside a course. */
export const dogWords = {
  title: 'The dog',
  which: 'This review is about',
  nobody: 'no dog named',
  unknown: (name: string) => `${name} (not in the library)`,
  damaged: (name: string) =>
    `What is kept of ${name} is damaged and cannot be read. Remove it, then add ${name} again; until then she runs as is assumed of any dog.`,
  start: 'Name a dog, and what you know of how she runs stays with her from course to course.',
  assumedSoFar: (name: string) =>
    `${name} runs as is assumed of any dog until she is in the library with figures of her own.`,
  add: (name: string) => `Add ${name} to the library`,
  newName: 'A dog that is not in the list',
  addNew: 'Add her',
  name: 'Name',
  alsoCalled: (names: readonly string[]) => `Reviews find her as ${listed(names)} too.`,
  notes: 'Notes',
  notesHint: 'What does not fit a figure: what she likes, what to go easy on.',
  remove: (name: string) => `Remove ${name} from the library`,
  removed: (name: string) => `${name} was removed from the library. Reviews keep her name.`,
  added: (name: string) => `${name} is in the library now.`,
  undo: 'Undo',
  undoLast: (label: string) => `Undo: ${label}`,
  undone: (name: string) => `${name} is as she was.`,
  noName: 'A dog needs a name. It was left as it was.',

  runs: 'How she runs',
  runsIntro:
    'Empty means as assumed. No published figure was found for these but where one is named: type her own where you have measured it.',
  groups,
  figure: (figure: RunnerFigure, trade: Trade, lengths: LengthUnit) =>
    `${figures[figure].name(trade)}, ${unitOf(figure, lengths)}`,
  shown,
  usual: (figure: RunnerFigure, lengths: LengthUnit) => shown(figure, figureBounds(figure).usual, lengths),
  assumed(figure: RunnerFigure, lengths: LengthUnit): string {
    const { least, usual, most } = figureBounds(figure);
    const [low, middle, high] = [least, usual, most].map((value) => shown(figure, value, lengths));
    return `as assumed: ${middle} (${low} to ${high})`;
  },
  own(figure: RunnerFigure, value: number, lengths: LengthUnit): string {
    const { least, most } = figureBounds(figure);
    const range = `${shown(figure, least, lengths)} to ${shown(figure, most, lengths)}`;
    return value < least || value > most
      ? `her own; outside the usual ${range}`
      : `her own; usual is ${range}`;
  },
  why: (figure: RunnerFigure) => figures[figure].why,
  notAFigure(figure: RunnerFigure, trade: Trade, lengths: LengthUnit): string {
    const { lowest, highest } = figureBounds(figure);
    return (
      `“${figures[figure].name(trade)}” takes a number from ${shown(figure, lowest, lengths)} to ` +
      `${shown(figure, highest, lengths)} ${unitOf(figure, lengths)}, or nothing. It was left as it was.`
    );
  },

  skills: 'What she can do',
  skillsIntro: 'Counts as “done of tried”, such as 3 of 10. Empty means not known.',
  weaves: (trade: Trade) => `Entries into the ${trade.weavePoles}`,
  weavesHint:
    'By the side of the poles she comes from and the angle off their line. The first pole stands at her left shoulder; from the left she has to go round it.',
  angle: 'Angle',
  sides,
  bands,
  entry: (side: EntrySide, band: EntryBand) => `${sides[side]}, ${bands[band]}: done of tried`,
  entryAct: (side: EntrySide, band: EntryBand) => `${sides[side]}, ${bands[band]}`,
  countPlaceholder: '– of –',
  count: (done: number, tried: number) => `${done} of ${tried}`,
  /** What a count says of the next hundred; few tries have a wide spread. */
  spread(done: number, tried: number): string {
    const found = wilson(done, tried);
    if (!found) return 'none tried yet';
    return `${hundredths(found.least)} to ${hundredths(found.most)} in 100`;
  },
  spreadHint:
    'Below a count: how many of the next hundred it speaks for, nineteen times in twenty; wider still where all were tried on one day.',
  notACount: (label: string) =>
    `“${label}” takes two whole numbers, such as 3 of 10, with no more done than tried. It was left as it was.`,
  rearCross: 'Rear cross at the poles',
  stay: 'Stay at the start',
  sent: (unit: LengthUnit) => `Goes on ahead of you, ${unit === 'feet' ? 'ft' : 'm'}`,
  sentHint: 'how far she can be sent to an obstacle',
  notADistance: (most: string) =>
    `How far she can be sent is a number from 0 to ${most}. It was left as it was.`,
  turns: { left: 'Turns left on a word', right: 'Turns right on a word' },
  turn: { unknown: 'not known', yes: 'yes', no: 'not yet' },
  neverMet: 'Has never met',
  cautions: 'Easy on the dog',
  labels: {
    header: (name: string) => (name === '' ? 'Name no dog' : `Name the dog: ${name}`),
    name: 'name',
    notes: 'notes',
  },
} as const;

/** A typed count, "3 of 10" or "3/10"; undefined where nothing was typed, null where it is none. */
export function typedCount(text: string): { done: number; tried: number } | undefined | null {
  const plain = text.trim();
  if (plain === '') return undefined;
  const found = /^(\d{1,5})\s*(?:of|\/|\s)\s*(\d{1,5})$/i.exec(plain);
  if (!found) return null;
  const [done, tried] = [Number(found[1]), Number(found[2])];
  return done <= tried && tried <= 10_000 ? { done, tried } : null;
}
