import { lengthBetween, waysOf } from '../../../src/track/figures.ts';
import { fitCourse } from '../../../src/ground/fit.ts';
import { groundViewOf } from '../../../src/track/groundView.ts';
import { readingsFrom, type GroundView } from '../../../src/track/fromMarks.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import type { TrackMark } from '../../../src/track/track.ts';
import { placeBand } from '../../../src/track/bands.ts';
import { entry } from '../../../src/track/matrices.ts';
import { realLine, type RealLine } from '../../../src/track/realLine.ts';
import type { LineReading } from '../../../src/track/readings.ts';
import { whereAt } from '../../../src/track/whereAt.ts';
import { randomStream } from '../../../scripts/simulator/base/random.ts';
import { dogAt } from '../../../scripts/simulator/actors/trace.ts';
import { exactView } from './exactView.ts';
import {
  blurred,
  clickNoise,
  pawAt,
  picture,
  runOf,
  seen,
  shotOf,
  type Pixel,
  type Run,
  type Shot,
} from './scene.ts';
import { mean, meanInterval99 } from './bootstrap.ts';
import { median, quantile, rms } from './tally.ts';
import type { BenchLine } from '../run.ts';

const runs = Number(process.env['WALKBACK_BENCH_RUNS'] ?? 200);
const heights = [1.6, 3, 5] as const;
const rates = [30, 60] as const;
const counts = [12, 20, 40] as const;
const rmsAsked = { 12: 1.4, 20: 1.2, 40: 1.1 } as const;

/** How one line did in one run. */
interface Score {
  readonly squares: readonly number[];
  readonly covered: number;
  readonly widths: readonly number[];
}

interface Stretch {
  readonly run: number;
  readonly off: number;
  readonly held: boolean;
}

interface Group {
  readonly name: string;
  readonly height: number;
  readonly scores: Map<string, Score[]>;
  /** Squared errors of straight lines from click to click, exact camera. */
  readonly unsmoothed: number[];
  /** Of stretches, 20 points and exact camera: measured over true length, less 1; whether the band held it. */
  readonly stretches: Stretch[];
  readonly exactStretches: Stretch[];
  /** In flight: squared errors with marks in the air as they are, taken for ground, and left out. */
  readonly air: Record<'ours' | 'asGround' | 'leftOut', number[]>;
  /** Where marks in the air would lie if they were on the ground: metres off. */
  readonly airMarks: number[];
}

/** The line a dog ran against truth, with the plainest fit and with the exact camera. */
export async function lineLines(): Promise<BenchLine[]> {
  const groups = heights.flatMap((height) => rates.map((rate) => measured(height, rate)));
  return groups.flatMap(linesOf);
}

function measured(height: number, rate: number): Group {
  const group: Group = {
    name: `camera ${height} m, ${rate} fps`,
    height,
    scores: new Map(),
    unsmoothed: [],
    stretches: [],
    exactStretches: [],
    air: { ours: [], asGround: [], leftOut: [] },
    airMarks: [],
  };
  for (let i = 0; i < runs; i++) {
    const run = runOf(1000 + i);
    const shot = shotOf(height, 5000 + i, 40);
    const clicks = run.touches.flatMap((touch): TrackMark[] => {
      const at = seen(shot.matrix, touch);
      // The frame nearest to the middle of the touch: where the leg stands upright.
      const pts = Math.round(touch.at * rate);
      return at ? [{ pts, at: shareOf(blurred(at, shot.random)), contact: 'ground' }] : [];
    });
    const exact = exactView(shot.camera, shot.matrix, clickNoise);
    const readings = readingsOn(exact, clicks, rate);
    const oracle = lineOf(run, readings, exact);
    if (!oracle) continue;
    keep(group, 'oracle', scored(run, oracle));
    if (height > 2) stretchesOf(group.exactStretches, i, run, oracle);
    group.unsmoothed.push(...unsmoothed(run, oracle, readings));
    for (const count of counts) {
      const sightings = shot.known
        .slice(0, count)
        .map(({ from, to }, k) => ({ id: `${k}`, ground: from, pixel: to }));
      const fit = fitCourse(sightings, picture);
      if (!fit.fitted) throw new Error(`no fit with ${count} points: ${fit.why}`);
      const view = groundViewOf(fit);
      const line = lineOf(run, readingsOn(view, clicks, rate), view);
      if (!line) continue;
      keep(group, `${count}`, scored(run, line));
      if (count !== 20) continue;
      if (height > 2) stretchesOf(group.stretches, i, run, line);
      if (rate === 60 && i < runs / 2) inAir(group, run, shot, view, clicks, line);
    }
  }
  return group;
}

/** As the program reads marks, on a clip of even frames from 0 s on. */
function readingsOn(view: GroundView, marks: readonly TrackMark[], rate: number): readonly LineReading[] {
  const table = frameTable(
    { num: 1, den: rate },
    Array.from({ length: 120 * rate }, (_, i) => i),
  );
  return readingsFrom({ marks: [...marks] }, { table, speed: [], offset: 0, rate: 1 }, view).readings;
}

const shareOf = (p: Pixel): Pixel => ({ x: p.x / picture.width, y: p.y / picture.height });

const lineOf = (run: Run, readings: readonly LineReading[], { error }: GroundView): RealLine | null =>
  realLine({ who: 'dog', readings, flights: run.flights, step: 0.1, ...(error ? { fit: error } : {}) });

const within = (list: readonly { readonly from: number; readonly to: number }[], t: number): boolean =>
  list.some((g) => t > g.from && t < g.to);

/** Every thirtieth of a second where the dog was seen: gaps (tunnels, contacts, out of the picture) are no line. */
function seenMoments(line: RealLine): number[] {
  const out: number[] = [];
  for (let t = line.from; t <= line.to; t += 1 / 30) if (!within(line.gaps, t)) out.push(t);
  return out;
}

function scored(run: Run, line: RealLine): Score {
  const squares: number[] = [];
  const widths: number[] = [];
  let covered = 0;
  for (const t of seenMoments(line)) {
    const here = whereAt(line, t);
    if (!here) continue;
    const truth = pawAt(run.run, t);
    const [dx, dy] = [here.x - truth.x, here.y - truth.y];
    const [xx, xy, yy] = [entry(here.cov, 0, 0), entry(here.cov, 0, 1), entry(here.cov, 1, 1)];
    squares.push(dx * dx + dy * dy);
    if ((dx * dx * yy - 2 * dx * dy * xy + dy * dy * xx) / (xx * yy - xy * xy) <= 5.991) covered++;
    widths.push(2 * placeBand(here.cov).long);
  }
  return { squares, covered: covered / squares.length, widths };
}

function keep(group: Group, name: string, score: Score): void {
  group.scores.set(name, [...(group.scores.get(name) ?? []), score]);
}

function unsmoothed(run: Run, line: RealLine, readings: readonly LineReading[]): number[] {
  return seenMoments(line).flatMap((t) => {
    const i = readings.findIndex((r) => r.at >= t);
    const [a, b] = [readings[Math.max(0, i - 1)], readings[i]];
    if (!a || !b) return [];
    const u = b.at > a.at ? (t - a.at) / (b.at - a.at) : 0;
    const truth = pawAt(run.run, t);
    return [(a.x + u * (b.x - a.x) - truth.x) ** 2 + (a.y + u * (b.y - a.y) - truth.y) ** 2];
  });
}

function stretchesOf(into: Stretch[], index: number, run: Run, line: RealLine): void {
  const ways = waysOf(line, index, 100);
  for (const s of run.stretches) {
    const whole = s.from >= line.from && s.to <= line.to;
    if (!whole || line.gaps.some((g) => g.from < s.to && g.to > s.from)) continue;
    const length = lengthBetween(ways, s.from, s.to);
    if (!length) continue;
    let long = 0;
    for (let t = s.from; t < s.to; t += 0.01) {
      const [a, b] = [pawAt(run.run, t), pawAt(run.run, Math.min(s.to, t + 0.01))];
      long += Math.hypot(b.x - a.x, b.y - a.y);
    }
    if (long < 2) continue;
    const held = Math.abs(length.value - long) <= length.plusMinus;
    into.push({ run: index, off: length.value / long - 1, held });
  }
}

function inAir(
  group: Group,
  run: Run,
  shot: Shot,
  view: GroundView,
  ground: readonly TrackMark[],
  leftOut: RealLine,
): void {
  const random = randomStream(shot.random.whole(1e9));
  const air = run.flights.flatMap((f): TrackMark[] => {
    const pts = Math.round(30 * (f.from + f.to));
    const place = pawAt(run.run, pts / 60);
    const pixel = seen(shot.matrix, { ...place, z: dogAt(run.run, pts / 60).z - dogAt(run.run, f.from).z });
    const flat = pixel && view.under(pixel);
    if (!flat) return [];
    group.airMarks.push(Math.hypot(flat.x - place.x, flat.y - place.y));
    return [{ pts, at: shareOf(blurred(pixel, random)), contact: 'air' }];
  });
  const taken = air.map((m): TrackMark => ({ ...m, contact: 'ground' }));
  const lines = {
    ours: lineOf(run, readingsOn(view, [...ground, ...air], 60), view),
    asGround: lineOf(run, readingsOn(view, [...ground, ...taken], 60), view),
    leftOut,
  };
  for (const name of ['ours', 'asGround', 'leftOut'] as const) {
    const line = lines[name];
    if (!line) continue;
    for (const t of seenMoments(leftOut)) {
      const here = within(run.flights, t) ? whereAt(line, t) : null;
      const truth = pawAt(run.run, t);
      if (here) group.air[name].push((here.x - truth.x) ** 2 + (here.y - truth.y) ** 2);
    }
  }
}

const metres = (v: number): string => `${v.toFixed(3)} m`;
const percent = (v: number): string => `${(100 * v).toFixed(1)} %`;

function linesOf(group: Group): BenchLine[] {
  const of = (name: string): Score[] => group.scores.get(name) ?? [];
  const pooled = (name: string): number => rms(of(name).flatMap((s) => s.squares));
  const width = (name: string): number => median(of(name).flatMap((s) => s.widths));
  const oracle = pooled('oracle');
  const line = (figure: string, asked: string, told: string, holds: boolean): BenchLine => ({
    figure: `${group.name}: ${figure}`,
    asked,
    measured: told,
    holds,
  });
  const raw = rms(group.unsmoothed);
  const out = [
    line(
      'exact camera, smoothed, against its clicks',
      'less',
      `${metres(oracle)}, clicks ${metres(raw)}`,
      oracle < raw,
    ),
  ];
  for (const count of counts) {
    const name = `${count}`;
    const each = of(name).map((s) => rms(s.squares));
    const ratio = pooled(name) / oracle;
    out.push(
      line(
        `${count} points, place`,
        `at most ${rmsAsked[count].toFixed(2)} of the exact camera's`,
        `${ratio.toFixed(2)}: ${metres(pooled(name))}; worst run ${metres(Math.max(...each))}`,
        ratio <= rmsAsked[count],
      ),
    );
  }
  for (const name of ['oracle', ...counts.map(String)]) {
    const shares = of(name).map((s) => s.covered);
    const [low, high] = meanInterval99(shares, randomStream(1));
    out.push(
      line(
        `${name === 'oracle' ? 'exact camera' : `${name} points`}, truth within the 95 % band`,
        '92 to 98 % (99 % interval)',
        `${percent(mean(shares))} (${percent(low)} to ${percent(high)}); worst run ${percent(Math.min(...shares))}`,
        low >= 0.92 && high <= 0.98,
      ),
    );
  }
  const wide = width('20') / width('oracle');
  out.push(
    line(
      '20 points, width of the band (median)',
      "at most 1.20 of the exact camera's",
      `${wide.toFixed(2)}: ${metres(width('20'))}`,
      wide <= 1.2,
    ),
  );
  if (group.stretches.length > 0) out.push(...lengthLines(group, line));
  if (group.airMarks.length > 0) {
    const { ours, asGround, leftOut } = group.air;
    out.push(
      line(
        'place in flight with a mark in each',
        'no worse than without',
        `${metres(rms(ours))}; without ${metres(rms(leftOut))}; taken for ground ${metres(rms(asGround))} (the marks themselves off by ${metres(mean(group.airMarks))} on average)`,
        rms(ours) <= rms(leftOut) && rms(asGround) > rms(ours),
      ),
    );
  }
  return out;
}

function lengthLines(
  { stretches, exactStretches }: Group,
  line: (figure: string, asked: string, told: string, holds: boolean) => BenchLine,
): BenchLine[] {
  const offs = stretches.map((s) => Math.abs(s.off));
  const byRun = [...new Set(stretches.map((s) => s.run))];
  const medians = byRun.map((run) =>
    median(stretches.flatMap((s) => (s.run === run ? [Math.abs(s.off)] : []))),
  );
  const share = (list: readonly number[]): number => list.filter((v) => v <= 0.02).length / list.length;
  const exact = exactStretches.map((s) => Math.abs(s.off));
  const held = mean(stretches.map((s) => (s.held ? 1 : 0)));
  return [
    line(
      '20 points, length of a stretch (median of the run)',
      'within 2 % in 95 % of runs',
      `${percent(share(medians))} of ${byRun.length} runs; of single stretches ${percent(share(offs))}, half within ${percent(median(offs))}, 95 % within ${percent(quantile(offs, 0.95))}, mean ${percent(mean(stretches.map((s) => s.off)))}; exact camera ${percent(share(exact))} of single stretches, 95 % within ${percent(quantile(exact, 0.95))}`,
      share(medians) >= 0.95,
    ),
    line(
      '20 points, true length of a stretch within its plus or minus',
      '92 to 98 %',
      percent(held),
      held >= 0.92 && held <= 0.98,
    ),
  ];
}
