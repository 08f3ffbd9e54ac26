import { bracketOf, middle, runTimeAt, type ClipClock } from '../time/bracket.ts';
import { clockDrift } from '../time/lineUp/allowance.ts';
import type { SoundLineUp } from '../time/lineUp/bySound.ts';
import { lastFrame, ptsOf } from '../time/frameTable.ts';
import { frameIndex, type Pts } from '../time/units.ts';
import { rootOf } from './angles.ts';
import type { FootageUse, LineUp } from './document.ts';
import type { Change } from './entities.ts';

/** How one clip of a run lies to another, before it is written into the review. */
export interface Relation {
  /** Capture time of the clip that stays when the other is at capture time 0, seconds. */
  readonly offset: number;
  /** Capture seconds of the clip that stays per capture second of the other. */
  readonly rate: number;
  readonly plusMinus: number;
  readonly by: LineUp['by'];
  readonly spacing?: number;
}

/** Which of two clips stays where it is: the one that the other one's line-up, or the order of the review, rests on. */
export function whichStays(
  footage: readonly FootageUse[],
  a: string,
  b: string,
): { readonly stays: string; readonly moves: string } {
  const at = (id: string): number => footage.findIndex((f) => f.id === id);
  const bStays = restsOn(footage, a, b) || (!restsOn(footage, b, a) && at(b) < at(a));
  return bStays ? { stays: b, moves: a } : { stays: a, moves: b };
}

/**
 * The changes that bring one clip onto the clock of another. Clips that were lined up to the moved one move with it.
 * Empty where one of the two is not in the review.
 */
export function linedUp(
  footage: readonly FootageUse[],
  stays: string,
  moves: string,
  relation: Relation,
): Change[] {
  const base = footage.find((f) => f.id === stays);
  const clip = footage.find((f) => f.id === moves);
  if (!base || !clip || stays === moves) return [];
  const { by, plusMinus, spacing } = relation;
  const offset = base.offset + base.rate * relation.offset;
  const rate = base.rate * relation.rate;
  const lineUp: LineUp = { to: stays, by, plusMinus, ...(spacing === undefined ? {} : { spacing }) };
  const moved = { ...clip, offset, rate, lineUp };
  const stretch = rate / clip.rate;
  const followers = footage.filter((f) => f.id !== moves && restsOn(footage, f.id, moves));
  return [
    moved,
    ...followers.map((f) => ({
      ...f,
      offset: offset + (f.offset - clip.offset) * stretch,
      rate: f.rate * stretch,
    })),
  ].map((body) => ({ kind: 'footage', id: body.id, body }));
}

/** Whether a clip was lined up to another, directly or over others. */
function restsOn(footage: readonly FootageUse[], id: string, on: string): boolean {
  const seen = new Set<string>();
  let here = footage.find((f) => f.id === id);
  while (here?.lineUp && !seen.has(here.id)) {
    if (here.lineUp.to === on) return true;
    seen.add(here.id);
    const { to } = here.lineUp;
    here = footage.find((f) => f.id === to);
  }
  return false;
}

/** Why sound may not place this clip, or null where it may. A moment that both clips show is surer and stays. */
export function soundBarred(stays: FootageUse, moves: FootageUse): 'slowMotion' | 'moment' | null {
  if ([...stays.speed, ...moves.speed].some((piece) => piece.speed !== 1)) return 'slowMotion';
  return moves.lineUp?.by === 'moment' && moves.lineUp.to === stays.id ? 'moment' : null;
}

/** What sound says. Media time and capture time are one in clips of real time; others are barred. */
export function bySound(
  answer: Pick<SoundLineUp, 'offset' | 'rate' | 'plusMinus'>,
  spacing: number,
): Relation {
  const { offset, rate, plusMinus } = answer;
  return { offset, rate, plusMinus, by: 'sound', spacing };
}

/** A frame on which the coach saw the moment first. */
export interface SharedFrame {
  readonly clock: ClipClock;
  readonly pts: Pts;
}

/**
 * What one moment says that both clips show, such as a paw touching: on each clip it lies in (previous frame, this
 * frame]. Plus or minus half the widths of both, and what two clocks may run apart from there to the farthest end.
 */
export function byMoment(stays: SharedFrame, moves: SharedFrame): Relation {
  const [a, b] = [stays, moves].map(({ clock, pts }) =>
    bracketOf({ table: clock.table, speed: clock.speed, offset: 0, rate: 1 }, pts, 'first'),
  );
  if (!a || !b) throw new RangeError('Two frames are needed');
  const far = [stays, moves].map(({ clock, pts }) => farthest({ ...clock, offset: 0, rate: 1 }, pts));
  const frames = (a.to - a.from + (b.to - b.from)) / 2;
  return {
    offset: middle(a) - middle(b),
    rate: 1,
    plusMinus: frames + clockDrift * Math.max(...far),
    by: 'moment',
  };
}

function farthest(clock: ClipClock, at: Pts): number {
  const { table } = clock;
  const here = runTimeAt(clock, at);
  const ends = [ptsOf(table, frameIndex(0)), ptsOf(table, lastFrame(table))];
  return Math.max(...ends.map((end) => Math.abs(runTimeAt(clock, end) - here)));
}

/** The footage with how it stands to the first clip of the review: itself the first, lined up with it, or loose. */
export function standingOf(footage: readonly FootageUse[], id: string): 'first' | 'linedUp' | 'loose' {
  const [first] = footage;
  if (!first || first.id === id) return 'first';
  return rootOf(footage, id).id === rootOf(footage, first.id).id ? 'linedUp' : 'loose';
}
