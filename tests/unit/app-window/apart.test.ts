import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apart, boardRoom } from '../../../app/window/map/apart.ts';

const overlaps = (spots: readonly { x: number; y: number }[]): number =>
  spots.flatMap((a, i) =>
    spots
      .slice(i + 1)
      .filter(
        (b) => Math.abs(a.x - b.x) < boardRoom.width - 0.1 && Math.abs(a.y - b.y) < boardRoom.height - 0.1,
      ),
  ).length;

describe('boards on a small map', () => {
  it('stay where they have room', () => {
    const spots = [
      { x: 40, y: 40 },
      { x: 100, y: 40 },
    ];
    expect(apart(spots, 200, 200)).toEqual(spots);
  });

  it('come apart, also from one and the same place', () => {
    const spots = apart(
      Array.from({ length: 5 }, () => ({ x: 100, y: 100 })),
      240,
      300,
    );
    expect(overlaps(spots)).toBe(0);
  });

  it('never overlap and never leave the sheet, where there is room for four times as many', () => {
    const at = fc.record({ x: fc.integer({ min: 0, max: 240 }), y: fc.integer({ min: 0, max: 480 }) });
    fc.assert(
      fc.property(fc.array(at, { maxLength: 30 }), (spots) => {
        const placed = apart(spots, 240, 480);
        expect(overlaps(placed)).toBe(0);
        expect(placed.every((p) => p.x >= 0 && p.x <= 240 && p.y >= 0 && p.y <= 480)).toBe(true);
      }),
    );
  });
});
