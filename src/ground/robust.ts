import { chiSquareBound, onceInAThousand, pairBound } from './chiSquare.ts';
import {
  firstNumbers,
  pixelSpread,
  put,
  type Frame,
  type LensNumbers,
  type Numbers,
  type Sighting,
} from './model.ts';
import { impossible, type Impossible } from './plausible.ts';
import { refined, type Refined } from './refine.ts';
import { deviations, round, sum } from './spread.ts';
import { foursOf } from './subsets.ts';

/** A fit of those points that agree. */
export interface Agreed extends Refined {
  /** Which of the sightings agree. */
  readonly agrees: readonly boolean[];
  /** How far each is off what the others say, in deviations squared (two degrees of freedom); null: no other says. */
  readonly off: readonly (number | null)[];
  /** How far clicks are off, one deviation per axis, pixels: as stated, or more where the points say so. */
  readonly noise: number;
  /** Pixels measured beyond those that the numbers need. */
  readonly freedom: number;
}

/** Largest number of sets of four that are tried. */
const mostFours = 250;
/** Share of the points that are taken to be right while the others are sought. */
const rightShare = 0.7;
/** A right point is set aside in this share of fits. */
const falseAlarm = 0.003;
/** A point is wrong that is off what the others say by more deviations squared than this. */
export const wrongFrom = (points: number): number => pairBound(falseAlarm / points);

/**
 * The points that agree on one camera, and those that do not: least trimmed squares (Rousseeuw 1984; steps of
 * Rousseeuw and Van Driessen 2006) from sets of four points, then each point against what the others say of it. Fewer
 * than six points cannot name a wrong one, and all are kept.
 * @param noise of a click, one deviation per axis, pixels
 * @param starts of these points, from `startsOf`; they serve any lens, and are only asked for where points disagree
 */
export function agreed(
  frame: Frame,
  sightings: readonly Sighting[],
  lens: LensNumbers,
  noise: number,
  starts: () => Starts,
): Agreed | Impossible | 'unclear' {
  const everyone = sightings.map(() => true);
  const start = firstNumbers(frame, sightings);
  const whole = start && fitOf(frame, sightings, start, lens);
  const wrong = whole && impossible(frame, whole.numbers, sightings);
  if (whole && !wrong) {
    const off = offOthers(frame, sightings, whole, everyone, noise);
    const cut = wrongFrom(sightings.length);
    if (sightings.length < 6 || off.every((m) => m === null || m <= cut))
      return judged(frame, sightings, whole, everyone, noise);
  }
  if (sightings.length < 6) return wrong ?? 'unclear';
  const trimmed = leastTrimmed(frame, sightings, lens, starts());
  return typeof trimmed === 'string' ? trimmed : settled(frame, sightings, trimmed, lens, noise);
}

function fitOf(
  frame: Frame,
  sightings: readonly Sighting[],
  start: Numbers,
  lens: LensNumbers,
): Refined | null {
  const straight = refined(frame, sightings, start.slice(0, 8));
  if (!straight || lens === 0) return straight;
  return refined(frame, sightings, [...straight.numbers, ...[0, 0].slice(0, lens)]);
}

const squaresOf = (frame: Frame, numbers: Numbers, s: Sighting): number => {
  const { x, y, depth } = put(frame, numbers, s.ground);
  return depth > 0 ? (s.pixel.x - x) ** 2 + (s.pixel.y - y) ** 2 : Infinity;
};

/** Some of the points, and the sum of their squared distances from a fit. */
interface Some {
  readonly who: readonly number[];
  readonly cost: number;
}

/** The most promising sets to start from, best first, and why others show no ground. */
export interface Starts {
  readonly best: readonly Some[];
  readonly wrong: Impossible | null;
}

/** The points nearest to a fit, as many as are taken to be right. */
function nearestTo(frame: Frame, sightings: readonly Sighting[], numbers: Numbers): Some {
  const far = sightings.map((s) => squaresOf(frame, numbers, s));
  const right = Math.max(5, Math.ceil(rightShare * sightings.length));
  const who = [...far.keys()].toSorted((a, b) => (far[a] ?? 0) - (far[b] ?? 0)).slice(0, right);
  return { who, cost: who.reduce((all, i) => all + (far[i] ?? 0), 0) };
}

const byCost = (list: readonly Some[]): Some[] => list.toSorted((a, b) => a.cost - b.cost);

/** What sets of four points, fitted exactly, say of the others. */
export function startsOf(frame: Frame, sightings: readonly Sighting[]): Starts {
  const told: Impossible[] = [];
  const tries: Some[] = [];
  for (const four of foursOf(sightings.length, mostFours)) {
    const its = four.flatMap((i) => sightings[i] ?? []);
    const numbers = firstNumbers(frame, its);
    const wrong = numbers && impossible(frame, numbers, its);
    if (wrong) told.push(wrong);
    else if (numbers) tries.push(nearestTo(frame, sightings, numbers));
  }
  const mirrored = told.filter((w) => w === 'mirrored').length;
  const wrong = told.length === 0 ? null : 2 * mirrored >= told.length ? 'mirrored' : 'behind';
  return { best: byCost(tries).slice(0, 8), wrong };
}

/** The points of the fit whose nearest points are nearest. */
function leastTrimmed(
  frame: Frame,
  sightings: readonly Sighting[],
  lens: LensNumbers,
  { best, wrong }: Starts,
): readonly number[] | Impossible | 'unclear' {
  const closer = best.map((one) => {
    let now = one;
    for (let i = 0; i < 6; i++) {
      const its = now.who.flatMap((k) => sightings[k] ?? []);
      const start = firstNumbers(frame, its);
      const fit = start && fitOf(frame, its, start, its.length > 7 ? lens : 0);
      const next = fit && nearestTo(frame, sightings, fit.numbers);
      if (!next || !(next.cost < now.cost)) break;
      now = next;
    }
    return now;
  });
  const [first] = byCost(closer);
  return first && Number.isFinite(first.cost) ? first.who : (wrong ?? 'unclear');
}

/** From the points that are surely right to all that agree with them. */
function settled(
  frame: Frame,
  sightings: readonly Sighting[],
  who: readonly number[],
  lens: LensNumbers,
  noise: number,
): Agreed | Impossible | 'unclear' {
  const cut = wrongFrom(sightings.length);
  let agrees = sightings.map((_, i) => who.includes(i));
  let last: { readonly fit: Refined; readonly agrees: readonly boolean[] } | null = null;
  let scale = noise;
  for (let i = 0; i < 2 * sightings.length + 4; i++) {
    const its = sightings.filter((_, k) => agrees[k]);
    const start = firstNumbers(frame, its);
    const fit = start && fitOf(frame, its, start, its.length > 7 ? lens : 0);
    if (!fit) return 'unclear';
    const wrong = impossible(frame, fit.numbers, its);
    if (wrong) return wrong;
    // Of the nearest points only the nearest are left in: what all are off by is more (exponential, cut at the share).
    if (i === 0) scale = Math.max(noise, trimmedNoise(fit, its.length, sightings.length));
    last = { fit, agrees };
    const off = offOthers(frame, sightings, fit, agrees, scale);
    const worst = Math.max(...off.map((m, k) => (agrees[k] ? (m ?? 0) : 0)));
    const next =
      worst > cut
        ? agrees.map((was, k) => was && off[k] !== worst)
        : agrees.map((was, k) => was || (off[k] ?? Infinity) <= cut);
    if (next.every((is, k) => is === agrees[k])) break;
    if (next.filter(Boolean).length < 5) break;
    agrees = next;
  }
  return last ? judged(frame, sightings, last.fit, last.agrees, noise) : 'unclear';
}

function trimmedNoise({ squares, numbers }: Refined, kept: number, all: number): number {
  const freedom = 2 * kept - numbers.length;
  if (freedom <= 0) return 0;
  const share = kept / all;
  const left = share < 1 ? 1 + ((1 - share) * Math.log(1 - share)) / share : 1;
  return Math.sqrt(squares / freedom / left);
}

function judged(
  frame: Frame,
  sightings: readonly Sighting[],
  fit: Refined,
  agrees: readonly boolean[],
  stated: number,
): Agreed {
  const freedom = 2 * agrees.filter(Boolean).length - fit.numbers.length;
  const noise = noiseOf(fit.squares, freedom, stated);
  return { ...fit, agrees, off: offOthers(frame, sightings, fit, agrees, noise), noise, freedom };
}

/** How far each point is off what the others say, in deviations squared. */
function offOthers(
  frame: Frame,
  sightings: readonly Sighting[],
  fit: Refined,
  agrees: readonly boolean[],
  noise: number,
): (number | null)[] {
  return sightings.map((s, i) => {
    const at = put(frame, fit.numbers, s.ground);
    if (!(at.depth > 0)) return Infinity;
    const [ex, ey] = [(s.pixel.x - at.x) / noise, (s.pixel.y - at.y) / noise];
    const own = pixelSpread(at, fit.perPixel);
    if (!agrees[i]) return deviations(sum(round(1), own), ex, ey);
    // As if it were left out: the distance over what is left of a click's noise once the point has bent the fit.
    const rest = { xx: 1 - own.xx, xy: -own.xy, yy: 1 - own.yy };
    return rest.xx > 0 && rest.xx * rest.yy - rest.xy * rest.xy > 1e-6 ? deviations(rest, ex, ey) : null;
  });
}

/** From so many degrees of freedom on the points themselves say how far clicks are off (9 % of it, one deviation). */
const enough = 60;

/**
 * Clicks are off as stated, unless the points say it well, or say that it cannot be so little. What they say is itself
 * unsure: the variance of Student's distribution, as JCGM 101:2008 takes it for a measured spread (from memory: 6.4.9).
 */
export function noiseOf(squares: number, freedom: number, stated: number): number {
  if (freedom <= 0) return stated;
  const seen = Math.sqrt(squares / Math.max(1, freedom - 2));
  const beyond = squares > stated * stated * chiSquareBound(freedom, onceInAThousand);
  return freedom >= enough || beyond ? Math.max(seen, stated / 10) : stated;
}
