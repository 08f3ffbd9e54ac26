import type { Course } from '../../../../src/course/course.ts';
import { layBy, type PictureSize } from '../../../../src/course/pictureLay.ts';
import { Underlay, type NearPicture } from '../../../../src/course/underlay.ts';

/** What the coach knows of a picture. */
export const ways = ['ring', 'length', 'sheet'] as const;
export type Way = (typeof ways)[number];

/** A point to be set on the picture: a corner of the ring or of the sheet, or an end of the known length. */
export interface KnownPoint {
  readonly id: string;
  readonly is: 'corner' | 'end';
  readonly at: NearPicture;
  /** True once the coach has put it somewhere. */
  readonly set: boolean;
}

const corners: readonly (readonly [number, number])[] = [
  [0.06, 0.94],
  [0.94, 0.94],
  [0.94, 0.06],
  [0.06, 0.06],
];
const ends: readonly (readonly [number, number])[] = [
  [0.3, 0.5],
  [0.7, 0.5],
];

/** The points of a way, where they wait to be set. */
export function pointsFor(way: Way): readonly KnownPoint[] {
  const wait =
    (is: KnownPoint['is']) =>
    ([x, y]: readonly [number, number], i: number): KnownPoint => ({
      id: `${is}${i}`,
      is,
      at: { x, y },
      set: false,
    });
  return [
    ...(way === 'length' ? [] : corners.map(wait('corner'))),
    ...(way === 'ring' ? [] : ends.map(wait('end'))),
  ];
}

/** The points a picture was laid by, to begin from when it is laid again. */
export function pointsOf(underlay: Underlay): readonly KnownPoint[] {
  return (underlay.corners ?? []).map((at, i) => ({ id: `corner${i}`, is: 'corner', at, set: true }));
}

/** A point moved. */
export const withPoint = (
  points: readonly KnownPoint[],
  id: string,
  at: NearPicture,
): readonly KnownPoint[] => points.map((p) => (p.id === id ? { ...p, at: near(at), set: true } : p));

/**
 * The point that a click on the picture puts there: of the corners that wait the nearest, then the ends of the length
 * in their order, and once all are set the nearest of all.
 */
export function pointFor(
  points: readonly KnownPoint[],
  at: NearPicture,
  picture: PictureSize,
): KnownPoint | undefined {
  const waiting = points.filter((p) => !p.set);
  const corner = waiting.filter((p) => p.is === 'corner');
  const among = corner.length > 0 ? corner : waiting.length > 0 ? waiting.slice(0, 1) : points;
  const away = (p: KnownPoint): number =>
    Math.hypot((p.at.x - at.x) * picture.width, (p.at.y - at.y) * picture.height);
  return [...among].sort((a, b) => away(a) - away(b))[0];
}

/** Lengths that belong to a way, metres. */
export interface Lengths {
  readonly ring: NonNullable<Course['ring']>;
  readonly between: number;
  /** Width over height of the sheet. */
  readonly shape: number;
}

/** How the picture lies by these points; null while one waits, or where they do not say. */
export function underlayBy(
  way: Way,
  points: readonly KnownPoint[],
  { ring, between, shape }: Lengths,
  picture: PictureSize,
  strength: number,
): Underlay | null {
  if (points.some((p) => !p.set)) return null;
  const [a, b, c, d] = points.filter((p) => p.is === 'corner').map((p) => p.at);
  const [one, two] = points.filter((p) => p.is === 'end').map((p) => p.at);
  const four = a && b && c && d ? ([a, b, c, d] as const) : undefined;
  const lay =
    way === 'ring'
      ? four && layBy({ by: 'ring', corners: four, ring }, picture, strength)
      : one &&
        two &&
        layBy(
          {
            by: 'length',
            points: [one, two],
            metres: between,
            firstAt: { x: 0, y: 0 },
            ...(way === 'sheet' && four ? { sheet: { corners: four, shape } } : {}),
          },
          picture,
          strength,
        );
  const checked = Underlay.safeParse(lay);
  return checked.success ? checked.data : null;
}

/** No further from the picture than the schema allows. */
const near = ({ x, y }: NearPicture): NearPicture => ({
  x: Math.min(3, Math.max(-2, x)),
  y: Math.min(3, Math.max(-2, y)),
});
