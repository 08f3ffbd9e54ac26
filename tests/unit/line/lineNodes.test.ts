import { expect, test } from 'vitest';
import { likelyLine } from '../../../src/line/likelyLine.ts';
import { nodesOf } from '../../../src/line/lineNodes.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { wantedLength } from '../../../src/line/wantedLine.ts';
import { courseOf } from '../course/courses.ts';

const course = courseOf([
  { at: [5, 5] },
  {
    kind: 'tunnel',
    at: [13, 8, 0],
    bend: [
      [10, 5],
      [14, 6],
      [15, 9],
      [12, 12],
    ],
  },
  { at: [6, 13, 180] },
]);

test('a wanted line begun from the computed one follows a bent tunnel and comes to about its length', () => {
  const line = likelyLine(course, { runner: runnerWith() });
  if (!line) throw new Error('no line');
  const nodes = nodesOf(line);
  const through = line.steps[1]?.through ?? [];
  expect(through.length).toBeGreaterThan(3);
  const inside = nodes.filter((n) => through.some((p) => Math.hypot(p.x - n.x, p.y - n.y) < 0.3));
  expect(inside.length).toBeGreaterThanOrEqual(4);
  expect(Math.abs(wantedLength(nodes, 0.5) / line.length - 1)).toBeLessThan(0.02);
});
