import type { Drawing } from '../review/marks.ts';
import type { Track, TrackMark } from '../track/track.ts';
import { frameKey } from './stills.ts';

/** A part of a picture: shares of its width and height, of the picture's own form. */
export interface Part {
  readonly x: number;
  readonly y: number;
  /** Of the width and of the height alike. */
  readonly size: number;
}

type Who = Track['who'];
type Place = TrackMark['at'];

/** Room about the marked feet, shares of the picture: bodies stand above them. */
const room = { beside: 0.1, above: 0.18, below: 0.08 } as const;
/** A closer look would only show how few pixels there are. */
const least = 0.4;
/** From here on the whole picture says more. */
const most = 0.75;
/** Marks further apart than so many of a track's usual gaps do not tell where a body is between them, */
const farApart = 3;
/** and further apart than so many not even where to look. */
const lost = 12;

/**
 * The part of a frame to look at: all who matter there and all that the coach drew on it.
 * @param who who must be in it
 * @returns null where one of them is not marked about that frame, or where it would be nearly all of the picture
 */
export function closeUpOf(
  { tracks, drawings }: { readonly tracks: readonly Track[]; readonly drawings: readonly Drawing[] },
  { footageId, pts }: { readonly footageId: string; readonly pts: number },
  who: readonly Who[],
): Part | null {
  const feet = who.map((body) =>
    tracks.filter((t) => t.footageId === footageId && t.who === body).flatMap((t) => placesIn(t.marks, pts)),
  );
  if (feet.length === 0 || feet.some((places) => places.length === 0)) return null;
  const drawn = drawings
    .filter((d) => frameKey(d.footageId, d.pts) === frameKey(footageId, pts))
    .flatMap((d) => d.strokes.flatMap(({ points }) => pairs(points)));
  const places = feet.flat();
  const [xs, ys] = [[...places, ...drawn].map((p) => p.x), [...places, ...drawn].map((p) => p.y)];
  const [left, right] = [Math.min(...xs) - room.beside, Math.max(...xs) + room.beside];
  const [top, bottom] = [Math.min(...ys) - room.above, Math.max(...ys) + room.below];
  const size = Math.max(right - left, bottom - top, least);
  if (!(size <= most)) return null;
  const inside = (middle: number): number => Math.max(0, Math.min(1 - size, middle - size / 2));
  return { x: inside((left + right) / 2), y: inside((top + bottom) / 2), size };
}

/**
 * Where a track has its point on a frame: between the two marks about it; where they are far apart, as at a contact or in
 * a tunnel, both of them, since the body lies somewhere between; nowhere where they are further apart still.
 */
function placesIn(marks: readonly TrackMark[], pts: number): readonly Place[] {
  const inOrder = marks.toSorted((a, b) => a.pts - b.pts);
  const here = inOrder.find((m) => m.pts === pts);
  if (here) return [here.at];
  const gaps = inOrder.slice(1).map((m, i) => m.pts - (inOrder[i]?.pts ?? m.pts));
  const usual = gaps.toSorted((a, b) => a - b)[Math.floor(gaps.length / 2)];
  const after = inOrder.findIndex((m) => m.pts > pts);
  const [a, b] = [inOrder[after - 1], inOrder[after]];
  if (!a || !b || usual === undefined || b.pts - a.pts > lost * usual) return [];
  if (b.pts - a.pts > farApart * usual) return [a.at, b.at];
  const share = (pts - a.pts) / (b.pts - a.pts);
  return [{ x: a.at.x + share * (b.at.x - a.at.x), y: a.at.y + share * (b.at.y - a.at.y) }];
}

function pairs(points: readonly number[]): Place[] {
  const out: Place[] = [];
  for (let i = 0; i + 1 < points.length; i += 2) out.push({ x: points[i] ?? 0, y: points[i + 1] ?? 0 });
  return out;
}
