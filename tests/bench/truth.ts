import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { countedCourse } from '../../src/course/course.ts';
import { emptyPlan } from '../../src/plan/plan.ts';
import { analyse } from '../../src/review/analyse.ts';
import type { CrossAnalysis } from '../../src/review/analysis.ts';
import { Header } from '../../src/review/document.ts';
import type { CueKind, Mark } from '../../src/review/marks.ts';
import { frameTable, type FrameTable } from '../../src/time/frameTable.ts';
import { least, most } from '../../src/time/quantity.ts';
import { randomStream } from '../../scripts/simulator/base/random.ts';
import { playCrosses, type SingleCross } from '../../scripts/simulator/crosses.ts';
import {
  secondsOf,
  steadyFrames,
  unsteadyFrames,
  type FrameTimes,
} from '../../scripts/simulator/frameTimes.ts';
import {
  exactHabits,
  markCross,
  Marker,
  type Habits,
  type MarkedCross,
  type PlacedMark,
} from '../../scripts/simulator/marker.ts';
import { runA } from '../../scripts/simulator/demoRuns.ts';
import { makeFilm } from '../../scripts/simulator/film/encode.ts';
import { handFilm, standFilm } from '../../scripts/simulator/film/order.ts';
import { simulateRun } from '../../scripts/simulator/run/run.ts';
import { inRealTime, simulate } from '../../scripts/simulator/simulate.ts';
import type { BenchLine } from './run.ts';

const wanted = 10_000;
const rates = ['25', '30', '50', '60', '120', '240', 'VFR'] as const;

/** How the marks are set. The last is the control: it must be caught. */
const hands: readonly { readonly name: string; readonly habits: Habits; readonly control: boolean }[] = [
  { name: 'exact marks', habits: exactHabits, control: false },
  {
    name: 'off by -1, 0, +1, unsure 1',
    habits: { ...exactHabits, offByOne: 2 / 3, unsure: 'always' },
    control: false,
  },
  { name: 'control: off by -1, 0, +1, unsure 0', habits: { ...exactHabits, offByOne: 2 / 3 }, control: true },
];

interface Tally {
  crosses: number;
  leadsOutside: number;
  wrong: number;
  /** A verdict withheld although the bracket excludes every threshold, or given although it does not. */
  misjudgedOpen: number;
  cannotTell: number;
}

/**
 * On simulated footage: verdicts on crosses whose truth the simulator knows. Brackets are worked out here a second
 * time, from the frame times alone, so that the program is not its own judge.
 */
export async function bench(): Promise<BenchLine[]> {
  const crosses = playCrosses(7, wanted);
  const lines: BenchLine[] = [];
  for (const rate of rates) {
    const frames = rate === 'VFR' ? unsteadyFrames(5, 30, 14) : steadyFrames(Number(rate), 14);
    for (const hand of hands) lines.push(...linesOf(rate, hand, tallyOf(crosses, frames, hand.habits, rate)));
  }
  return [...lines, unrendered(), ...(await rendered())];
}

/** Runs without a picture: truth of a whole run with 19 obstacles, for ten seconds. */
function unrendered(): BenchLine {
  const frameTimes = steadyFrames(60, 70);
  const began = performance.now();
  let runs = 0;
  while (performance.now() - began < 10_000) {
    simulate({ seed: 1000 + runs, handling: runA.handling, frameTimes });
    runs++;
  }
  const aMinute = (runs * 60_000) / (performance.now() - began);
  return {
    figure: 'whole runs without a picture, on one core',
    asked: 'thousands a minute (2,000 or more)',
    measured: `${Math.round(aMinute)} a minute`,
    holds: aMinute >= 2000,
  };
}

/** Draws ten seconds around a cross, as the demo is drawn and from a hand, encoder and sound included. */
async function rendered(): Promise<BenchLine[]> {
  const folder = await mkdtemp(join(tmpdir(), 'walkback-truth-'));
  try {
    const run = simulateRun(runA);
    const all = inRealTime(steadyFrames(30, run.duration), 0);
    const from = all.captured.findIndex((t) => t >= 14);
    const pts = all.frames.pts.slice(from, from + 300);
    const exposures = {
      frames: { timeBase: all.frames.timeBase, pts: pts.map((p) => p - (pts[0] ?? 0)) },
      captured: all.captured.slice(from, from + 300),
    };
    const lines: BenchLine[] = [];
    // The demo is filmed on a stand. From a hand every pixel moves and is drawn twice: its rate is stated.
    for (const [name, film, asked] of [
      ['as the demo is, on a stand', standFilm, 15],
      ['from a hand: lens, shutter, rolling shutter, grain', handFilm, null],
    ] as const) {
      const file = join(folder, `${film.hold.follows ? 'hand' : 'stand'}.mp4`);
      const speed = await makeFilm(runA, film, exposures, file, 2, () => undefined);
      lines.push({
        figure: `rendering at 1280x720 on two cores, ${name}`,
        asked: asked === null ? 'stated' : `at least ${asked} frames/s`,
        measured: `${speed.toFixed(1)} frames/s`,
        holds: speed >= (asked ?? 0),
      });
    }
    return lines;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function linesOf(rate: string, hand: (typeof hands)[number], t: Tally): BenchLine[] {
  const name = `${rate === 'VFR' ? 'VFR' : `${rate} fps`}, ${hand.name}`;
  const bad = t.leadsOutside + t.wrong + t.misjudgedOpen;
  const measured = `${t.crosses} crosses: ${t.leadsOutside} leads outside, ${t.wrong} verdicts wrong, ${t.misjudgedOpen} open ones misjudged`;
  if (hand.control) {
    return [
      {
        figure: `${name}, on simulated footage`,
        asked: 'must fail',
        measured,
        holds: t.leadsOutside > 0 && t.wrong > 0,
      },
    ];
  }
  return [
    {
      figure: `${name}, on simulated footage`,
      asked: `${wanted} crosses, 0 outside, 0 wrong, 0 misjudged`,
      measured,
      holds: bad === 0 && t.crosses === wanted,
    },
    {
      figure: `${name}: cannot tell`,
      asked: 'stated',
      measured: `${((100 * t.cannotTell) / t.crosses).toFixed(1)} %`,
      holds: t.cannotTell < t.crosses,
    },
  ];
}

function tallyOf(crosses: readonly SingleCross[], frames: FrameTimes, habits: Habits, rate: string): Tally {
  const tally: Tally = { crosses: 0, leadsOutside: 0, wrong: 0, misjudgedOpen: 0, cannotTell: 0 };
  const table = frameTable({ num: frames.timeBase[0], den: frames.timeBase[1] }, frames.pts);
  const times = secondsOf(frames);
  for (const cross of crosses) {
    const random = randomStream(cross.seed).branch(`phase ${rate}`);
    // The film begins a second and a random part of a frame before the first thing marked.
    const first = Math.min(cross.begun, cross.committedToObstacle, cross.in);
    const origin = first - 1 - random.between(0, 0.05);
    const marked = markCross(cross, new Marker(frames, origin, habits, random.branch('hand')));
    if (!marked.in || !marked.out || marked.cues.some((c) => !c.begin)) continue;
    const told = toldOf(cross, marked, table, origin);
    if (!told.lead) continue;
    tally.crosses++;
    const truth = truthOf(cross);
    if (least(told.lead) > truth.lead + 1e-9 || most(told.lead) < truth.lead - 1e-9) tally.leadsOutside++;
    const open = isOpen(cross, marked, times);
    if (told.verdict === 'cannotTell') tally.cannotTell++;
    else if (!truth.verdicts.includes(told.verdict)) tally.wrong++;
    if ((told.verdict === 'cannotTell') !== open) tally.misjudgedOpen++;
  }
  return tally;
}

/** What the program tells of a marked cross. */
function toldOf(cross: SingleCross, marked: MarkedCross, table: FrameTable, origin: number): CrossAnalysis {
  const marks: Mark[] = [];
  const put = (
    m: PlacedMark | null,
    part: 'cueBegins' | 'cueEnds' | 'committed' | 'takeOff' | 'landing',
    cue?: string,
  ): void => {
    if (!m) return;
    marks.push({
      id: `m${marks.length}`,
      footageId: 'film',
      pts: m.pts,
      unsure: m.unsure,
      note: '',
      kind: 'cross',
      crossId: 'x',
      part,
      ...(cue === undefined ? {} : { cue: cue as CueKind }),
    });
  };
  for (const c of marked.cues) put(c.begin, 'cueBegins', c.kind);
  put(marked.finished, 'cueEnds');
  put(marked.committedToObstacle, 'committed');
  put(marked.in, 'takeOff');
  put(marked.out, 'landing');
  const course = countedCourse(1);
  const kind = cross.obstacle === 'tunnel' ? 'tunnel' : 'barJump';
  const { crosses } = analyse(
    {
      id: 'bench',
      header: { ...header, strideSeconds: cross.stride },
      course: { ...course, obstacles: course.obstacles.map((o) => ({ ...o, kind })) },
      plan: emptyPlan(),
      footage: [],
      marks,
      crosses: [{ id: 'x', place: 1, kind: cross.kind, note: '' }],
      drawings: [],
      tracks: [],
      fits: [],
    },
    new Map([['film', { table, speed: [], offset: origin, rate: 1 }]]),
  );
  const [one] = crosses;
  if (!one) throw new Error('the cross was not analysed');
  return one;
}

const header = Header.parse({ title: 'bench' });

function truthOf(cross: SingleCross): { lead: number; verdicts: string[] } {
  const lead = cross.in - cross.begun;
  if (cross.kind === 'rear') {
    const verdicts: string[] = [];
    if (lead < 0) verdicts.push('late');
    if (cross.begun < cross.committedToObstacle) verdicts.push('tooEarly');
    return { lead, verdicts: verdicts.length > 0 ? verdicts : ['inTime'] };
  }
  // A cross that was never finished has no finish to mark: its verdict stands on the cue alone, and says so.
  const finishedLate = cross.finished !== null && cross.finished > cross.out;
  if (lead < 0 || finishedLate) return { lead, verdicts: ['late'] };
  return { lead, verdicts: [lead > cross.stride ? 'inTime' : 'tight'] };
}

/** Whether the marks leave the verdict open: worked out from frame times alone (design facts, marks as brackets). */
function isOpen(cross: SingleCross, marked: MarkedCross, times: readonly number[]): boolean {
  const at = (i: number): number => {
    const last = times.length - 1;
    const step = i < 0 ? (times[1] ?? 0) - (times[0] ?? 0) : (times[last] ?? 0) - (times[last - 1] ?? 0);
    return times[i] ?? (i < 0 ? (times[0] ?? 0) - step : (times[last] ?? 0) + step);
  };
  const span = (m: PlacedMark): [number, number] =>
    m.seen === 'first'
      ? [at(m.frame - m.unsure - 1), at(m.frame + m.unsure)]
      : [at(m.frame - m.unsure), at(m.frame + m.unsure + 1)];
  const begins = marked.cues.flatMap((c) => (c.begin ? [span(c.begin)] : []));
  const cue: [number, number] = [Math.min(...begins.map((b) => b[0])), Math.min(...begins.map((b) => b[1]))];
  const to = marked.in ? span(marked.in) : cue;
  const lead: [number, number] = [to[0] - cue[1], to[1] - cue[0]];
  const side = ([low, high]: [number, number], threshold: number): -1 | 0 | 1 =>
    low > threshold + 1e-9 ? 1 : high < threshold - 1e-9 ? -1 : 0;
  const shown = side(lead, 0);
  if (shown < 0) return false;
  if (cross.kind === 'rear') {
    if (!marked.committedToObstacle) return false;
    const c = span(marked.committedToObstacle);
    const after = side([cue[0] - c[1], cue[1] - c[0]], 0);
    return after < 0 ? false : after === 0 || shown === 0;
  }
  let finish: -1 | 0 | 1 = 1;
  if (marked.finished && marked.out) {
    const f = span(marked.finished);
    const o = span(marked.out);
    finish = side([o[0] - f[1], o[1] - f[0]], 0);
  }
  if (finish < 0) return false;
  return shown === 0 || finish === 0 || side(lead, cross.stride) === 0;
}
