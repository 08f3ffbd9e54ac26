import type { Quantity } from '../time/quantity.ts';
import type { Moved, StartLineStayed } from '../track/stayed.ts';
import { toldCrossed, type Ahead, type PathCrossed, type Unseen } from '../track/pairs.ts';
import type { LeftOut } from '../track/runLines.ts';
import type { DogPoint, HandlerPoint } from '../track/track.ts';
import { figure } from './figures.ts';
import { listed, plural } from './locale.ts';
import { bodyPointWords } from './realLine.ts';

const whyLeftOut: Readonly<Record<LeftOut['why'], string>> = {
  twice: 'another mark of this point stands on the same frame',
  noFrame: 'the clip has no such frame',
  cutOff: 'it lies outside of the part of the clip that this review is about',
  horizon: 'that spot of the picture shows no ground',
  noFoot: 'it is in the air, and this view does not say where the camera stands',
  inFlight: 'it touches the ground in the middle of a flight that you marked',
  others: 'the marks before and after have her elsewhere',
  noFit: 'the course is not fitted to the picture there',
};

/** Why a mark says nothing of the line. @param clip its name, where the run is on several */
export const leftOutSentence = (
  why: LeftOut['why'],
  point: DogPoint | HandlerPoint,
  frame: number,
  clip?: string,
): string =>
  `${clip === undefined ? `Frame ${frame}` : `${clip}, frame ${frame}`}, ${bodyPointWords[point]}: ${whyLeftOut[why]}.`;

/** How far off another line, and to which side. */
export function offSentence(off: Quantity): string {
  const size = figure({ ...off, value: Math.abs(off.value) });
  if (Math.abs(off.value) <= off.plusMinus) return `${size}, either side`;
  return `${size} to the ${off.value > 0 ? 'left' : 'right'}`;
}

/** Who is ahead, along the way that the dog runs. */
export function aheadSentence(ahead: Ahead): string {
  const size = figure({ ...ahead, value: Math.abs(ahead.value) });
  if (ahead.who === 'cannotTell') return `cannot tell (${size})`;
  return `${ahead.who === 'dog' ? 'the dog' : 'the handler'} by ${size}`;
}

/** No circle on a ring is as wide as this: what bends no more is called straight, metres (ours). */
const straightFrom = 30;

/** A turn as the circle that it follows: the radius, and what its band allows. */
export function bendSentence({
  value,
  plusMinus,
}: {
  readonly value: number;
  readonly plusMinus: number;
}): string {
  const size = Math.abs(value);
  if (size <= plusMinus) return 'straight, as far as can be told';
  if (1 / (size + plusMinus) > straightFrom) return 'as good as straight';
  const metres = (r: number): string => (r < 10 ? r.toFixed(1) : r.toFixed(0));
  const [tight, wide] = [1 / (size + plusMinus), 1 / (size - plusMinus)];
  return `radius ${metres(1 / size)} m (${metres(tight)} to ${metres(wide)}), to the ${value > 0 ? 'left' : 'right'}`;
}

/**
 * Where the handler crosses the way that the dog takes.
 * @param clock a time of the run as it is read
 */
export function crossedSentence(crossed: PathCrossed, clock: (at: number) => string): string {
  const { first, onto, handlerAt, unseen } = crossed;
  const at = clock(handlerAt.value);
  if (unseen && !toldCrossed(crossed)) return `About ${at} s: cannot tell. ${unseenSentence(unseen, clock)}`;
  if (!toldCrossed(crossed)) return `About ${at} s: cannot tell, the handler goes along the dog’s path.`;
  const who = {
    handler: 'before the dog comes',
    dog: 'behind the dog',
    cannotTell: 'before or behind: cannot tell',
  }[first];
  const told = `${clock(handlerAt.value)} s ± ${handlerAt.plusMinus.toFixed(2)}, to the dog’s ${onto}, ${who}`;
  return unseen ? `About ${told}. ${unseenSentence(unseen, clock)}` : `At ${told}`;
}

/** One foot of a handler who walks comes down about so often, seconds (common practice). */
const handlerStride = 1.1;

/** Why a moment says nothing, and what would help. */
export function unseenSentence({ who, from, to }: Unseen, clock: (at: number) => string): string {
  const when = `from ${clock(from)} to ${clock(to)} s`;
  if (who === 'dog') return `The dog is not marked ${when}.`;
  const more = Math.max(1, Math.ceil((to - from) / handlerStride) - 1);
  return `The handler is not marked ${when}: ${plural(more, { one: '# more mark', other: '# more marks' })} there would tell.`;
}

/** Eight ways on the map, counter-clockwise from its right. */
const ways = [
  'to the right',
  'up and right',
  'up',
  'up and left',
  'to the left',
  'down and left',
  'down',
  'down and right',
] as const;

/** Which way somebody went, on the map as it is drawn. */
export function wayWord(heading: Quantity | null): string {
  if (!heading) return 'stands, as far as can be told';
  const eighth = ((Math.round(heading.value / 45) % 8) + 8) % 8;
  return `${ways[eighth] ?? ''} (± ${Math.ceil(heading.plusMinus)}°)`;
}

/** An obstacle that the line goes through but no number asks for. */
export function wrongSentence(why: 'order' | 'direction' | 'notNumbered', name: string, at: string): string {
  const reason = {
    order: 'but no number asks for it then',
    direction: 'but the wrong way',
    notNumbered: 'which has no number',
  }[why];
  return `Through ${name} at ${at} s, ${reason}`;
}

/** Whether the paws stayed, and why that cannot be told. */
export function stayedSentence({ verdict, moved, notMarked }: StartLineStayed): string {
  const paws = (which: (m: Moved) => boolean): string =>
    listed(moved.filter((m) => m.point.endsWith('Paw') && which(m)).map((m) => bodyPointWords[m.point]));
  if (verdict === 'broke') return `She stepped: ${paws((m) => m.verdict === 'broke')}.`;
  if (verdict === 'kept') return 'She stayed: no paw stepped.';
  const loose = paws((m) => m.verdict === 'cannotTell');
  const reasons = [
    notMarked.length > 0
      ? `the ${listed(notMarked.map((p) => bodyPointWords[p]))} ${notMarked.length > 1 ? 'are' : 'is'} not marked twice`
      : '',
    loose === '' ? '' : `for the ${loose} the marks allow both a step and none`,
  ].filter((r) => r !== '');
  return `Cannot tell: ${listed(reasons)}.`;
}

/** How far a point moved from where it was first marked, and what its marks allow. */
export function movedSentence({ centimetres, least, most, verdict, point }: Moved): string {
  // Millimetres only where they are known.
  const digits = most - least < 10 ? 1 : 0;
  const [way, from, to] = [centimetres, least, most].map((v) => v.toFixed(digits));
  const span = `${way} cm (${from} to ${to})`;
  if (!point.endsWith('Paw')) return `${span}, does not count`;
  return { broke: `${span}: a step`, kept: `${span}: stayed`, cannotTell: `${span}: cannot tell` }[verdict];
}
