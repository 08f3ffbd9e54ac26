import type { Course } from '../course/course.ts';
import { drawnSteps } from '../course/sequence.ts';
import { lineFrom } from './likely/assemble.ts';
import { finishGate, startGate } from './likely/ends.ts';
import { gatesOf } from './likely/numberGates.ts';
import { refined } from './likely/refine.ts';
import { quickest, rankOf, stretchBetween } from './likely/search.ts';
import { solidsOf } from './likely/solids.ts';
import { terrainOf } from './likely/ways.ts';
import type { LikelyLine, LineRange, LineWish } from './line.ts';
import { assumedRunner, type Runner } from './runner.ts';

/** Fewer numbers than this make no line. */
const leastNumbers = 2;

/**
 * The way a dog is likely to take through a course: of all ways that a dog of this turning, speed and jump can run,
 * the quickest one that keeps clear of the equipment. It is looked for over where and how obliquely each bar is crossed and each
 * piece is entered, first over a grid by dynamic programming, then between the grid's points. null where fewer
 * than two numbers stand on the grass.
 * @param course built by its rule book (builtBy.ts)
 */
export function likelyLine(course: Course, wish: LineWish): LikelyLine | null {
  const drawn = drawnSteps(course);
  const [first] = drawn;
  if (!first || drawn.length < leastNumbers) return null;
  const { runner } = wish;
  const centred = wish.centred === true;
  const boxes = solidsOf(course.obstacles);
  const owners = new Map(course.obstacles.map((o, i) => [o.id, i]));
  const gates = [
    startGate(course, first, wish),
    ...drawn.flatMap((d, i) =>
      gatesOf(d, i, {
        runner,
        boxes,
        centred,
        landing: wish.landings?.get(d.step.number),
        owner: owners.get(d.obstacle.id) ?? -1,
      }),
    ),
    finishGate(course, wish, centred),
  ];
  const terrain = terrainOf(runner, boxes);
  const ranks = gates.map((gate) => rankOf(gate));
  const stretches = ranks.slice(1).flatMap((to, i) => {
    const from = ranks[i];
    return from ? [stretchBetween(terrain, from, to)] : [];
  });
  const picked = quickest(ranks, stretches);
  const begin = ranks.map((rank, i) => rank.figures[picked[i] ?? 0] ?? []);
  return lineFrom(gates, drawn, refined(ranks, stretches, begin));
}

/** The line as assumed for this dog, and for one that turns and jumps as tightly or as widely as is assumed possible. */
export function lineRange(course: Course, wish: LineWish): LineRange | null {
  const like = (bound: 'least' | 'most'): LineWish => ({ ...wish, runner: bounded(wish.runner, bound) });
  const tight = likelyLine(course, like('least'));
  const usual = likelyLine(course, wish);
  const wide = likelyLine(course, like('most'));
  return tight && usual && wide ? { tight, usual, wide } : null;
}

/** A runner at one end of what is assumed; a figure that is known of this dog and lies further out stays. */
function bounded(runner: Runner, bound: 'least' | 'most'): Runner {
  const tight = bound === 'least';
  const to = (name: 'leastRadius' | 'takeOff' | 'landing'): number =>
    tight
      ? Math.min(runner[name], assumedRunner[name].least)
      : Math.max(runner[name], assumedRunner[name].most);
  return {
    ...runner,
    // A dog with more grip turns more tightly at the same speed.
    grip: tight
      ? Math.max(runner.grip, assumedRunner.grip.most)
      : Math.min(runner.grip, assumedRunner.grip.least),
    leastRadius: to('leastRadius'),
    takeOff: to('takeOff'),
    landing: to('landing'),
  };
}
