import { followedBy, homography, mapped, type Homography, type PlanePoint } from '../ground/homography.ts';
import type { Course } from './course.ts';
import type { GroundPoint } from './points.ts';
import { headingTo, plainHeading } from './pose.ts';
import type { NearPicture, Underlay } from './underlay.ts';

/** Width and height of the upright picture, pixels. */
export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

type Four<T> = readonly [T, T, T, T];

/** What of the picture is known: the ring's corners, a length between two points, or both a sheet's corners and a length. */
export type Known =
  | { readonly by: 'ring'; readonly corners: Four<NearPicture>; readonly ring: NonNullable<Course['ring']> }
  | {
      readonly by: 'length';
      readonly points: readonly [NearPicture, NearPicture];
      /** Between the two points, metres. */
      readonly metres: number;
      /** Where the first of them lies on the ground. */
      readonly firstAt: GroundPoint;
      /** Corners of a sheet of paper or another rectangle, and its width over its height, where the photo is tilted. */
      readonly sheet?: { readonly corners: Four<NearPicture>; readonly shape: number };
    };

/** How a picture lies on the ground, from what is known of it; null where the points do not say. */
export function layBy(known: Known, picture: PictureSize, strength: number): Underlay | null {
  if (known.by === 'ring') {
    const { width, length } = known.ring;
    const corners = cornersInOrder(known.corners, picture, width / length);
    return {
      corners,
      shape: width / length,
      known: [
        { onPicture: corners[0], onGround: { x: 0, y: 0 } },
        { onPicture: corners[2], onGround: { x: width, y: length } },
      ],
      strength,
    };
  }
  const { points, metres, firstAt, sheet } = known;
  const straight = sheet
    ? { corners: cornersInOrder(sheet.corners, picture, sheet.shape), shape: sheet.shape }
    : {};
  const flat = straightened(straight, picture);
  const a = flat && mapped(flat, points[0]);
  const b = flat && mapped(flat, points[1]);
  if (!a || !b) return null;
  const apart = Math.hypot(b.x - a.x, b.y - a.y);
  if (!(apart > 0 && metres > 0)) return null;
  const k = metres / apart;
  return {
    ...straight,
    known: [
      { onPicture: points[0], onGround: firstAt },
      {
        onPicture: points[1],
        onGround: { x: firstAt.x + (b.x - a.x) * k, y: firstAt.y + (b.y - a.y) * k },
      },
    ],
    strength,
  };
}

/**
 * The same lay turned by a quarter: the corner that was the first is the fourth, and the ring's sides keep their
 * lengths, so that what looked stretched looks right. Only for the ring's corners.
 */
export function turnedByQuarter(underlay: Underlay): Underlay {
  if (!underlay.corners) return underlay;
  const [a, b, c, d] = underlay.corners;
  const corners: Underlay['corners'] = [b, c, d, a];
  const [first, second] = underlay.known;
  return {
    ...underlay,
    corners,
    known: [
      { ...first, onPicture: b },
      { ...second, onPicture: d },
    ],
  };
}

/**
 * The map from the picture (fractions of its width and height, y down) to the ground in metres; null where the points
 * of the underlay do not fix it.
 */
export function pictureToGround(underlay: Underlay, picture: PictureSize): Homography | null {
  const flat = straightened(underlay, picture);
  const [one, two] = underlay.known;
  const a = flat && mapped(flat, one.onPicture);
  const b = flat && mapped(flat, two.onPicture);
  if (!flat || !a || !b) return null;
  const laid = similarity(a, b, one.onGround, two.onGround);
  return laid && followedBy(flat, laid);
}

/** From picture fractions to the straightened picture: its height is 1, its width its shape, y up. */
function straightened(
  { corners, shape }: Pick<Underlay, 'corners' | 'shape'>,
  picture: PictureSize,
): Homography | null {
  if (!corners || shape === undefined) {
    const wide = picture.width / picture.height;
    return [wide, 0, 0, 0, -1, 1, 0, 0, 1];
  }
  const [a, b, c, d] = corners;
  return homography([
    { from: a, to: { x: 0, y: 0 } },
    { from: b, to: { x: shape, y: 0 } },
    { from: c, to: { x: shape, y: 1 } },
    { from: d, to: { x: 0, y: 1 } },
  ]);
}

/** The move, turn and scaling, without distortion, that takes a to p and b to q; null where a and b are one. */
function similarity(a: PlanePoint, b: PlanePoint, p: PlanePoint, q: PlanePoint): Homography | null {
  const [dx, dy, ex, ey] = [b.x - a.x, b.y - a.y, q.x - p.x, q.y - p.y];
  const size = dx * dx + dy * dy;
  if (!(size > 0)) return null;
  const c = (dx * ex + dy * ey) / size;
  const s = (dx * ey - dy * ex) / size;
  return [c, -s, p.x - c * a.x + s * a.y, s, c, p.y - s * a.x - c * a.y, 0, 0, 1];
}

/**
 * Corners clicked in any order, brought into the order that the underlay asks for: counter-clockwise as one looks at
 * the picture, from the lower left one, or from the one before it where the rectangle's long side then lies along the
 * picture's.
 */
export function cornersInOrder(
  clicked: Four<NearPicture>,
  picture: PictureSize,
  shape: number,
): [NearPicture, NearPicture, NearPicture, NearPicture] {
  const mx = clicked.reduce((sum, p) => sum + p.x, 0) / 4;
  const my = clicked.reduce((sum, p) => sum + p.y, 0) / 4;
  // y runs down on the picture: counter-clockwise to the eye is the other way in its numbers.
  const round = clicked.toSorted((p, q) => Math.atan2(my - p.y, p.x - mx) - Math.atan2(my - q.y, q.x - mx));
  const size = (p: NearPicture, q: NearPicture): number =>
    Math.hypot((p.x - q.x) * picture.width, (p.y - q.y) * picture.height);
  const at = (i: number): NearPicture => round[((i % 4) + 4) % 4] ?? clicked[0];
  const low = (p: NearPicture): number => p.y * picture.height - p.x * picture.width;
  let first = round.indexOf(round.reduce((best, p) => (low(p) > low(best) ? p : best)));
  const lower = size(at(first), at(first + 1)) + size(at(first + 2), at(first + 3));
  const aside = size(at(first + 1), at(first + 2)) + size(at(first + 3), at(first));
  // The ring lies across the picture: its lower side is the side of the picture.
  if (lower / aside > 1.15 ? shape < 1 / 1.15 : lower / aside < 1 / 1.15 && shape > 1.15) first -= 1;
  return [at(first), at(first + 1), at(first + 2), at(first + 3)];
}

/**
 * The course with each obstacle that is not drawn standing where its number was clicked on the picture, looking on to
 * the next number. Obstacles, numbers and their places on the picture stay who they are, so that no mark is lost.
 */
export function standingWhereClicked(course: Course): Course {
  const { underlay, mapPicture } = course;
  const lay = underlay && mapPicture && pictureToGround(underlay, mapPicture);
  if (!lay) return course;
  const steps = course.steps.toSorted((a, b) => a.number - b.number);
  const places = steps.map((step): GroundPoint | null => {
    const at = step.onPicture && mapped(lay, step.onPicture);
    return at && Math.abs(at.x) <= 1000 && Math.abs(at.y) <= 1000
      ? { x: centimetre(at.x), y: centimetre(at.y) }
      : null;
  });
  const stands = new Map<string, GroundPoint & { readonly headingDegrees: number }>();
  steps.forEach((step, i) => {
    const at = places[i];
    if (!at || stands.has(step.obstacleId)) return;
    const [before, after] = [places[i - 1] ?? at, places[i + 1] ?? at];
    const still = before.x === after.x && before.y === after.y;
    stands.set(step.obstacleId, {
      ...at,
      headingDegrees: still ? 0 : plainHeading(Math.round(headingTo(before, after))),
    });
  });
  return {
    ...course,
    obstacles: course.obstacles.map((o) => {
      const stand = o.stand ? undefined : stands.get(o.id);
      return stand ? { ...o, stand } : o;
    }),
  };
}

const centimetre = (v: number): number => Math.round(v * 100) / 100;
