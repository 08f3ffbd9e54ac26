import { expect, test } from 'vitest';
import { documentProblems, readDocument, writeDocument } from '../../../src/review/readDocument.ts';
import { Track } from '../../../src/track/track.ts';
import { courseOf, exampleDocument } from '../review/example.ts';

const track: Track = {
  id: 't',
  footageId: 'film',
  who: 'dog',
  point: 'leftFrontPaw',
  during: 'run',
  marks: [
    { pts: 12, at: { x: 0.25, y: 0.5 }, contact: 'ground' },
    { pts: 24, at: { x: 0.3, y: 0.45 }, contact: 'air', unsure: 4 },
  ],
};

const withTracks = (...tracks: Track[]) => ({ ...exampleDocument(courseOf('barJump'), []), tracks });

test('a review file carries its tracks there and back', () => {
  const document = withTracks(track, { ...track, id: 'h', who: 'handler', point: 'leftFoot', marks: [] });
  const reading = readDocument(writeDocument(document));
  if (!reading.ok) throw new Error(reading.problems.join(' '));
  expect(reading.document.tracks).toEqual(document.tracks);
});

test('marks outside of the film, on no film, and tracks of one name are told', () => {
  const told = documentProblems(
    withTracks(
      { ...track, marks: [{ pts: 99_999, at: { x: 0, y: 0 }, contact: 'ground' }] },
      { ...track, footageId: 'lost' },
    ),
  ).join(' ');
  expect(told).toContain('film.mp4');
  expect(told).toContain('lost');
  expect(told).toContain('track');
});

test.each([
  ['a paw of the handler', { ...track, who: 'handler' }],
  ['a place that is no number', { ...track, marks: [{ pts: 1, at: { x: NaN, y: 0 }, contact: 'air' }] }],
  ['a place outside of the picture', { ...track, marks: [{ pts: 1, at: { x: 1.2, y: 0 }, contact: 'air' }] }],
  ['half a tick', { ...track, marks: [{ pts: 1.5, at: { x: 0, y: 0 }, contact: 'air' }] }],
  ['an unknown contact', { ...track, marks: [{ pts: 1, at: { x: 0, y: 0 }, contact: 'water' }] }],
  ['more marks than frames', { ...track, marks: Array.from({ length: 30_001 }, () => track.marks[0]) }],
])('refused: %s', (_, body) => {
  expect(Track.safeParse(body).success).toBe(false);
});
