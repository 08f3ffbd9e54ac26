import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Stand } from '../../../src/course/course.ts';
import { equipment } from '../../../src/course/equipment.ts';
import { distanceToGround, extentOf, footprint, quadsMeet } from '../../../src/course/footprint.ts';
import { obstacleKinds, type ObstacleKind } from '../../../src/course/kinds.ts';
import { equipmentShapes, wayThrough, type PlanShape } from '../../../src/course/planShapes.ts';
import { distance, lengthOf } from '../../../src/course/pose.ts';
import { bentInto, smoothLine, tunnelLine, turnOf } from '../../../src/course/tunnelLine.ts';

const stand: Stand = { x: 10, y: 5, headingDegrees: 0 };

/** Ends of what is drawn, with half of the thickness where a line has one across. */
function drawnExtent(shapes: readonly PlanShape[]): ReturnType<typeof extentOf> {
  return extentOf(
    shapes.flatMap((s) => (s.shape === 'dot' ? [{ x: s.x, y: s.y }] : s.points.map(([x, y]) => ({ x, y })))),
  );
}

describe('equipment in plan', () => {
  it.each<[ObstacleKind, number]>([
    ['aFrame', 4.195],
    ['dogWalk', 10.388],
    ['seeSaw', 3.7],
    ['weavePoles', 11 * 0.6],
    ['tunnel', 5],
  ])('%s is as long as the published sizes make it', (kind, length) => {
    const { x0, x1 } = drawnExtent(equipmentShapes({ kind }, stand));
    expect(x1 - x0).toBeCloseTo(length, 3);
  });

  it('a jump is as wide as its bar and its wings, and turns with its heading', () => {
    const { y0, y1 } = drawnExtent(equipmentShapes({ kind: 'barJump' }, stand));
    expect(y1 - y0).toBeCloseTo(1.3 + 2 * 0.5, 6);
    const turned = drawnExtent(equipmentShapes({ kind: 'barJump' }, { ...stand, headingDegrees: 90 }));
    expect(turned.x1 - turned.x0).toBeCloseTo(2.3, 6);
    expect(turned.y1 - turned.y0).toBeCloseTo(0, 6);
  });

  it('follows the sizes a piece has of its own', () => {
    const narrow = drawnExtent(
      equipmentShapes({ kind: 'barJump', sizes: { barWidth: 1.2, wings: false } }, stand),
    );
    expect(narrow.y1 - narrow.y0).toBeCloseTo(1.2, 6);
    const six = equipmentShapes({ kind: 'weavePoles', sizes: { poles: 6 } }, stand);
    expect(six.filter((s) => s.as === 'pole').length).toBe(6);
    const spread = drawnExtent(equipmentShapes({ kind: 'spread', sizes: { depth: 0.3 } }, stand));
    expect(spread.x1 - spread.x0).toBeCloseTo(0.3, 6);
  });

  it('draws the back bar of a spread longer than the front one (FCI changes from 2012: by 10 cm)', () => {
    const bars = equipmentShapes({ kind: 'spread' }, stand).flatMap((s) =>
      s.shape === 'path' && s.as === 'bar'
        ? [Math.abs((s.points[1]?.[1] ?? 0) - (s.points[0]?.[1] ?? 0))]
        : [],
    );
    expect((bars[1] ?? 0) - (bars[0] ?? 0)).toBeCloseTo(0.1, 6);
  });

  it('lies within its own footprint, whatever the kind and the heading', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...obstacleKinds),
        fc.double({ min: -360, max: 360, noNaN: true }),
        (kind, h) => {
          const at = { ...stand, headingDegrees: h };
          const ground = footprint({ kind }, at);
          for (const s of equipmentShapes({ kind }, at)) {
            const points = s.shape === 'dot' ? [[s.x, s.y] as const] : s.points;
            for (const [x, y] of points) expect(distanceToGround(ground, { x, y }), kind).toBeLessThan(0.06);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('is entered where it is entered: ends of planks, mouths of tunnels, the middle of a jump', () => {
    const [into, out] = wayThrough({ kind: 'dogWalk' }, stand, 'reverse');
    expect(into.x - out.x).toBeCloseTo(equipment.dogWalkFootprint.value, 6);
    expect(wayThrough({ kind: 'barJump' }, stand, 'forward')[0]).toMatchObject({ x: 10, y: 5 });
    const bend = [
      { x: 0, y: 0 },
      { x: 2, y: 0 },
      { x: 3, y: 2 },
    ];
    const [mouth, end] = wayThrough({ kind: 'tunnel' }, { ...stand, bend }, 'reverse');
    expect([mouth.x, mouth.y, end.x, end.y]).toEqual([3, 2, 0, 0]);
  });
});

describe('a tunnel', () => {
  it('goes through every point of its bend', () => {
    const bend = [
      { x: 0, y: 0 },
      { x: 1, y: 0.5 },
      { x: 2, y: 0 },
    ];
    const line = smoothLine(bend);
    for (const p of bend) expect(Math.min(...line.map((q) => distance(p, q)))).toBeLessThan(1e-9);
    expect(smoothLine([])).toEqual([]);
  });

  it('keeps its length and its middle when it is bent', () => {
    fc.assert(
      fc.property(fc.integer({ min: -200, max: 200 }), fc.integer({ min: 3, max: 6 }), (turn, length) => {
        const bent = bentInto(stand, length, turn);
        const line = tunnelLine(bent, length);
        // Catmull-Rom through five points of a circle is a little shorter than the arc.
        expect(Math.abs(lengthOf(line) - length)).toBeLessThan(0.04 * length);
        expect(distance(bent, stand)).toBeLessThan(0.002);
        expect(Math.abs(turnOf(bent, length) - turn)).toBeLessThan(0.5);
      }),
      { numRuns: 60 },
    );
  });
});

describe('footprints', () => {
  const jumpAt = (x: number, heading = 0) =>
    footprint({ kind: 'barJump' }, { x, y: 0, headingDegrees: heading });
  const meet = (a: ReturnType<typeof footprint>, b: ReturnType<typeof footprint>): boolean =>
    a.some((p) => b.some((q) => quadsMeet(p, q)));

  it('meet where ground is shared and not where only a corner comes near', () => {
    expect(meet(jumpAt(0), jumpAt(0.15))).toBe(true);
    expect(meet(jumpAt(0), jumpAt(0.25))).toBe(false);
    expect(meet(jumpAt(0), jumpAt(1, 90))).toBe(true);
    expect(meet(jumpAt(0), jumpAt(1.3, 90))).toBe(false);
  });

  it('tell how far a point is', () => {
    expect(distanceToGround(jumpAt(0), { x: 0, y: 0.5 })).toBe(0);
    expect(distanceToGround(jumpAt(0), { x: 2.1, y: 0 })).toBeCloseTo(2, 6);
  });
});
