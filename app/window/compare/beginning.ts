import { frameShownAt, type Span } from '../../../src/review/cells.ts';
import { middle, type ClipClock } from '../../../src/time/bracket.ts';
import type { RunBeside } from '../../../src/review/compare/sideBySide.ts';

/** Seconds before the clock starts at which runs may be shown first: the dog waits, the handler leads out. */
const [shortest, longest] = [0.5, 2];

/** Counts as so many frames to decode where nothing is known of what comes before: not to be chosen. */
const unknown = 1000;

type ClockedRun = Pick<RunBeside, 'analysis'>;

/** Run times at which a run may be shown first; null where no clock runs: then from its first frame. */
export function beginningOf(run: ClockedRun | undefined): Span | null {
  const start = run?.analysis.clock?.start.bracket;
  return start ? { from: middle(start) - longest, to: middle(start) - shortest } : null;
}

/** What is known of a picture before it is shown. */
interface Beginner {
  readonly clock: ClipClock;
  readonly first: number;
  readonly last: number;
  readonly keys: readonly number[];
}

/**
 * The frame of the leader at which the runs are shown first: of those shortly before its clock starts the one for which
 * the fewest frames have to be decoded, over all runs; of several the last. A frame can only be decoded after those
 * before it, from a key frame on: half a second earlier may be there in a fifth of the time.
 * @param together what each run shows beside a frame of the leader; null where it shows nothing
 */
export function frameToBeginWith(
  leader: Beginner,
  run: ClockedRun | undefined,
  pictures: readonly (Pick<Beginner, 'keys'> | null)[],
  together: (frame: number) => readonly ({ readonly frame: number } | null)[],
): number {
  const span = beginningOf(run);
  if (!span) return leader.first;
  const within = (at: number): number =>
    Math.max(leader.first, Math.min(leader.last, frameShownAt(leader.clock, at)));
  const [from, to] = [within(span.from), within(span.to)];
  let best = { frame: to, cost: Infinity };
  for (let frame = to; frame >= from; frame--) {
    const cost = together(frame).reduce((sum, lane, i) => {
      const keys = pictures[i]?.keys ?? [];
      return sum + (lane && keys.length > 0 ? framesBefore(lane.frame, keys) : 0);
    }, 0);
    if (cost < best.cost) best = { frame, cost };
  }
  return best.frame;
}

/** How many frames are decoded on the way to this one. */
function framesBefore(frame: number, keys: readonly number[]): number {
  const key = keys.findLast((k) => k <= frame);
  return key === undefined ? unknown : frame - key;
}
