import type { Course, Stand } from '../../../src/course/course.ts';
import type { GroundPoint } from '../../../src/course/points.ts';
import { likelyLine } from '../../../src/line/likelyLine.ts';
import type { LikelyLine, LineWish } from '../../../src/line/line.ts';
import { readCourse } from '../../../src/line/reading/readCourse.ts';
import type { Remark } from '../../../src/line/reading/remark.ts';
import { ReadingThresholds } from '../../../src/line/reading/thresholds.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { timePlan, type CrossTime } from '../../../src/plan/spare.ts';
import { remarkSentence } from '../../../src/words/reading.ts';
import { demoCourse, demoReview } from '../../unit/course/file/demoCourse.ts';
import { median, p95 } from '../frames/measure.ts';
import type { BenchLine } from '../run.ts';

const thresholds = ReadingThresholds.parse({});
const runner = runnerWith();

const read = (course: Course, line: LikelyLine): readonly Remark[] =>
  readCourse({ course, line, thresholds }).remarks;

/** What a reading costs, and what it finds on the demo's courses. */
export function readingLines(): BenchLine[] {
  return [cost(), ...demoShows()];
}

/** The demo's course with three jumps more, so that it has 22 numbers, and one of its jumps put somewhere else. */
function dragged(metres: number): Course {
  const demo = demoCourse();
  const stands: readonly Stand[] = [
    { x: 9, y: 2.5, headingDegrees: 180 },
    { x: 3.5, y: 6, headingDegrees: 100 },
    { x: 6, y: 18.4, headingDegrees: 0 },
  ];
  return {
    ...demo,
    obstacles: [
      ...demo.obstacles.map((o) =>
        o.id === 'jump-plum' && o.stand ? { ...o, stand: { ...o.stand, x: o.stand.x + metres } } : o,
      ),
      ...stands.map((stand, i) => ({ id: `more-${i}`, kind: 'barJump' as const, nickname: '', stand })),
    ],
    steps: [
      ...demo.steps,
      ...stands.map((_, i) => ({
        number: demo.steps.length + 1 + i,
        obstacleId: `more-${i}`,
        direction: 'forward' as const,
      })),
    ],
  };
}

/** Positions of the jump that is dragged, and readings of each. */
const positions = 8;
const readings = 60;
/** Readings before the count begins: the engine compiles in them. */
const before = 200;

function cost(): BenchLine {
  const scenes = Array.from({ length: positions }, (_, i) => {
    const course = dragged(i / 10);
    const line = likelyLine(course, { runner });
    if (!line) throw new Error('the course has no line');
    return { course, line };
  });
  const times: number[] = [];
  for (let i = -before; i < positions * readings; i++) {
    const scene = scenes[Math.abs(i) % positions];
    if (!scene) continue;
    const began = performance.now();
    read({ ...scene.course }, scene.line);
    if (i >= 0) times.push(performance.now() - began);
  }
  return {
    figure: 'reading of a course of 22 while a jump is dragged, compute only, p95',
    asked: 'at most 4 ms',
    measured: `${p95(times).toFixed(2)} ms (half of them within ${median(times).toFixed(2)} ms)`,
    holds: p95(times) <= 4,
  };
}

/** How far a landing is dragged on the demo, metres each way, and in what steps. */
const farthest = 1.2;
const step = 0.2;

/** What the demo's planned course shows, for the dog as assumed and where the plan in use lets her wait. */
function demoShows(): BenchLine[] {
  const { course, plan } = demoReview('a-course-to-plan');
  const wish: LineWish = { runner, ...(plan.wait ? { start: plan.wait } : {}) };
  const line = likelyLine(course, wish);
  if (!line) throw new Error('the demo has no line');
  const remarks = read(course, line);
  const told = (r: Remark): string => remarkSentence(r, { course, unit: 'metres', dialect: 'british' });
  const back = remarks.find((r) => r.remark === 'trap' && r.trap === 'backJump');
  const hidden = remarks.find((r) => r.remark === 'sight' && r.poles && !r.seen && r.hiddenBy.length > 0);
  const opened = hidden?.remark === 'sight' ? opensAt(course, line, wish, hidden.from) : undefined;
  const where =
    opened &&
    `opens where she lands at ${opened.at.x.toFixed(2)}, ${opened.at.y.toFixed(2)}, ${opened.away.toFixed(2)} m away`;
  return [
    {
      figure: 'demo: a back-jump trap',
      asked: 'at least one',
      measured: back ? told(back) : 'none',
      holds: back !== undefined,
    },
    {
      figure: 'demo: a hidden weave entry that opens when the landing is dragged',
      asked: 'at least one',
      measured: hidden ? `${told(hidden)} ${where ?? 'Opens nowhere.'}` : 'no weave entry is hidden',
      holds: opened !== undefined,
    },
    secondChoice(timePlan(course, plan, line, runner).crosses),
  ];
}

/** What a time to spare must be above, or below, for the simulator to agree: see the part `simulator`. */
const sure = 0.3;

function secondChoice(crosses: readonly CrossTime[]): BenchLine {
  const found = crosses.flatMap((first) => {
    const second = crosses.find((c) => c.choice === 'second' && c.cross.id === first.cross.id);
    return first.choice === 'first' && first.spare < -sure && second && second.spare > sure
      ? [
          `${first.kind} at ${String(first.cross.place)} ${first.spare.toFixed(2)} s, ${second.kind} ${second.spare.toFixed(2)} s`,
        ]
      : [];
  });
  return {
    figure: 'demo: a cross with too little time and a second choice that has it, time to spare',
    asked: `below -${String(sure)} s, and above ${String(sure)} s`,
    measured: found.length > 0 ? found.join('; ') : 'none',
    holds: found.length > 0,
  };
}

/** The nearest place where she could land instead and see the poles. */
function opensAt(
  course: Course,
  line: LikelyLine,
  wish: LineWish,
  number: number,
): { readonly at: GroundPoint; readonly away: number } | undefined {
  const landed = line.steps.find((s) => s.number === number)?.exit;
  if (!landed) return undefined;
  const places: GroundPoint[] = [];
  for (let dx = -farthest; dx <= farthest; dx += step) {
    for (let dy = -farthest; dy <= farthest; dy += step) places.push({ x: landed.x + dx, y: landed.y + dy });
  }
  const away = (p: GroundPoint): number => Math.hypot(p.x - landed.x, p.y - landed.y);
  const opens = (at: GroundPoint): boolean => {
    const other = likelyLine(course, { ...wish, landings: new Map([[number, at]]) });
    const seen = (r: Remark): boolean =>
      r.remark === 'sight' && r.from === number && r.seen && r.poles !== undefined;
    return other !== null && read(course, other).some(seen);
  };
  const at = places.sort((a, b) => away(a) - away(b)).find(opens);
  return at && { at, away: away(at) };
}
