import { Course, type Obstacle, type Stand } from '../src/course/course.ts';
import type { GroundPoint } from '../src/course/points.ts';
import { from } from '../src/course/pose.ts';
import { drawnSteps } from '../src/course/sequence.ts';
import { bentInto, smoothLine, tunnelLine } from '../src/course/tunnelLine.ts';
import { contentOf, workedBook } from '../src/host/ruleBooks.ts';

/**
 * The course of the demo that is planned before it is run, drawn by hand on the equipment of the demo's club. The gate
 * comes twice: from the red tunnel on to the poles, and later back to the blue tunnel.
 */
const pieces: readonly Obstacle[] = [
  piece('jump-white', 'barJump', 'the white one', 10.1, 8.5, 0),
  piece('jump-blue', 'barJump', 'the blue one', 15.7, 8.5, -5),
  piece('jump-sun', 'barJump', 'the yellow one', 20.9, 7.6, -28),
  tunnel('tunnel-red', 'the red tunnel', { x: 28.35, y: 5.86, headingDegrees: 49 }, 5.8, 118),
  piece('jump-gate', 'barJump', 'the gate', 27.87, 14.49, 118),
  piece('weave', 'weavePoles', 'the poles', 19.61, 20.16, 160),
  piece('jump-rose', 'barJump', 'the rose one', 11.2, 20.1, -152),
  piece('a-frame', 'aFrame', 'the A-frame', 5.2, 15.4, -122),
  piece('jump-fern', 'barJump', 'the green one', 4, 7.1, -54),
  piece('dog-walk', 'dogWalk', 'the dog walk', 14.3, 3.8, -6),
  tunnel('tunnel-blue', 'the blue tunnel', { x: 19.57, y: 12.37, headingDegrees: -152 }, 5.2, 0),
  piece('jump-oak', 'barJump', 'the oak one', 10.9, 13.2, 145),
  piece('jump-plum', 'barJump', 'the plum one', 17.35, 17, -12),
  piece('jump-birch', 'barJump', 'the birch one', 24.07, 16.72, -8),
  piece('spread', 'spread', 'the spread', 30.4, 17.3, 8),
];

const order: readonly (readonly [id: string, reversed?: 'reverse'])[] = [
  ['jump-white'],
  ['jump-blue'],
  ['jump-sun'],
  ['tunnel-red'],
  ['jump-gate'],
  ['weave'],
  ['jump-rose'],
  ['a-frame'],
  ['jump-fern'],
  ['dog-walk'],
  ['tunnel-red'],
  ['jump-gate'],
  ['tunnel-blue'],
  ['jump-oak'],
  ['jump-rose', 'reverse'],
  ['jump-plum'],
  ['jump-birch'],
  ['spread'],
];

/** The planned course with its lines, its measured way and the rule book it is built by. */
export function plannedCourse(): Course {
  const course = Course.parse({
    name: 'Sunday morning, ring one',
    head: { class: 'Training', level: '2', date: '2026-06-07', heightCategory: 'L' },
    ruleBook: workedBook.id,
    ruleBookChosen: { name: workedBook.name, content: contentOf(workedBook) },
    ring: { width: 40, length: 24 },
    obstacles: pieces,
    steps: order.map(([obstacleId, reversed], i) => ({
      number: i + 1,
      obstacleId,
      direction: reversed ?? 'forward',
    })),
    startLine: { from: { x: 8.6, y: 7 }, to: { x: 8.6, y: 10 } },
    finishLine: { from: { x: 32.7, y: 16.2 }, to: { x: 32.2, y: 19.4 } },
  });
  return { ...course, wheelPath: [...wheelPath(course)] };
}

function piece(
  id: string,
  kind: Obstacle['kind'],
  nickname: string,
  x: number,
  y: number,
  headingDegrees: number,
): Obstacle {
  return { id, kind, nickname, stand: { x, y, headingDegrees } };
}

function tunnel(id: string, nickname: string, stand: Stand, length: number, turn: number): Obstacle {
  const sizes = { tunnelLength: length };
  return { id, kind: 'tunnel', nickname, stand: bentInto(stand, length, turn), sizes };
}

/** Straight before and after each obstacle, metres. */
const straight = 1.5;

/** The way a wheel is rolled: straight at each obstacle and in a soft curve between them. */
function wheelPath(course: Course): readonly GroundPoint[] {
  const path = drawnSteps(course).flatMap(({ entry, exit, obstacle, stand, step }) => {
    const tube = obstacle.kind === 'tunnel' ? tunnelLine(stand, obstacle.sizes?.tunnelLength ?? 0) : [];
    const within = step.direction === 'forward' ? tube : tube.toReversed();
    return [from(entry, -straight), entry, ...within.slice(1, -1), exit, from(exit, straight)];
  });
  const rounded = (v: number): number => Math.round(v * 100) / 100;
  const kept = path.filter((p, i) => {
    const before = path[i - 1];
    return !before || Math.hypot(p.x - before.x, p.y - before.y) > 0.05;
  });
  return smoothLine(kept).map(({ x, y }) => ({ x: rounded(x), y: rounded(y) }));
}
