/** Which way the coach travels through the clip. */
export type Direction = 1 | -1;

/** How the coach moves: single steps, which may turn round at any time, or a held key. */
export type Gait = 'stepping' | 'travelling';

/** Shares of the kept frames that lie ahead in the direction of travel: hardly any are kept behind a held key. */
const aheadShare: Readonly<Record<Gait, number>> = { stepping: 0.75, travelling: 0.97 };
/** Going backward, a decoder must run through the whole group: worth it only for a good piece of frames at once. */
const pieceShare = 1 / 2;
/** Running on is preferred over a new start while it costs no more than this many frames extra. */
const patience = 8;

/** The frames worth keeping around the one asked for. */
export interface Reach {
  readonly ahead: number;
  readonly behind: number;
}

/** Splits a number of frames that fit into those ahead of and behind the frame asked for (which takes one). */
export function reachOf(capacity: number, gait: Gait = 'stepping'): Reach {
  const others = Math.max(0, capacity - 1);
  const ahead = Math.ceil(others * aheadShare[gait]);
  return { ahead, behind: others - ahead };
}

/** How far a frame is from use: larger goes first when room is needed. Behind counts more than ahead. */
export function remoteness(
  frame: number,
  asked: number,
  direction: Direction,
  gait: Gait = 'stepping',
): number {
  const ahead = (frame - asked) * direction;
  return ahead >= 0 ? ahead : (-ahead * aheadShare[gait]) / (1 - aheadShare[gait]);
}

/** The direction of travel after a new ask: two steps against it turn it, a jump resets it to forward. */
export interface Travel {
  readonly direction: Direction;
  readonly against: number;
}

export function travel(before: Travel, from: number, to: number, jump = 16): Travel {
  const by = to - from;
  if (by === 0) return before;
  if (Math.abs(by) > jump) return { direction: 1, against: 0 };
  const direction: Direction = by > 0 ? 1 : -1;
  if (direction === before.direction) return { direction, against: 0 };
  return before.against >= 1 ? { direction, against: 0 } : { ...before, against: before.against + 1 };
}

/** A decoder at work: the first frame it yields, the last one that came out, and the one it was sent for. */
export interface Underway {
  readonly first: number;
  readonly out: number;
  readonly goal: number;
}

export interface Situation {
  readonly asked: number;
  readonly direction: Direction;
  readonly last: number;
  readonly reach: Reach;
  /** True for frames that are kept, and for those known to be lost. */
  has(frame: number): boolean;
  /** First frame that a decoder started for this frame yields. */
  firstFrom(frame: number): number;
  readonly underway: Underway | null;
}

/**
 * What the decoder should do next. `drain`: the goal is the end of this run, so its frames are to be pressed out
 * without waiting for more packets. `from`: start at the key frame for this frame.
 */
export type Next =
  | { readonly act: 'rest' }
  | { readonly act: 'run'; readonly goal: number; readonly drain: boolean }
  | { readonly act: 'start'; readonly goal: number; readonly from: number; readonly drain: boolean };

/** Decides what to decode next: the frame asked for, then what lies ahead, then what lies behind. */
export function nextToDecode(s: Situation): Next {
  const { asked, direction, reach } = s;
  if (!s.has(asked)) {
    // Close behind its key frame it is pressed out at once: to start there once more costs next to nothing.
    const close = asked - s.firstFrom(asked) < patience && s.underway?.first === s.firstFrom(asked);
    return toward(s, asked, asked, direction < 0 || close);
  }
  const low = Math.max(0, asked - (direction > 0 ? reach.behind : reach.ahead));
  const high = Math.min(s.last, asked + (direction > 0 ? reach.ahead : reach.behind));
  if (direction > 0) return forward(s, high) ?? backward(s, low, reach.behind) ?? { act: 'rest' };
  return backward(s, low, reach.ahead) ?? { act: 'rest' };
}

function forward(s: Situation, high: number): Next | null {
  for (let frame = s.asked + 1; frame <= high; frame++) {
    if (!s.has(frame)) return toward(s, frame, frame, false);
  }
  return null;
}

function backward(s: Situation, low: number, span: number): Next | null {
  let goal = s.asked - 1;
  while (goal >= low && s.has(goal)) goal--;
  if (goal < low) return null;
  if (s.underway && s.underway.goal === goal && s.underway.out < goal)
    return { act: 'run', goal, drain: true };
  const piece = Math.max(1, Math.floor(span * pieceShare));
  const from = Math.max(low, goal - piece + 1);
  const first = s.firstFrom(goal);
  const enough = Math.min(piece, goal - first + 1, goal + 1);
  if (goal - low + 1 < enough) return null;
  return toward(s, goal, Math.min(from, goal), true);
}

function toward(s: Situation, goal: number, from: number, drain: boolean): Next {
  const run = s.underway;
  if (run && run.out < goal) {
    const onward = goal - run.out;
    const anew = goal - s.firstFrom(from) + 1;
    if (onward <= anew + patience) return { act: 'run', goal, drain };
  }
  return { act: 'start', goal, from, drain };
}
