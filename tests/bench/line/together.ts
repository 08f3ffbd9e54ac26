import type { Course } from '../../../src/course/course.ts';
import { createLineSession } from '../../../src/line/likely/session.ts';
import { createRangeSession } from '../../../src/line/likelyLine.ts';
import type { LikelyLine } from '../../../src/line/line.ts';
import { readCourse } from '../../../src/line/reading/readCourse.ts';
import { ReadingThresholds } from '../../../src/line/reading/thresholds.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { DogSkills } from '../../../src/line/skills.ts';
import { PlanSheet } from '../../../src/plan/plan.ts';
import { timePlan } from '../../../src/plan/spare.ts';
import { solidGround } from '../../../src/plan/wayRound.ts';
import { median, ms, p95 } from '../frames/measure.ts';
import type { BenchLine } from '../run.ts';
import { randomCourse } from './courses.ts';
import { drags, numbers, seeds } from './dragging.ts';

/** What one move may take of the machine's time: a frame of a screen that shows sixty a second. */
const asked = 16;
/** Every so many moves the plain programme and the range are timed too. */
const seldom = 8;

const runner = runnerWith();
const wish = { runner };
const thresholds = ReadingThresholds.parse({});
const skills = DogSkills.parse({
  weaveEntries: [{ side: 'off', band: 'to60', count: { done: 3, tried: 10 } }],
  sentMetres: 6,
});

/** A full plan: a side change at every third number, each with a second choice, and support between them. */
const sheet = PlanSheet.parse({
  sides: [{ after: 0, side: 'left' }],
  crosses: [3, 6, 9, 12, 15, 18, 21].map((place, i) => ({
    ...{ id: `c${place}`, place },
    ...(i % 2 === 0 ? { kind: 'front', secondChoice: 'rear' } : { kind: 'rear', secondChoice: 'blind' }),
  })),
  supports: [5, 11, 17].map((place) => ({ id: `s${place}`, place, until: 'committed' })),
});

/** Milliseconds by the clock, since the processor’s own count ticks by 4 ms here: it wants a machine with nothing else to do. */
const timed = <T>(into: number[], work: () => T): T => {
  const began = performance.now();
  const done = work();
  into.push(performance.now() - began);
  return done;
};

/** What the pages Read and Plan work out anew for each move of a hand: the reading, and the times of the plan. */
function readAndPlan(course: Course, line: LikelyLine): void {
  readCourse({ course, line, thresholds, skills });
  timePlan(course, sheet, line, runner, solidGround(course));
}

/** Line, reading and plan while one jump is dragged, against a frame and against the plain programme for the line alone. */
export function togetherLines(): BenchLine[] {
  const all: number[] = [];
  const lines: number[] = [];
  const rest: number[] = [];
  const plain: number[] = [];
  const ranges: number[] = [];
  for (const seed of seeds) {
    const course = randomCourse(seed, numbers);
    const session = createLineSession();
    const whole = createLineSession('grid');
    const range = createRangeSession();
    const first = session.line(course, wish);
    if (first) readAndPlan(course, first);
    whole.line(course, wish);
    range(course, wish);
    let n = 0;
    for (const moved of drags(course)) {
      const [before, after]: [number[], number[]] = [[], []];
      const line = timed(before, () => session.line(moved, wish));
      if (!line) throw new Error(`course ${seed} has no line`);
      timed(after, () => {
        readAndPlan(moved, line);
      });
      lines.push(...before);
      rest.push(...after);
      all.push((before[0] ?? NaN) + (after[0] ?? NaN));
      // The range follows once the hand rests: from the move before to this one.
      if (n++ % seldom !== 3) continue;
      timed(plain, () => whole.line(moved, wish));
      timed(ranges, () => range(moved, wish));
    }
  }
  return [
    {
      figure: `line, reading and plan while a jump of ${numbers} is dragged, by the clock, p95`,
      asked: `at most ${asked} ms`,
      measured: `${ms(p95(all))}, half of them ${ms(median(all))}: line p95 ${ms(p95(lines))}, reading and plan p95 ${ms(p95(rest))}; ${all.length} moves`,
      holds: p95(all) <= asked,
    },
    {
      figure: 'the same over the plain dynamic programme for the line alone, in this run',
      asked: 'told',
      measured: `p95 ${(p95(all) / median(plain)).toFixed(3)} (plain ${ms(median(plain))}); the range once the hand rests: half within ${ms(median(ranges))}, ${(median(ranges) / median(plain)).toFixed(2)}`,
      holds: true,
    },
  ];
}
