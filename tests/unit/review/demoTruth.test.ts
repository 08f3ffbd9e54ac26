import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { courseOfTruth, marksOfTruth, type Pick } from '../../../scripts/demoMarks.ts';
import { CourseTruth, RunTruth, type TruthMoment } from '../../../scripts/demoTruth.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { frameTable, type FrameTable } from '../../../src/time/frameTable.ts';
import { least, most } from '../../../src/time/quantity.ts';
import { review } from './example.ts';

const demo = (file: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../../fixtures/demo/${file}`, import.meta.url), 'utf8'));
const course = courseOfTruth(CourseTruth.parse(demo('course.truth.json')));
const runs = [RunTruth.parse(demo('run-a.truth.json')), RunTruth.parse(demo('run-b.truth.json'))];

const den = 90_000;
const phases = [0, 0.19, 0.37, 0.61, 0.83];

/** Frame times at a steady rate, the first frame a share of a frame before nought. */
function steady(rate: number, phase: number): FrameTable {
  const ticks = Array.from({ length: 62 * rate }, (_, i) => Math.round(((i - phase) * den) / rate));
  return frameTable({ num: 1, den }, ticks);
}

/** Frame times as phones write them: gaps from 1/60 s to 1/20 s in no order. */
function variable(phase: number): FrameTable {
  const gaps = [1500, 3003, 1650, 4500, 2890, 1500, 3000, 2100];
  const ticks: number[] = [];
  for (let at = -Math.round(phase * 3000), i = 0; at < 62 * den; at += gaps[i++ % gaps.length] ?? 3000)
    ticks.push(at);
  return frameTable({ num: 1, den }, ticks);
}

/** The frame a faultless marker takes: the first that shows the event, or the last before it. */
const faultless =
  (table: FrameTable): Pick =>
  (moment: TruthMoment) => {
    const at = moment.at * den;
    const frame =
      moment.seen === 'first' ? table.pts.find((t) => t >= at) : table.pts.findLast((t) => t <= at);
    return frame ?? null;
  };

const rates: [string, (phase: number) => FrameTable][] = [
  ...[25, 30, 50, 60, 120].map((rate): [string, (phase: number) => FrameTable] => [
    `${rate} fps`,
    (p) => steady(rate, p),
  ]),
  ['variable rate', variable],
];

describe.each(rates)('marks at the truth of the demo, on simulated footage, %s', (_, tableAt) => {
  const cases = runs.flatMap((truth) =>
    phases.map((phase) => {
      const table = tableAt(phase);
      const { marks, crosses } = marksOfTruth(truth, 'film', 'm', faultless(table));
      const clocks = new Map([['film', { table, speed: [], offset: 0, rate: 1 }]]);
      return {
        truth,
        analysis: analyse(review(course, marks, crosses), clocks),
        stride: review(course, []).header.strideSeconds,
      };
    }),
  );

  it("puts every split's truth into its bracket", () => {
    let held = 0;
    for (const { truth, analysis } of cases) {
      expect(analysis.splits).toHaveLength(truth.taken.length);
      for (const split of analysis.splits) {
        const out = (place: number): number => truth.taken.find((t) => t.place === place)?.out.at ?? NaN;
        const from = split.from === null ? truth.runClock.from.at : out(split.from);
        const real = out(split.to) - from;
        expect(least(split.time)).toBeLessThanOrEqual(real + 1e-4);
        expect(most(split.time)).toBeGreaterThanOrEqual(real - 1e-4);
        held++;
      }
      const whole = truth.runClock.to.at - truth.runClock.from.at;
      expect(Math.abs((analysis.clock?.time.value ?? NaN) - whole)).toBeLessThanOrEqual(
        (analysis.clock?.time.plusMinus ?? 0) + 1e-4,
      );
    }
    expect(held).toBe(cases.length * 19);
  });

  it('agrees on every cross or cannot tell, and that only where the bracket leaves it open', () => {
    for (const { truth, analysis, stride } of cases) {
      expect(analysis.crosses).toHaveLength(truth.crosses.length);
      for (const x of analysis.crosses) {
        const real = truth.crosses.find((c) => c.place === x.place);
        if (!real) throw new Error(`no cross at ${x.place} in the truth`);
        const { lead, finish, afterCommitted, verdict } = x;
        // On the see-saw (15) she can be turned until her last paw leaves it.
        const deadline = x.place === 15 ? real.landing : real.takeOff;
        const leadTruth = (deadline?.at ?? NaN) - real.begun.at;
        const finishTruth = (real.landing?.at ?? NaN) - (real.finished?.at ?? NaN);
        const afterTruth = real.begun.at - (real.committedToObstacle?.at ?? NaN);
        const thresholds =
          real.kind === 'rear'
            ? [
                { figure: lead, truth: leadTruth, at: 0 },
                { figure: afterCommitted, truth: afterTruth, at: 0 },
              ]
            : [
                { figure: lead, truth: leadTruth, at: 0 },
                { figure: lead, truth: leadTruth, at: stride },
                { figure: finish, truth: finishTruth, at: 0 },
              ];
        let open = false;
        for (const t of thresholds) {
          if (!t.figure) throw new Error(`a figure is missing at ${x.place}`);
          expect(least(t.figure)).toBeLessThanOrEqual(t.truth + 1e-4);
          expect(most(t.figure)).toBeGreaterThanOrEqual(t.truth - 1e-4);
          open ||= least(t.figure) <= t.at + 1e-9 && most(t.figure) >= t.at - 1e-9;
        }
        const expected =
          real.kind === 'rear'
            ? leadTruth < 0
              ? 'late'
              : afterTruth < 0
                ? 'tooEarly'
                : 'inTime'
            : leadTruth < 0 || finishTruth < 0
              ? 'late'
              : leadTruth > stride
                ? 'inTime'
                : 'tight';
        if (verdict === 'cannotTell') expect(open, `obstacle ${x.place} is not open`).toBe(true);
        else expect(verdict).toBe(expected);
        if (!open) expect(verdict).not.toBe('cannotTell');
      }
    }
  });

  it('tells the start line as it was', () => {
    for (const { truth, analysis } of cases) {
      for (const t of truth.start.tries) {
        const told = analysis.startLine.find((s) => s.try === t.try);
        const broken = t.step !== null && (t.release === null || t.step.at < t.release.at);
        expect(['cannotTell', broken ? 'broken' : 'kept']).toContain(told?.verdict);
        expect(told?.fakes).toBe(t.fakes.length);
      }
    }
  });
});

it('the demo tells its story: a late cross and a broken stay, then none of both', () => {
  const [late, better] = runs.map((truth) => {
    const { marks, crosses } = marksOfTruth(truth, 'film', 'm');
    const table = frameTable(
      { num: truth.frames.timeBase[0], den: truth.frames.timeBase[1] },
      truth.frames.pts,
    );
    return analyse(
      review(course, marks, crosses),
      new Map([['film', { table, speed: [], offset: 0, rate: 1 }]]),
    );
  });
  expect(late?.crosses.map((c) => c.verdict)).toContain('late');
  expect(late?.startLine.map((s) => s.verdict)).toEqual(['broken', 'kept']);
  expect(late?.events.map((e) => e.mark.event)).toEqual(['wide', 'missedEntry', 'barDown', 'wide']);
  expect(better?.crosses.map((c) => c.verdict)).toEqual(['inTime', 'tooEarly', 'inTime']);
  expect(better?.startLine.map((s) => s.verdict)).toEqual(['kept']);
  expect(better?.startLine[0]?.fakes).toBe(1);
});
