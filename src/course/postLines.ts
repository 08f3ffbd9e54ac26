import type { Course, PostLine } from './course.ts';
import type { GroundPoint } from './points.ts';
import { from, turnedAbout, type Pose } from './pose.ts';
import { drawnSteps } from './sequence.ts';

export type WhichLine = 'start' | 'finish';

/** Half of the line's length and how far it lies before the first or behind the last obstacle, metres (our choice). */
const half = 2;
const away = 2;

export const lineOf = (course: Course, which: WhichLine): PostLine | undefined =>
  which === 'start' ? course.startLine : course.finishLine;

/** The course with this line, or without it. */
export function withLine(course: Course, which: WhichLine, line: PostLine | null): Course {
  const { startLine, finishLine, ...rest } = course;
  const start = which === 'start' ? (line ?? undefined) : startLine;
  const finish = which === 'finish' ? (line ?? undefined) : finishLine;
  return {
    ...rest,
    ...(start ? { startLine: tidy(start) } : {}),
    ...(finish ? { finishLine: tidy(finish) } : {}),
  };
}

const round = (p: GroundPoint): GroundPoint => ({
  x: Math.round(p.x * 1000) / 1000,
  y: Math.round(p.y * 1000) / 1000,
});
const tidy = (line: PostLine): PostLine => ({ from: round(line.from), to: round(line.to) });

/** Where a line would lie: across the way before the first number or behind the last, else across the ring's end. */
export function usualLine(course: Course, which: WhichLine): PostLine {
  const steps = drawnSteps(course);
  const step = which === 'start' ? steps[0] : steps.at(-1);
  const ring = course.ring ?? { width: 40, length: 20 };
  const pose: Pose = step
    ? which === 'start'
      ? step.entry
      : step.exit
    : { x: which === 'start' ? away : ring.width - away, y: ring.length / 2, headingDegrees: 0 };
  const along = step ? (which === 'start' ? -away : away) : 0;
  return { from: from(pose, along, half), to: from(pose, along, -half) };
}

/** A line moved by metres. */
export const lineMoved = (line: PostLine, dx: number, dy: number): PostLine => ({
  from: { x: line.from.x + dx, y: line.from.y + dy },
  to: { x: line.to.x + dx, y: line.to.y + dy },
});

/** A line turned about its middle, degrees counter-clockwise. */
export function lineTurned(line: PostLine, degrees: number): PostLine {
  const middle = { x: (line.from.x + line.to.x) / 2, y: (line.from.y + line.to.y) / 2 };
  return { from: turnedAbout(line.from, middle, degrees), to: turnedAbout(line.to, middle, degrees) };
}
