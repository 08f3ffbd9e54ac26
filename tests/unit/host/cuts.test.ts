import { expect, test } from 'vitest';
import { callHandlers } from '../../../src/host/handlers/calls.ts';
import { readDocument } from '../../../src/review/readDocument.ts';
import { testHosts, type TestHost } from './desks.ts';

const hosts = testHosts();

/** A library with one clip of 300 frames, one tick each. */
async function withClip(): Promise<{ t: TestHost; clipId: string }> {
  const t = await hosts.fresh();
  const path = await t.video('class.mp4', { frames: 300 });
  await t.run('clip.import', { source: { path } });
  return { t, clipId: t.desk.clips.summaries()[0]?.id ?? '' };
}

function cutReview(t: TestHost, clipId: string, dog: string, from: number, to: number): string {
  const uses = [{ clipId, speed: [], offset: -from / 30, cut: { from, to } }];
  const args = { title: dog, dog, handler: '', obstacles: 3, clipIds: [], uses };
  return (callHandlers['review.create'](t.desk, args) as { reviewId: string }).reviewId;
}

const documentOf = (t: TestHost, reviewId: string) => {
  const { json } = callHandlers['review.document'](t.desk, { reviewId }) as { json: string };
  const reading = readDocument(json);
  if (!reading.ok) throw new Error(reading.problems.join('\n'));
  return reading.document;
};

test('several reviews use parts of one clip, of which nothing is copied', async () => {
  const { t, clipId } = await withClip();
  const reviews = [
    cutReview(t, clipId, 'Kees', 10, 90),
    cutReview(t, clipId, 'Mot', 100, 180),
    cutReview(t, clipId, 'Fenna', 190, 280),
  ];
  expect(t.desk.clips.summaries()).toHaveLength(1);
  expect(t.desk.library.reviews.list().map((r) => r.clipIds)).toEqual([[clipId], [clipId], [clipId]]);
  expect(reviews.map((id) => documentOf(t, id).footage[0]?.cut)).toEqual([
    { from: 10, to: 90 },
    { from: 100, to: 180 },
    { from: 190, to: 280 },
  ]);
});

test('removing one review leaves the clip to the others', async () => {
  const { t, clipId } = await withClip();
  const gone = cutReview(t, clipId, 'Kees', 10, 90);
  const stays = cutReview(t, clipId, 'Mot', 100, 180);
  void callHandlers['review.remove'](t.desk, { reviewId: gone });
  expect(t.desk.clips.summaries().map((c) => [c.id, c.state])).toEqual([[clipId, 'ready']]);
  expect(documentOf(t, stays).footage[0]?.clip.pts).toHaveLength(300);
  void callHandlers['review.restore'](t.desk, { reviewId: gone });
  expect(documentOf(t, gone).footage[0]?.cut).toEqual({ from: 10, to: 90 });
});

test.each([
  ['ends before it begins', 90, 10],
  ['begins before the clip', -5, 10],
  ['ends after the clip', 10, 300],
  ['is no number', NaN, 10],
  ['lies between ticks', 0.5, 10],
])('a cut that %s is refused, and nothing is made', async (_, from, to) => {
  const { t, clipId } = await withClip();
  expect(() => cutReview(t, clipId, 'Kees', from, to)).toThrow();
  expect(t.desk.library.reviews.list()).toEqual([]);
  const reviewId = cutReview(t, clipId, 'Kees', 10, 90);
  const { state } = t.desk.library.reviews.whole(reviewId);
  const [use] = state.footage;
  if (!use) throw new Error('no footage');
  const change = { kind: 'footage' as const, id: use.id, body: { ...use, cut: { from, to } } };
  const apply = () =>
    callHandlers['review.apply'](t.desk, { reviewId, actId: 'a', label: 'cut', changes: [change] });
  expect(apply).toThrow();
  expect(t.desk.library.reviews.whole(reviewId).state.footage).toEqual([use]);
});

test('a speed that cannot be, and a run outside of the clip, are refused', async () => {
  const { t, clipId } = await withClip();
  const reviewId = cutReview(t, clipId, 'Kees', 10, 90);
  const [use] = t.desk.library.reviews.whole(reviewId).state.footage;
  if (!use) throw new Error('no footage');
  const apply = (part: object) => () =>
    callHandlers['review.apply'](t.desk, {
      reviewId,
      actId: 'a',
      label: 'x',
      changes: [{ kind: 'footage', id: use.id, body: { ...use, ...part } }],
    });
  const twice = [
    { from: 2, speed: 0.5 },
    { from: 2, speed: 1 },
  ];
  expect(apply({ speed: twice })).toThrow(/speed map/);
  expect(apply({ runs: [{ id: 'r', from: 10, to: 999, dog: 'Mot', handler: '' }] })).toThrow(/run of Mot/);
});
