import { lengthBetween, waysOf, type Ways } from '../../../src/track/figures.ts';
import type { GroundView } from '../../../src/track/fromMarks.ts';
import type { RealLine } from '../../../src/track/realLine.ts';
import type { Quantity } from '../../../src/time/quantity.ts';
import type { BenchLine } from '../run.ts';
import { mean } from './bootstrap.ts';
import { exactView } from './exactView.ts';
import { bestSpread, normalWithin } from './lengthBound.ts';
import { viewOf } from './line.ts';
import { clicksOf, firstSeed, lineOf, percent, readingsOn, runs, tableOf } from './lineRuns.ts';
import { clickNoise, pawAt, runOf, shotOf, type Run, type Shot } from './scene.ts';
import { median, quantile } from './tally.ts';

const heights = [3, 5] as const;
const rates = [30, 60] as const;
/** Shorter ways are no stretch. */
const shortest = 2;
const asked = 0.02;
/** Share points that we may lie below the exact camera where 95 % cannot be had. */
const mayLose = 0.03;

/** One stretch as it was measured. */
interface Measured {
  readonly run: number;
  readonly truth: number;
  /** Measured over true length, less 1. */
  readonly off: number;
  readonly held: boolean;
}

interface Group {
  readonly name: string;
  readonly ours: Measured[];
  readonly exact: Measured[];
  /** From landing to take-off only. */
  readonly onGround: Measured[];
  /** The same as `exact`, what the best unbiased way of measuring would be off, one deviation over the length. */
  readonly best: number[];
}

/** Lengths of stretches, out to out, against truth. */
export async function lengthLines(): Promise<BenchLine[]> {
  return heights.flatMap((height) => rates.flatMap((rate) => linesOf(measured(height, rate))));
}

function measured(height: number, rate: number): Group {
  const name = `camera ${height} m, ${rate} fps`;
  const group: Group = { name, ours: [], exact: [], onGround: [], best: [] };
  for (let i = 0; i < runs; i++) {
    const run = runOf(1000 + firstSeed + i);
    const shot = shotOf(height, 5000 + firstSeed + i, 40);
    const { marks } = clicksOf(run, shot, { rate });
    const exact = exactView(shot.camera, shot.matrix, clickNoise);
    const { view } = viewOf(shot, 20);
    const waysIn = (ground: GroundView): Ways => {
      const line = lineOf(run, readingsOn(ground, marks, rate), ground);
      if (!line) throw new Error(`no line in run ${i}`);
      return waysOf(line, i, 100);
    };
    const [ours, oracle] = [waysIn(view), waysIn(exact)];
    for (const span of outToOut(run)) {
      const truth = trueLength(run, span);
      const [a, b] = [lengthIn(ours, span), lengthIn(oracle, span)];
      if (!a || !b || truth < shortest) continue;
      group.ours.push(heldTo(truth, a, i));
      group.exact.push(heldTo(truth, b, i));
      group.best.push(bestOf(run, shot, exact, span, rate) / truth);
    }
    for (const span of run.stretches) {
      const truth = trueLength(run, span);
      const a = lengthIn(ours, span);
      if (a && truth >= shortest) group.onGround.push(heldTo(truth, a, i));
    }
  }
  return group;
}

interface Span {
  readonly from: number;
  readonly to: number;
}

/** From where one obstacle was done to where the next was, as splits are taken. */
function outToOut({ run }: Run): Span[] {
  const outs = run.notices.flatMap((n) => (n.kind === 'out' ? [n.at] : [])).sort((a, b) => a - b);
  return outs.slice(1).map((to, i) => ({ from: outs[i] ?? to, to }));
}

/** Null where part of it was not seen. */
function lengthIn(ways: Ways, { from, to }: Span): Quantity | null {
  const { line } = ways;
  return wholly(line, { from, to }) ? lengthBetween(ways, from, to) : null;
}

const wholly = (line: RealLine, { from, to }: Span): boolean =>
  from >= line.from && to <= line.to && !line.gaps.some((g) => g.from < to && g.to > from);

/** Metres that the followed point really went. */
export function trueLength({ run }: Run, { from, to }: Span): number {
  let long = 0;
  for (let t = from; t < to; t += 0.01) {
    const [a, b] = [pawAt(run, t), pawAt(run, Math.min(to, t + 0.01))];
    long += Math.hypot(b.x - a.x, b.y - a.y);
  }
  return long;
}

const heldTo = (truth: number, { value, plusMinus }: Quantity, run: number): Measured => ({
  run,
  truth,
  off: value / truth - 1,
  held: Math.abs(value - truth) <= plusMinus,
});

/** By the touches that this camera shows. */
function bestOf({ run, touches }: Run, shot: Shot, exact: GroundView, span: Span, rate: number): number {
  const clicks = clicksOf({ run, touches, flights: [], stretches: [], weaves: [] }, shot, { rate }).marks;
  return bestSpread(run, readingsOn(exact, clicks, rate), span);
}

function linesOf({ name, ours, exact, onGround, best }: Group): BenchLine[] {
  const line = tableOf(name);
  const within = (list: readonly number[]): number =>
    list.filter((v) => Math.abs(v) <= asked).length / list.length;
  const each = (list: readonly Measured[]): number[] => list.map((s) => s.off);
  const byRun = (list: readonly Measured[], of: (stretches: readonly Measured[]) => number): number[] =>
    [...new Set(list.map((s) => s.run))].map((run) => of(list.filter((s) => s.run === run)));
  const reach = (clicks: number): number =>
    mean(best.map((spread) => normalWithin((asked * Math.sqrt(clicks)) / spread)));
  const absolute = each(ours).map(Math.abs);
  const single = within(each(ours));
  const cannot = reach(1) < 0.95;
  const out = [
    line(
      '20 points, length of every single stretch',
      `within 2 % in 95 %; where no measuring can, at most ${100 * mayLose} points below the exact camera`,
      `${percent(single)} of ${ours.length} (mean ${mean(ours.map((s) => s.truth)).toFixed(1)} m; half within ${percent(median(absolute))}, 95 % within ${percent(quantile(absolute, 0.95))}, worst ${percent(Math.max(...absolute))}, mean ${percent(mean(each(ours)))}); exact camera ${percent(within(each(exact)))}; no unbiased way of measuring more than ${percent(reach(1))} (with four times the clicks ${percent(reach(4))})`,
      single >= 0.95 || (cannot && single >= within(each(exact)) - mayLose),
    ),
    line(
      '20 points, true length of a stretch within its plus or minus',
      '92 to 98 %',
      percent(mean(ours.map((s) => (s.held ? 1 : 0)))),
      Math.abs(mean(ours.map((s) => (s.held ? 1 : 0))) - 0.95) <= 0.03,
    ),
  ];
  const readings: readonly (readonly [string, (stretches: readonly Measured[]) => number])[] = [
    ['mean of a run’s stretches, measured over true', (s) => mean(s.map((m) => m.off))],
    [
      'all stretches of a run together',
      (s) => mean(s.map((m) => m.off * m.truth)) / mean(s.map((m) => m.truth)),
    ],
    ['the middle one of a run’s errors', (s) => median(s.map((m) => Math.abs(m.off)))],
    ['mean of a run’s errors without their sign', (s) => mean(s.map((m) => Math.abs(m.off)))],
  ];
  readings.forEach(([what, of], i) => {
    const [we, they] = [byRun(ours, of), byRun(exact, of)];
    const share = within(we);
    // The last two are errors of single stretches again, which the clicks themselves limit.
    const holds = share >= 0.95 || (i > 1 && cannot && share >= within(they) - mayLose - 0.02);
    out.push(
      line(
        `20 points, ${what}`,
        i > 1 ? 'within 2 % in 95 % of runs, or as the exact camera' : 'within 2 % in 95 % of runs',
        `${percent(share)} of ${we.length} runs; worst run ${percent(Math.max(...we.map(Math.abs)))}; exact camera ${percent(within(they))}`,
        holds,
      ),
    );
  });
  out.push(
    line(
      '20 points, from landing to take-off only',
      'stated',
      `${percent(within(each(onGround)))} of ${onGround.length} within 2 %; ${percent(mean(onGround.map((s) => (s.held ? 1 : 0))))} within the plus or minus`,
      onGround.length > 0,
    ),
  );
  return out;
}
