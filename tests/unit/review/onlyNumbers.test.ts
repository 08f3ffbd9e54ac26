import { describe, expect, it } from 'vitest';
import { countedCourse, type Course } from '../../../src/course/course.ts';
import { numbered } from '../../../src/course/drawing/numbering.ts';
import { withPiece } from '../../../src/course/drawing/pieces.ts';
import { layBy, standingWhereClicked } from '../../../src/course/pictureLay.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { buildReport } from '../../../src/report/model.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { clocksOf, readDocument, stateOf, writeDocument } from '../../../src/review/readDocument.ts';
import { exampleDocument, took } from './example.ts';

const picture = { pictureId: 'p'.repeat(64), name: 'map.jpg', width: 2000, height: 1000 };

/** A picture of a ring of 40 by 20 m that fills it, with four numbers clicked on it. */
function clicked(): Course {
  const bare = countedCourse(4);
  return {
    ...bare,
    mapPicture: picture,
    obstacles: bare.obstacles.map((o, i) => ({ ...o, nickname: ['blue', 'gate', '', 'tyre'][i] ?? '' })),
    steps: bare.steps.map((s, i) => ({ ...s, onPicture: { x: 0.2 + 0.15 * i, y: 0.8 - 0.15 * i } })),
  };
}

const marks = [1, 2, 3, 4].flatMap((n) => [took(n, 'in', 60 * n), took(n, 'out', 60 * n + 20)]);

const read = (course: Course) => {
  const reading = readDocument(writeDocument(exampleDocument(course, marks)));
  if (!reading.ok) throw new Error(reading.problems.join(' '));
  return reading.document;
};
const splitsOf = (course: Course) => {
  const document = read(course);
  return analyse(stateOf(document), clocksOf(document)).splits;
};

const secondsOf = (course: Course): number[] =>
  [...JSON.stringify(splitsOf(course)).matchAll(/"value":([\d.]+)/g)].map(([, value]) => Number(value));

const laid = (course: Course): Course => {
  const underlay = layBy(
    {
      by: 'ring',
      corners: [
        { x: 0, y: 1 },
        { x: 1, y: 1 },
        { x: 1, y: 0 },
        { x: 0, y: 0 },
      ],
      ring: { width: 40, length: 20 },
    },
    picture,
    0.5,
  );
  if (!underlay) throw new Error('no lay');
  return { ...course, underlay };
};

describe('a course of numbers clicked on a picture', () => {
  it('is whole enough for splits and for a report', () => {
    const document = read(clicked());
    const state = stateOf(document);
    const analysis = analyse(state, clocksOf(document));
    expect(analysis.splits).toHaveLength(4);
    // Out to out: 60 frames of a thirtieth of a second.
    for (const seconds of secondsOf(clicked()).slice(1)) expect(seconds).toBeCloseTo(2, 9);
    const html = reportHtml(
      buildReport({ review: state, analysis, clips: [], stills: new Map(), dialect: 'british' }),
    );
    expect(html).toContain('<circle class="m-spot"');
    expect(html.match(/<text [^>]*>[1-4]<\/text>/g)?.length).toBeGreaterThanOrEqual(4);
  });

  it('can be stood on the grass where it was clicked, with every mark and figure as before', () => {
    const before = clicked();
    const after = standingWhereClicked(laid(before));
    expect(after.obstacles.every((o) => o.stand)).toBe(true);
    expect(after.obstacles[0]?.stand).toMatchObject({ x: 8, y: 4 });
    expect(after.obstacles.map(({ id, nickname }) => ({ id, nickname }))).toEqual(
      before.obstacles.map(({ id, nickname }) => ({ id, nickname })),
    );
    expect(after.steps).toEqual(before.steps);
    expect(read(after).marks).toEqual(read(before).marks);
    expect(splitsOf(after)).toEqual(splitsOf(before));
  });

  it('can be drawn anew, piece by piece: numbers, their names, their places on the picture and all marks stay', () => {
    const before = clicked();
    let after: Course = laid(before);
    for (const n of [1, 2, 3, 4]) {
      const id = `drawn-${n}`;
      after = withPiece(after, {
        id,
        kind: n === 3 ? 'tunnel' : 'barJump',
        stand: { x: 5 * n, y: 10, headingDegrees: 0 },
      });
      after = numbered(after, n, id, 'forward');
    }
    expect(after.obstacles.map((o) => o.nickname)).toEqual(['blue', 'gate', '', 'tyre']);
    expect(after.obstacles.every((o) => o.stand)).toBe(true);
    expect(after.steps.map(({ number, onPicture }) => ({ number, onPicture }))).toEqual(
      before.steps.map(({ number, onPicture }) => ({ number, onPicture })),
    );
    expect(read(after).marks).toEqual(read(before).marks);
    // From number to number the same; before the first, a jump's take-off is now known for what it is.
    secondsOf(after).forEach((seconds, i) => {
      expect(Math.abs(seconds - (secondsOf(before)[i] ?? NaN))).toBeLessThanOrEqual(i === 0 ? 0.04 : 1e-9);
    });
  });
});
