import { z } from 'zod';
import { Sizes } from './equipment.ts';
import { obstacleKinds } from './kinds.ts';
import { GroundPoint, PicturePoint } from './points.ts';
import { disciplines } from './rules/runRules.ts';
import { Underlay } from './underlay.ts';

const id = z.string().min(1).max(80);

/** Most pieces of equipment that a course can have, drawn or not. */
export const mostObstacles = 1000;
/** Most numbers that a course can have. */
export const mostNumbers = 200;

/** Where an obstacle stands. Heading: degrees, counter-clockwise from +x, the way it is taken forward. */
export const Stand = z.strictObject({
  ...GroundPoint.shape,
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
  /** Sizes of its own; absent where it has those of the table (equipment.ts). */
  sizes: Sizes.optional(),
});
export type Obstacle = z.infer<typeof Obstacle>;

/** One number of the course: which obstacle, which way, and where the number was clicked on a map picture. */
export const Step = z.strictObject({
  number: z.int().min(1).max(mostNumbers),
  obstacleId: id,
  /** Tunnels: forward goes in at the first mouth of the bend. */
  direction: z.enum(['forward', 'reverse']).default('forward'),
  /** The dog comes from the far side: it goes round the obstacle before it takes it. */
  backside: z.boolean().optional(),
  /** The dog turns tightly round this wing after the bar. */
  wrap: z.enum(['left', 'right']).optional(),
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

/** What stands in the head of a judge's map. */
export const CourseHead = z.strictObject({
  class: z.string().max(80).default(''),
  level: z.string().max(80).default(''),
  judge: z.string().max(80).default(''),
  place: z.string().max(120).default(''),
  /** YYYY-MM-DD, or empty. */
  date: z
    .string()
    .regex(/^(\d{4}-\d{2}-\d{2})?$/, 'a day as YYYY-MM-DD, or nothing')
    .default(''),
  /** Id of a height category of the rule book in use, or empty. */
  heightCategory: z.string().max(40).default(''),
});
export type CourseHead = z.infer<typeof CourseHead>;

/** A rule book as it was when it was chosen for a course. */
const RuleBookChosen = z.strictObject({
  name: z.string().min(1).max(120),
  /** SHA-256 of its entries: the same id may stand for another book elsewhere. */
  content: z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 in 64 small hexadecimal digits'),
});

const seconds = z.number().min(0.01).max(10_000).multipleOf(0.01);

/** What course times follow from, as far as the drawing does not tell. Seconds to the hundredth; metres per second. */
const CourseTiming = z.strictObject({
  discipline: z.enum(disciplines).optional(),
  judgesSpeed: z.number().min(0.1).max(20).multipleOf(0.01).optional(),
  /** Time of the best dog, where the course time follows from it. */
  bestTime: seconds.optional(),
  /** Times as the judge stated them; they go before what the book gives. */
  statedStandard: seconds.optional(),
  statedMaximum: seconds.optional(),
});
export type CourseTiming = z.infer<typeof CourseTiming>;

/** A line on the ground between two posts. */
const PostLine = z.strictObject({ from: GroundPoint, to: GroundPoint });
export type PostLine = z.infer<typeof PostLine>;

/** A course: anything from an empty one, through a bare count of obstacles, to one drawn to scale. */
export const Course = z.strictObject({
  name: z.string().max(120).default(''),
  head: CourseHead.optional(),
  /** Id of the rule book the course is built by. */
  ruleBook: z.string().min(1).max(80).optional(),
  /** That book as it was when it was chosen, so that a course that travels can say what it was built by. */
  ruleBookChosen: RuleBookChosen.optional(),
  timing: CourseTiming.optional(),
  /** The unit in which it is drawn and read; all that is stored is in metres. Absent: as the coach prefers. */
  unit: z.enum(['metres', 'feet']).optional(),
  ring: z.strictObject({ width: z.number().min(1).max(500), length: z.number().min(1).max(500) }).optional(),
  obstacles: z
    .array(Obstacle)
    .max(mostObstacles, `a course can have ${mostObstacles} obstacles at the most; this one has more`)
    .default([]),
  steps: z
    .array(Step)
    .max(mostNumbers, `a course can have ${mostNumbers} numbers at the most; this one has more`)
    .default([]),
  startLine: PostLine.optional(),
  finishLine: PostLine.optional(),
  /** Where a measuring wheel was rolled, from the first point to the last. */
  wheelPath: z.array(GroundPoint).min(2).max(2000).optional(),
  mapPicture: MapPicture.optional(),
  /** How the map picture lies under the drawing. */
  underlay: Underlay.optional(),
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
