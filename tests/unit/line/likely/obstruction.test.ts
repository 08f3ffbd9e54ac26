import { describe, expect, test } from 'vitest';
import { hitOf, measureBoxes } from '../../../../src/line/likely/obstruction.ts';
import type { Box } from '../../../../src/line/likely/solids.ts';

const gap = 0.25;
/** Four metres of wall along x, 20 cm thick. */
const wall: Box = {
  x: 0,
  y: 0,
  cos: 1,
  sin: 0,
  halfLength: 2,
  halfBreadth: 0.1,
  reach: Math.hypot(2, 0.1),
  owner: 'wall',
};

/** What a way hits that runs on past the end of the wall, round it to the left and back along its other side. */
function roundTheEnd(radius: number): Box | undefined {
  const [x, y] = [1.6, -0.3];
  const [on, back] = [0.6, 6];
  measureBoxes([wall], x, y, x + on - back, y + 2 * radius, gap);
  return hitOf([wall], x, y, 0, [0, 1, 0], on / radius, Math.PI, back / radius, radius);
}

describe('what stands in the way', () => {
  test('a way that begins beside a wall may draw clear of it', () => {
    measureBoxes([wall], 1.9, -0.3, 12, -0.3, gap);
    expect(hitOf([wall], 1.9, -0.3, 0, [0, 0, 0], 0, 10, 0, 1)).toBeUndefined();
  });

  test('a way that runs on beside the wall it begins at does not keep clear of it', () => {
    measureBoxes([wall], -1.9, -0.3, 8, -0.3, gap);
    expect(hitOf([wall], -1.9, -0.3, 0, [0, 0, 0], 0, 9.9, 0, 1)).toBe(wall);
  });

  test('a way that begins beside one end of a wall keeps its distance from the other side', () => {
    expect(roundTheEnd(0.35)).toBeUndefined();
    expect(roundTheEnd(0.29)).toBe(wall);
  });
});
