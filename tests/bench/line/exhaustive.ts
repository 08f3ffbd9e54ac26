import type { Course } from '../../../src/course/course.ts';
import { drawnSteps } from '../../../src/course/sequence.ts';
import { finishGate, startGate } from '../../../src/line/likely/ends.ts';
import { gatesOf } from '../../../src/line/likely/numberGates.ts';
import { radiiOf } from '../../../src/line/likely/pace.ts';
import { rankOf } from '../../../src/line/likely/ranks.ts';
import { quickestOfAll } from '../../../src/line/likely/search.ts';
import { solidsOf } from '../../../src/line/likely/solids.ts';
import { stretchBetween } from '../../../src/line/likely/stretch.ts';
import { terrainOf } from '../../../src/line/likely/ways.ts';
import { likelyLine } from '../../../src/line/likelyLine.ts';
import type { LineWish } from '../../../src/line/line.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import type { BenchLine } from '../run.ts';
import { randomCourse } from './courses.ts';

const courses = 50;
const numbers = 5;
/** The dense grid: figures each way in place of ours, and radii in place of ours. */
const dense = { figures: 15, radii: 14 };
const most = 0.005;

/**
 * The quickest run over a grid about twice as dense each way, every pair of takings priced with more radii, nothing
 * left out. Ways are priced as the line prices them; the search is what is held against it.
 */
function exhaustive(course: Course, wish: LineWish): number {
  const drawn = drawnSteps(course);
  const [first] = drawn;
  if (!first) return NaN;
  const { runner } = wish;
  const solids = { boxes: solidsOf(course.obstacles) };
  const gates = [
    startGate(course, first, wish, solids),
    ...drawn.flatMap((d, i) =>
      gatesOf(d, i, { runner, solids, centred: false, landing: undefined, owner: d.obstacle.id }),
    ),
    finishGate(course, wish, false),
  ];
  const ranks = gates.map((gate) =>
    rankOf(
      gate,
      gate.free.map((f) => (f.between ? dense.figures : f.count)),
    ),
  );
  const terrain = terrainOf(runner, solids.boxes, radiiOf(runner, dense.radii));
  const stretches = ranks.slice(1).flatMap((to, i) => {
    const from = ranks[i];
    return from ? [stretchBetween(terrain, from, to)] : [];
  });
  const chosen = quickestOfAll(ranks, stretches);
  return chosen.reduce(
    (sum, k, i) => sum + (ranks[i]?.prices[k] ?? 0) + (stretches[i - 1]?.price(chosen[i - 1] ?? 0, k) ?? 0),
    0,
  );
}

/** Line time on random courses against the exhaustive search of a denser grid. */
export function exhaustiveLines(): BenchLine[] {
  const wish = { runner: runnerWith() };
  const over: number[] = [];
  let unlike = 0;
  for (let seed = 1; seed <= courses; seed++) {
    const course = randomCourse(seed, numbers);
    const line = likelyLine(course, wish);
    const best = exhaustive(course, wish);
    // A price for a blocked way is no time to be compared.
    if (!line || best > 50 || line.stretches.some((s) => s.blocked)) unlike++;
    else over.push(line.seconds / best - 1);
  }
  const worst = Math.max(...over);
  const mean = over.reduce((sum, o) => sum + o, 0) / over.length;
  const percent = (share: number): string => `${(share * 100).toFixed(3)} %`;
  return [
    {
      figure: `line time over an exhaustive search of a denser grid, ${courses} random courses of ${numbers}`,
      asked: 'at most 0.5 % longer',
      measured: `${percent(worst)} at the most, ${percent(mean)} on the mean${unlike > 0 ? `; ${unlike} with a blocked way left out` : ''}`,
      holds: worst <= most && over.length >= courses - 2,
    },
  ];
}
