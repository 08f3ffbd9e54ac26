import type { Course } from '../../../src/course/course.ts';
import { createLineSession } from '../../../src/line/likely/session.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { atMost, median, ms, p95, percentile } from '../frames/measure.ts';
import type { BenchLine } from '../run.ts';
import { randomCourse } from './courses.ts';

export const numbers = 22;
export const seeds = [1, 2, 3, 4, 5];
const jumpsEach = 4;
const movesEach = 40;

/** Courses in which a jump is dragged on a loop of a metre or so and turned at its end, one after another. */
export function* drags(course: Course): Generator<Course> {
  const jumps = [...course.obstacles.entries()].filter(([i, o]) => o.kind === 'barJump' && i > 2 && i < 19);
  for (const [i, jump] of jumps.slice(0, jumpsEach)) {
    const { stand } = jump;
    if (!stand) continue;
    for (let k = 0; k < movesEach; k++) {
      const moved = {
        ...stand,
        x: stand.x + 0.8 * Math.sin(k / 8),
        y: stand.y + 0.6 * Math.sin(k / 6),
        headingDegrees: (stand.headingDegrees + Math.max(0, k - 25) * 2) % 360,
      };
      yield { ...course, obstacles: course.obstacles.with(i, { ...jump, stand: moved }) };
    }
  }
}

/** The line while one jump is dragged, against the plain dynamic programme over the same grid. */
export function dragLines(): BenchLine[] {
  const wish = { runner: runnerWith() };
  const ours: number[] = [];
  const plain: number[] = [];
  const over: number[] = [];
  const overRefined: number[] = [];
  for (const seed of seeds) {
    const course = randomCourse(seed, numbers);
    const session = createLineSession();
    const whole = createLineSession('grid');
    const between = createLineSession('all');
    session.line(course, wish);
    whole.line(course, wish);
    let n = 0;
    for (const moved of drags(course)) {
      const began = performance.now();
      const line = session.line(moved, wish);
      ours.push(performance.now() - began);
      if (n++ % 5 !== 3) continue;
      const begun = performance.now();
      const every = whole.line(moved, wish);
      plain.push(performance.now() - begun);
      const finest = between.line(moved, wish);
      if (!line || !every || !finest) throw new Error(`course ${seed} has no line`);
      over.push(line.seconds / every.seconds - 1);
      overRefined.push(line.seconds / finest.seconds - 1);
    }
  }
  const longer = Math.max(...over);
  const percent = (all: readonly number[]): string =>
    `${(Math.max(...all) * 100).toFixed(3)} % at the most, p95 ${(percentile(all, 0.95) * 100).toFixed(3)} %, median ${(median(all) * 100).toFixed(3)} %, of ${all.length}`;
  return [
    atMost(
      `line while a jump of ${numbers} is dragged, p95, over the plain dynamic programme over the same grid`,
      p95(ours) / median(plain),
      0.12,
      `${ms(p95(ours))}, half of them ${ms(median(ours))}; plain ${ms(median(plain))}; ${ours.length} moves`,
    ),
    {
      figure: 'its time over that of the plain programme',
      asked: 'at most 0.05 % longer',
      measured: percent(over),
      holds: longer <= 0.0005,
    },
    {
      figure: 'its time over that of the plain programme refined between the grid with all care',
      asked: 'told',
      measured: percent(overRefined),
      holds: true,
    },
  ];
}
