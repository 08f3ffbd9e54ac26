import type { Course, GroundPoint, Kind, Obstacle } from './equipment.ts';
import { standardSizes } from './equipment.ts';
import { tunnelLine } from './tunnelLine.ts';

const DEGREE = Math.PI / 180;

function stand(id: string, kind: Kind, nickname: string, x: number, y: number, degrees: number): Obstacle {
  return { id, kind, nickname, x, y, angle: degrees * DEGREE, sizes: standardSizes[kind] };
}

function tube(id: string, nickname: string, bends: readonly GroundPoint[]): Obstacle {
  const line = tunnelLine(bends, false);
  const mouth = line.at(0);
  const sizes = { ...standardSizes.tunnel, length: line.length };
  return { id, kind: 'tunnel', nickname, x: mouth.x, y: mouth.y, angle: mouth.heading, sizes, bends };
}

/**
 * The course of both demo films: 20 x 40 m, nineteen numbers on sixteen obstacles.
 * What it asks: a front cross after 3 (straight on lies 6), a turn before the tunnels 5 and 14, a steep and
 * hidden weave entry at 7, a rear cross at 11, the back of 9 straight ahead of the tunnel exit 14, a wrap at 16.
 */
export const demoCourse: Course = {
  name: 'Long evening, ring two',
  ring: { length: 40, depth: 20 },
  start: { x: 10.9, y: 6.75, heading: 0 },
  obstacles: [
    stand('jump-white', 'barJump', 'the white one', 14.0, 6.7, 0),
    stand('jump-blue', 'barJump', 'the blue one', 19.3, 6.4, 0),
    stand('jump-sun', 'barJump', 'the yellow one', 24.5, 6.4, 6),
    stand('jump-gate', 'barJump', 'the gate', 23.4, 11.2, 116),
    tube('tunnel-red', 'the red tunnel', [
      { x: 28.4, y: 14.1 },
      { x: 30.2, y: 14.0 },
      { x: 31.6, y: 12.8 },
      { x: 31.8, y: 11.0 },
    ]),
    stand('spread', 'spread', 'the spread', 30.3, 6.1, -118),
    stand('weave', 'weavePoles', 'the poles', 25.2, 2.6, 180),
    stand('jump-rose', 'barJump', 'the rose one', 12.2, 3.4, 172),
    stand('jump-fern', 'barJump', 'the green one', 8.8, 8.2, 82),
    stand('a-frame', 'aFrame', 'the A-frame', 13.2, 13.3, 0),
    stand('jump-oak', 'barJump', 'the oak one', 20.3, 13.4, 8),
    stand('tyre', 'tyre', 'the tyre', 23.3, 16.2, 138),
    stand('dog-walk', 'dogWalk', 'the dog walk', 12.9, 17.8, 180),
    tube('tunnel-blue', 'the blue tunnel', [
      { x: 4.2, y: 15.7 },
      { x: 3.6, y: 14.0 },
      { x: 4.0, y: 12.4 },
      { x: 5.4, y: 11.2 },
    ]),
    stand('see-saw', 'seeSaw', 'the see-saw', 13.4, 9.9, 0),
    stand('jump-plum', 'barJump', 'the plum one', 19.8, 9.8, 4),
  ],
  places: [
    ['jump-white', false],
    ['jump-blue', false],
    ['jump-sun', false],
    ['jump-gate', false],
    ['tunnel-red', false],
    ['spread', false],
    ['weave', false],
    ['jump-rose', false],
    ['jump-fern', false],
    ['a-frame', false],
    ['jump-oak', false],
    ['tyre', false],
    ['dog-walk', false],
    ['tunnel-blue', false],
    ['see-saw', false],
    ['jump-plum', false],
    ['jump-sun', true],
    ['jump-blue', true],
    ['jump-white', true],
  ].map(([obstacleId, reversed], i) => ({
    number: i + 1,
    obstacleId: String(obstacleId),
    reversed: reversed === true,
  })),
};
