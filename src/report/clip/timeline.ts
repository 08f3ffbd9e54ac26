import { ptsAfter, type FrameTable } from '../../time/frameTable.ts';
import { frameIndex } from '../../time/units.ts';
import { outRate, type OutRate } from './outRate.ts';

/** Frames of a clip that are shown slowed. */
export interface SlowPart extends FramePart {
  readonly speed: number;
}

/** A frame that is held. */
export interface Freeze {
  readonly frame: number;
  readonly seconds: number;
}

/** Frames one after another, by their indices in a table, both ends included. */
export interface FramePart {
  readonly from: number;
  readonly to: number;
}

/** What of a clip is shown, and how. */
export interface Shown {
  /** At least one; they follow each other and have no frame in common. */
  readonly parts: readonly FramePart[];
  readonly slow: readonly SlowPart[];
  readonly freezes: readonly Freeze[];
}

/** A frame of the footage on the clock of the clip that is made, counted in pictures of its constant rate. */
export interface Shot {
  readonly frame: number;
  readonly at: number;
  readonly ticks: number;
  /** Share of real time. */
  readonly speed: number;
  /** It is held: how many of its pictures are due to that. */
  readonly held: number;
}

export interface Timeline {
  readonly rate: OutRate;
  /** Pictures in all. */
  readonly ticks: number;
  readonly shots: readonly Shot[];
}

/**
 * What each picture of a clip shows. The first frame of each part, its last, the first and the last of all that is
 * slowed, and every held frame are always among the pictures; frames in between are left out only where there are more of
 * them than a phone is asked to show, and none comes before its time. Pure.
 * @throws RangeError where a part lies outside of the table, the wrong way round, or not after the one before
 */
export function timelineOf(table: FrameTable, shown: Shown): Timeline {
  const { parts } = shown;
  const inOrder = parts.every(
    ({ from, to }, i) => from > (parts[i - 1]?.to ?? -1) && from <= to && to < table.pts.length,
  );
  const [first] = parts;
  const last = parts.at(-1);
  if (!inOrder || !first || !last) {
    const told = parts.map(({ from, to }) => `${from} to ${to}`).join(', ');
    throw new RangeError(`Frames ${told} of ${table.pts.length} cannot be shown`);
  }
  const rate = outRate(table, first.from, last.to);
  const shots: Shot[] = [];
  let at = 0;
  for (const piece of piecesOf(shown)) {
    for (const shot of shotsOf(table, piece, rate, at)) shots.push(shot);
    const shot = shots.at(-1);
    if (shot) at = shot.at + shot.ticks;
  }
  return { rate, ticks: at, shots };
}

interface Piece {
  readonly from: number;
  readonly to: number;
  readonly speed: number;
  /** Seconds for which its last frame is held. */
  readonly held: number;
}

/** A clip in pieces of one speed, each ended by what is held. Where slowed parts overlap, the slowest holds. */
function piecesOf({ parts, slow, freezes }: Shown): Piece[] {
  const speedAt = (frame: number): number =>
    slow.reduce((v, part) => (frame >= part.from && frame <= part.to ? Math.min(v, part.speed) : v), 1);
  const heldAt = (frame: number): number =>
    freezes.reduce((sum, f) => (f.frame === frame ? sum + f.seconds : sum), 0);
  const inner = [...freezes.map((f) => f.frame), ...slow.flatMap((part) => [part.from - 1, part.to])];
  return parts.flatMap(({ from, to }) => {
    let begin = from;
    return [...new Set([...inner, to])]
      .filter((frame) => frame >= from && frame <= to)
      .sort((a, b) => a - b)
      .map((end): Piece => {
        const piece = { from: begin, to: end, speed: speedAt(begin), held: heldAt(end) };
        begin = end + 1;
        return piece;
      });
  });
}

/**
 * A frame begins with the first picture at or after its time. Clocks of cameras jitter, so a frame may come early by up
 * to this share of the usual distance; else a clip of an even rate would skip one frame and show its neighbour twice.
 */
const early = 0.45;

function shotsOf(table: FrameTable, piece: Piece, rate: OutRate, at: number): Shot[] {
  const { from, to, speed } = piece;
  const frames = to - from + 1;
  const start = table.pts[from] ?? 0;
  const perTick = (table.timeBase.num * rate.num) / (table.timeBase.den * rate.den * speed);
  const length = (ptsAfter(table, frameIndex(to)) - start) * perTick;
  // Both ends are to be seen.
  const count = Math.max(Math.round(length), Math.min(2, frames));
  const slack = early * Math.min(1, length / frames);
  const begins = (frame: number): number => {
    if (frame === from) return 0;
    const first = Math.max(1, Math.ceil(((table.pts[frame] ?? 0) - start) * perTick - slack));
    return frame === to ? Math.min(first, count - 1) : first;
  };
  const kept: { frame: number; begin: number }[] = [];
  for (let frame = from; frame <= to; frame++) {
    const begin = begins(frame);
    if (begin > count - 1) continue;
    // Of frames that begin with the same picture the last is shown.
    while (kept.length > 0 && (kept.at(-1)?.begin ?? 0) >= begin) kept.pop();
    kept.push({ frame, begin });
  }
  const held = Math.round((piece.held * rate.num) / rate.den);
  return kept.map(({ frame, begin }, i) => {
    const still = i === kept.length - 1 ? held : 0;
    const end = (kept[i + 1]?.begin ?? count) + still;
    return { frame, at: at + begin, ticks: end - begin, speed, held: still };
  });
}

/** Seconds that a clip lasts. */
export const secondsOf = ({ ticks, rate }: Pick<Timeline, 'ticks' | 'rate'>): number =>
  (ticks * rate.den) / rate.num;
