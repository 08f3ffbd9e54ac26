import { frameAt, lastFrame, ptsAfter, ptsOf } from '../time/frameTable.ts';
import { runTimeAt, type ClipClock } from '../time/bracket.ts';
import { pts as ticks } from '../time/units.ts';
import type { FitError } from './realLine.ts';
import type { LineReading } from './readings.ts';
import type { Track, TrackMark } from './track.ts';

/** The ground under the pixels of one clip, as the fit has it. Pixels of the upright picture, y down. */
export interface GroundView {
  readonly picture: { readonly width: number; readonly height: number };
  /** Null at the horizon and above it. */
  under(pixel: { readonly x: number; readonly y: number }): UnderPixel | null;
  /** The ground straight under the lens; null where the fit cannot tell. Without it marks in the air say nothing. */
  readonly foot: { readonly x: number; readonly y: number } | null;
  readonly error: FitError | null;
  /** Usual noise of a click per axis, pixels, one standard deviation. */
  readonly clickNoise: number;
}

export interface UnderPixel {
  readonly x: number;
  readonly y: number;
  /** Metres a pixel: x by u, x by v, y by u, y by v. */
  readonly byPixel: readonly [number, number, number, number];
  /** Metres a unit of each parameter of the fit. */
  readonly byFit: readonly [readonly number[], readonly number[]];
}

/** Why a mark says nothing of the line. */
export interface MarkLeftOut {
  readonly mark: TrackMark;
  /**
   * `twice`: another mark of this track stands on its frame, and the later in the list counts. `noFrame`: the clip has
   * no such time. `cutOff`: outside of the part of the clip that the review is about. `horizon`: not on the ground as
   * the fit has it. `noFoot`: in the air, and where the camera stands is not known.
   */
  readonly why: 'twice' | 'noFrame' | 'cutOff' | 'horizon' | 'noFoot';
}

export interface FromMarks {
  /** In the order of time. */
  readonly readings: readonly LineReading[];
  /** The mark that each of the readings comes from. */
  readonly marks: readonly TrackMark[];
  readonly leftOut: readonly MarkLeftOut[];
}

/** No click is surer than this, pixels: a pixel has a size. */
const leastNoise = 0.25;

/**
 * What a track says of where a point was, and when. A mark counts for the middle of what its frame may show: half a
 * frame to either side, evenly. Marks may stand in any order.
 * @param cut the part of the clip that counts, presentation times, both included; absent: all of it
 */
export function readingsFrom(
  track: Pick<Track, 'marks'>,
  clock: ClipClock,
  view: GroundView,
  cut?: { readonly from: number; readonly to: number },
): FromMarks {
  const leftOut: MarkLeftOut[] = [];
  const onFrame = new Map<number, TrackMark>();
  for (const mark of track.marks) {
    const before = onFrame.get(mark.pts);
    if (before) leftOut.push({ mark: before, why: 'twice' });
    onFrame.set(mark.pts, mark);
  }
  const read = [...onFrame.values()].flatMap((mark) => {
    const reading = readingFrom(mark, clock, view, cut);
    if (typeof reading !== 'string') return [{ mark, reading }];
    leftOut.push({ mark, why: reading });
    return [];
  });
  read.sort((a, b) => a.reading.at - b.reading.at);
  return { readings: read.map((r) => r.reading), marks: read.map((r) => r.mark), leftOut };
}

function readingFrom(
  mark: TrackMark,
  clock: ClipClock,
  view: GroundView,
  cut: { readonly from: number; readonly to: number } | undefined,
): LineReading | MarkLeftOut['why'] {
  const { table } = clock;
  const first = table.pts[0] ?? Infinity;
  const end = ptsAfter(table, lastFrame(table));
  if (!(mark.pts >= first && mark.pts < end)) return 'noFrame';
  if (cut && (mark.pts < cut.from || mark.pts > cut.to)) return 'cutOff';
  const here = view.under({ x: mark.at.x * view.picture.width, y: mark.at.y * view.picture.height });
  if (!here) return 'horizon';
  const frame = frameAt(table, ticks(mark.pts));
  const at = runTimeAt(clock, ptsOf(table, frame));
  const width = Math.abs(runTimeAt(clock, ptsAfter(table, frame)) - at);
  // Evenly spread over a frame: its width over the root of twelve.
  const unsure = width / Math.sqrt(12);
  const noise = Math.max(leastNoise, mark.unsure ?? view.clickNoise) ** 2;
  const [a, b, c, d] = here.byPixel;
  const [xx, xy, yy] = [noise * (a * a + b * b), noise * (a * c + b * d), noise * (c * c + d * d)];
  const place = { at, unsure, x: here.x, y: here.y };
  if (mark.contact === 'ground')
    return { ...place, contact: 'ground', spread: [xx, xy, yy], byFit: here.byFit };
  if (!view.foot) return 'noFoot';
  const along = Math.atan2(here.y - view.foot.y, here.x - view.foot.x);
  const [nx, ny] = [-Math.sin(along), Math.cos(along)];
  return {
    ...place,
    contact: 'air',
    along,
    aside: Math.sqrt(nx * nx * xx + 2 * nx * ny * xy + ny * ny * yy),
    byFit: here.byFit[0].map((v, k) => nx * v + ny * (here.byFit[1][k] ?? 0)),
  };
}
