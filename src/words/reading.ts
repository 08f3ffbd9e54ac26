import { obstacleAt } from '../course/course.ts';
import { mannerOf, type Manner } from '../course/kinds.ts';
import type {
  EntryFacts,
  Remark,
  SideChangeFacts,
  SightFacts,
  SliceFacts,
  StartFacts,
  TrapFacts,
  WayFacts,
} from '../line/reading/remark.ts';
import { takenSquarely } from '../line/reading/entryRemark.ts';
import type { Need } from '../line/reading/needs.ts';
import { lengthWords } from './drawing.ts';
import { atNumber, timesOf, withThe, type ReadingTold } from './told.ts';
import { rearSentence } from './rearPrices.ts';
import { listed } from './locale.ts';
import { obstacleWords } from './trade.ts';

/** A remark as a coach would say it to a student, with its figures. */
export function remarkSentence(r: Remark, told: ReadingTold): string {
  switch (r.remark) {
    case 'start':
      return start(r, told);
    case 'way':
      return way(r, told);
    case 'sight':
      return sight(r, told);
    case 'entry':
      return r.poles ? polesEntry(r, r.poles, told) : entry(r, told);
    case 'slice':
      return slice(r, told);
    case 'trap':
      return trap(r, told);
    case 'sideChange':
      return sideChange(r, told);
    case 'neverMet': {
      const what = obstacleWords[told.dialect][r.kind];
      return `She has never met this: the ${what} at ${listed(r.numbers.map(String))}. Let her learn it by itself first, low and slow.`;
    }
    case 'sent':
      return `From ${listed(r.numbers.map(String))} it is up to ${lengthWords(r.longest, told.unit)} to the next, and she has been sent ${lengthWords(r.sentMetres, told.unit)}: stay near her there, or be ahead.`;
  }
}

/** What a course would have to tell before it can be read. */
export function needSentence(n: Need): string {
  switch (n.need) {
    case 'numbers':
      return 'Number at least two obstacles: a line runs from one to the next.';
    case 'ring':
      return 'Say how large the ring is.';
    case 'kinds':
      return `Say what stands at ${inRuns(n.numbers)}: a dog takes a tunnel otherwise than a jump.`;
    case 'places':
      return `Place ${inRuns(n.numbers)} on the grass: distances and angles are measured there.`;
  }
}

const degrees = (d: number): string => `${Math.round(Math.abs(d))}°`;
const hand = (d: number): 'left' | 'right' => (d > 0 ? 'left' : 'right');
/** Less than this is told as nothing: degrees, metres. */
const hardly = { turn: 10, facing: 8, metres: 0.15, offset: 0.05, share: 0.02 } as const;

/** "the red tunnel (5)", "the A-frame (10)", "the bar jump that has no number". */
function piece(id: string, { course, dialect }: ReadingTold, next?: number): string {
  const o = course.obstacles.find((one) => one.id === id);
  if (!o) return 'something';
  const numbers = course.steps.filter((s) => s.obstacleId === id).map((s) => s.number);
  if (next !== undefined && numbers.includes(next)) return `${withThe(o, dialect)} itself`;
  const name = withThe(o, dialect);
  return numbers.length > 0 ? `${name} (${listed(numbers.map(String))})` : `${name} that has no number`;
}

const leaving: Record<Manner, string> = {
  jumped: 'lands',
  through: 'comes out',
  woven: 'comes out',
  climbed: 'comes off',
  unknown: 'is past it',
};

function start({ to: first, metres, stay }: StartFacts, told: ReadingTold): string {
  const jumps = mannerOf(obstacleAt(told.course, first)?.kind ?? 'unknown') === 'jumped';
  const to = jumps ? 'the first take-off' : atNumber(first, told);
  const from = `From where she waits it is ${lengthWords(metres, told.unit)} to ${to}.`;
  if (!stay) return from;
  return `${from} ${stay.tried === 0 ? 'Her stay has not been tried.' : `She has kept her stay ${timesOf(stay)}.`}`;
}

function way(r: WayFacts, told: ReadingTold): string {
  if (r.blocked)
    return `No way was found from ${atNumber(r.from, told)} to ${atNumber(r.to, told)} that keeps clear of the equipment. See whether it stands where it should.`;
  const along =
    r.along - r.straight < hardly.metres
      ? lengthWords(r.along, told.unit)
      : `${lengthWords(r.straight, told.unit)} straight, ${lengthWords(r.along, told.unit)} as she runs`;
  const turning =
    Math.abs(r.turnDegrees) < hardly.turn
      ? 'straight on'
      : `turning ${degrees(r.turnDegrees)} to the ${hand(r.turnDegrees)}`;
  const word =
    r.turnsOnWord === undefined
      ? ''
      : r.turnsOnWord
        ? ` She turns ${hand(r.turnDegrees)} on a word.`
        : ` She has no word for ${hand(r.turnDegrees)} yet.`;
  return `From ${r.from} to ${atNumber(r.to, told)}: ${along}, ${turning}.${word}`;
}

function sight(r: SightFacts, told: ReadingTold): string {
  const from = obstacleAt(told.course, r.from);
  const past = r.past >= hardly.metres ? ` ${lengthWords(r.past, told.unit)} past it` : '';
  const facing =
    Math.abs(r.offHeading) < hardly.facing
      ? 'facing'
      : `facing ${degrees(r.offHeading)} ${hand(-r.offHeading)} of`;
  const lead = `From ${atNumber(r.from, told)} she ${leaving[mannerOf(from?.kind ?? 'unknown')]}${past}, ${facing} ${atNumber(r.to, told)}`;
  const out = r.inView ? '' : `, out of her view ahead${r.fromBehind ? ' and on its far side' : ''}`;
  const hidden = hiddenWords(r, told);
  const ahead = `with ${r.poles ? 'the first two poles' : 'the way in'}${hidden === '' ? ' clear' : ''} before her`;
  const endOn = r.inView && hidden === '' ? ', end on to her: she cannot see the way in' : '';
  const reads = r.seen ? `, ${r.fromBehind ? 'and looks at it from behind' : ahead}` : endOn;
  return `${lead}${out}${reads}${hidden === '' ? '' : `; ${hidden}`}.`;
}

function hiddenWords(r: SightFacts, told: ReadingTold): string {
  const hidden = 1 - r.share;
  const poles = r.poles && (!r.poles.first || !r.poles.second);
  if ((!poles && hidden < hardly.share) || r.hiddenBy.length === 0) return '';
  const by = r.hiddenBy
    .slice(0, 2)
    .map((h) => (h.part === 'wing' ? 'a wing of ' : '') + piece(h.obstacleId, told, r.to));
  const what = r.poles ? hiddenPoles(r.poles, hidden) : wayInWords(hidden);
  return `${listed(by)} ${by.length > 1 ? 'hide' : 'hides'} ${what}`;
}

function hiddenPoles({ first, second }: NonNullable<SightFacts['poles']>, hidden: number): string {
  if (!first && !second) return 'the first two poles';
  if (!first) return 'the first pole';
  if (!second) return 'the second pole';
  return `${wayInWords(hidden)} beside the first pole`;
}

const wayInWords = (hidden: number): string =>
  hidden > 1 - hardly.share ? 'the way in' : `${Math.round(hidden * 100)} % of the way in`;

/** How she comes into the poles, with what was counted of such entries. */
export function polesEntry(
  r: EntryFacts,
  { side, count, few }: NonNullable<EntryFacts['poles']>,
  told: ReadingTold,
): string {
  const to = atNumber(r.to, told);
  const from = side === 'off' ? 'left' : 'right';
  const how =
    Math.abs(r.obliquely) > 90
      ? `To ${to} she comes back from beyond the first pole, on their ${from}, ${degrees(r.obliquely)} off their line: she has to turn round before she can go in.`
      : Math.abs(r.obliquely) < hardly.turn
        ? `Into ${to} she runs straight on, ${degrees(r.obliquely)} off their line.`
        : side === 'off'
          ? `Into ${to} she comes from the left, ${degrees(r.obliquely)} off their line: she has to bend round the first pole to have it at her left shoulder (off-side).`
          : `Into ${to} she comes from the right, ${degrees(r.obliquely)} off their line: past the first pole at her left shoulder and in (on-side).`;
  if (!count) return how;
  if (count.tried === 0) return `${how} She has not tried such an entry yet.`;
  return `${how} She has done such an entry ${timesOf(count)}${few ? '; few tries to go by' : ''}.`;
}

function entry(r: EntryFacts, told: ReadingTold): string {
  const kind = obstacleAt(told.course, r.to)?.kind ?? 'unknown';
  const manner = mannerOf(kind);
  const where = `${degrees(r.obliquely)} ${manner === 'jumped' ? 'off square' : 'off its line'}`;
  const care =
    manner === 'climbed'
      ? ': give her room to be straight before she steps on'
      : takenSquarely.has(kind)
        ? ': give her room to be square before she takes off'
        : '';
  return `To ${atNumber(r.to, told)} she comes from the ${hand(-r.obliquely)}, ${where}${care}.`;
}

function slice(r: SliceFacts, told: ReadingTold): string {
  const at =
    Math.abs(r.offset) < hardly.offset
      ? 'over the middle'
      : `${lengthWords(Math.abs(r.offset), told.unit)} ${hand(r.offset)} of the middle`;
  return `She takes ${atNumber(r.number, told)} at a slant of ${degrees(r.sliceDegrees)} to the ${hand(r.sliceDegrees)}, ${at}.`;
}

function trap(r: TrapFacts, told: ReadingTold): string {
  const metres = lengthWords(r.metres, told.unit);
  if (r.seenFrom === 'turning')
    return `Turning from ${r.from} to ${atNumber(r.to, told)} she comes to face ${r.from} again, ${metres} away: a back jump.`;
  const where =
    Math.abs(r.offHeading) < hardly.facing
      ? `${metres} straight ahead`
      : `${metres} away, ${degrees(r.offHeading)} to the ${hand(r.offHeading)}`;
  const what =
    r.trap === 'wrongMouth'
      ? `the wrong mouth of ${atNumber(r.to, told)}`
      : r.trap === 'backJump'
        ? `${piece(r.obstacleId, told)} the wrong way round, a back jump`
        : r.wrongEnd
          ? `the wrong end of ${piece(r.obstacleId, told)}`
          : piece(r.obstacleId, told);
  const isNext = obstacleAt(told.course, r.to)?.id === r.obstacleId;
  if (r.trap === 'backJump' && isNext)
    return `Ahead of her from ${atNumber(r.from, told)} stands ${atNumber(r.to, told)} the wrong way round, a back jump: ${where}; she has to go round it first.`;
  const right = isNext ? 'the right one' : String(r.to);
  const rightLies =
    Math.abs(r.rightOffHeading) < hardly.facing
      ? `${right} lies straight on too`
      : `${right} lies ${degrees(r.rightOffHeading)} to the ${hand(r.rightOffHeading)}`;
  const poles =
    !r.wrongEnd && told.course.obstacles.find((o) => o.id === r.obstacleId)?.kind === 'weavePoles';
  return `Ahead of her from ${atNumber(r.from, told)} ${poles ? 'stand' : 'stands'} ${what}: ${where}; ${rightLies}.`;
}

function sideChange(r: SideChangeFacts, told: ReadingTold): string {
  const to = r.before === 'left' ? 'right' : 'left';
  const [first, last] = [r.at[0], r.at.at(-1)];
  const where =
    first === undefined || last === undefined
      ? `Between ${r.after ?? 'the start'} and ${r.by ?? 'the finish'}`
      : first === last
        ? `At ${atNumber(first, told)}`
        : `From ${first} to ${last}`;
  const rear = r.rearAtPoles ? ` Rear cross at the poles: done ${timesOf(r.rearAtPoles)}.` : '';
  const prices = r.rear ? ` ${rearSentence(r.rear, told)}` : '';
  return `${where} the course goes over from ${r.before} turns to ${to} turns: a side change fits there, from dog on your ${to} to dog on your ${r.before}.${rear}${prices}`;
}

/** Numbers in runs: "1 to 20", "3, 5 and 7 to 9". */
function inRuns(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const n of [...new Set(numbers)].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && n === last[1] + 1) last[1] = n;
    else runs.push([n, n]);
  }
  return listed(
    runs.flatMap(([a, b]) => (a === b ? [String(a)] : b === a + 1 ? [`${a}`, `${b}`] : [`${a} to ${b}`])),
  );
}
