import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { Preferences } from '../../../src/host/contract/shapes.ts';
import { callHandlers } from '../../../src/host/handlers/calls.ts';
import { mark, note } from '../library/examples.ts';
import { testHosts } from './desks.ts';

const hosts = testHosts();

test('a review is made with foretold ids, a counted course and its footage', async () => {
  let n = 0;
  const t = await hosts.fresh({}, { newId: () => `id${++n}` });
  const path = await t.video('run.mp4');
  await t.run('clip.import', { source: { path } });
  const [clip] = t.desk.clips.summaries();
  n = 100;
  const made = callHandlers['review.create'](t.desk, {
    title: 'Tuesday',
    dog: 'Quill',
    handler: '',
    obstacles: 4,
    clipIds: [clip?.id ?? ''],
  });
  expect(made).toEqual({ reviewId: 'id101' });
  const { state } = t.desk.library.reviews.whole('id101');
  expect(state.footage).toEqual([
    { id: 'id102', clipId: clip?.id, name: 'run.mp4', speed: [], offset: 0, rate: 1 },
  ]);
  expect(state.course.steps.map((s) => s.number)).toEqual([1, 2, 3, 4]);
});

test('a review cannot be made from a clip that is not there', async () => {
  const t = await hosts.fresh();
  const args = { title: 'x', dog: '', handler: '', obstacles: 0, clipIds: ['none'] };
  expect(() => callHandlers['review.create'](t.desk, args)).toThrow('no such clip');
  expect(t.desk.library.reviews.list()).toEqual([]);
});

test('acts carry the time of the clock for the reader, and never for their order', async () => {
  const t = await hosts.fresh();
  const args = { title: 'x', dog: '', handler: '', obstacles: 0, clipIds: [] };
  const { reviewId } = callHandlers['review.create'](t.desk, args) as { reviewId: string };
  const apply = (n: number) =>
    callHandlers['review.apply'](t.desk, {
      reviewId,
      actId: `a${n}`,
      label: `act ${n}`,
      changes: [mark(note(`m${n}`, n))],
    });
  // The clock is set back between two acts, as clocks are.
  t.clock.now = 5000;
  void apply(1);
  t.clock.now = 1000;
  void apply(2);
  expect(t.desk.library.reviews.whole(reviewId)).toMatchObject({ act: 3, canUndo: 'act 2' });
  await t.host.close();
  const db = new Sqlite(t.desk.library.layout.database);
  const told = db.prepare('SELECT told_at FROM act ORDER BY act').pluck().all();
  expect(told).toEqual([1_000_000, 5000, 1000]);
  db.close();
  const again = await hosts.reopen(t);
  expect(again.desk.library.reviews.undo(reviewId).label).toBe('act 2');
});

test('exercises that cannot be read cost their list alone, and a list is kept as it was set', async () => {
  const t = await hosts.fresh();
  const mine = [{ id: 'mine', themes: ['bar' as const], title: 'My row', how: '' }];
  void callHandlers['preferences.set'](t.desk, {
    preferences: Preferences.parse({ lengths: 'feet', exercises: mine }),
  });
  expect(callHandlers['preferences.get'](t.desk, {})).toMatchObject({ lengths: 'feet', exercises: mine });
  t.desk.library.notes.write('preferences', 1, {
    ...Preferences.parse({ lengths: 'feet' }),
    exercises: [{ id: 'mine', themes: ['flying'], title: 'My row', how: '' }],
  });
  const read = callHandlers['preferences.get'](t.desk, {});
  expect(read).toMatchObject({ lengths: 'feet' });
  expect(read).not.toHaveProperty('exercises.0');
});

test('preferences are the usual ones until they are set, and where what is stored cannot be read', async () => {
  const t = await hosts.fresh();
  expect(callHandlers['preferences.get'](t.desk, {})).toEqual(Preferences.parse({}));
  void callHandlers['preferences.set'](t.desk, { preferences: Preferences.parse({ lengths: 'feet' }) });
  const again = await hosts.reopen(t);
  expect(callHandlers['preferences.get'](again.desk, {})).toMatchObject({ lengths: 'feet' });
  await again.host.close();
  const db = new Sqlite(again.desk.library.layout.database);
  db.exec(`UPDATE note SET body = '{"theme":"plaid"}' WHERE name = 'preferences'`);
  db.close();
  const third = await hosts.reopen(again);
  expect(callHandlers['preferences.get'](third.desk, {})).toEqual(Preferences.parse({}));
});

test.each([
  ['from before there were any', '{"lengths":"feet"}', {}],
  [
    'out of bounds and none',
    '{"lengths":"feet","reading":{"viewHalf":400,"trapReach":null,"sliceFrom":20}}',
    { sliceFrom: 20 },
  ],
  ['that are no list', '{"lengths":"feet","reading":"wide"}', {}],
])('thresholds %s are the usual ones, and all else that was set stays', async (_, body, reading) => {
  const t = await hosts.fresh();
  void callHandlers['preferences.set'](t.desk, { preferences: Preferences.parse({}) });
  await t.host.close();
  const db = new Sqlite(t.desk.library.layout.database);
  db.prepare("UPDATE note SET body = ? WHERE name = 'preferences'").run(body);
  db.close();
  const again = await hosts.reopen(t);
  expect(callHandlers['preferences.get'](again.desk, {})).toEqual(
    Preferences.parse({ lengths: 'feet', reading }),
  );
});

test('two windows that hear of a list are told once for many acts in a row, and never miss the last', async () => {
  const t = await hosts.fresh({}, { quiet: 30 });
  const args = { title: 'x', dog: '', handler: '', obstacles: 0, clipIds: [] };
  const { reviewId } = callHandlers['review.create'](t.desk, args) as { reviewId: string };
  const heard: number[] = [];
  t.desk.hub.onLibrary(() => heard.push(t.desk.library.reviews.list()[0]?.marks ?? -1));
  for (let n = 0; n < 40; n++) {
    void callHandlers['review.apply'](t.desk, {
      reviewId,
      actId: `a${n}`,
      label: 'x',
      changes: [mark(note(`m${n}`, n))],
    });
  }
  while (heard.at(-1) !== 40) await new Promise((resolve) => setTimeout(resolve, 5));
  expect(heard.length).toBeLessThan(20);
});
