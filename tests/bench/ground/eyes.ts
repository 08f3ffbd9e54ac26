import { fitCourse, type Fit } from '../../../src/ground/fit.ts';
import { knownPoints } from '../../../src/ground/knownPoints.ts';
import { partKey } from '../../../src/ground/parts.ts';
import { lengthBetween, waysOf } from '../../../src/track/figures.ts';
import type { GroundView } from '../../../src/track/fromMarks.ts';
import { groundViewOf } from '../../../src/track/groundView.ts';
import { sampleAt } from '../../../src/track/samples.ts';
import type { RealLine } from '../../../src/track/realLine.ts';
import type { TrackMark } from '../../../src/track/track.ts';
import { courseOfTruth } from '../../../scripts/demoMarks.ts';
import { CourseTruth } from '../../../scripts/demoTruth.ts';
import { pawContacts } from '../../../scripts/simulator/actors/footfalls.ts';
import { cameraMatrix, type CameraMatrix } from '../../../scripts/simulator/camera/camera.ts';
import { demoCourse } from '../../../scripts/simulator/ground/demoCourse.ts';
import { simulateRun } from '../../../scripts/simulator/run/run.ts';
import { courseTruth } from '../../../scripts/simulator/truth/courseTruth.ts';
import type { BenchLine } from '../run.ts';
import { exactView } from './exactView.ts';
import { seenRuns, type SeenRun } from './eyesMarks.ts';
import { trueLength } from './lengths.ts';
import { lineOf, metres, percent, readingsOn, scored, tableOf, type Score } from './lineRuns.ts';
import { clickNoise, pawAt, type Run } from './scene.ts';
import { median, rms } from './tally.ts';

const known = new Map(
  knownPoints(courseOfTruth(CourseTruth.parse(JSON.parse(JSON.stringify(courseTruth(demoCourse)))))).map(
    (k) => [k.id, k],
  ),
);

/** Which frames: those on which the leg looked upright, or half way between the first and the last with the paw down. */
type Frames = 'upright' | 'halfWay';

/** What the marks of a fresh pair of eyes come to, beside what the simulator knows. */
interface Seen {
  readonly fit: Fit;
  /** Root mean squares of how far the clicks lie off, pixels along one axis: on the course, and on the paw's print. */
  readonly coursePixels: number;
  readonly pawPixels: number;
  /** Middle one of how late the frames were chosen, seconds after the middle of the touch. */
  readonly late: number;
  /** By the fit of the clicked points, and by the exact camera with the same clicks. */
  readonly score: Score;
  readonly exact: Score;
  /** Share of moments at which the band that the window draws, across her way, holds the way she really ran. */
  readonly across: number;
  readonly left: number;
  readonly length: { readonly truth: number; readonly value: number; readonly plusMinus: number };
}

/** Works out one run that was marked by eye. */
function seenRun(seen: SeenRun, frames: Frames): Seen {
  const { camera, rate } = seen;
  const matrix = cameraMatrix(camera);
  const sightings = seen.points.map(([obstacleId, part, x, y]) => {
    const spot = known.get(partKey({ obstacleId, part }));
    if (!spot) throw new Error(`${obstacleId} has no ${part}`);
    return { id: spot.id, ground: spot.at, pixel: { x, y } };
  });
  const fit = fitCourse(sightings, camera);
  if (!fit.fitted) throw new Error(`the course was not fitted: ${fit.why}`);
  const record = simulateRun(seen.order);
  const run: Run = { run: record, flights: [], stretches: [], weaves: [], touches: [] };
  const prints = pawContacts(record).leftFront.map((c) => ({ ...c, at: (c.begin + c.end) / 2 }));
  const paw = seen.paw.map(([upright, x, y], i) => {
    const [first, last] = seen.down[i] ?? [upright, upright];
    const frame = frames === 'upright' ? upright : Math.round((first + last) / 2);
    const at = frame / rate;
    const print = prints.reduce((a, b) => (Math.abs(b.at - at) < Math.abs(a.at - at) ? b : a));
    return { frame, x, y, print };
  });
  const marks = paw.map(({ frame, x, y }): TrackMark => ({
    pts: frame,
    at: { x: x / camera.width, y: y / camera.height },
    contact: 'ground',
  }));
  const through = (view: GroundView): RealLine => {
    const line = lineOf(run, readingsOn(view, marks, rate), view);
    if (!line) throw new Error('no line');
    return line;
  };
  const line = through(groundViewOf(fit));
  const exact = through(exactView(camera, matrix, clickNoise));
  const moments = Array.from(
    { length: Math.floor((line.to - line.from) * 30) + 1 },
    (_, i) => line.from + i / 30,
  );
  const long = lengthBetween(waysOf(line, 1, 200), line.from, line.to);
  if (!long) throw new Error('no length');
  return {
    fit,
    coursePixels: rms(sightings.flatMap((s) => off(matrix, s.ground, s.pixel))),
    pawPixels: rms(paw.flatMap(({ print, ...clicked }) => off(matrix, print, clicked))),
    late: median(paw.map(({ frame, print }) => frame / rate - print.at)),
    score: scored(run, line, moments),
    exact: scored(run, exact, moments),
    across: acrossHeld(run, line, moments),
    left: line.against.length,
    length: { truth: trueLength(run, line), value: long.value, plusMinus: long.plusMinus },
  };
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** Squares of how far a click lies off, along either axis. */
function off(m: CameraMatrix, at: Point, clicked: Point): number[] {
  const row = (k: 0 | 1 | 2): number => m[k][0] * at.x + m[k][1] * at.y + m[k][3];
  return [(row(0) / row(2) - clicked.x) ** 2, (row(1) / row(2) - clicked.y) ** 2];
}

/** How far from its moment the true way next to a place is looked for, seconds. */
const about = 0.4;

/** Whether a frame is the right one moves the line along her way only: the true way, whenever she was there. */
function acrossHeld(run: Run, line: RealLine, moments: readonly number[]): number {
  const held = moments.filter((t) => {
    const here = sampleAt(line, t);
    if (!here) return false;
    const half = Math.hypot(here.left.x - here.right.x, here.left.y - here.right.y) / 2;
    const truth = Array.from({ length: 161 }, (_, i) => pawAt(run.run, t + about * (i / 80 - 1)));
    return Math.min(...truth.map((p) => Math.hypot(p.x - here.x, p.y - here.y))) <= half;
  });
  return held.length / moments.length;
}

/** Two runs marked from their pictures alone. */
export async function eyesLines(): Promise<BenchLine[]> {
  return seenRuns.flatMap((seen) => [...clickLines(seen), ...ruleLines(seen), uprightLine(seen)]);
}

function clickLines(seen: SeenRun): BenchLine[] {
  const { fit, coursePixels, pawPixels, left } = seenRun(seen, 'halfWay');
  const line = tableOf(`marked by eye: ${seen.name}`);
  const aside = fit.points.filter((p) => !p.used).length;
  return [
    line(
      'clicks',
      '2 px per axis, as everywhere here',
      `${seen.points.length} course points off by ${coursePixels.toFixed(2)} px, ${aside} set aside; ${seen.paw.length} clicks off the paw’s prints by ${pawPixels.toFixed(2)} px, ${left} set aside`,
      coursePixels <= 2 && pawPixels <= 2,
    ),
  ];
}

/** Frames chosen as the window tells the coach to. */
function ruleLines(seen: SeenRun): BenchLine[] {
  const { score, exact, across, late, length } = seenRun(seen, 'halfWay');
  const line = tableOf(`marked by eye: ${seen.name}, frames half way between paw down and paw up`);
  const [ours, oracle] = [rms(score.squares), rms(exact.squares)];
  const wrong = length.value / length.truth - 1;
  return [
    line(
      'moments',
      'within half a frame, as everywhere here',
      `${Math.round(1000 * late)} ms after the middle of the touch`,
      Math.abs(late) <= 0.5 / seen.rate,
    ),
    line(
      'place',
      'RMS at most 1.40 of the exact camera, 12 points',
      `${metres(ours)}, ${(ours / oracle).toFixed(2)} of the ${metres(oracle)} of the exact camera`,
      ours <= 1.4 * oracle,
    ),
    line(
      'band, at the same moment',
      'holds at least 92 % of one run',
      `${percent(score.covered)} of ${score.squares.length} moments`,
      score.covered >= 0.92,
    ),
    line('band as drawn, across her way', 'holds at least 92 % of one run', percent(across), across >= 0.92),
    line(
      'length, first mark to last',
      'within 2 %',
      `${metres(length.value)} ± ${metres(length.plusMinus)}, truth ${metres(length.truth)}: ${percent(wrong)}`,
      Math.abs(wrong) <= 0.02,
    ),
  ];
}

/** Frames chosen otherwise: what still holds, and by how much the rest does not. */
function uprightLine(seen: SeenRun): BenchLine {
  const { score, across, late, length } = seenRun(seen, 'upright');
  const wrong = length.value / length.truth - 1;
  return tableOf(`marked by eye: ${seen.name}`)(
    'frames by how upright the leg looks, against the window’s advice',
    'the band as drawn holds at least 92 %, and the length its own; by how much the rest does not',
    `drawn band ${percent(across)}; ${Math.round(1000 * late)} ms late, so that the band at the same moment holds ${percent(score.covered)}, place off by ${metres(rms(score.squares))}; length ${percent(wrong)} (± ${percent(length.plusMinus / length.value)})`,
    across >= 0.92 && Math.abs(length.value - length.truth) <= length.plusMinus,
  );
}
