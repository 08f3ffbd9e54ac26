import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distanceToGround, footprint } from '../../../src/course/footprint.ts';
import { lengthOf } from '../../../src/course/pose.ts';
import { solidGround, wayRound } from '../../../src/plan/wayRound.ts';
import { courseAt } from './scene.ts';

describe('the way round equipment', () => {
  it('is straight where nothing stands in it', () => {
    const solid = solidGround(courseAt([10, 10]));
    expect(wayRound({ x: 0, y: 5 }, { x: 20, y: 5 }, solid)).toEqual([
      { x: 0, y: 5 },
      { x: 20, y: 5 },
    ]);
    expect(wayRound({ x: 3, y: 3 }, { x: 3, y: 3 }, solid)).toHaveLength(2);
  });

  it('goes round the nearer wing, an elbow away from it', () => {
    // Bar 1.3 with wings of 0.5: 1.15 m to each side, 0.35 m more for her, 0.45 m along (0.1 and 0.35).
    const solid = solidGround(courseAt([10, 10]));
    const way = wayRound({ x: 8, y: 10.5 }, { x: 12, y: 10.5 }, solid);
    const corner = { x: 0.45, y: 1.5 };
    expect(way).toHaveLength(4);
    expect(way[1]?.x).toBeCloseTo(10 - corner.x, 9);
    expect(way[1]?.y).toBeCloseTo(10 + corner.y, 9);
    expect(lengthOf(way)).toBeCloseTo(2 * Math.hypot(2 - corner.x, corner.y - 0.5) + 2 * corner.x, 9);
  });

  it('leaves a spot that lies within reach of equipment', () => {
    const solid = solidGround(courseAt([10, 10]));
    const way = wayRound({ x: 9.8, y: 10 }, { x: 5, y: 10 }, solid);
    expect(lengthOf(way)).toBeCloseTo(4.8, 9);
  });

  it('goes round a bent tunnel and a row of pieces, and never through one', () => {
    const course = courseAt([12, 10, 90, 'tunnel'], [20, 6, 90], [20, 8.2, 90], [26, 10, 20, 'dogWalk']);
    const [tunnel] = course.obstacles;
    if (tunnel?.stand) {
      tunnel.stand.bend = [
        { x: 12, y: 7 },
        { x: 13.5, y: 9 },
        { x: 12, y: 12 },
      ];
    }
    const solid = solidGround(course);
    const ground = course.obstacles.flatMap((o) => (o.stand ? footprint(o, o.stand) : []));
    const x = fc.double({ min: 0, max: 40, noNaN: true });
    const y = fc.double({ min: 0, max: 20, noNaN: true });
    fc.assert(
      fc.property(x, y, x, y, (ax, ay, bx, by) => {
        const [a, b] = [
          { x: ax, y: ay },
          { x: bx, y: by },
        ];
        if (distanceToGround(ground, a) < 0.6 || distanceToGround(ground, b) < 0.6) return;
        const way = wayRound(a, b, solid);
        expect([way[0], way.at(-1)]).toEqual([a, b]);
        expect(lengthOf(way)).toBeGreaterThanOrEqual(Math.hypot(bx - ax, by - ay) - 1e-9);
        for (let i = 1; i < way.length; i++) {
          const [p, q] = [way[i - 1] ?? a, way[i] ?? b];
          for (let k = 0; k <= 40; k++) {
            const at = { x: p.x + ((q.x - p.x) * k) / 40, y: p.y + ((q.y - p.y) * k) / 40 };
            // The elbow, less what straight pieces of a bent tunnel cut off.
            expect(distanceToGround(ground, at)).toBeGreaterThan(0.2);
          }
        }
      }),
      { numRuns: 200 },
    );
  });
});
