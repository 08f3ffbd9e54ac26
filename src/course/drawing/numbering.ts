import { mostNumbers, type Course, type Obstacle, type Step } from '../course.ts';
import type { GroundPoint } from '../points.ts';
import { wayThrough } from '../planShapes.ts';
import { distance } from '../pose.ts';
import { drawnSteps } from '../sequence.ts';

/** The number that the next click gives: the first that stands on nothing drawn, else one more; null past the last. */
export function nextNumber(course: Course): number | null {
  const drawn = new Set(course.obstacles.filter((o) => o.stand).map((o) => o.id));
  const waiting = course.steps.filter((s) => !drawn.has(s.obstacleId)).map((s) => s.number);
  const next =
    waiting.length > 0 ? Math.min(...waiting) : Math.max(0, ...course.steps.map((s) => s.number)) + 1;
  return next > mostNumbers ? null : next;
}

/**
 * The way a piece is taken under a number: a tunnel at the mouth nearest to where it was clicked; anything else as
 * the dog comes from the number before, or from the start line; forward where neither is known.
 */
export function likelyDirection(
  course: Course,
  number: number,
  obstacle: Obstacle,
  clicked?: GroundPoint,
): Step['direction'] {
  const { stand } = obstacle;
  if (!stand) return 'forward';
  const [first, second] = wayThrough(obstacle, stand, 'forward');
  if (obstacle.kind === 'tunnel' && clicked) {
    return distance(clicked, first) <= distance(clicked, second) ? 'forward' : 'reverse';
  }
  const before = drawnSteps(course).findLast((s) => s.step.number < number && s.obstacle.id !== obstacle.id);
  const line = course.startLine;
  const comes =
    before?.exit ?? (line ? { x: (line.from.x + line.to.x) / 2, y: (line.from.y + line.to.y) / 2 } : null);
  if (!comes) return 'forward';
  if (first.x !== second.x || first.y !== second.y)
    return distance(comes, first) <= distance(comes, second) ? 'forward' : 'reverse';
  const a = (stand.headingDegrees * Math.PI) / 180;
  return (stand.x - comes.x) * Math.cos(a) + (stand.y - comes.y) * Math.sin(a) >= 0 ? 'forward' : 'reverse';
}

/**
 * The course with a number put on a piece. A number that waited on something undrawn moves over with its name and
 * its place on the picture; what it leaves behind without a number goes.
 */
export function numbered(
  course: Course,
  number: number,
  obstacleId: string,
  direction: Step['direction'],
): Course {
  const obstacle = course.obstacles.find((o) => o.id === obstacleId);
  if (!obstacle || number < 1 || number > mostNumbers) return course;
  const old = course.steps.find((s) => s.number === number);
  const left =
    old && old.obstacleId !== obstacleId ? course.obstacles.find((o) => o.id === old.obstacleId) : undefined;
  const step: Step = { ...old, number, obstacleId, direction };
  const steps = [...course.steps.filter((s) => s.number !== number), step].toSorted(
    (a, b) => a.number - b.number,
  );
  const useless = left && !left.stand && !steps.some((s) => s.obstacleId === left.id) ? left : undefined;
  return {
    ...course,
    steps,
    obstacles: course.obstacles
      .filter((o) => o !== useless)
      .map((o) =>
        o.id === obstacleId && o.nickname === '' && useless ? { ...o, nickname: useless.nickname } : o,
      ),
  };
}

/** The course with other facts about one number. `undefined` takes a fact away. */
export function withStep(
  course: Course,
  number: number,
  part: {
    readonly direction?: Step['direction'];
    readonly backside?: true | undefined;
    readonly wrap?: Step['wrap'];
  },
): Course {
  return {
    ...course,
    steps: course.steps.map((s) => {
      if (s.number !== number) return s;
      const { backside, wrap, ...rest } = { ...s, ...part };
      return { ...rest, ...(backside ? { backside } : {}), ...(wrap ? { wrap } : {}) };
    }),
  };
}

/**
 * The course with a number taken off its piece: those behind it move up. A number up to `lastKept`, on which marks or
 * plans stand, stays and waits on a piece that is not drawn; `bareId` is that piece's id.
 */
export function withoutNumber(course: Course, number: number, lastKept: number, bareId: string): Course {
  const step = course.steps.find((s) => s.number === number);
  if (!step) return course;
  if (number > lastKept) {
    return {
      ...course,
      steps: course.steps
        .filter((s) => s !== step)
        .map((s) => (s.number > number ? { ...s, number: s.number - 1 } : s)),
    };
  }
  const kind = course.obstacles.find((o) => o.id === step.obstacleId)?.kind ?? 'unknown';
  return {
    ...course,
    obstacles: [...course.obstacles, { id: bareId, kind, nickname: '' }],
    steps: course.steps.map((s) => (s === step ? { ...s, obstacleId: bareId } : s)),
  };
}
