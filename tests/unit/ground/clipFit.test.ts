import { describe, expect, it } from 'vitest';
import { emptyCourse, type Course } from '../../../src/course/course.ts';
import { clipFit, fitHolding, groundFitAt } from '../../../src/ground/clipFit.ts';
import type { CourseFit, FitPoint } from '../../../src/ground/courseFit.ts';
import { knownPoints } from '../../../src/ground/knownPoints.ts';
import { cameraAt, picture, ring, truePixel } from './scene.ts';

const stand = (x: number, y: number) => ({ x, y, headingDegrees: 80 });
const course: Course = {
  ...emptyCourse(),
  ring,
  obstacles: [stand(8, 6), stand(13, 9), stand(6, 18), stand(14, 24)].map((s, i) => ({
    id: `o${i}`,
    kind: 'barJump',
    nickname: '',
    stand: s,
  })),
};
const known = knownPoints(course).filter((k) => k.part.obstacleId !== undefined);
const camera = cameraAt(3, 67);
const bumpedCamera = cameraAt(3, 67, { pan: 0.01 });

/** The first so many known points as they are seen on a frame. */
const clicks = (pts: number, from: number, to: number, by = camera): FitPoint[] =>
  known.slice(from, to).map(({ part, at }) => {
    const seen = truePixel(by, at);
    if (!seen) throw new Error('not in the picture');
    return { part, at: { x: seen.x / picture.width, y: seen.y / picture.height }, pts };
  });
const fit = (points: FitPoint[], more: Partial<CourseFit> = {}): CourseFit => ({
  id: 'a',
  footageId: 'film',
  points,
  ...more,
});
const at = (pts: number) => ({ footageId: 'film', pts });

describe('the fit that holds for a frame', () => {
  const first = fit([]);
  const later = fit([], { id: 'b', span: { from: 50, to: 99 } });
  it('is the one that begins last', () => {
    const fits = [later, first, fit([], { id: 'c', footageId: 'other', span: { from: 60, to: 99 } })];
    expect(fitHolding(fits, 'film', 49)?.id).toBe('a');
    expect(fitHolding(fits, 'film', 50)?.id).toBe('b');
    expect(fitHolding(fits, 'film', 100)?.id).toBe('a');
    expect(fitHolding(fits, 'lost', 0)).toBeUndefined();
  });
});

describe('clicks on several frames', () => {
  it('count together as long as the camera stands', () => {
    const { result, counted, off } = clipFit(fit([...clicks(0, 0, 6), ...clicks(40, 4, 12)]), known, picture);
    expect(result.fitted).toBe(true);
    expect(counted.size).toBe(12);
    expect([...counted.values()].filter((p) => p.pts === 40)).toHaveLength(6);
    expect(off).toBeNull();
  });

  it('tell that it was bumped, and from there on nothing is known', () => {
    const body = fit([...clicks(40, 0, 4, bumpedCamera), ...clicks(0, 0, 12)]);
    const { counted, off } = clipFit(body, known, picture);
    expect(off).toMatchObject({ pts: 40, bump: { verdict: 'moved' } });
    expect(counted.size).toBe(12);
    expect(groundFitAt([body], known, picture, at(39))).not.toBeNull();
    expect(groundFitAt([body], known, picture, at(40))).toBeNull();
    const again = fit(clicks(40, 0, 8, bumpedCamera), { id: 'b', span: { from: 40, to: 99 } });
    expect(groundFitAt([body, again], known, picture, at(40))).not.toBeNull();
  });

  it('one click that is off tells a bump from a slip only with others beside it', () => {
    const slip = clicks(40, 0, 1).map((p) => ({ ...p, at: { ...p.at, x: p.at.x + 0.03 } }));
    const alone = clipFit(fit([...clicks(0, 0, 12), ...slip]), known, picture);
    expect(alone.off?.bump.verdict).toBe('unclear');
    const beside = clipFit(fit([...clicks(0, 0, 12), ...slip, ...clicks(40, 1, 4)]), known, picture);
    expect(beside.off?.bump).toMatchObject({ verdict: 'onePoint', id: known[0]?.id });
    expect(groundFitAt([fit([...clicks(0, 0, 12), ...slip])], known, picture, at(40))).not.toBeNull();
  });
});

describe('what is no evidence', () => {
  it('what was only agreed to, and what the course no longer has, does not count', () => {
    const agreed = clicks(0, 3, 12).map((p) => ({ ...p, agreed: true as const }));
    const gone = fit([
      ...clicks(0, 0, 3),
      ...agreed,
      { ...(clicks(0, 3, 4)[0] as FitPoint), part: { obstacleId: 'gone', part: 'leftWing' } },
    ]);
    const { result, lost } = clipFit(gone, known, picture);
    expect(result).toEqual({ fitted: false, why: 'tooFew', missing: 1 });
    expect(lost.map((p) => p.part.obstacleId)).toEqual(['gone']);
    expect(groundFitAt([gone], known, picture, at(0))).toBeNull();
  });

  it('nothing clicked asks for four points', () => {
    expect(clipFit(fit([]), known, picture).result).toEqual({ fitted: false, why: 'tooFew', missing: 4 });
  });
});
