import type { RandomStream } from './base/random.ts';
import type { CameraAt } from './camera/path.ts';
import { seenAt } from './camera/path.ts';
import type { SingleCross } from './crosses.ts';
import type { FrameTimes } from './frameTimes.ts';
import { secondsOf } from './frameTimes.ts';
import type { Paw, PawContacts } from './actors/footfalls.ts';
import { paws } from './actors/footfalls.ts';

/** How a person marks. */
export interface Habits {
  /** Share of marks that stand one frame beside the right one. */
  readonly offByOne: number;
  /** Frames of `unsure` that the person notes: never, always, or just where she was off. */
  readonly unsure: 'never' | 'always' | 'whereOff';
  /** Standard deviation of a click, pixels, in each direction. */
  readonly clickNoise: number;
  /** Share of marks left out. */
  readonly forgets: number;
}

export const exactHabits: Habits = { offByOne: 0, unsure: 'never', clickNoise: 0, forgets: 0 };

/** A mark as a person sets it. */
export interface PlacedMark {
  /** Index of the frame, and its PTS in units of the film's time base. */
  readonly frame: number;
  readonly pts: number;
  /** Frames that widen the bracket both ways. */
  readonly unsure: number;
  readonly seen: 'first' | 'last';
}

/** Marks events on the frames of one film. `origin`: the time, on the events' clock, of media time 0. */
export class Marker {
  private readonly times: readonly number[];
  private readonly frames: FrameTimes;
  private readonly origin: number;
  private readonly habits: Habits;
  private readonly random: RandomStream;

  constructor(frames: FrameTimes, origin: number, habits: Habits, random: RandomStream) {
    this.times = secondsOf(frames);
    this.frames = frames;
    this.origin = origin;
    this.habits = habits;
    this.random = random;
  }

  /**
   * The mark of one event; null where no frame shows it or the person forgot.
   * First-seen: the first frame at or after it. Last-seen: the last frame at or before it.
   */
  mark(event: number, seen: 'first' | 'last'): PlacedMark | null {
    const at = event - this.origin;
    let low = 0;
    let high = this.times.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      const t = this.times[middle] ?? 0;
      if (seen === 'first' ? t >= at : t > at) high = middle;
      else low = middle + 1;
    }
    const right = seen === 'first' ? low : low - 1;
    const slip = this.random.chance(this.habits.offByOne) ? (this.random.chance(0.5) ? 1 : -1) : 0;
    const forgotten = this.random.chance(this.habits.forgets);
    const frame = right + slip;
    const pts = this.frames.pts[frame];
    if (pts === undefined || forgotten) return null;
    const noted = this.habits.unsure === 'always' || (this.habits.unsure === 'whereOff' && slip !== 0);
    return { frame, pts, unsure: noted ? 1 : 0, seen };
  }
}

/** A cross as marked: the same events as in the truth, each a mark or null. */
export interface MarkedCross {
  readonly cues: readonly {
    readonly kind: string;
    readonly begin: PlacedMark | null;
    readonly end: PlacedMark | null;
  }[];
  readonly finished: PlacedMark | null;
  readonly committedToObstacle: PlacedMark | null;
  readonly in: PlacedMark | null;
  readonly out: PlacedMark | null;
}

/** Marks one cross. Take-off is last-seen, the entry of a tunnel first-seen. */
export function markCross(cross: SingleCross, marker: Marker): MarkedCross {
  return {
    cues: cross.cues.map((c) => ({
      kind: c.kind,
      begin: marker.mark(c.begin, 'first'),
      end: marker.mark(c.end, 'first'),
    })),
    finished: cross.finished === null ? null : marker.mark(cross.finished, 'first'),
    committedToObstacle: marker.mark(cross.committedToObstacle, 'first'),
    in: marker.mark(cross.in, cross.obstacle === 'tunnel' ? 'first' : 'last'),
    out: marker.mark(cross.out, 'first'),
  };
}

/** A click on a paw that stands on the ground. */
export interface Click {
  readonly frame: number;
  readonly pts: number;
  readonly point: Paw;
  readonly u: number;
  readonly v: number;
  /** Where the paw really stands. */
  readonly ground: readonly [number, number];
}

/** Clicks on paws: in each contact, at the frame nearest to its middle, with the hand's noise. */
export function clickPaws(
  contacts: PawContacts,
  frames: FrameTimes,
  origin: number,
  camera: CameraAt,
  habits: Habits,
  random: RandomStream,
): Click[] {
  const times = secondsOf(frames);
  const out: Click[] = [];
  for (const paw of paws) {
    for (const c of contacts[paw]) {
      if (c.z > 0.005) continue;
      const frame = times.findIndex((t) => t + origin >= (c.begin + c.end) / 2);
      const time = times[frame];
      const pts = frames.pts[frame];
      if (time === undefined || pts === undefined || time + origin > c.end) continue;
      const seen = seenAt(camera, { x: c.x, y: c.y, z: c.z }, time + origin);
      if (!seen) continue;
      out.push({
        frame,
        pts,
        point: paw,
        u: seen.u + habits.clickNoise * random.bell(),
        v: seen.v + habits.clickNoise * random.bell(),
        ground: [c.x, c.y],
      });
    }
  }
  return out.sort((a, b) => a.frame - b.frame);
}
