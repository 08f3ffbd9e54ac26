import type { ObstacleKind } from '../course/kinds.ts';
import type { FitWarning, NoFit } from '../ground/fit.ts';
import type { PartName, PlainPart } from '../ground/parts.ts';
import { plural } from './locale.ts';
import { obstacleWords } from './trade.ts';

/** Corners of the ring as the map is drawn: x to the right, y up. */
const parts: Readonly<Record<PlainPart, string>> = {
  leftWing: 'left wing foot',
  rightWing: 'right wing foot',
  leftUpright: 'left upright foot',
  rightUpright: 'right upright foot',
  backLeftWing: 'back left wing foot',
  backRightWing: 'back right wing foot',
  backLeftUpright: 'back left upright foot',
  backRightUpright: 'back right upright foot',
  leftFoot: 'left foot',
  rightFoot: 'right foot',
  frontLeft: 'front left corner',
  frontRight: 'front right corner',
  backLeft: 'back left corner',
  backRight: 'back right corner',
  firstMouthLeft: 'first mouth, left side',
  firstMouthRight: 'first mouth, right side',
  secondMouthLeft: 'second mouth, left side',
  secondMouthRight: 'second mouth, right side',
  upLeft: 'up ramp, left corner',
  upRight: 'up ramp, right corner',
  downLeft: 'down ramp, left corner',
  downRight: 'down ramp, right corner',
  ringCorner1: 'lower left corner of the ring',
  ringCorner2: 'lower right corner of the ring',
  ringCorner3: 'upper right corner of the ring',
  ringCorner4: 'upper left corner of the ring',
  startFrom: 'first post of the start line',
  startTo: 'second post of the start line',
  finishFrom: 'first post of the finish line',
  finishTo: 'second post of the finish line',
};

/** The piece that a part belongs to. */
interface NamedPiece {
  readonly kind: ObstacleKind;
  readonly nickname: string;
  readonly numbers: readonly number[];
}

/** What a part is called: "left wing foot of 4, the gate", "base of pole 3 of 7, weave poles", "lower left corner of the ring". */
export function partName(
  part: PartName,
  piece: NamedPiece | undefined,
  dialect: 'british' | 'american',
): string {
  const name = isPole(part) ? `base of pole ${part.slice(4)}` : parts[part];
  if (!piece) return name;
  const called = piece.nickname === '' ? obstacleWords[dialect][piece.kind] : piece.nickname;
  const numbers = listed(piece.numbers.map(String));
  if (numbers !== '') return `${name} of ${numbers}, ${called}`;
  return piece.nickname === '' ? `${name} of the ${called}` : `${name} of ${called}`;
}

const isPole = (part: PartName): part is `pole${number}` => part.startsWith('pole');

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;

/** Why the course cannot be fitted to the picture yet, and what to do. */
export function noFitSentence(none: NoFit, nameOf: (id: string) => string): string {
  switch (none.why) {
    case 'tooFew':
      return plural(none.missing, {
        one: 'Click one point more: four are needed.',
        other: 'Click # points more: four are needed.',
      });
    case 'inLine':
      return 'The points lie in one line, which does not say how the ground lies. Click one well aside of it.';
    case 'behind':
      return 'By these clicks part of the course would lie behind the camera. Check that each point was clicked on the right spot.';
    case 'mirrored':
      return 'By these clicks the course would be seen in a mirror. Check left and right, and the order of the corners.';
    case 'badNumbers':
      return `The place of ${listed(none.ids.map(nameOf))} is no place in a ring or on a picture. Click it again, or stand it on the map again.`;
    case 'unclear':
      return 'These points do not fit together on any ground. Check that the map shows this course, and click the ones you are surest of.';
  }
}

/** What to know about a fit that stands on few or badly placed points. */
export function fitWarningSentence(warning: FitWarning, nameOf: (id: string) => string): string {
  switch (warning.warning) {
    case 'inLine':
      return warning.butFor === null
        ? 'The points lie nearly in one line. Click some well aside of it.'
        : `All points but ${nameOf(warning.butFor)} lie nearly in one line. Click another one well aside of it.`;
    case 'bunched':
      return `The points take up only ${Math.max(1, Math.round(100 * warning.share))} % of the ground. Far from them the measures are loose: click some farther out.`;
    case 'disagree':
      return 'The points do not agree as well as careful clicks do. Some were clicked beside their spot, or pieces do not stand as on the map.';
    case 'unchecked':
      return warning.ids.length > 3
        ? 'No point checks another yet: a wrong click would not show. Click one or two more.'
        : `No other point checks ${listed(warning.ids.map(nameOf))}. Click another one near by.`;
    case 'lensUnknown':
      return 'These points do not say whether the lens bends the picture. Click eight or more, out to its edges: until then a lens that bends much is allowed for only in part.';
  }
}

/** A point that the others contradict. */
export const setAsideSentence = (name: string): string =>
  `The other points contradict ${name}: it was clicked beside its spot, or it does not stand as on the map. It is left out.`;
