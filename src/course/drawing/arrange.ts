import type { Course, Obstacle, Stand } from '../course.ts';
import { drawnSizes } from '../equipment.ts';
import { extentOf, footprint } from '../footprint.ts';
import type { GroundPoint } from '../points.ts';
import { distance, plainHeading, turnedAbout } from '../pose.ts';
import { bentInto, turnOf } from '../tunnelLine.ts';
import { withSizes } from './sizes.ts';

/** Ids of pieces; the first is the one the others follow. */
export type Chosen = readonly string[];

/** A place to the millimetre, within what a course can hold. */
const tidy = (v: number): number => Math.round(Math.max(-1000, Math.min(1000, v)) * 1000) / 1000;
const tidyPoint = ({ x, y }: GroundPoint): GroundPoint => ({ x: tidy(x), y: tidy(y) });

/** The stand with each of its points changed, and another heading. */
function changed(stand: Stand, point: (p: GroundPoint) => GroundPoint, headingDegrees: number): Stand {
  const to = tidyPoint(point({ x: stand.x, y: stand.y }));
  const bend = stand.bend?.map((p) => tidyPoint(point(p)));
  return { ...to, headingDegrees: plainHeading(headingDegrees), ...(bend ? { bend } : {}) };
}

type Drawn = Obstacle & { readonly stand: Stand };
const isDrawn = (o: Obstacle): o is Drawn => o.stand !== undefined;

function mapped(course: Course, chosen: Chosen, change: (o: Drawn) => Stand): Course {
  const ids = new Set(chosen);
  return {
    ...course,
    obstacles: course.obstacles.map((o) => (ids.has(o.id) && isDrawn(o) ? { ...o, stand: change(o) } : o)),
  };
}

/** The chosen pieces that stand on the grass, in the order in which they were chosen. */
function chosenOf(course: Course, chosen: Chosen): readonly Drawn[] {
  const byId = new Map(course.obstacles.map((o) => [o.id, o]));
  return chosen.flatMap((id) => {
    const o = byId.get(id);
    return o && isDrawn(o) ? [o] : [];
  });
}

/** The middle of what the chosen pieces take up; null where none of them stands. */
export function middleOfChosen(course: Course, chosen: Chosen): GroundPoint | null {
  const pieces = chosenOf(course, chosen);
  const [only] = pieces;
  if (!only) return null;
  if (pieces.length === 1) return { x: only.stand.x, y: only.stand.y };
  const { x0, y0, x1, y1 } = extentOf(pieces.flatMap((o) => footprint(o, o.stand).flat()));
  return { x: (x0 + x1) / 2, y: (y0 + y1) / 2 };
}

/** The chosen pieces moved by metres. */
export function movedBy(course: Course, chosen: Chosen, dx: number, dy: number): Course {
  return mapped(course, chosen, ({ stand }) =>
    changed(stand, (p) => ({ x: p.x + dx, y: p.y + dy }), stand.headingDegrees),
  );
}

/** The chosen pieces turned together about their middle, degrees counter-clockwise. */
export function turnedBy(course: Course, chosen: Chosen, degrees: number): Course {
  const about = middleOfChosen(course, chosen);
  if (!about) return course;
  return mapped(course, chosen, ({ stand }) =>
    changed(stand, (p) => turnedAbout(p, about, degrees), stand.headingDegrees + degrees),
  );
}

/** The chosen pieces as in a mirror that stands lengthwise in their middle: left and right change places. */
export function mirrored(course: Course, chosen: Chosen): Course {
  const about = middleOfChosen(course, chosen);
  if (!about) return course;
  const ids = new Set(chosen);
  const turned = mapped(course, chosen, ({ stand }) =>
    changed(stand, (p) => ({ x: 2 * about.x - p.x, y: p.y }), 180 - stand.headingDegrees),
  );
  return {
    ...turned,
    steps: turned.steps.map((s) =>
      s.wrap && ids.has(s.obstacleId) ? { ...s, wrap: s.wrap === 'left' ? 'right' : 'left' } : s,
    ),
  };
}

/** Moves pieces onto new middles. */
function movedTo(course: Course, pieces: readonly Drawn[], places: readonly GroundPoint[]): Course {
  return pieces.reduce((c, o, i) => {
    const to = places[i];
    return to ? movedBy(c, [o.id], to.x - o.stand.x, to.y - o.stand.y) : c;
  }, course);
}

/** The ends of the line that chosen pieces are lined up on: the two that stand furthest apart. */
function ends(pieces: readonly Drawn[]): readonly [Drawn, Drawn] | null {
  let best: readonly [Drawn, Drawn] | null = null;
  let far = 1e-6;
  for (const a of pieces)
    for (const b of pieces) {
      const d = distance(a.stand, b.stand);
      if (d > far + 1e-9) [best, far] = [[a, b], d];
    }
  return best;
}

/** Puts the chosen pieces in a row: on the straight line between the two that stand furthest apart. */
export function inARow(course: Course, chosen: Chosen): Course {
  const pieces = chosenOf(course, chosen);
  const line = ends(pieces);
  if (!line) return course;
  const [a, b] = line;
  const [ux, uy] = unit(a.stand, b.stand);
  const places = pieces.map(({ stand: s }) => {
    const along = (s.x - a.stand.x) * ux + (s.y - a.stand.y) * uy;
    return { x: a.stand.x + along * ux, y: a.stand.y + along * uy };
  });
  return movedTo(course, pieces, places);
}

/** Turns every chosen piece on its own place to the heading of the first. */
export function sameHeading(course: Course, chosen: Chosen): Course {
  const [first, ...others] = chosenOf(course, chosen);
  if (!first) return course;
  return others.reduce(
    (c, o) => turnedBy(c, [o.id], first.stand.headingDegrees - o.stand.headingDegrees),
    course,
  );
}

/** Leaves the two that stand furthest apart and puts the others between them at equal distances along that line. */
export function evenly(course: Course, chosen: Chosen): Course {
  const pieces = chosenOf(course, chosen);
  const line = ends(pieces);
  if (!line || pieces.length < 3) return course;
  const [a, b] = line;
  const [ux, uy] = unit(a.stand, b.stand);
  const along = (o: Drawn): number => (o.stand.x - a.stand.x) * ux + (o.stand.y - a.stand.y) * uy;
  const sorted = pieces.toSorted((p, q) => along(p) - along(q));
  const gap = distance(a.stand, b.stand) / (sorted.length - 1);
  const places = sorted.map((o, i) => {
    const by = i * gap - along(o);
    return { x: o.stand.x + by * ux, y: o.stand.y + by * uy };
  });
  return movedTo(course, sorted, places);
}

function unit(a: GroundPoint, b: GroundPoint): readonly [number, number] {
  const d = distance(a, b);
  return [(b.x - a.x) / d, (b.y - a.y) / d];
}

/** Most that a tunnel is bent by keys, degrees from mouth to mouth. */
const mostBend = 220;

/** The chosen tunnels bent further, to the left where positive; each keeps its length and its middle. */
export function bentBy(course: Course, chosen: Chosen, degrees: number): Course {
  return mapped(course, chosen, (o) => {
    if (o.kind !== 'tunnel') return o.stand;
    const { tunnelLength } = drawnSizes(o.kind, o.sizes);
    const turn = Math.max(-mostBend, Math.min(mostBend, turnOf(o.stand, tunnelLength) + degrees));
    const bent = bentInto(o.stand, tunnelLength, Math.round(turn));
    return { ...bent, ...tidyPoint(bent), headingDegrees: plainHeading(bent.headingDegrees) };
  });
}

/** A tunnel of another length, bent as far as it was about its middle; null gives the table's length back. */
export function withTunnelLength(course: Course, id: string, length: number | null): Course {
  const sized = withSizes(course, [id], { tunnelLength: length ?? undefined });
  return mapped(sized, [id], (o) => {
    if (o.kind !== 'tunnel' || !o.stand.bend) return o.stand;
    const { tunnelLength } = drawnSizes(o.kind, o.sizes);
    return bentInto(o.stand, tunnelLength, turnOf(o.stand, tunnelLength));
  });
}

/** A tunnel with one point of its bend elsewhere. Its middle and heading follow the line. */
export function bendMoved(course: Course, id: string, bend: readonly GroundPoint[]): Course {
  const middle = bend[Math.floor((bend.length - 1) / 2)];
  const [first] = bend;
  const last = bend.at(-1);
  if (!middle || !first || !last) return course;
  return mapped(course, [id], ({ stand }) => ({
    ...stand,
    ...tidyPoint(middle),
    headingDegrees: plainHeading((Math.atan2(last.y - first.y, last.x - first.x) * 180) / Math.PI),
    bend: bend.map(tidyPoint),
  }));
}
