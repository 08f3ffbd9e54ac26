import { frameTable, type FrameTable } from '../../../src/time/frameTable.ts';
import { readingsFrom, type GroundView } from '../../../src/track/fromMarks.ts';
import { entry } from '../../../src/track/matrices.ts';
import { placeBand } from '../../../src/track/bands.ts';
import { realLine, type LineWish, type RealLine } from '../../../src/track/realLine.ts';
import type { LineReading } from '../../../src/track/readings.ts';
import type { TrackMark } from '../../../src/track/track.ts';
import { whereAt } from '../../../src/track/whereAt.ts';
import type { BenchLine } from '../run.ts';
import { blurred, pawAt, picture, seen, type Pixel, type Run, type Shot } from './scene.ts';

/** Runs of a group; WALKBACK_BENCH_RUNS shortens it. */
export const runs = Number(process.env['WALKBACK_BENCH_RUNS'] ?? 200);
/** The figures of the smoother were chosen on the runs from 0 on; WALKBACK_BENCH_SEEDS moves on to fresh ones. */
export const firstSeed = Number(process.env['WALKBACK_BENCH_SEEDS'] ?? 0);

const tables = new Map<number, FrameTable>();

/** Two minutes of even frames from 0 s on; made once, since some benches read marks one by one. */
function evenFrames(rate: number): FrameTable {
  const known = tables.get(rate);
  if (known) return known;
  const table = frameTable(
    { num: 1, den: rate },
    Array.from({ length: 120 * rate }, (_, i) => i),
  );
  tables.set(rate, table);
  return table;
}

/** As the program reads marks, on a clip of even frames from 0 s on. */
export function readingsOn(
  view: GroundView,
  marks: readonly TrackMark[],
  rate: number,
): readonly LineReading[] {
  const clock = { table: evenFrames(rate), speed: [], offset: 0, rate: 1 };
  return readingsFrom({ marks: [...marks] }, clock, view).readings;
}

export const shareOf = (p: Pixel): Pixel => ({ x: p.x / picture.width, y: p.y / picture.height });

/** How a coach clicks the paw that touches the ground, once a stride. */
export interface Clicking {
  readonly rate: number;
  /** How far above the ground she clicks, metres. */
  readonly up?: number;
  /** Clicks of this share lie 40 px beside. */
  readonly wrong?: number;
  /** What the lens makes of a pixel. */
  readonly through?: (p: Pixel) => Pixel;
}

/** The marks of a run, and the frames of those that lie beside. */
export function clicksOf(run: Run, shot: Shot, { rate, up = 0, wrong = 0, through }: Clicking) {
  const beside = new Set<number>();
  const marks = run.touches.flatMap((touch): TrackMark[] => {
    const at = seen(shot.matrix, { ...touch, z: up });
    // The frame nearest to the middle of the touch: where the leg stands upright.
    const pts = Math.round(touch.at * rate);
    if (!at) return [];
    const clicked = blurred(through?.(at) ?? at, shot.random);
    if (wrong === 0 || !shot.random.chance(wrong)) return [{ pts, at: shareOf(clicked), contact: 'ground' }];
    beside.add(pts);
    return [{ pts, at: shareOf(aside(clicked, shot.random.between(0, 2 * Math.PI))), contact: 'ground' }];
  });
  return { marks, beside };
}

/** 40 px beside. */
export const aside = (p: Pixel, angle: number): Pixel => ({
  x: p.x + 40 * Math.cos(angle),
  y: p.y + 40 * Math.sin(angle),
});

export const lineOf = (
  run: Run,
  readings: readonly LineReading[],
  { error }: GroundView,
  more: Pick<LineWish, 'contradictions'> = {},
): RealLine | null =>
  realLine({
    who: 'dog',
    readings,
    flights: run.flights,
    weaves: run.weaves,
    step: 0.1,
    ...more,
    ...(error ? { fit: error } : {}),
  });

export const within = (list: readonly { readonly from: number; readonly to: number }[], t: number): boolean =>
  list.some((g) => t > g.from && t < g.to);

/** Every thirtieth of a second where the dog was seen: gaps (tunnels, contacts, out of the picture) are no line. */
export function seenMoments(line: RealLine): number[] {
  const out: number[] = [];
  for (let t = line.from; t <= line.to; t += 1 / 30) if (!within(line.gaps, t)) out.push(t);
  return out;
}

/** How one line did in one run. */
export interface Score {
  readonly squares: readonly number[];
  readonly covered: number;
  readonly widths: readonly number[];
}

/** A line against truth at these moments. @param truly where the point that was marked is */
export function scored(
  run: Run,
  line: RealLine,
  moments = seenMoments(line),
  truly = (t: number): Pixel => pawAt(run.run, t),
): Score {
  const squares: number[] = [];
  const widths: number[] = [];
  let covered = 0;
  for (const t of moments) {
    const here = whereAt(line, t);
    if (!here) continue;
    const truth = truly(t);
    const [dx, dy] = [here.x - truth.x, here.y - truth.y];
    const [xx, xy, yy] = [entry(here.cov, 0, 0), entry(here.cov, 0, 1), entry(here.cov, 1, 1)];
    squares.push(dx * dx + dy * dy);
    if ((dx * dx * yy - 2 * dx * dy * xy + dy * dy * xx) / (xx * yy - xy * xy) <= 5.991) covered++;
    widths.push(2 * placeBand(here.cov).long);
  }
  return { squares, covered: covered / squares.length, widths };
}

export const metres = (v: number): string => `${v.toFixed(3)} m`;
export const percent = (v: number): string => `${(100 * v).toFixed(1)} %`;

/** Lines of a group's table. */
export const tableOf =
  (group: string) =>
  (figure: string, asked: string, measured: string, holds: boolean): BenchLine => ({
    figure: `${group}: ${figure}`,
    asked,
    measured,
    holds,
  });
