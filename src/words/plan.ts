import type { LengthUnit } from '../course/grid.ts';
import { mannerOf, type ObstacleKind } from '../course/kinds.ts';
import type { CrossKind, Side, SupportEnd } from '../plan/plan.ts';
import type { CameFrom, CrossTime } from '../plan/spare.ts';
import { otherSide, type SideFinding } from '../plan/sides.ts';
import type { SpotFinding } from '../plan/spots.ts';
import type { WaitSpot } from '../plan/wait.ts';
import { lengthWords } from './drawing.ts';
import { locale } from './locale.ts';
import { crossWords } from './trade.ts';
import { crossNamed, edgeWords } from './verdicts.ts';

const figure = (value: number, digits: number): string =>
  new Intl.NumberFormat(locale, {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
    useGrouping: false,
  }).format(value);
const seconds = (value: number): string => `${figure(Math.abs(value), 1)} s`;
const whole = (value: number): string => figure(Math.abs(value), 0);
const isNought = (value: number, digits: number): boolean => Number(Math.abs(value).toFixed(digits)) === 0;

const yourSide: Record<Side, string> = { left: 'on your left', right: 'on your right' };
const afterNumber = (n: number): string => (n === 0 ? 'From the start' : `After ${n}`);
const supportWords: Record<SupportEnd, string> = {
  committed: 'she is committed to',
  in: 'she is in',
  out: 'she is out of',
};

/** What to look at again where sides and crosses of a plan do not agree. */
export function sideSentence(f: SideFinding): string {
  switch (f.finding) {
    case 'disagrees': {
      const state = `${afterNumber(f.after)} you state the dog ${yourSide[f.stated]}`;
      const follows = yourSide[otherSide(f.stated)];
      if (f.cross) {
        return `${state}, but the ${crossWords[f.cross.kind]} at ${f.cross.place} puts her ${follows}.`;
      }
      const since = f.since === 0 ? 'the start' : String(f.since);
      return `${state}, but she is ${follows} from ${since} on and no cross changes that.`;
    }
    case 'leadOut':
      return `From the start you state the dog ${yourSide[f.stated]}, but where you lead out to, she comes ${yourSide[otherSide(f.stated)]}.`;
    case 'undone':
      return `Two side changes are planned at ${f.place}: they take each other back.`;
    case 'choicesDiffer':
      return `At ${f.place} a ${crossWords[f.first]} and a ${crossWords[f.second]} leave the dog on different sides of you: what follows fits only the first.`;
    case 'statedTwice':
      return `${afterNumber(f.after)} the side is stated twice; the first counts.`;
    case 'gone':
      return `${goneWords[f.what]} ${f.number}, but the course has ${f.numbers === 0 ? 'no numbers' : `numbers 1 to ${f.numbers}`}.`;
  }
}

const goneWords = {
  cross: 'A cross is planned at',
  support: 'A support is planned at',
  side: 'A side is stated after',
} as const;

/** What to look at again where a spot of a plan lies badly. */
export function spotSentence(f: SpotFinding): string {
  if (f.finding === 'noLeadOut')
    return 'No lead-out spot yet: times are for a handler who starts beside her dog.';
  switch (f.what) {
    case 'wait':
      return 'The spot where the dog waits lies outside the ring.';
    case 'leadOut':
      return 'The lead-out spot lies outside the ring.';
    case 'support':
      return `The spot of your support at ${f.place ?? ''} lies outside the ring.`;
    case 'cross':
      return `The spot of the cross at ${f.place ?? ''} lies outside the ring.`;
    case 'secondChoice':
      return `The spot of the second choice at ${f.place ?? ''} lies outside the ring.`;
  }
}

/** A support that the handler reaches too late to give. */
export const supportLate = (place: number, late: number): string =>
  `You reach the spot of your support at ${place} ${seconds(late)} too late to give it.`;

/** How the first two obstacles lie for the waiting dog. */
export function waitSentence(w: WaitSpot, unit: LengthUnit): string {
  const aside =
    Math.abs(w.offset) < 0.05
      ? 'at its middle'
      : `at ${lengthWords(Math.abs(w.offset), unit)} ${w.offset > 0 ? 'left' : 'right'} of its middle`;
  const slice = isNought(w.sliceDegrees, 0)
    ? 'straight'
    : `at ${whole(w.sliceDegrees)}° to the ${w.sliceDegrees > 0 ? 'left' : 'right'}`;
  if (w.inLine) return `From here 1 and 2 stand in one line for her: she takes 1 ${aside}, ${slice}.`;
  const not = 'From here 1 and 2 do not stand in one line:';
  switch (w.but) {
    case 'oneSpot':
      return 'Number 1 and number 2 stand on one spot: move one of them apart.';
    case 'behind':
      return `${not} 2 does not lie beyond 1, so she has to turn back to it.`;
    case 'farSide':
      return `${not} 2 is taken from its far side, so she has to go round it.`;
    case 'steep':
      return `${not} she would have to take 1 ${slice}, more of a slant than she takes.`;
    case null:
      return `${not} behind 1 she turns ${whole(w.turnDegrees)}° to the ${w.turnDegrees > 0 ? 'left' : 'right'}.`;
  }
}

/** Time to spare in a few words. */
export const spareWords = (spare: number): string =>
  isNought(spare, 1)
    ? 'just in time'
    : spare > 0
      ? `${seconds(spare)} to spare`
      : `${seconds(spare)} too late`;

const cameFromWords = (from: CameFrom): string => {
  switch (from.was) {
    case 'leadOut':
      return 'from where you release her';
    case 'support':
      return `from your support at ${from.place}, which holds you until ${supportWords[from.until]} it,`;
    case 'cross':
      return `from the ${crossWords[from.kind]} at ${from.place}`;
  }
};

/** A cross against the dog's timetable, with what it follows from. Times count from her first movement. */
export function spareSentence(t: CrossTime, kind: ObstacleKind, unit: LengthUnit): string {
  const edge = edgeWords[mannerOf(kind)];
  const { place } = t.cross;
  const asked = `${crossNamed(t.kind)} at ${place}`;
  const way = `You run ${lengthWords(t.metres, unit)} ${cameFromWords(t.from)}`;
  const end =
    t.limit === 'begin' && t.mustBegin !== null
      ? `can begin at ${seconds(t.begins)}; ${edge.in} is at ${seconds(t.mustBegin)}`
      : `are done at ${seconds(t.finishes)}; ${edge.out} is at ${seconds(t.mustFinish ?? 0)}`;
  const early = t.dogComes - t.arrives;
  const waits = early > 1 ? ` You are there ${seconds(early)} before she is out of ${place - 1}.` : '';
  return `${asked}: ${spareWords(t.spare)}. ${way} and ${end}.${waits}${t.spot.proposed ? ` ${proposedWords(t.kind)}` : ''}`;
}

const proposedWords = (kind: CrossKind): string => `The spot of this ${crossWords[kind]} is a proposal.`;
