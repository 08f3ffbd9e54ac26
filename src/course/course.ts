import { z } from 'zod';
import { obstacleKinds } from './kinds.ts';

const id = z.string().min(1).max(80);
const metre = z.number().min(-1000).max(1000);
const fraction = z.number().min(0).max(1);

/** A point on the ground: metres, x along the ring's width, y along its length, origin at a corner. */
export const GroundPoint = z.strictObject({ x: metre, y: metre });
export type GroundPoint = z.infer<typeof GroundPoint>;

/** A point on a picture, as fractions of its upright width and height; y runs down. */
export const PicturePoint = z.strictObject({ x: fraction, y: fraction });
export type PicturePoint = z.infer<typeof PicturePoint>;

/** Where an obstacle stands. Heading: degrees, counter-clockwise from +x, the way it is taken forward. */
export const Stand = z.strictObject({
  x: metre,
  y: metre,
  headingDegrees: z.number().min(-360).max(360),
  /** Tunnels: their centre line from the first mouth to the second, in metres. */
  bend: z.array(GroundPoint).min(2).max(60).optional(),
});
export type Stand = z.infer<typeof Stand>;

/** A piece of equipment. Its identity is apart from the numbers it carries. */
export const Obstacle = z.strictObject({
  id,
  kind: z.enum(obstacleKinds),
  nickname: z.string().max(60).default(''),
  stand: Stand.optional(),
});
export type Obstacle = z.infer<typeof Obstacle>;

/** One number of the course: which obstacle, which way, and where the number was clicked on a map picture. */
export const Step = z.strictObject({
  number: z.int().min(1).max(200),
  obstacleId: id,
  direction: z.enum(['forward', 'reverse']).default('forward'),
  onPicture: PicturePoint.optional(),
});
export type Step = z.infer<typeof Step>;

/** A picture of the judge's map, kept by content. */
export const MapPicture = z.strictObject({
  pictureId: id,
  name: z.string().max(255),
  width: z.int().min(1).max(40_000),
  height: z.int().min(1).max(40_000),
});
export type MapPicture = z.infer<typeof MapPicture>;

/** A course: anything from an empty one, through a bare count of obstacles, to one drawn to scale. */
export const Course = z.strictObject({
  name: z.string().max(120).default(''),
  ring: z.strictObject({ width: z.number().min(1).max(500), length: z.number().min(1).max(500) }).optional(),
  obstacles: z.array(Obstacle).max(400).default([]),
  steps: z.array(Step).max(200).default([]),
  mapPicture: MapPicture.optional(),
});
export type Course = z.infer<typeof Course>;

/** A course with nothing on it. */
export const emptyCourse = (): Course => ({ name: '', obstacles: [], steps: [] });

/** A course that is only a count: numbers 1 to `count`, each on an obstacle of unknown kind. */
export function countedCourse(count: number): Course {
  const numbers = Array.from({ length: count }, (_, i) => i + 1);
  return {
    name: '',
    obstacles: numbers.map((n) => ({ id: `o${n}`, kind: 'unknown', nickname: '' })),
    steps: numbers.map((n) => ({ number: n, obstacleId: `o${n}`, direction: 'forward' })),
  };
}

/** The obstacle that carries a number, or undefined. */
export function obstacleAt(course: Course, number: number): Obstacle | undefined {
  const step = course.steps.find((s) => s.number === number);
  return step && course.obstacles.find((o) => o.id === step.obstacleId);
}

/** What is wrong with the numbers and identities of a course, as facts for the reader's sentences. */
export type CourseProblem =
  | { readonly problem: 'repeatedNumber' | 'skippedNumber'; readonly number: number }
  | { readonly problem: 'unknownObstacle'; readonly number: number; readonly obstacleId: string }
  | { readonly problem: 'repeatedObstacle'; readonly obstacleId: string };

/** Checks that numbers run 1, 2, 3 … without gap or repeat and that each stands on an obstacle that exists. */
export function courseProblems(course: Course): CourseProblem[] {
  const problems: CourseProblem[] = [];
  const ids = new Set<string>();
  for (const o of course.obstacles) {
    if (ids.has(o.id)) problems.push({ problem: 'repeatedObstacle', obstacleId: o.id });
    ids.add(o.id);
  }
  const numbers = new Set<number>();
  for (const step of course.steps) {
    if (numbers.has(step.number)) problems.push({ problem: 'repeatedNumber', number: step.number });
    numbers.add(step.number);
    if (!ids.has(step.obstacleId)) {
      problems.push({ problem: 'unknownObstacle', number: step.number, obstacleId: step.obstacleId });
    }
  }
  const highest = Math.max(0, ...numbers);
  for (let n = 1; n <= highest; n++) {
    if (!numbers.has(n)) problems.push({ problem: 'skippedNumber', number: n });
  }
  return problems;
}
