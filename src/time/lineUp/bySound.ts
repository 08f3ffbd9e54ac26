import { clockDrift, plusMinusOf, soundAllowance, speedOfSound, type SoundAllowance } from './allowance.ts';
import { onsetsOf, stepsPerSecond, type Onsets } from './onsets.ts';
import { peakOf, phaseCurve, type Peak } from './phaseCorrelation.ts';
import { endOf, type SoundTrack } from './soundTrack.ts';
import { crossCorrelation, roomFor, transformOf, type Spectrum } from './spectrum.ts';

/**
 * Why two clips cannot be lined up by their sound. `tooShort`: one of them is. `silent`: hardly anything is to be heard
 * on one of them. `unlike`: they do not hold the same sounds. `ambiguous`: they fit in more than one place, as a steady
 * beep or music does.
 */
export const soundRefusals = ['tooShort', 'silent', 'unlike', 'ambiguous'] as const;
export type SoundRefusal = (typeof soundRefusals)[number];

/** Where a clip belongs on another clip's clock, by sound. */
export interface SoundLineUp {
  readonly found: true;
  /** Media time of the first clip when the second clip is at media time 0, seconds. */
  readonly offset: number;
  /** Seconds of the first clip per second of the second; 1 where it cannot be told. */
  readonly rate: number;
  readonly rateTold: boolean;
  /** The second clip lies within this many seconds of where it is put, picture against picture. */
  readonly plusMinus: number;
  readonly allowance: SoundAllowance;
  /** Pieces of sound that were compared, and those that agree. */
  readonly compared: number;
  readonly agree: number;
}

export type SoundAnswer = SoundLineUp | { readonly found: false; readonly why: SoundRefusal };

/** Shortest clip, and shortest stretch that both must share, seconds. */
export const shortest = 3;
/** Length of the pieces that are compared finely, seconds, and by how much their search reaches to each side. */
const piece = 1.024;
const reach = 0.256;
/** Pieces compared at most: enough for the median, spread over the whole. */
const mostPieces = 48;
/** Places where the clips may fit, taken from the onsets, that are looked at finely. */
const mostPlaces = 6;
/** Decibels above the quiet of a track from which a piece counts as heard. */
const heard = 9;
/** Standard deviations by which a peak must stand out: noise against noise reaches about 4.5 in this search. */
const standsOut = 6;
/** No piece counts for more than this when all are added up. */
const loudest = 12;
/** Delays this close together, seconds, are one delay. */
const sharp = 0.001;
/** A voice on its own may be off by a few of its periods, seconds. */
const slips = 0.02;
/** Pieces that must agree, at least, and as a share of those heard on both. */
const fewestAgreeing = 4;
const leastShare = 0.58;
/** The same for each third of what both clips hold. */
const leastShareOfThird = 0.25;
/** Another place this good, as a share of the best, makes the answer ambiguous. */
const nearlyAsGood = 0.7;
/**
 * Another place this good makes it no find at all. On simulated footage the next best place of two clips of one run has
 * at most 0.10 of the best; two runs of one course with the same voice fit here and there, where the same words fall.
 */
const toBeExpected = 0.25;
/** Places closer together than this, seconds, are one place and its echoes. */
const elsewhere = 0.3;
/** Overlap from which the clocks' rates may be told apart, and how sure that must be. */
const longForRate = 120;
const sureOfRate = 30e-6;

/**
 * Lines two clips of one run up by what both hear. Coarsely by when sounds begin (spectral flux, cross-correlated),
 * finely by generalised cross-correlation with phase weighting on pieces of a second (see phaseCorrelation); the
 * pieces must agree with one another, which those of another run, of noise or of a steady beep do not.
 * Pure, but long: it yields its share of progress (0 to 1) between steps, so that its caller can breathe or give up.
 * @param to,of tracks at one rate; the answer puts `of` onto the clock of `to`
 * @param spacing metres between the cameras, for the stated bound
 */
export function* soundLineUp(
  to: SoundTrack,
  of: SoundTrack,
  spacing: number,
): Generator<number, SoundAnswer> {
  if (to.rate !== of.rate) throw new RangeError(`Tracks of ${to.rate} and ${of.rate} samples a second`);
  if (!(spacing >= 0)) throw new RangeError(`${spacing} m cannot be the distance between two cameras`);
  if (lengthOf(to) < shortest || lengthOf(of) < shortest) return refused('tooShort');
  const toOnsets = onsetsOf(to);
  yield 0.2;
  const ofOnsets = onsetsOf(of);
  yield 0.4;
  const pieces = piecesOf(of, ofOnsets);
  if (pieces.length < fewestAgreeing || piecesOf(to, toOnsets).length < fewestAgreeing)
    return refused('silent');
  const places = likelyPlaces(toOnsets, ofOnsets);
  yield 0.5;
  const search: Search = { to, of, toOnsets, pieces, spectra: new Map(), spacing };
  const tried: Fit[] = [];
  for (const place of places) {
    tried.push(fitAt(search, place));
    yield 0.5 + (0.5 * tried.length) / places.length;
  }
  tried.sort((a, b) => b.score - a.score);
  const [best] = tried;
  if (!best || !agreesThroughout(best)) return refused('unlike');
  const apart = elsewhere + (2 * spacing) / speedOfSound;
  const next = tried.find((t) => Math.abs(offsetOf(t, to.rate) - offsetOf(best, to.rate)) > apart);
  const share = (next?.score ?? 0) / best.score;
  if (share >= nearlyAsGood) return refused('ambiguous');
  if (share >= toBeExpected) return refused('unlike');
  return answer(search, best);
}

/** Enough pieces agree, and in every third of what was compared: two runs that only begin alike do not. */
function agreesThroughout({ heard: heardHere, agreeing }: Fit): boolean {
  if (agreeing.length < fewestAgreeing || agreeing.length < leastShare * heardHere.length) return false;
  const byTime = [...heardHere].sort((a, b) => a.at - b.at);
  const third = byTime.length / 3;
  return [0, 1, 2].every((k) => {
    const part = byTime.slice(Math.round(k * third), Math.round((k + 1) * third));
    return part.filter((h) => agreeing.includes(h)).length >= leastShareOfThird * part.length;
  });
}

/** What every place is tried with. */
interface Search {
  readonly to: SoundTrack;
  readonly of: SoundTrack;
  readonly toOnsets: Onsets;
  /** Samples at which pieces of `of` begin. */
  readonly pieces: readonly number[];
  /** Spectra of pieces that are known already. */
  readonly spectra: Map<number, Spectrum>;
  readonly spacing: number;
}

/** Runs a line-up to its end without stopping. */
export function soundLineUpNow(to: SoundTrack, of: SoundTrack, spacing: number): SoundAnswer {
  const steps = soundLineUp(to, of, spacing);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

const refused = (why: SoundRefusal): SoundAnswer => ({ found: false, why });
const lengthOf = (track: SoundTrack): number => track.samples.length / track.rate;

/** Samples of a track at which pieces with something to hear begin. */
function piecesOf(track: SoundTrack, onsets: Onsets): number[] {
  const long = Math.round(piece * track.rate);
  const found: number[] = [];
  for (let from = 0; from + long <= track.samples.length; from += long >> 1) {
    if (isHeard(onsets, from / track.rate, (from + long) / track.rate)) found.push(from);
  }
  const every = Math.max(1, found.length / mostPieces);
  return Array.from(
    { length: Math.min(mostPieces, found.length) },
    (_, i) => found[Math.floor(i * every)] ?? 0,
  );
}

/** Whether a sound of 30 ms at least rises above the quiet of the track between two times of it. */
function isHeard({ loud }: Onsets, from: number, to: number): boolean {
  let steps = 0;
  for (let i = Math.max(0, Math.floor(from * stepsPerSecond)); i < to * stepsPerSecond; i++) {
    if ((loud[i] ?? -Infinity) >= heard) steps++;
  }
  return steps >= 3;
}

/** Offsets (seconds from sample to sample) at which the onsets fit best, the best first. */
function likelyPlaces(to: Onsets, of: Onsets): number[] {
  let sum: Float64Array | null = null;
  to.bands.forEach((band, b) => {
    const other = of.bands[b];
    if (!other) return;
    const lags = crossCorrelation(band, other);
    sum = sum ? sum.map((s, i) => s + (lags[i] ?? 0)) : lags;
  });
  const scores: Float64Array = sum ?? new Float64Array(0);
  const none = (of.loud.length || 1) - 1;
  const shared = (i: number): number => {
    const lag = i - none;
    return Math.min(to.loud.length, of.loud.length + lag) - Math.max(0, lag);
  };
  const places: number[] = [];
  const order = Array.from(scores.keys())
    .filter((i) => shared(i) >= shortest * stepsPerSecond && (scores[i] ?? 0) > 0)
    .filter((i) => (scores[i] ?? 0) >= (scores[i - 1] ?? 0) && (scores[i] ?? 0) >= (scores[i + 1] ?? 0))
    .sort((a, b) => (scores[b] ?? 0) - (scores[a] ?? 0));
  for (const i of order) {
    if (places.length >= mostPlaces) break;
    const place = (i - none) / stepsPerSecond;
    if (places.every((p) => Math.abs(p - place) > reach / 2)) places.push(place);
  }
  return places;
}

/** What one piece says about its delay at one place. */
interface Heard {
  /** Media time of the piece's middle on the clip that is lined up. */
  readonly at: number;
  /** How well it fits, per sample of delay from the beginning of the search. */
  readonly curve: Float32Array;
  readonly peak: Peak;
}

interface Fit {
  readonly heard: readonly Heard[];
  /** Media time of the first clip when the second is at 0, if the delay is 0 samples of the curves. */
  readonly base: number;
  readonly consensus: Consensus;
  readonly agreeing: readonly Heard[];
  /** Heights of the peaks of those that agree, added up. */
  readonly score: number;
}

/** Compares every piece at one place, and keeps those that agree. */
function fitAt(search: Search, place: number): Fit {
  const { to, of, pieces, spectra, toOnsets, spacing } = search;
  const { rate } = to;
  const long = Math.round(piece * rate);
  const side = Math.round(reach * rate);
  const transform = transformOf(roomFor(long + 2 * side));
  const shift = Math.round(place * rate);
  const wide = new Float32Array(long + 2 * side);
  const heardHere: Heard[] = [];
  for (const from of pieces) {
    const begin = from + shift - side;
    if (begin + side < 0 || begin + side + long > to.samples.length) continue;
    if (!isHeard(toOnsets, begin / rate, (begin + long + 2 * side) / rate)) continue;
    const own = spectra.get(from) ?? transform.spectrum(of.samples.subarray(from, from + long));
    spectra.set(from, own);
    for (let i = 0; i < wide.length; i++) wide[i] = to.samples[begin + i] ?? 0;
    const curve = phaseCurve(own, transform.spectrum(wide), rate, 2 * side);
    heardHere.push({ at: of.from + (from + long / 2) / rate, curve, peak: peakOf(curve) });
  }
  const consensus = consensusOf(heardHere, rate, slopesFor(heardHere, spacing));
  // Sources move between the cameras: true delays lie within a range this wide, and a slip beyond it to each side.
  const width = (2 * slips + (2 * spacing) / speedOfSound + clockDrift * lengthOf(of)) * rate;
  const agreeing = densest(
    heardHere.filter((h) => h.peak.height >= standsOut),
    (h) => delayAt(h.peak, h, consensus, rate),
    width,
  );
  return {
    heard: heardHere,
    base: to.from + (shift - side) / rate - of.from,
    consensus,
    agreeing,
    score: agreeing.reduce((sum, h) => sum + h.peak.height, 0),
  };
}

/** The most entries whose values lie within a width. */
function densest<T>(entries: readonly T[], valueOf: (entry: T) => number, width: number): readonly T[] {
  const sorted = entries.map((entry) => ({ entry, value: valueOf(entry) })).sort((a, b) => a.value - b.value);
  let best = { from: 0, to: 0 };
  let from = 0;
  sorted.forEach(({ value }, i) => {
    while (value - (sorted[from]?.value ?? 0) > width) from++;
    if (i + 1 - from > best.to - best.from) best = { from, to: i + 1 };
  });
  return sorted.slice(best.from, best.to).map(({ entry }) => entry);
}

/** What the pieces say together: one delay, in samples, at time `centre`, and how it changes. */
interface Consensus {
  readonly delay: number;
  readonly centre: number;
  /** Seconds of delay per second. */
  readonly slope: number;
  readonly height: number;
}

/** A piece's delay brought to the time of the consensus. */
const delayAt = (
  peak: Peak,
  { at }: Heard,
  { slope, centre }: Pick<Consensus, 'slope' | 'centre'>,
  rate: number,
) => peak.at - slope * (at - centre) * rate;

/** Slopes that are tried: none where the clocks cannot be told apart from sources that move between the cameras. */
function slopesFor(heardHere: readonly Heard[], spacing: number): number[] {
  const span = spanOf(heardHere);
  if (span < longForRate || rateSureness(span, spacing) > sureOfRate) return [0];
  const each = sharp / span;
  const many = Math.ceil((1.5 * clockDrift) / each);
  return Array.from({ length: 2 * many + 1 }, (_, i) => (i - many) * each);
}

/**
 * Adds the curves of all pieces up and takes the highest place. A voice repeats at its pitch, so its own curve has
 * several peaks, and an echo adds more; only the true delay is a peak in all of them.
 */
function consensusOf(heardHere: readonly Heard[], rate: number, slopes: readonly number[]): Consensus {
  const times = heardHere.map((h) => h.at);
  const centre = times.length === 0 ? 0 : (Math.max(...times) + Math.min(...times)) / 2;
  const blur = Math.max(1, Math.round((sharp * rate) / 2));
  const blurred = heardHere.map(({ curve }) => highestNear(curve, blur));
  let best: Consensus = { delay: 0, centre, slope: 0, height: -Infinity };
  for (const slope of slopes) {
    const sum = new Float64Array(heardHere[0]?.curve.length ?? 0);
    blurred.forEach((curve, k) => {
      const shift = Math.round(slope * ((times[k] ?? 0) - centre) * rate);
      for (let i = 0; i < sum.length; i++) sum[i] = (sum[i] ?? 0) + (curve[i + shift] ?? 0);
    });
    const peak = peakOf(sum);
    if (peak.height > best.height) best = { delay: peak.at, centre, slope, height: peak.height };
  }
  // Among the blurred tops the sharp one: the weighted middle of what each piece says right there.
  const near = heardHere.map((h) => {
    const middle = best.delay + slopeShift(best, h, rate);
    const { at, height } = peakOf(h.curve, middle - 1.5 * blur, middle + 1.5 * blur);
    return { delay: at - slopeShift(best, h, rate), weight: Math.max(0, height - 2) ** 2 };
  });
  const delay = weightedMedian(
    near.map((n) => n.delay),
    near.map((n) => n.weight),
  );
  return { ...best, delay: Number.isNaN(delay) ? best.delay : delay };
}

const slopeShift = ({ slope, centre }: Consensus, { at }: Heard, rate: number): number =>
  slope * (at - centre) * rate;

/** The curve with each entry raised to the highest within `by` entries, capped so that no piece outshouts the rest. */
function highestNear(curve: Float32Array, by: number): Float32Array {
  return curve.map((_, i) => {
    let high = 0;
    for (let k = Math.max(0, i - by); k <= i + by && k < curve.length; k++)
      high = Math.max(high, curve[k] ?? 0);
    return Math.min(high, loudest);
  });
}

const spanOf = (heardHere: readonly Heard[]): number => {
  const times = heardHere.map((h) => h.at);
  return times.length === 0 ? 0 : Math.max(...times) - Math.min(...times);
};

/** How surely a rate can be told over a span, seconds a second: sources may move from one camera to the other. */
const rateSureness = (span: number, spacing: number): number => (sharp + (2 * spacing) / speedOfSound) / span;

/** The value at which half of the weight is reached. Voices repeat at their pitch; sharp peaks are surer. */
function weightedMedian(values: readonly number[], weights: readonly number[]): number {
  const order = [...values.keys()].sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0));
  const half = weights.reduce((sum, w) => sum + w, 0) / 2;
  let sum = 0;
  for (const i of order) {
    sum += weights[i] ?? 0;
    if (sum >= half) return values[i] ?? NaN;
  }
  return NaN;
}

/** Media time of the first clip when the second is at 0, at the centre of what was compared. */
const offsetOf = ({ base, consensus }: Fit, rate: number): number => base + consensus.delay / rate;

function answer({ to, of, spacing }: Search, fit: Fit): SoundLineUp {
  const { agreeing, consensus, heard: heardHere } = fit;
  const { rate } = to;
  const { slope, centre } = consensus;
  const span = spanOf(agreeing);
  const rateTold = span >= longForRate && rateSureness(span, spacing) <= sureOfRate;
  // At the centre of what was compared the clips lie `middle` apart; offset and rate carry that to media time 0.
  const middle = offsetOf(fit, rate);
  const ends = [of.from, endOf(of), to.from - middle, endOf(to) - middle];
  const farthest = Math.max(...ends.map((end) => Math.abs(end - centre)));
  const off = agreeing
    .map((h) => Math.abs(delayAt(h.peak, h, consensus, rate) - consensus.delay) / rate)
    .sort((a, b) => a - b);
  const drift = rateTold ? rateSureness(span, spacing) : clockDrift;
  const allowance = soundAllowance(spacing, farthest, drift, off[Math.floor(off.length * 0.8)] ?? 0);
  return {
    found: true,
    offset: middle - slope * centre,
    rate: 1 + slope,
    rateTold,
    plusMinus: plusMinusOf(allowance),
    allowance,
    compared: heardHere.length,
    agree: agreeing.length,
  };
}
