import { carried, mat, plus, type Mat } from './matrices.ts';
import type { FitError } from './realLine.ts';
import { isSound, type GroundReading } from './readings.ts';
import { dogPoints, type DogPoint } from './track.ts';

/** A point of the dog as it was marked while she waited. */
export interface WaitingMark {
  readonly point: DogPoint;
  readonly reading: GroundReading;
}

/** What counts at the start line: any step of a paw, of more than so much; a head does not. */
export interface StayCriterion {
  /** Metres; a paw that moves by less rocks where it stands. */
  readonly countsFrom: number;
}

/** Three centimetres (our choice; a coach may set another). */
export const usualCriterion: StayCriterion = { countsFrom: 0.03 };

export type Stayed = 'kept' | 'broke' | 'cannotTell';

/** How far a point went from where it was first marked. */
export interface Moved {
  readonly point: DogPoint;
  /** When it was furthest, seconds of the run. */
  readonly at: number;
  /** Centimetres, as measured; the least and the most that the marks allow. */
  readonly centimetres: number;
  readonly least: number;
  readonly most: number;
  readonly verdict: Stayed;
}

export interface StartLineStayed {
  readonly verdict: Stayed;
  /** Each point that was marked twice or more; those that do not count (head, body) too. */
  readonly moved: readonly Moved[];
  /** Paws that were not marked twice: nobody knows of them. */
  readonly notMarked: readonly DogPoint[];
  /** Marks that could not be used: a number that is none, after the release. By place in the list given. */
  readonly leftOut: readonly number[];
}

const paws = dogPoints.filter((p) => p.endsWith('Paw'));

/** A verdict must not be wrong: of so many waits at most one may be, by the noise of the clicks alone. */
const waitsPerWrong = 10_000;

/**
 * Standard deviations of a plane's normal point that hold where a paw may be, in every one of `looks` at once: a wait
 * compares several paws on several frames, and each comparison is a chance to be wrong (Bonferroni's inequality; χ²
 * with two degrees leaves exp(-r²/2) outside r).
 */
const surenessOf = (looks: number): number => Math.sqrt(2 * Math.log(waitsPerWrong * Math.max(1, looks)));

/**
 * Whether the paws stayed where they were until the release. A paw broke the stay where even the least way that its
 * marks allow counts; it kept it where even the most does not. The stay is kept where all four did.
 * @param fit what the readings' `byFit` belongs to: it moves all places of one spot alike, so it hardly matters here
 * @param release seconds of the run; later marks say nothing about the stay
 */
export function startLineStayed(
  marks: readonly WaitingMark[],
  fit: FitError | null,
  release: number,
  { countsFrom }: StayCriterion = usualCriterion,
): StartLineStayed {
  const leftOut: number[] = [];
  const byPoint = new Map<DogPoint, GroundReading[]>();
  marks.forEach(({ point, reading }, i) => {
    if (!isSound(reading) || !(reading.at <= release)) leftOut.push(i);
    else byPoint.set(point, [...(byPoint.get(point) ?? []), reading]);
  });
  const spots = [...byPoint].map(([point, readings]) => ({ point, moments: pooled(readings) }));
  const sureness = surenessOf(
    spots.reduce((n, { point, moments }) => n + (paws.includes(point) ? moments.length - 1 : 0), 0),
  );
  const moved = spots.flatMap(({ point, moments }): Moved[] => {
    const [first, ...later] = moments;
    if (!first || later.length === 0) return [];
    const ways = later.map((then) => ({ then, ...wayBetween(first, then, fit, sureness) }));
    // The mark that says most: the one that surely went furthest, else the one that may have gone furthest.
    const sure = ways.reduce((a, b) => (b.least > a.least ? b : a));
    const open = ways.reduce((a, b) => (b.most > a.most ? b : a));
    const broke = sure.least > countsFrom;
    const told = broke ? sure : open;
    return [
      {
        point,
        at: told.then.at,
        centimetres: told.metres * 100,
        least: told.least * 100,
        most: told.most * 100,
        verdict: broke ? 'broke' : open.most < countsFrom ? 'kept' : 'cannotTell',
      },
    ];
  });
  const ofPaws = moved.filter((m) => paws.includes(m.point));
  const notMarked = paws.filter((p) => !ofPaws.some((m) => m.point === p));
  const verdict = ofPaws.some((m) => m.verdict === 'broke')
    ? 'broke'
    : notMarked.length === 0 && ofPaws.every((m) => m.verdict === 'kept')
      ? 'kept'
      : 'cannotTell';
  return { verdict, moved, notMarked, leftOut };
}

interface Spot {
  readonly at: number;
  readonly x: number;
  readonly y: number;
  readonly spread: Mat;
  readonly byFit: Mat | null;
}

/** One spot a moment: clicks on one frame are averaged, which is how a coach gets more out of a poor camera. */
function pooled(readings: readonly GroundReading[]): Spot[] {
  const moments = [...new Set(readings.map((r) => r.at))].sort((a, b) => a - b);
  return moments.map((at) => {
    const here = readings.filter((r) => r.at === at);
    const n = here.length;
    const average = (of: (r: GroundReading) => number): number => here.reduce((sum, r) => sum + of(r), 0) / n;
    const [xx, xy, yy] = [0, 1, 2].map((i) => average((r) => r.spread[i] ?? 0) / n);
    const parameters = here[0]?.byFit?.[0].length ?? 0;
    const column = (row: 0 | 1): number[] =>
      Array.from({ length: parameters }, (_, k) => average((r) => r.byFit?.[row][k] ?? 0));
    return {
      at,
      x: average((r) => r.x),
      y: average((r) => r.y),
      spread: mat([
        [xx ?? 0, xy ?? 0],
        [xy ?? 0, yy ?? 0],
      ]),
      byFit: parameters > 0 ? mat([column(0), column(1)]) : null,
    };
  });
}

function wayBetween(a: Spot, b: Spot, fit: FitError | null, sureness: number) {
  const way = [b.x - a.x, b.y - a.y] as const;
  let cov = plus(a.spread, b.spread);
  if (fit && a.byFit && b.byFit && a.byFit.cols === fit.cov.rows && b.byFit.cols === fit.cov.rows)
    cov = plus(cov, carried(plus(b.byFit, a.byFit, -1), fit.cov));
  return { metres: Math.hypot(...way), ...rangeOver(way, cov, sureness) };
}

/**
 * The least and the most distance from nothing within the ellipse that holds where the way may end. Points of the
 * ellipse's edge by its angle, a degree apart: off by less than a thousandth of its longer axis.
 */
function rangeOver(
  [x, y]: readonly [number, number],
  cov: Mat,
  sureness: number,
): { least: number; most: number } {
  const [xx = 0, xy = 0, , yy = 0] = cov.v;
  const a = Math.sqrt(xx);
  const b = xy / a;
  const c = Math.sqrt(Math.max(0, yy - b * b));
  let least = Infinity;
  let most = 0;
  for (let degree = 0; degree < 360; degree++) {
    const [u, v] = [Math.cos((degree * Math.PI) / 180), Math.sin((degree * Math.PI) / 180)];
    const far = Math.hypot(x + sureness * a * u, y + sureness * (b * u + c * v));
    least = Math.min(least, far);
    most = Math.max(most, far);
  }
  // Nothing at all is allowed where it lies within the ellipse.
  const [p, q] = [x / a, c > 0 ? (y - (b * x) / a) / c : 0];
  return { least: p * p + q * q <= sureness ** 2 ? 0 : least, most };
}

/** What a camera is, as far as a step at the start line asks. */
export interface StartCamera {
  /** Metres over the ground. */
  readonly height: number;
  /** Focal length in pixels of the picture. */
  readonly focal: number;
}

/**
 * Furthest distance over the ground, metres, at which a step can still be told from a paw that rocks, for steps across
 * the picture and for steps toward the camera: there the whole of what two spots allow must be smaller than the step
 * less what does not count. A pixel is s²/(h f) of ground along the ray and s/f across, s the distance to the lens
 * (pinhole geometry).
 * @param step metres; @param pixels noise of a click; @param clicks averaged on each of the two frames
 * @param laterFrames frames on which all four paws are clicked after the first
 * @returns 0 where it cannot be told from anywhere
 */
export function farthestTold(
  camera: StartCamera,
  step: number,
  pixels: number,
  clicks = 1,
  { countsFrom }: StayCriterion = usualCriterion,
  laterFrames = 1,
): { readonly across: number; readonly along: number } {
  const { height, focal } = camera;
  const room = step - countsFrom;
  const noise = surenessOf(paws.length * laterFrames) * pixels * Math.sqrt(2 / clicks);
  const overGround = (lens: number): number => Math.sqrt(Math.max(0, lens * lens - height * height));
  if (!(room > 0) || !(noise > 0) || !(height > 0) || !(focal > 0)) return { across: 0, along: 0 };
  return {
    across: overGround((room * focal) / noise),
    along: overGround(Math.sqrt((room * height * focal) / noise)),
  };
}
