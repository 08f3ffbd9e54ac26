import type { Magnifier, SetPlace } from '../../../../src/host/contract/looks.ts';

/** A place in the upright picture, fractions of its width and height. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/** Sizes that the keys step through; 1 is the whole picture. */
export const zooms = [1, 1.5, 2, 3, 4, 6, 8] as const;
const nearest = 8;

export const wholeView: Magnifier = { zoom: 1, x: 0.5, y: 0.5, places: [] };

/** A size as it may be; the whole picture where it is no number. */
export function zoomWithin(zoom: number): number {
  return Number.isNaN(zoom) ? 1 : Math.max(1, Math.min(nearest, zoom));
}

/** The next size of the row, nearer or further. */
export function nextZoom(zoom: number, step: 1 | -1): number {
  const near = 1e-6;
  const next = step > 0 ? zooms.find((z) => z > zoom + near) : zooms.findLast((z) => z < zoom - near);
  return next ?? zoomWithin(zoom);
}

/** A place such that no more than the picture is seen at this size. */
export function placeWithin({ x, y }: Place, zoom: number): Place {
  const half = 1 / (2 * zoomWithin(zoom));
  const inside = (v: number): number => (Number.isNaN(v) ? 0.5 : Math.max(half, Math.min(1 - half, v)));
  return { x: inside(x), y: inside(y) };
}

/**
 * Where the magnifier is at a frame: where it was put, or, once places are set, in a straight line from one to the
 * next, at the pace of presentation time; before the first and after the last it rests.
 */
export function placeAt(m: Magnifier, pts: number): Place {
  const { places } = m;
  const [first] = places;
  const last = places.at(-1);
  if (!first || !last) return placeWithin(m, m.zoom);
  if (pts <= first.pts) return placeWithin(first, m.zoom);
  if (pts >= last.pts) return placeWithin(last, m.zoom);
  const after = places.findIndex((p) => p.pts > pts);
  const a = places[after - 1] ?? first;
  const b = places[after] ?? last;
  const share = (pts - a.pts) / (b.pts - a.pts);
  return placeWithin({ x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) }, m.zoom);
}

/** The place set at a frame; it replaces one that was set there before. */
export function withPlace(m: Magnifier, pts: number, place: Place): Magnifier {
  const { x, y } = placeWithin(place, m.zoom);
  const others = m.places.filter((p) => p.pts !== pts);
  const places = [...others, { pts, x, y }].sort((a, b) => a.pts - b.pts);
  return { ...m, places };
}

/** Takes the place of a frame away. Where it was the last, the magnifier stays there. */
export function withoutPlace(m: Magnifier, pts: number): Magnifier {
  const places = m.places.filter((p) => p.pts !== pts);
  return places.length > 0 ? { ...m, places } : { ...m, ...placeAt(m, pts), places };
}

/** Puts the magnifier somewhere at a frame: while it follows, that sets a place there. */
export function put(m: Magnifier, pts: number, place: Place): Magnifier {
  return m.places.length > 0 ? withPlace(m, pts, place) : { ...m, ...placeWithin(place, m.zoom) };
}

/** The set place next to a frame, on or back. */
export function nextPlace(m: Magnifier, pts: number, step: 1 | -1): SetPlace | undefined {
  return step > 0 ? m.places.find((p) => p.pts > pts) : m.places.findLast((p) => p.pts < pts);
}

/** A box of the screen with a picture fitted into its middle. `shape` is the picture's height over its width. */
export interface Fit {
  readonly width: number;
  readonly height: number;
  readonly shape: number;
}

/** How the box is to be enlarged and moved: first `scale` from its top left corner, then by `x`, `y` pixels. */
export interface Shift {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

/** Size of the picture in its box, and of the empty edge before it. */
function along(box: number, picture: number): { readonly size: number; readonly edge: number } {
  return { size: picture, edge: (box - picture) / 2 };
}

function sides(fit: Fit) {
  const width = Math.min(fit.width, fit.height / fit.shape);
  return { x: along(fit.width, width), y: along(fit.height, width * fit.shape) };
}

/** The shift that brings a place to the middle of the box, as far as no edge of the picture comes in. */
export function shiftTo(fit: Fit, zoom: number, place: Place): Shift {
  const scale = zoomWithin(zoom);
  const { x, y } = sides(fit);
  const one = (box: number, side: { size: number; edge: number }, at: number): number => {
    if (scale * side.size <= box) return (box - scale * box) / 2;
    const wanted = box / 2 - scale * (side.edge + at * side.size);
    return Math.max(box - scale * (side.edge + side.size), Math.min(-scale * side.edge, wanted));
  };
  return { scale, x: one(fit.width, x, place.x), y: one(fit.height, y, place.y) };
}

/** The place of the picture under a point of the box, pixels from its top left corner. */
export function placeUnder(fit: Fit, shift: Shift, point: Place): Place {
  const { x, y } = sides(fit);
  return {
    x: ((point.x - shift.x) / shift.scale - x.edge) / x.size,
    y: ((point.y - shift.y) / shift.scale - y.edge) / y.size,
  };
}

/** The middle that keeps a place of the picture under a point of the box at another size. */
export function middleFor(fit: Fit, zoom: number, under: Place, point: Place): Place {
  const { x, y } = sides(fit);
  return {
    x: under.x - (point.x - fit.width / 2) / (zoom * x.size),
    y: under.y - (point.y - fit.height / 2) / (zoom * y.size),
  };
}
