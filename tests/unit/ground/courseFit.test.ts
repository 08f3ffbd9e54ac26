import { expect, test } from 'vitest';
import { CourseFit } from '../../../src/ground/courseFit.ts';
import { documentProblems, readDocument, writeDocument } from '../../../src/review/readDocument.ts';
import { courseOf, exampleDocument } from '../review/example.ts';

const fit: CourseFit = {
  id: 'c',
  footageId: 'film',
  points: [
    { part: { obstacleId: 'o1', part: 'leftWing' }, at: { x: 0.25, y: 0.5 }, pts: 12 },
    { part: { obstacleId: 'o1', part: 'leftWing' }, at: { x: 0.26, y: 0.5 }, pts: 24 },
    { part: { part: 'ringCorner1' }, at: { x: 0, y: 1 }, pts: 12 },
  ],
  span: { from: 12, to: 24 },
};

const withFits = (...fits: CourseFit[]) => ({ ...exampleDocument(courseOf('barJump'), []), fits });

test('a review file carries its fits there and back', () => {
  const document = withFits(fit, { id: 'd', footageId: 'film', points: [] });
  const reading = readDocument(writeDocument(document));
  if (!reading.ok) throw new Error(reading.problems.join(' '));
  expect(reading.document.fits).toEqual(document.fits);
});

test('points outside of the film, on no film, and fits of one name are told', () => {
  const far = { ...fit, points: fit.points.map((p) => ({ ...p, pts: 99_999 })) };
  const told = documentProblems(withFits(far, { ...fit, footageId: 'lost' })).join(' ');
  expect(told).toContain('film.mp4');
  expect(told).toContain('lost');
  expect(told).toContain('fit');
});

const [point] = fit.points;
test.each([
  ['a place that is no number', { ...fit, points: [{ ...point, at: { x: NaN, y: 0 } }] }],
  ['a place outside of the picture', { ...fit, points: [{ ...point, at: { x: 0, y: -0.1 } }] }],
  ['half a tick', { ...fit, points: [{ ...point, pts: 0.5 }] }],
  ['a part that nothing has', { ...fit, points: [{ ...point, part: { obstacleId: 'o1', part: 'tail' } }] }],
  ['a pole that no set has', { ...fit, points: [{ ...point, part: { obstacleId: 'o1', part: 'pole25' } }] }],
  ['a part twice on one frame', { ...fit, points: [point, point] }],
  ['a span that ends before it begins', { ...fit, span: { from: 3, to: 2 } }],
  ['more points than a course has', { ...fit, points: Array.from({ length: 1001 }, () => point) }],
])('refused: %s', (_, body) => {
  expect(CourseFit.safeParse(body).success).toBe(false);
});
