import { describe, expect, it } from 'vitest';
import { mat } from '../../../src/track/matrices.ts';
import { farthestTold, startLineStayed, type WaitingMark } from '../../../src/track/stayed.ts';
import type { DogPoint } from '../../../src/track/track.ts';
import { reading } from './lines.ts';

const paws: DogPoint[] = ['leftFrontPaw', 'rightFrontPaw', 'leftHindPaw', 'rightHindPaw'];

/** All four paws at 0 s and at 2 s, `step` metres on for the first of them, each click good to 2 mm. */
const waiting = (step: number, sigma = 0.002): WaitingMark[] =>
  paws.flatMap((point, i) => [
    { point, reading: reading(0, i, 0, sigma) },
    { point, reading: reading(2, i + (i === 0 ? step : 0), 0, sigma) },
  ]);

describe('the start line', () => {
  it.each([
    [0, 'kept'],
    [0.01, 'kept'],
    [0.03, 'cannotTell'],
    [0.05, 'broke'],
    [0.1, 'broke'],
  ] as const)('a step of %d m with clear clicks: %s', (step, verdict) => {
    expect(startLineStayed(waiting(step), null, 5).verdict).toBe(verdict);
  });

  it('cannot tell where clicks are as far off as the step', () => {
    expect(startLineStayed(waiting(0.05, 0.05), null, 5).verdict).toBe('cannotTell');
    expect(startLineStayed(waiting(0, 0.05), null, 5).verdict).toBe('cannotTell');
  });

  it('tells the least and the most (hand value: four paws once more, √(2 ln 40,000) = 4.6036 deviations)', () => {
    const [first] = startLineStayed(waiting(0.05), null, 5).moved;
    const band = 4.603615 * Math.sqrt(2) * 0.2;
    expect(first?.centimetres).toBeCloseTo(5, 6);
    expect(first?.least).toBeCloseTo(5 - band, 3);
    expect(first?.most).toBeCloseTo(5 + band, 3);
  });

  it('a head does not count, and paws that nobody marked are not kept', () => {
    const nods: WaitingMark[] = [
      { point: 'nose', reading: reading(0, 0, 0, 0.002) },
      { point: 'nose', reading: reading(1, 0.3, 0, 0.002) },
    ];
    const told = startLineStayed([...waiting(0), ...nods], null, 5);
    expect(told.verdict).toBe('kept');
    expect(told.moved.find((m) => m.point === 'nose')?.verdict).toBe('broke');
    const two = startLineStayed(waiting(0).slice(0, 4), null, 5);
    expect(two).toMatchObject({ verdict: 'cannotTell', notMarked: ['leftHindPaw', 'rightHindPaw'] });
    expect(startLineStayed(waiting(0.1).slice(0, 2), null, 5).verdict).toBe('broke');
  });

  it('what comes after the release says nothing, nor does what is no number', () => {
    const marks = waiting(0.5);
    expect(startLineStayed(marks, null, 1)).toMatchObject({ verdict: 'cannotTell', leftOut: [1, 3, 5, 7] });
    const bad: WaitingMark = { point: 'leftFrontPaw', reading: reading(1, NaN, 0) };
    expect(startLineStayed([bad, ...waiting(0)], null, 5)).toMatchObject({ verdict: 'kept', leftOut: [0] });
    expect(startLineStayed([], null, 5)).toMatchObject({ verdict: 'cannotTell', moved: [] });
  });

  it('several clicks on one frame are averaged', () => {
    const many = Array.from({ length: 9 }, () => waiting(0.08, 0.015)).flat();
    expect(startLineStayed(waiting(0.08, 0.015), null, 5).verdict).toBe('cannotTell');
    expect(startLineStayed(many, null, 5).verdict).toBe('broke');
  });

  it('an error of the fit that moves both spots alike does not matter', () => {
    const shifted = waiting(0.1).map((m) => ({
      ...m,
      reading: { ...m.reading, byFit: [[1], [0]] as const },
    }));
    expect(startLineStayed(shifted, { cov: mat([[100]]) }, 5).verdict).toBe('broke');
  });
});

describe('many looks at one wait', () => {
  it('are each held to more, since each is a chance to be wrong', () => {
    const [once] = startLineStayed(waiting(0.05), null, 5).moved;
    const later = [1, 2, 3, 4].flatMap((k) =>
      waiting(0.05)
        .slice(4)
        .map((m) => ({ ...m, reading: { ...m.reading, at: m.reading.at + k / 100 } })),
    );
    const [often] = startLineStayed([...waiting(0.05), ...later], null, 5).moved;
    expect(often?.least).toBeLessThan(once?.least ?? NaN);
  });
});

describe('how far a step can be told', () => {
  it('by hand: a stand of 3 m, 1500 pixels of focal length, clicks good to a pixel', () => {
    // Room 0.02 m; both spots 4.6036 · √2 = 6.5105 pixels. Across s = 0.02 · 1500 / 6.5105 = 4.608 m to the lens.
    const told = farthestTold({ height: 3, focal: 1500 }, 0.05, 1);
    expect(told.across).toBeCloseTo(Math.sqrt(4.6079 ** 2 - 9), 3);
    // Along s² = 0.02 · 3 · 1500 / 6.5105 = 13.824.
    expect(told.along).toBeCloseTo(Math.sqrt(13.8237 - 9), 3);
  });

  it('further with more clicks and from higher up; never where it does not count', () => {
    const camera = { height: 5, focal: 3000 };
    expect(farthestTold(camera, 0.05, 2, 4).along).toBeGreaterThan(farthestTold(camera, 0.05, 2).along);
    expect(farthestTold(camera, 0.02, 2)).toEqual({ across: 0, along: 0 });
    expect(farthestTold({ height: NaN, focal: 1 }, 0.05, 2)).toEqual({ across: 0, along: 0 });
  });
});
