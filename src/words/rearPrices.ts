import type { RearPrice, RearPrices } from '../line/reading/rearPrices.ts';
import type { DoneOf } from '../line/skills.ts';
import { atNumber, timesOf, type ReadingTold } from './told.ts';

/** Differences of less than these are told as none: degrees, seconds. */
const hardly = { degrees: 5, seconds: 0.05 } as const;
/** A turn of less than this is running on, degrees. */
const runsOn = 20;

const degrees = (d: number): string => `${Math.round(Math.abs(d))}°`;
const size = Math.abs;

/** "62° to the left in place of 86°". */
function turnWords(before: RearPrice, after: RearPrice): string {
  const turn = `${degrees(before.turnDegrees)} to the ${before.turnDegrees > 0 ? 'left' : 'right'}`;
  return size(after.turnDegrees) - size(before.turnDegrees) >= hardly.degrees
    ? `a better turn, ${turn} in place of ${degrees(after.turnDegrees)}`
    : `the same turn, ${turn}`;
}

/** An entry as it was counted. */
export const entryDone = (count: DoneOf): string => `an entry she has done ${timesOf(count)}`;

/** What crossing behind her costs and brings, before the jump and on its landing side. */
export function rearSentence({ number, to, before, after, later }: RearPrices, told: ReadingTold): string {
  const next = atNumber(to, told);
  if (size(before.turnDegrees) < runsOn)
    return `From ${number} to ${next} she runs on, turning ${degrees(before.turnDegrees)}: a rear cross on the landing side of ${number} costs no entry.`;
  const slant = `${number} at a slant of ${degrees(before.sliceDegrees)}`;
  const harder = size(before.sliceDegrees) - size(after.sliceDegrees) >= hardly.degrees;
  const entry = harder
    ? `but a harder entry, ${slant} in place of ${degrees(after.sliceDegrees)}`
    : `and no harder entry, ${slant}`;
  const counted = before.count ? `; ${next} is then ${entryDone(before.count)}` : '';
  const late =
    later >= hardly.seconds ? `she is at ${next} ${later.toFixed(1)} s later` : `no later at ${next}`;
  const met =
    size(size(after.nextObliquely) - size(before.nextObliquely)) >= hardly.degrees
      ? `, meeting it ${degrees(after.nextObliquely)} off, not ${degrees(before.nextObliquely)}`
      : '';
  // Of one side and angle: it has been said.
  const afterCounted = after.count && after.count !== before.count ? `, ${entryDone(after.count)}` : '';
  return (
    `Crossed behind her before ${number}: ${turnWords(before, after)}, ${entry}${counted}. ` +
    `On its landing side: ${number} straight on, at ${degrees(after.sliceDegrees)}, ${later >= hardly.seconds ? 'but ' : 'and '}${late}${met}${afterCounted}.`
  );
}
