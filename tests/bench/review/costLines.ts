import { readFile } from 'node:fs/promises';
import { withCrossAt } from '../../../scripts/simulator/truth/counterfactual.ts';
import type { GroundPoint } from '../../../src/course/points.ts';
import { wantedLine } from '../../../src/line/wantedLine.ts';
import { twoParts, type StretchRun } from '../../../src/review/compare/twoParts.ts';
import { readDocument } from '../../../src/review/readDocument.ts';
import { middle, type Bracket } from '../../../src/time/bracket.ts';
import { timeBetween, type Quantity } from '../../../src/time/quantity.ts';
import { runSeconds } from '../../../src/time/units.ts';
import { lengthBetween, nearestOn, waysOf, type Ways } from '../../../src/track/figures.ts';
import { overLine } from '../../../src/track/overLine.ts';
import { wantedParts } from '../../../src/track/wantedParts.ts';
import { exactView } from '../ground/exactView.ts';
import { trueLength } from '../ground/lengths.ts';
import { viewOf } from '../ground/line.ts';
import { clicksOf, lineOf, readingsOn } from '../ground/lineRuns.ts';
import { clickNoise, orderOf, pawAt, runBy, shotOf, type Run } from '../ground/scene.ts';
import { median } from '../ground/tally.ts';
import type { BenchLine } from '../run.ts';

const seeds = Number(process.env['WALKBACK_BENCH_RUNS'] ?? 100);
const rate = 60;
const height = 3;
/** The cross that comes late in these runs, and how long before the expected take-off it would have come in time, seconds. */
const cross = { place: 3, inTime: 0.6 } as const;

/** What a late cross costs: measured against the truth that only a simulator knows, on simulated footage. */
export async function costLines(): Promise<BenchLine[]> {
  const wanted = await wantedStretch();
  const over: Held[] = [];
  const parts = { difference: [] as Held[], distance: [] as Held[], speed: [] as Held[] };
  const otherDay: Held[] = [];
  let dayBefore: Measured | null = null;
  const lost: number[] = [];
  for (let seed = 0; seed < seeds; seed++) {
    const order = orderOf(9000 + seed);
    const late = measured(runBy(order), 2 * seed, wanted);
    const onTime = measured(runBy(withCrossAt(order, cross.place, cross.inTime)), 2 * seed + 1, wanted);
    if (!late || !onTime) continue;
    over.push({ truth: late.overTruth, ours: late.ours.over, oracle: late.exact.over });
    const truth = twoParts(onTime.truth, late.truth);
    const ours = twoParts(onTime.ours.stretch, late.ours.stretch);
    const oracle = twoParts(onTime.exact.stretch, late.exact.stretch);
    lost.push(truth.difference.value);
    if (dayBefore) {
      const [a, b] = [
        twoParts(dayBefore.ours.stretch, late.ours.stretch),
        twoParts(dayBefore.exact.stretch, late.exact.stretch),
      ];
      otherDay.push({ truth: truth.difference.value, ours: a.difference, oracle: b.difference });
    }
    dayBefore = onTime;
    for (const part of ['difference', 'distance', 'speed'] as const)
      parts[part].push({ truth: truth[part]?.value ?? NaN, ours: ours[part], oracle: oracle[part] });
  }
  const told = `lateness truly costs ${median(lost).toFixed(3)} s, half of them`;
  return [
    lineOfHeld('over the plan', over, ''),
    lineOfHeld('late against on time: the whole', parts.difference, told),
    lineOfHeld('late against on time: by the longer way', parts.distance, ''),
    lineOfHeld('late against on time: by the lower speed', parts.speed, ''),
    {
      ...lineOfHeld(
        'late against another day’s run in time, of a dog that runs otherwise: the whole',
        otherDay,
        '',
      ),
      asked: 'stated: two runs differ by more than their lateness, and nothing in two runs tells by how much',
      holds: otherDay.length > 0,
    },
  ];
}

interface Held {
  readonly truth: number;
  readonly ours: Quantity | null;
  readonly oracle: Quantity | null;
}

function lineOfHeld(what: string, all: readonly Held[], told: string): BenchLine {
  const known = all.flatMap(({ truth, ours, oracle }) => (ours && oracle ? [{ truth, ours, oracle }] : []));
  const covered = known.filter(({ truth, ours }) => Math.abs(ours.value - truth) <= ours.plusMinus).length;
  const half = median(known.map((k) => k.ours.plusMinus));
  const exact = median(known.map((k) => k.oracle.plusMinus));
  const off = median(known.map((k) => Math.abs(k.ours.value - k.truth)));
  return {
    figure: `${what}: camera ${height} m, ${rate} fps, 20 points, stretch after a late cross`,
    asked: `95 % bands cover at least 90 of ${seeds}; median half-width at most 1.2 of the exact camera’s`,
    measured: `${covered} of ${known.length}; half-width ${half.toFixed(3)} s, ${(half / exact).toFixed(2)} of the exact camera’s ${exact.toFixed(3)} s; off by ${off.toFixed(3)} s, half of them${told === '' ? '' : `; ${told}`}`,
    holds: known.length === seeds && covered >= 90 && half / exact <= 1.2,
  };
}

interface View {
  readonly over: Quantity | null;
  readonly stretch: StretchRun;
}

interface Measured {
  readonly ours: View;
  readonly exact: View;
  readonly truth: StretchRun;
  /** Seconds. */
  readonly overTruth: number;
}

function measured(run: Run, seed: number, wanted: readonly GroundPoint[]): Measured | null {
  const outs = [cross.place, cross.place + 1].map(
    (place) => run.run.notices.filter((n) => n.kind === 'out' && n.place === place).at(-1)?.at,
  );
  const [from, to] = outs;
  if (from === undefined || to === undefined) return null;
  const shot = shotOf(height, 7000 + seed, 40);
  const { marks } = clicksOf(run, shot, { rate });
  const { view } = viewOf(shot, 20);
  const brackets = [seenAt(from), seenAt(to)] as const;
  const viewed = (ways: Ways): View => {
    const [a, b] = [middle(brackets[0]), middle(brackets[1])];
    const time = timeBetween(brackets[0], brackets[1]);
    return {
      over: overLine(ways, a, b, wanted, time)?.seconds ?? null,
      stretch: { from: brackets[0], to: brackets[1], length: lengthBetween(ways, a, b) },
    };
  };
  const exact = exactView(shot.camera, shot.matrix, clickNoise);
  const [ours, oracle] = [view, exact].map((ground) => lineOf(run, readingsOn(ground, marks, rate), ground));
  if (!ours || !oracle) return null;
  const length = trueLength(run, { from, to });
  const along = (t: number): number => nearestOn(wanted, pawAt(run.run, t))?.along ?? NaN;
  const way = along(to) - along(from);
  return {
    ours: viewed(waysOf(ours, seed)),
    exact: viewed(waysOf(oracle, seed)),
    truth: {
      from: { from: runSeconds(from), to: runSeconds(from) },
      to: { from: runSeconds(to), to: runSeconds(to) },
      length: { value: length, plusMinus: 0, unit: 'm' },
    },
    overTruth: ((to - from) * (length - way)) / length,
  };
}

/** First seen on a frame: somewhere since the frame before. */
const seenAt = (t: number): Bracket => {
  const frame = Math.ceil(t * rate);
  return { from: runSeconds((frame - 1) / rate), to: runSeconds(frame / rate) };
};

/** The line that a coach might want of the demo course: round through the middle of every piece. */
async function wantedStretch(): Promise<readonly GroundPoint[]> {
  const text = await readFile(
    new URL('../../../fixtures/demo/first-evening.walkback.json', import.meta.url),
    'utf8',
  );
  const read = readDocument(text);
  if (!read.ok) throw new Error(read.problems.join(' '));
  const { course } = read.document;
  const nodes = course.steps
    .toSorted((a, b) => a.number - b.number)
    .flatMap((s) => course.obstacles.find((o) => o.id === s.obstacleId)?.stand ?? []);
  const part = wantedParts(wantedLine(nodes, 0.5), course).get(cross.place + 1);
  if (!part) throw new Error('the wanted line does not reach the stretch');
  return part;
}
