import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  middleFor,
  nextPlace,
  nextZoom,
  placeAt,
  placeUnder,
  put,
  shiftTo,
  wholeView,
  withoutPlace,
  withPlace,
  zooms,
  zoomWithin,
} from '../../../app/window/review/look/magnifier.ts';

const near = { ...wholeView, zoom: 4 };
const share = fc.double({ min: 0, max: 1, noNaN: true });
const fits = fc.record({
  width: fc.double({ min: 100, max: 4000, noNaN: true }),
  height: fc.double({ min: 100, max: 4000, noNaN: true }),
  shape: fc.double({ min: 0.3, max: 3, noNaN: true }),
});
const zoom = fc.double({ min: 1, max: 8, noNaN: true });

describe('the size of the magnifier', () => {
  it('goes through its row both ways and stops at the ends', () => {
    const up = zooms.slice(1).reduce<number[]>((row) => [...row, nextZoom(row.at(-1) ?? 1, 1)], [1]);
    expect(up).toEqual([...zooms]);
    expect(nextZoom(8, 1)).toBe(8);
    expect(nextZoom(1, -1)).toBe(1);
    expect(nextZoom(2.4, 1)).toBe(3);
    expect(nextZoom(2.4, -1)).toBe(2);
  });

  it('is never outside its range, whatever number is asked for', () => {
    expect([NaN, -5, 0, Infinity, 3].map(zoomWithin)).toEqual([1, 1, 1, 8, 3]);
  });
});

describe('the place of the magnifier', () => {
  it('rests before the first and after the last set place, and glides in between in time, not in frames', () => {
    const m = withPlace(withPlace(near, 100, { x: 0.2, y: 0.3 }), 200, { x: 0.6, y: 0.7 });
    expect(placeAt(m, 0)).toEqual({ x: 0.2, y: 0.3 });
    expect(placeAt(m, 900)).toEqual({ x: 0.6, y: 0.7 });
    // Frames of uneven length: three frames at 100, 110, 160, 200 move by a tenth, a half and the rest.
    for (const [pts, part] of [
      [110, 0.1],
      [160, 0.6],
      [200, 1],
    ] as const) {
      expect(placeAt(m, pts).x).toBeCloseTo(0.2 + 0.4 * part, 12);
      expect(placeAt(m, pts).y).toBeCloseTo(0.3 + 0.4 * part, 12);
    }
  });

  it('goes through every set place, in whatever order they were set', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.record({ pts: fc.integer({ min: -1000, max: 1e6 }), x: share, y: share }), {
          selector: (p) => p.pts,
          minLength: 1,
          maxLength: 12,
        }),
        (places) => {
          const m = places.reduce((all, p) => withPlace(all, p.pts, p), near);
          for (const p of places) {
            const { x, y } = placeAt(m, p.pts);
            expect(x).toBeCloseTo(Math.max(0.125, Math.min(0.875, p.x)), 9);
            expect(y).toBeCloseTo(Math.max(0.125, Math.min(0.875, p.y)), 9);
          }
          expect(m.places.map((p) => p.pts)).toEqual([...m.places.map((p) => p.pts)].sort((a, b) => a - b));
        },
      ),
    );
  });

  it('lies between its neighbours at every time between them', () => {
    fc.assert(
      fc.property(share, share, fc.integer({ min: 1, max: 1e6 }), share, (a, b, length, at) => {
        const m = withPlace(withPlace(near, 0, { x: a, y: 0.5 }), length, { x: b, y: 0.5 });
        const { x } = placeAt(m, at * length);
        const ends = [placeAt(m, 0).x, placeAt(m, length).x];
        expect(x).toBeGreaterThanOrEqual(Math.min(...ends) - 1e-9);
        expect(x).toBeLessThanOrEqual(Math.max(...ends) + 1e-9);
      }),
    );
  });

  it('is one a frame: setting again replaces, moving while it follows sets', () => {
    const one = withPlace(near, 50, { x: 0.3, y: 0.3 });
    expect(withPlace(one, 50, { x: 0.4, y: 0.4 }).places).toEqual([{ pts: 50, x: 0.4, y: 0.4 }]);
    expect(put(near, 50, { x: 0.4, y: 0.4 }).places).toEqual([]);
    expect(put(one, 80, { x: 0.4, y: 0.4 }).places).toHaveLength(2);
  });

  it('stays where it is when its last set place is removed', () => {
    const one = withPlace(near, 50, { x: 0.3, y: 0.6 });
    expect(placeAt(withoutPlace(one, 50), 999)).toEqual({ x: 0.3, y: 0.6 });
    expect(withoutPlace(one, 51).places).toHaveLength(1);
  });

  it('finds the set place before and after a frame', () => {
    const m = [10, 20, 30].reduce((all, pts) => withPlace(all, pts, { x: 0.5, y: 0.5 }), near);
    expect(nextPlace(m, 20, 1)?.pts).toBe(30);
    expect(nextPlace(m, 20, -1)?.pts).toBe(10);
    expect(nextPlace(m, 30, 1)).toBeUndefined();
    expect(nextPlace(m, 15, -1)?.pts).toBe(10);
  });
});

describe('where the enlarged picture lies', () => {
  it('shows the whole picture where it was without a magnifier', () => {
    const shift = shiftTo({ width: 960, height: 540, shape: 9 / 16 }, 1, { x: 0.1, y: 0.9 });
    expect(shift.scale).toBe(1);
    expect(shift.x).toBeCloseTo(0, 9);
    expect(shift.y).toBeCloseTo(0, 9);
  });

  it('brings a place to the middle of the box, but no edge of the picture into it', () => {
    const fit = { width: 960, height: 540, shape: 9 / 16 };
    const shift = shiftTo(fit, 4, { x: 0.4, y: 0.6 });
    const middle = placeUnder(fit, shift, { x: 480, y: 270 });
    expect(middle.x).toBeCloseTo(0.4, 9);
    expect(middle.y).toBeCloseTo(0.6, 9);
    const corner = shiftTo(fit, 4, { x: 0, y: 0 });
    expect(placeUnder(fit, corner, { x: 0, y: 0 }).x).toBeCloseTo(0, 9);
  });

  it('never shows a border that could be picture, in any box', () => {
    fc.assert(
      fc.property(fits, zoom, share, share, (fit, z, x, y) => {
        const shift = shiftTo(fit, z, { x, y });
        const first = placeUnder(fit, shift, { x: 0, y: 0 });
        const last = placeUnder(fit, shift, { x: fit.width, y: fit.height });
        for (const axis of ['x', 'y'] as const) {
          const filled = last[axis] - first[axis] <= 1;
          if (filled) {
            expect(first[axis]).toBeGreaterThanOrEqual(-1e-9);
            expect(last[axis]).toBeLessThanOrEqual(1 + 1e-9);
          } else {
            expect(first[axis] + last[axis]).toBeCloseTo(1, 6);
          }
        }
      }),
    );
  });

  it('keeps the place under the pointer there while the wheel turns, away from the edges', () => {
    fc.assert(
      fc.property(zoom, share, share, (z, px, py) => {
        const fit = { width: 960, height: 540, shape: 9 / 16 };
        const point = { x: px * fit.width, y: py * fit.height };
        const under = placeUnder(fit, shiftTo(fit, 1, { x: 0.5, y: 0.5 }), point);
        const again = placeUnder(fit, shiftTo(fit, z, middleFor(fit, z, under, point)), point);
        expect(again.x).toBeCloseTo(under.x, 6);
        expect(again.y).toBeCloseTo(under.y, 6);
      }),
    );
  });
});
