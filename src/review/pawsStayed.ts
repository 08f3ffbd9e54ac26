import type { StartTry } from './analysis.ts';
import type { ReviewState } from './entities.ts';
import { middle, type ClipClock } from '../time/bracket.ts';
import { readingsFrom } from '../track/fromMarks.ts';
import { pinholeOf } from '../ground/pinhole.ts';
import { farthestTold, startLineStayed, type StartLineStayed, type WaitingMark } from '../track/stayed.ts';
import type { GroundFit } from '../track/groundFits.ts';

/** A wait at the start line: from when to when its paws count, seconds of the run. */
interface Wait {
  readonly try: number;
  readonly from: number;
  readonly release: number;
  /** False where no release is marked: what comes after the next set-up, or at the end of all marks, ends it. */
  readonly released: boolean;
}

/** Paws at the start line of one try, measured. */
export interface TryStayed extends StartLineStayed {
  readonly try: number;
  readonly released: boolean;
  /** Marks on paws in this try. */
  readonly marks: number;
}

/** The waits of a run by the coach's marks; one without set-up where nothing is marked. */
export function waitsOf(tries: readonly StartTry[]): readonly Wait[] {
  const at = (t: StartTry, part: 'setUp' | 'release', end: 'first' | 'last'): number | null => {
    const its = t.moments.filter((m) => m.part === part);
    const one = end === 'first' ? its[0] : its.at(-1);
    return one ? middle(one.moment.bracket) : null;
  };
  if (tries.length === 0) return [{ try: 1, from: -Infinity, release: Infinity, released: false }];
  return tries.map((t, i): Wait => {
    const next = tries[i + 1];
    const release = at(t, 'release', 'last');
    const then = next ? (at(next, 'setUp', 'first') ?? Infinity) : Infinity;
    return {
      try: t.try,
      from: at(t, 'setUp', 'first') ?? -Infinity,
      release: release ?? then,
      released: release !== null,
    };
  });
}

/** A mark may lie on the frame before the one that shows her set up, seconds. */
const early = 0.1;

/**
 * Whether the paws stayed, try by try, from those that were clicked while she waited.
 * @param countsFrom metres from which a paw has stepped
 */
export function triesStayed(
  { tracks }: Pick<ReviewState, 'tracks'>,
  footageId: string,
  clock: ClipClock,
  { view, holds }: GroundFit,
  tries: readonly StartTry[],
  countsFrom: number,
): readonly TryStayed[] {
  const marks = tracks.flatMap((t): WaitingMark[] => {
    if (t.who !== 'dog' || t.during !== 'wait' || t.footageId !== footageId) return [];
    const held = t.marks.filter((m) => holds(m.pts) && m.contact === 'ground');
    return readingsFrom({ marks: held }, clock, view).readings.flatMap((reading) =>
      reading.contact === 'ground' ? [{ point: t.point, reading }] : [],
    );
  });
  return waitsOf(tries).flatMap((wait): TryStayed[] => {
    const its = marks.filter(({ reading }) => reading.at >= wait.from - early && reading.at <= wait.release);
    if (its.length === 0) return [];
    const stayed = startLineStayed(its, view.error, wait.release, { countsFrom });
    return [{ ...stayed, try: wait.try, released: wait.released, marks: its.length }];
  });
}

/**
 * How far from this camera a step can still be told by one careful click on each of two frames, metres; null where the
 * fit does not say where the camera stands.
 */
export function stepTold(
  { fit }: GroundFit,
  step: number,
  countsFrom: number,
): { readonly across: number; readonly along: number } | null {
  const camera = pinholeOf(fit);
  if (!camera) return null;
  return farthestTold({ height: camera.at.z, focal: camera.focal }, step, fit.noise.pixels, 1, {
    countsFrom,
  });
}
