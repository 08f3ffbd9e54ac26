import { describe, expect, it } from 'vitest';
import { choicesOf, drawnSizes, equipment, type Dimension } from '../../../src/course/equipment.ts';
import { obstacleKinds } from '../../../src/course/kinds.ts';

describe('the table of equipment', () => {
  it('says where each value comes from and keeps it within what its source allows', () => {
    for (const [name, dimension] of Object.entries<Dimension>(equipment)) {
      expect(dimension.value, name).toBeGreaterThan(0);
      expect(dimension.source.length, name).toBeGreaterThan(3);
      const [least, most] = dimension.range ?? [dimension.value, dimension.value];
      expect(dimension.value, name).toBeGreaterThanOrEqual(least);
      expect(dimension.value, name).toBeLessThanOrEqual(most);
    }
  });

  it('derives plan lengths of ramps from their sizes (arithmetic on the published apex and ramp)', () => {
    const slope = (rise: number, ramp: number): number => Math.asin(rise / ramp);
    const frame = slope(1.7, 2.7);
    const walk = slope(1.2, 3.6);
    expect(equipment.aFrameFootprint.value).toBeCloseTo(2 * 2.7 * Math.cos(frame), 3);
    expect(equipment.dogWalkFootprint.value).toBeCloseTo(3.6 + 2 * 3.6 * Math.cos(walk), 3);
    expect(equipment.aFrameContact.value).toBeCloseTo(1.06 * Math.cos(frame), 3);
    expect(equipment.dogWalkContact.value).toBeCloseTo(0.9 * Math.cos(walk), 3);
  });

  it('gives a piece its own sizes and takes the rest from the table', () => {
    expect(drawnSizes('barJump', { barWidth: 1.2, wings: false })).toMatchObject({
      barWidth: 1.2,
      wings: false,
    });
    expect(drawnSizes('spread')).toMatchObject({ barWidth: 1.3, depth: 0.5, wings: true });
    expect(drawnSizes('weavePoles', { poles: 6 })).toMatchObject({ poles: 6, spacing: 0.6 });
  });

  it('leaves a size aside that its kind does not have', () => {
    for (const kind of obstacleKinds) {
      const poles = drawnSizes(kind, { poles: 3 }).poles;
      expect(poles, kind).toBe(choicesOf(kind).includes('poles') ? 3 : 12);
    }
  });
});
