import { fromUnit, inUnit, type LengthUnit } from '../course/grid.ts';
import { readingThresholds, type ReadingThresholds, type Threshold } from '../line/reading/thresholds.ts';
import { plainFigure } from './drawing.ts';
import { typedWithin } from './typed.ts';

export type ThresholdName = keyof ReadingThresholds;

/** The reading's thresholds, in the order in which they are told. */
export const thresholdOrder = Object.keys(readingThresholds) as readonly ThresholdName[];

const told: Record<ThresholdName, readonly [name: string, meaning: string]> = {
  viewHalf: [
    'Her view ahead, to each side',
    'A dog sees wider, but she looks where she runs. What lies outside is out of her view.',
  ],
  eyeHeight: [
    'Height of her eyes',
    'As of a large dog that runs with her head low. What is lower hides nothing from her.',
  ],
  seenShare: ['Share of a way in that must be free', 'With less of it free she cannot read the way in.'],
  trapHalf: [
    'Straight on, to each side',
    'Where she drifts without a word from you: a wrong obstacle in there is a trap.',
  ],
  trapReach: [
    'How far ahead a wrong obstacle counts',
    'About a second and a half at a gallop; by then she has been called.',
  ],
  backReach: [
    'How near the jump just taken counts',
    'Where she turns back to it nearer than this, it is told as a back jump.',
  ],
  takenWithin: [
    'How obliquely an obstacle still invites her',
    'What stands more slanted to her than this is no trap.',
  ],
  sliceFrom: ['A slant counts from', 'From here on she feels that she takes a bar at a slant.'],
  entryFrom: ['An angled entry counts from', 'From here on an entry asks for more than running straight on.'],
  turnFrom: [
    'A turn counts from',
    'Lining up for a slanted bar or for the poles bends her way by less than a turn of the course.',
  ],
  fewTries: ['Fewer tries than this are few', 'Below this a count of tries says little, and is told so.'],
};

const grounds: Record<Threshold['basis'], string> = { practice: 'common practice', assumed: 'our choice' };

const units: Record<LengthUnit, Record<Threshold['unit'], string>> = {
  metres: { degrees: '°', m: 'm', share: '%', tries: 'tries' },
  feet: { degrees: '°', m: 'ft', share: '%', tries: 'tries' },
};

const unitOf = (name: ThresholdName, lengths: LengthUnit): string =>
  units[lengths][readingThresholds[name].unit];

/** A figure in the unit it is shown in. */
const inShown = (name: ThresholdName, value: number, lengths: LengthUnit): number => {
  const { unit } = readingThresholds[name];
  return unit === 'm' ? inUnit(value, lengths) : unit === 'share' ? value * 100 : value;
};

const shown = (name: ThresholdName, value: number, lengths: LengthUnit): string =>
  plainFigure(Math.round(inShown(name, value, lengths) * 100) / 100);

/** "45°", "0.5 m". */
function withUnit(name: ThresholdName, value: number, lengths: LengthUnit): string {
  const unit = unitOf(name, lengths);
  return `${shown(name, value, lengths)}${unit === '°' ? '' : ' '}${unit}`;
}

/** A typed threshold in the unit it is kept in; undefined where nothing was typed, null where it is none. */
export function typedThreshold(
  name: ThresholdName,
  text: string,
  lengths: LengthUnit,
): number | undefined | null {
  const { least, most, unit }: Threshold = readingThresholds[name];
  const typed = typedWithin(text, least, most, (value) =>
    unit === 'm' ? fromUnit(value, lengths) : unit === 'share' ? value / 100 : value,
  );
  return unit === 'tries' && typeof typed === 'number' && !Number.isInteger(typed) ? null : typed;
}

/** Words of the part of Settings where a coach says what a course is read by. */
export const thresholdWords = {
  title: 'What a course is read by',
  intro:
    'The page Read of a course goes by these figures, for every course and every dog. No published figure was found for any of them. Empty gives the usual one back.',
  allBack: 'All as usual',
  back: 'As usual',
  backNamed: (name: ThresholdName) => `As usual: ${told[name][0]}`,
  name: (name: ThresholdName) => told[name][0],
  label: (name: ThresholdName, lengths: LengthUnit) => `${told[name][0]}, ${unitOf(name, lengths)}`,
  shown,
  hint(name: ThresholdName, lengths: LengthUnit): string {
    const { usual, basis } = readingThresholds[name];
    return `${told[name][1]} Usual: ${withUnit(name, usual, lengths)} (${grounds[basis]}).`;
  },
  refused(name: ThresholdName, now: number, lengths: LengthUnit): string {
    const { least, most, unit } = readingThresholds[name];
    const [low, high] = [shown(name, least, lengths), withUnit(name, most, lengths)];
    const number = unit === 'tries' ? 'a whole number' : 'a number';
    return `“${told[name][0]}” takes ${number} from ${low} to ${high}. It was left at ${withUnit(name, now, lengths)}.`;
  },
} as const;
