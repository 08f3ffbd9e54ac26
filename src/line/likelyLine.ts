import type { Course } from '../course/course.ts';
import { createLineSession, type LineSession } from './likely/session.ts';
import type { LikelyLine, LineRange, LineWish } from './line.ts';
import { assumedRunner, type Runner } from './runner.ts';

/**
 * The way a dog is likely to take through a course: of all ways that a dog of this turning, speed and jump can run,
 * the quickest one that keeps clear of the equipment. It is looked for over where and how obliquely each bar is crossed
 * and each piece is entered, first over a grid by dynamic programming, then between the grid's points. null where
 * fewer than two numbers stand on the grass.
 * @param course built by its rule book (builtBy.ts)
 */
export const likelyLine = (course: Course, wish: LineWish): LikelyLine | null =>
  createLineSession().settled(course, wish);

/**
 * The line as assumed for this dog, and for one that turns and jumps as tightly or as widely as is assumed possible.
 * What is returned works them out one after another and keeps what a change of the course does not touch.
 * @param usual the session that finds the line itself, where there is one already
 */
export function createRangeSession(
  usual: LineSession = createLineSession(),
): (course: Course, wish: LineWish) => LineRange | null {
  const sessions = { least: createLineSession(), most: createLineSession(), usual };
  return (course, wish) => {
    const like = (bound: 'least' | 'most'): LikelyLine | null =>
      sessions[bound].settled(course, { ...wish, runner: bounded(wish.runner, bound) });
    const tight = like('least');
    const usual = sessions.usual.settled(course, wish);
    const wide = like('most');
    return tight && usual && wide ? { tight, usual, wide } : null;
  };
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
