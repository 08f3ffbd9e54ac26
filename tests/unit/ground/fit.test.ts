import { describe, expect, it, test } from 'vitest';
import { project } from '../../../src/ground/camera.ts';
import { fitCourse, type Fit, type FitWish } from '../../../src/ground/fit.ts';
import type { PlanePoint } from '../../../src/ground/homography.ts';
import type { Sighting } from '../../../src/ground/model.ts';
import { nextBest, predictions } from '../../../src/ground/predict.ts';
import { fitWarningSentence, noFitSentence, setAsideSentence } from '../../../src/words/ground.ts';
import { cameraAt, clicked, picture, ringCorners, spotsIn, truePixel } from './scene.ts';

const camera = cameraAt(3, 67);
const wish: FitWish = { area: ringCorners };

function fitted(sightings: readonly Sighting[], how = wish): Fit {
  const fit = fitCourse(sightings, picture, how);
  if (!fit.fitted) throw new Error(fit.why);
  return fit;
}
const why = (sightings: readonly Sighting[]): string => {
  const fit = fitCourse(sightings, picture, wish);
  return fit.fitted ? 'fitted' : fit.why;
};
const warned = (fit: Fit): readonly string[] => fit.warnings.map((w) => w.warning);
const setAside = (fit: Fit): readonly string[] => fit.points.filter((p) => !p.used).map((p) => p.id);
const shifted = (list: readonly Sighting[], i: number, by: PlanePoint): Sighting[] =>
  list.map((s, k) => (k === i ? { ...s, pixel: { x: s.pixel.x + by.x, y: s.pixel.y + by.y } } : s));
const quad = [
  { x: 8, y: 4 },
  { x: 13, y: 5 },
  { x: 17, y: 33 },
  { x: 4, y: 30 },
];

describe('points that are right', () => {
  test('four are enough, but nobody checks them', () => {
    const fit = fitted(clicked(camera, quad, 0, 1));
    expect(warned(fit)).toEqual(['unchecked', 'lensUnknown']);
    expect(fit.worst).toBeNull();
    const [x, y] = [10, 15];
    const [at, truth] = [project(fit.camera, { x, y }), truePixel(camera, { x, y })];
    expect(Math.hypot((at?.x ?? NaN) - (truth?.x ?? NaN), (at?.y ?? NaN) - (truth?.y ?? NaN))).toBeLessThan(
      1e-6,
    );
  });

  test('twelve with the noise of clicks: all are used, and nothing is warned of', () => {
    const fit = fitted(clicked(camera, spotsIn(camera, 12, 2), 2, 4));
    expect(setAside(fit)).toEqual([]);
    expect(warned(fit)).toEqual([]);
    expect(fit.worst).not.toBeNull();
    expect(fit.numbers).toHaveLength(9);
    expect(fit.noise).toEqual({ pixels: 2, measured: false });
  });

  test('forty measure their own noise', () => {
    const fit = fitted(clicked(camera, spotsIn(camera, 40, 8), 6, 4));
    expect(fit.noise.measured).toBe(true);
    expect(fit.noise.pixels).toBeGreaterThan(4.5);
    expect(fit.noise.pixels).toBeLessThan(7.5);
  });
});

describe('points that are wrong', () => {
  test.each(Array.from({ length: 12 }, (_, i) => i))(
    'the one of twelve that is 40 px off is named: %d',
    (i) => {
      const right = clicked(camera, spotsIn(camera, 12, 8), 2, 4);
      const fit = fitted(shifted(right, i, { x: 40 * Math.cos(i), y: 40 * Math.sin(i) }));
      expect(setAside(fit)).toEqual([`p${i}`]);
      expect(fit.worst).toBe(`p${i}`);
    },
  );

  test('two that were exchanged are both set aside', () => {
    const right = clicked(camera, spotsIn(camera, 12, 8), 2, 4);
    const [a, b] = [right[2], right[7]];
    if (!a || !b) throw new Error('no points');
    const fit = fitted(
      right.map((s) => (s === a ? { ...a, pixel: b.pixel } : s === b ? { ...b, pixel: a.pixel } : s)),
    );
    expect(setAside(fit)).toEqual(['p2', 'p7']);
  });

  test('of five none can be named, but it is said that they disagree', () => {
    const five = clicked(camera, [...quad, { x: 11, y: 12 }], 1, 3);
    const fit = fitted(shifted(five, 4, { x: 40, y: 0 }));
    expect(setAside(fit)).toEqual([]);
    expect(warned(fit)).toContain('disagree');
    expect(fit.noise.pixels).toBeGreaterThan(5);
  });

  test('a map that is built by eye: all points are kept, and their noise is what they say', () => {
    const fit = fitted(clicked(camera, spotsIn(camera, 20, 8), 12, 4));
    expect(setAside(fit).length).toBeLessThanOrEqual(1);
    expect(warned(fit)).toContain('disagree');
    expect(fit.noise.pixels).toBeGreaterThan(8);
  });
});

describe('points that do not say enough', () => {
  const line = [4, 10, 17, 30].map((y) => ({ x: 10, y }));

  test('fewer than four', () => {
    expect(why([])).toBe('tooFew');
    const three = fitCourse(clicked(camera, quad.slice(1), 0, 1), picture);
    expect(three).toEqual({ fitted: false, why: 'tooFew', missing: 1 });
  });

  test('four in a line, three of four in a line, and all on one spot', () => {
    expect(why(clicked(camera, line, 0, 1))).toBe('inLine');
    expect(why(clicked(camera, line, 2, 1))).toBe('inLine');
    expect(why(clicked(camera, [...line.slice(1), { x: 4, y: 12 }], 0, 1))).toBe('inLine');
    expect(
      why(
        clicked(
          camera,
          quad.map(() => ({ x: 10, y: 10 })),
          0,
          1,
        ),
      ),
    ).toMatch(/unclear|inLine/);
  });

  test('nearly in a line, and all but one', () => {
    const near = line.map(({ x, y }, i) => ({ x: x + (i % 2 ? 0.5 : -0.5), y }));
    expect(warned(fitted(clicked(camera, near, 0, 1)))).toContain('inLine');
    const butOne = fitted(clicked(camera, [...near, { x: 10.2, y: 22 }, { x: 4, y: 14 }], 0, 1));
    expect(butOne.warnings).toContainEqual({ warning: 'inLine', butFor: 'p5' });
  });

  test('bunched in a corner of the ring', () => {
    const bunch = [
      [8, 5],
      [12, 5],
      [12, 9],
      [8, 9],
      [10, 6],
    ].map(([x = 0, y = 0]) => ({ x, y }));
    const fit = fitted(clicked(camera, bunch, 1, 1));
    expect(fit.warnings).toContainEqual({ warning: 'bunched', share: 0.02 });
  });
});

describe('clicks that no camera above the ground can give', () => {
  const flipped = (list: readonly Sighting[]): Sighting[] =>
    list.map((s) => ({ ...s, pixel: { x: picture.width - s.pixel.x, y: s.pixel.y } }));

  test('the course in a mirror', () => {
    expect(why(flipped(clicked(camera, quad, 2, 1)))).toBe('mirrored');
    expect(why(flipped(clicked(camera, spotsIn(camera, 12, 8), 2, 4)))).toBe('mirrored');
  });

  test('two of four exchanged: part of the ground behind the camera', () => {
    const four = clicked(camera, quad, 0, 1);
    const [a, b, c, d] = four;
    if (!a || !b || !c || !d) throw new Error('no points');
    expect(why([{ ...a, pixel: b.pixel }, { ...b, pixel: a.pixel }, c, d])).toBe('behind');
  });

  test.each([NaN, Infinity, 1e300])('a place that is no place: %d', (x) => {
    const list = clicked(camera, spotsIn(camera, 6, 8), 2, 4);
    const bad = fitCourse([...list, { id: 'bad', ground: { x, y: 0 }, pixel: { x: 1, y: 1 } }], picture);
    expect(bad).toEqual({ fitted: false, why: 'badNumbers', ids: ['bad'] });
    expect(fitCourse(list, { width: x, height: 1080 }).fitted).toBe(false);
  });
});

describe('the lens', () => {
  const bending = cameraAt(3, 67, { lens: { k1: -0.08, k2: 0 } });

  test('is fitted where twenty points tell it', () => {
    const fit = fitted(clicked(bending, spotsIn(bending, 20, 8), 2, 4));
    expect(fit.camera.lens.k1).toBeLessThan(-0.02);
    expect(setAside(fit)).toEqual([]);
  });

  test('is not asked after with few points, which say so, nor where it is known to be straight', () => {
    const few = fitted(clicked(bending, spotsIn(bending, 7, 8), 2, 4));
    expect(few.numbers).toHaveLength(8);
    expect(warned(few)).toContain('lensUnknown');
    const told = fitted(clicked(bending, spotsIn(bending, 20, 8), 2, 4), { lens: 'straight' });
    expect(told.camera.lens).toEqual({ k1: 0, k2: 0 });
  });

  test('a wrong click among twelve is not taken for a lens', () => {
    const right = clicked(bending, spotsIn(bending, 20, 8), 2, 4);
    const fit = fitted(shifted(right, 3, { x: -30, y: 27 }));
    expect(setAside(fit)).toEqual(['p3']);
    expect(fit.camera.lens.k1).toBeLessThan(-0.02);
  });
});

describe('the rest snaps in', () => {
  const fit = fitted(clicked(camera, quad, 2, 1));
  const rest = spotsIn(camera, 20, 3).map((ground, i) => ({ id: `r${i}`, ground }));

  it('expects parts where they are, within what it says', () => {
    const all = predictions(fit, [...rest, { id: 'behind', ground: { x: 10, y: -30 } }]);
    expect(all.map((p) => p.id)).toEqual(rest.map((r) => r.id));
    const within = all.filter((p, i) => {
      const truth = truePixel(camera, rest[i]?.ground ?? { x: 0, y: 0 });
      const [ex, ey] = [p.pixel.x - (truth?.x ?? NaN), p.pixel.y - (truth?.y ?? NaN)];
      const [c, s] = [Math.cos(p.ellipse.angle), Math.sin(p.ellipse.angle)];
      return ((c * ex + s * ey) / p.ellipse.longer) ** 2 + ((c * ey - s * ex) / p.ellipse.shorter) ** 2 <= 1;
    });
    expect(within.length).toBeGreaterThanOrEqual(17);
    expect(all.every((p) => p.inPicture)).toBe(true);
  });

  it('names the part that helps the most, and keeps what it promises', () => {
    const places = spotsIn(camera, 40, 9);
    const best = nextBest(fit, rest, places);
    if (!best) throw new Error('none');
    expect(best.expected).toBeLessThan(best.now);
    const after = (id: string): number => {
      const one = rest.find((r) => r.id === id);
      const five = fitted(clicked(camera, [...quad, one?.ground ?? { x: 0, y: 0 }], 0, 1));
      return nextBest(five, rest, places)?.now ?? NaN;
    };
    const exact = nextBest(fitted(clicked(camera, quad, 0, 1)), rest, places);
    expect(after(exact?.id ?? '')).toBeCloseTo(exact?.expected ?? NaN, 2);
    const others = rest.map((r) => after(r.id));
    expect(after(exact?.id ?? '')).toBeLessThanOrEqual(Math.min(...others) * 1.001);
  });

  it('has nothing to name where nothing is on the picture', () => {
    expect(nextBest(fit, [{ id: 'x', ground: { x: 10, y: -30 } }], quad)).toBeNull();
    expect(nextBest(fit, rest, [{ x: 10, y: -30 }])).toBeNull();
  });
});

describe('words', () => {
  const name = (id: string): string => `the ${id}`;

  it('say what to do', () => {
    expect(noFitSentence({ fitted: false, why: 'tooFew', missing: 1 }, name)).toBe(
      'Click one point more: four are needed.',
    );
    expect(noFitSentence({ fitted: false, why: 'tooFew', missing: 3 }, name)).toContain('3 points more');
    expect(noFitSentence({ fitted: false, why: 'badNumbers', ids: ['a', 'b'] }, name)).toContain(
      'the a and the b',
    );
    for (const reason of ['inLine', 'behind', 'mirrored', 'unclear'] as const)
      expect(noFitSentence({ fitted: false, why: reason }, name)).toMatch(/\. (Click|Check) .*\.$/);
    expect(fitWarningSentence({ warning: 'inLine', butFor: 'a' }, name)).toContain('All points but the a');
    expect(fitWarningSentence({ warning: 'bunched', share: 0.001 }, name)).toContain('only 1 %');
    expect(fitWarningSentence({ warning: 'unchecked', ids: ['a'] }, name)).toContain('checks the a');
    expect(setAsideSentence('the a')).toContain('contradict the a');
  });
});
