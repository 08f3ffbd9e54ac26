import { fitCourse } from '../../../src/ground/fit.ts';
import { groundViewOf } from '../../../src/track/groundView.ts';
import type { RealLine } from '../../../src/track/realLine.ts';
import type { LineReading } from '../../../src/track/readings.ts';
import { randomStream } from '../../../scripts/simulator/base/random.ts';
import type { BenchLine } from '../run.ts';
import { mean, meanInterval99 } from './bootstrap.ts';
import { exactView } from './exactView.ts';
import {
  clicksOf,
  firstSeed,
  lineOf,
  metres,
  percent,
  readingsOn,
  runs,
  scored,
  seenMoments,
  tableOf,
  type Score,
} from './lineRuns.ts';
import { clickNoise, pawAt, picture, runOf, shotOf, type Run, type Shot } from './scene.ts';
import { median, quantile, rms } from './tally.ts';

const heights = [1.6, 3, 5] as const;
const rates = [30, 60] as const;
const counts = [12, 20, 40] as const;
const rmsAsked = { 12: 1.4, 20: 1.2, 40: 1.1 } as const;

interface Group {
  readonly name: string;
  /** By name: of the exact camera, and of each count of points. */
  readonly scores: Map<string, Score[]>;
  /** Squared errors of straight lines from click to click, exact camera. */
  readonly unsmoothed: number[];
  /** Right marks that were set aside, and lines in which that happened. */
  readonly falselyAside: number[];
}

/** The line a dog ran against truth, with the plainest fit and with the exact camera. */
export async function lineLines(): Promise<BenchLine[]> {
  const groups = heights.flatMap((height) => rates.map((rate) => measured(height, rate)));
  return groups.flatMap(linesOf);
}

/** The shot of a run and the ground as so many clicked points have it. */
export const viewOf = (shot: Shot, count: number, through = (p: { x: number; y: number }) => p) => {
  const sightings = shot.known
    .slice(0, count)
    .map(({ from, to }, k) => ({ id: `${k}`, ground: from, pixel: through(to) }));
  const fit = fitCourse(sightings, picture);
  if (!fit.fitted) throw new Error(`no fit with ${count} points: ${fit.why}`);
  return { fit, view: groundViewOf(fit) };
};

function measured(height: number, rate: number): Group {
  const name = `camera ${height} m, ${rate} fps`;
  const group: Group = { name, scores: new Map(), unsmoothed: [], falselyAside: [] };
  for (let i = 0; i < runs; i++) {
    const run = runOf(1000 + firstSeed + i);
    const shot = shotOf(height, 5000 + firstSeed + i, 40);
    const { marks } = clicksOf(run, shot, { rate });
    const exact = exactView(shot.camera, shot.matrix, clickNoise);
    const readings = readingsOn(exact, marks, rate);
    const oracle = lineOf(run, readings, exact);
    if (!oracle) throw new Error(`no line in run ${i}`);
    keep(group, 'oracle', scored(run, oracle));
    group.unsmoothed.push(...unsmoothed(run, oracle, readings));
    for (const count of counts) {
      const { view } = viewOf(shot, count);
      const line = lineOf(run, readingsOn(view, marks, rate), view);
      if (!line) throw new Error(`no line in run ${i} with ${count} points`);
      keep(group, `${count}`, scored(run, line));
      if (count === 20) group.falselyAside.push(line.against.length);
    }
  }
  return group;
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

function linesOf(group: Group): BenchLine[] {
  const line = tableOf(group.name);
  const of = (name: string): Score[] => group.scores.get(name) ?? [];
  const pooled = (name: string): number => rms(of(name).flatMap((s) => s.squares));
  const width = (name: string): number => median(of(name).flatMap((s) => s.widths));
  const worst = (name: string): string => metres(Math.max(...of(name).map((s) => rms(s.squares))));
  const oracle = pooled('oracle');
  const raw = rms(group.unsmoothed);
  const smoothed = `${metres(oracle)}, clicks ${metres(raw)}; worst run ${worst('oracle')}`;
  const out = [line('exact camera, smoothed, against its clicks', 'less', smoothed, oracle < raw)];
  for (const count of counts) {
    const name = `${count}`;
    const ratio = pooled(name) / oracle;
    const asked = `at most ${rmsAsked[count].toFixed(2)} of the exact camera's`;
    const told = `${ratio.toFixed(2)}: ${metres(pooled(name))}; worst run ${worst(name)}`;
    out.push(line(`${count} points, place`, asked, told, ratio <= rmsAsked[count]));
  }
  for (const name of ['oracle', ...counts.map(String)]) {
    const who = name === 'oracle' ? 'exact camera' : `${name} points`;
    out.push(bandLine(line, who, of(name)));
  }
  const wide = width('20') / width('oracle');
  const widest = quantile(
    of('20').map((s) => median(s.widths)),
    1,
  );
  const told = `${wide.toFixed(2)}: ${metres(width('20'))}; widest run ${metres(widest)}`;
  out.push(
    line('20 points, width of the band (median)', "at most 1.20 of the exact camera's", told, wide <= 1.2),
  );
  const falsely = group.falselyAside.filter((n) => n > 0).length;
  out.push(
    line(
      '20 points, right marks set aside',
      'in at most 1 of 50 runs',
      `${group.falselyAside.reduce((a, b) => a + b, 0)} marks, in ${falsely} of ${group.falselyAside.length} runs`,
      falsely <= group.falselyAside.length / 50,
    ),
  );
  return out;
}

/** Whether the mean of a group's shares lies where it should, by its 99 % interval over runs. */
export function bandLine(line: ReturnType<typeof tableOf>, who: string, scores: readonly Score[]): BenchLine {
  const shares = scores.map((s) => s.covered);
  const [low, high] = meanInterval99(shares, randomStream(1));
  return line(
    `${who}, truth within the 95 % band`,
    '92 to 98 % (99 % interval)',
    `${percent(mean(shares))} (${percent(low)} to ${percent(high)}); worst run ${percent(Math.min(...shares))}`,
    low >= 0.92 && high <= 0.98,
  );
}
