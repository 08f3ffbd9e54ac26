import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { courseOfTruth, marksOfTruth, type Pick } from '../../../scripts/demoMarks.ts';
import { CourseTruth, RunTruth, type TruthMoment } from '../../../scripts/demoTruth.ts';
import { mediaTime, slowedFrames, type Pace } from '../../../scripts/simulator/frameTimes.ts';
import { analyse } from '../../../src/review/analyse.ts';
import type { Analysis } from '../../../src/review/analysis.ts';
import type { SpeedMap } from '../../../src/time/captureClock.ts';
import { frameTable, type FrameTable } from '../../../src/time/frameTable.ts';
import { least, most } from '../../../src/time/quantity.ts';
import { rampInFrames, speedsAtRate } from '../../../src/time/rateStretches.ts';
import { review } from './example.ts';

const demo = (file: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../../fixtures/demo/${file}`, import.meta.url), 'utf8'));
const course = courseOfTruth(CourseTruth.parse(demo('course.truth.json')));
const runs = [RunTruth.parse(demo('run-a.truth.json')), RunTruth.parse(demo('run-b.truth.json'))];

/** Long enough for either run, seconds of life. */
const length = 75;
const stretched = (slow: number): Pace[] => [{ until: length, slow }];
/** Life, slowed, life, slowed again further: the changes fall into the run, between frames. */
const ramped = (slow: number): Pace[] => [
  { until: 11.003, slow: 1 },
  { until: 19.777, slow },
  { until: 24.31, slow: 1 },
  { until: 33.333, slow: 2 * slow },
  { until: length, slow: 1 },
];

/** A run filmed at `rate` and written slower: its frames, and the frame that a faultless marker takes. */
function filmed(rate: number, paces: readonly Pace[], phase: number): { table: FrameTable; pick: Pick } {
  const { timeBase, pts } = slowedFrames(rate, length, paces);
  const table = frameTable({ num: timeBase[0], den: timeBase[1] }, [...pts]);
  const captured = pts.map((_, i) => (i - phase) / rate);
  const pick = ({ at, seen }: TruthMoment): number | null => {
    const frame =
      seen === 'first' ? captured.findIndex((t) => t >= at) : captured.findLastIndex((t) => t <= at);
    return pts[frame] ?? null;
  };
  return { table, pick };
}

/** The speed map as the simulator knows it. */
function speedOf(paces: readonly Pace[]): SpeedMap {
  return paces.map(({ slow }, i) => ({
    from: mediaTime(paces, paces[i - 1]?.until ?? 0),
    speed: 1 / slow,
  }));
}

function analysed(truth: RunTruth, table: FrameTable, pick: Pick, speed: SpeedMap): Analysis {
  const { marks, crosses } = marksOfTruth(truth, 'film', 'm', pick);
  return analyse(review(course, marks, crosses), new Map([['film', { table, speed, offset: 0, rate: 1 }]]));
}

/** Splits that hold the truth, and those that do not; the run time counts as one more. */
function held(truth: RunTruth, analysis: Analysis): { inside: number; outside: number; widest: number } {
  const out = (place: number): number => truth.taken.find((t) => t.place === place)?.out.at ?? NaN;
  const figures = analysis.splits.map((split) => ({
    figure: split.time,
    real: out(split.to) - (split.from === null ? truth.runClock.from.at : out(split.from)),
  }));
  if (analysis.clock) {
    figures.push({ figure: analysis.clock.time, real: truth.runClock.to.at - truth.runClock.from.at });
  }
  const inside = figures.filter(
    ({ figure, real }) => least(figure) <= real + 1e-4 && most(figure) >= real - 1e-4,
  ).length;
  return {
    inside,
    outside: figures.length - inside,
    widest: Math.max(...figures.slice(0, -1).map(({ figure }) => figure.plusMinus)),
  };
}

const clips: [string, number, readonly Pace[]][] = [
  ['120 fps, 4 times slower throughout', 120, stretched(4)],
  ['240 fps, 8 times slower throughout', 240, stretched(8)],
  ['120 fps, life and 4 and 8 times slower in turn', 120, ramped(4)],
  ['240 fps, life and 8 and 16 times slower in turn', 240, ramped(8)],
];

describe.each(clips)('the truth of the demo, filmed at %s', (_, rate, paces) => {
  const cases = runs.flatMap((truth) =>
    [0, 0.37, 0.83].map((phase) => ({ truth, ...filmed(rate, paces, phase) })),
  );
  const told = (table: FrameTable): [string, SpeedMap][] => [
    ['as the simulator knows it', speedOf(paces)],
    ['as the frames and the capture rate tell it', rampInFrames(table)?.speed ?? speedsAtRate(table, rate)],
  ];

  it('lies in the bracket of every split, which is as narrow as the capture rate allows', () => {
    for (const { truth, table, pick } of cases) {
      for (const [name, speed] of told(table)) {
        const found = held(truth, analysed(truth, table, pick, speed));
        expect([name, found.inside, found.outside]).toEqual([name, truth.taken.length + 1, 0]);
        // Half a frame of life either end, or a little more where a mark lies on the frame of a change.
        expect(found.widest).toBeLessThanOrEqual(2 / rate);
      }
    }
  });

  it('gives the verdicts that real time gives at the same capture rate, or cannot tell', () => {
    for (const { truth, table, pick } of cases) {
      const life = filmed(rate, stretched(1), 0);
      const real = analysed(truth, life.table, life.pick, []);
      const slowed = analysed(truth, table, pick, speedOf(paces));
      slowed.crosses.forEach((cross, i) => {
        const other = real.crosses[i]?.verdict;
        if (cross.verdict !== 'cannotTell' && other !== 'cannotTell') expect(cross.verdict).toBe(other);
      });
      expect(slowed.crosses.some((c) => c.verdict !== 'cannotTell')).toBe(true);
      expect(slowed.startLine.map((s) => s.verdict)).toEqual(real.startLine.map((s) => s.verdict));
    }
  });

  it('is missed where the speed is not said: the control that must fail', () => {
    for (const { truth, table, pick } of cases) {
      expect(held(truth, analysed(truth, table, pick, [])).outside).toBeGreaterThan(0);
    }
  });

  it('is held by a speed that is off, where its plus or minus is stated', () => {
    for (const { truth, table, pick } of cases) {
      const off = speedOf(paces).map((p) => ({ ...p, speed: p.speed * 1.02, plusMinus: p.speed * 0.025 }));
      expect(held(truth, analysed(truth, table, pick, off)).outside).toBe(0);
      const sure = off.map(({ from, speed }) => ({ from, speed }));
      expect(held(truth, analysed(truth, table, pick, sure)).outside).toBeGreaterThan(0);
    }
  });
});
