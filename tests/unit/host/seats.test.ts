import { describe, expect, test } from 'vitest';
import { largestMessage, type HostMessage } from '../../../src/host/contract/messages.ts';
import { emptyReview, mark, note } from '../library/examples.ts';
import { testHosts, type TestHost } from './desks.ts';
import { standInReport } from '../host-suite/standIns.ts';

const hosts = testHosts();

/** A seat with everything that was sent to it. */
function seatAt(t: TestHost) {
  const sent: HostMessage[] = [];
  const seat = t.host.seat((message) => sent.push(message));
  return { seat, sent, receive: (message: unknown) => seat.receive(message) };
}

const trouble = (n: number, code: string) => ({ type: 'trouble', n, trouble: { code } });

describe('messages that are wrong', () => {
  test.each<[string, unknown]>([
    ['another type', { type: 'shout', n: 7, name: 'library.about', args: {} }],
    ['keys too many', { type: 'call', n: 7, name: 'library.about', args: {}, more: 1 }],
    ['no name', { type: 'call', n: 7, args: {} }],
    ['a name that is no text', { type: 'call', n: 7, name: ['library.about'], args: {} }],
    ['an unknown call', { type: 'call', n: 7, name: 'library.erase', args: {} }],
    ['a call by a name that every object has', { type: 'call', n: 7, name: 'constructor', args: {} }],
    ['an unknown job', { type: 'start', n: 7, name: 'clip.erase', args: {} }],
    ['a call asked for as a job', { type: 'start', n: 7, name: 'library.about', args: {} }],
    ['an unknown topic', { type: 'subscribe', n: 7, topic: '__proto__', args: {} }],
    ['arguments that are missing', { type: 'call', n: 7, name: 'review.undo', args: {} }],
    ['arguments of another form', { type: 'call', n: 7, name: 'review.undo', args: [1, 2] }],
    ['arguments too many', { type: 'call', n: 7, name: 'preferences.get', args: { all: true } }],
    ['no arguments at all', { type: 'call', n: 7, name: 'review.undo', args: undefined }],
    ['a time that is not a number', act({ ...note('m1', 1), pts: Number.NaN })],
    ['a time that is infinite', act({ ...note('m1', 1), pts: Number.POSITIVE_INFINITY })],
    ['a time beyond whole numbers', act({ ...note('m1', 1), pts: 2 ** 60 })],
    ['a negative length', act({ ...note('m1', 1), unsure: -1 })],
    [
      'no changes',
      {
        type: 'call',
        n: 7,
        name: 'review.apply',
        args: { reviewId: 'r1', actId: 'a', label: 'x', changes: [] },
      },
    ],
  ])('%s: told, nothing changed', async (_name, message) => {
    const t = await hosts.fresh();
    t.desk.library.reviews.add(emptyReview('r1'));
    const { receive, sent } = seatAt(t);
    receive(message);
    expect(sent).toMatchObject([trouble(7, 'badInput')]);
    expect(t.desk.library.reviews.whole('r1')).toMatchObject({ act: 1, state: { marks: [] } });
    expect(t.faults).toEqual([]);
  });

  test.each<[string, unknown]>([
    ['nothing', undefined],
    ['null', null],
    ['text', 'call'],
    ['a number', 7],
    ['a number that is none', { type: 'call', n: Number.NaN }],
  ])('%s cannot be answered, and is passed over', async (_name, message) => {
    const t = await hosts.fresh();
    const { receive, sent } = seatAt(t);
    receive(message);
    expect(sent).toEqual([]);
    receive({ type: 'call', n: 1, name: 'preferences.get', args: {} });
    expect(sent).toMatchObject([{ type: 'answer', n: 1 }]);
  });

  test('too large a message is refused', async () => {
    const t = await hosts.fresh();
    const { receive, sent } = seatAt(t);
    const title = 'x'.repeat(largestMessage);
    receive({ type: 'call', n: 1, name: 'review.create', args: { title } });
    expect(sent).toMatchObject([trouble(1, 'badInput')]);
    expect(JSON.stringify(sent)).toContain('too large');
  });

  test('a message that cannot be written as JSON is refused', async () => {
    const t = await hosts.fresh();
    const { receive, sent } = seatAt(t);
    const args: Record<string, unknown> = {};
    args['args'] = args;
    receive({ type: 'call', n: 1, name: 'preferences.get', args });
    expect(sent).toMatchObject([trouble(1, 'badInput')]);
    expect(t.faults).toEqual([]);
  });

  /** An act that marks with this body. */
  function act(body: unknown): unknown {
    const changes = [{ kind: 'mark', id: 'm1', body }];
    return {
      type: 'call',
      n: 7,
      name: 'review.apply',
      args: { reviewId: 'r1', actId: 'a', label: 'x', changes },
    };
  }
});

describe('subscriptions', () => {
  test('events are numbered from 1, and from 1 again when asked again', async () => {
    const t = await hosts.fresh();
    t.desk.library.reviews.add(emptyReview('r1'));
    const { receive, sent } = seatAt(t);
    const subscribe = () => receive({ type: 'subscribe', n: 5, topic: 'review', args: { reviewId: 'r1' } });
    const apply = (n: number) =>
      receive({
        type: 'call',
        n,
        name: 'review.apply',
        args: { reviewId: 'r1', actId: `a${n}`, label: 'x', changes: [mark(note(`m${n}`, n))] },
      });
    const numbers = () => sent.flatMap((m) => (m.type === 'event' ? [m.seq] : []));
    subscribe();
    apply(10);
    apply(11);
    expect(numbers()).toEqual([1, 2, 3]);
    subscribe();
    apply(12);
    expect(numbers()).toEqual([1, 2, 3, 1, 2]);
    receive({ type: 'unsubscribe', n: 5 });
    apply(13);
    expect(numbers()).toHaveLength(5);
  });

  test('the act is heard of before its answer comes', async () => {
    const t = await hosts.fresh();
    t.desk.library.reviews.add(emptyReview('r1'));
    const { receive, sent } = seatAt(t);
    receive({ type: 'subscribe', n: 5, topic: 'review', args: { reviewId: 'r1' } });
    const changes = [mark(note('m1', 1))];
    receive({
      type: 'call',
      n: 6,
      name: 'review.apply',
      args: { reviewId: 'r1', actId: 'a', label: 'x', changes },
    });
    expect(sent.map((m) => m.type)).toEqual(['event', 'event', 'answer']);
  });

  test('a window that listens to far too much is stopped', async () => {
    const t = await hosts.fresh();
    const { receive, sent } = seatAt(t);
    for (let n = 1; n <= 201; n++) receive({ type: 'subscribe', n, topic: 'jobs', args: {} });
    expect(sent.filter((m) => m.type === 'trouble')).toMatchObject([trouble(201, 'conflict')]);
  });

  test('nothing is sent to a window that has left', async () => {
    const t = await hosts.fresh();
    t.desk.library.reviews.add(emptyReview('r1'));
    const { seat, receive, sent } = seatAt(t);
    receive({ type: 'subscribe', n: 5, topic: 'review', args: { reviewId: 'r1' } });
    receive({ type: 'call', n: 6, name: 'library.about', args: {} });
    seat.leave();
    t.desk.library.reviews.apply('r1', 'a', 'x', [mark(note('m1', 1))]);
    receive({ type: 'call', n: 7, name: 'preferences.get', args: {} });
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(sent).toHaveLength(1);
  });

  test('one review that is damaged is told to those who open it, and the others go on', async () => {
    const t = await hosts.fresh();
    t.desk.library.reviews.add(emptyReview('r1', 'The damaged one'));
    t.desk.library.reviews.add(emptyReview('r2'));
    await t.host.close();
    const { default: Sqlite } = await import('better-sqlite3');
    const db = new Sqlite(t.desk.library.layout.database);
    db.exec("UPDATE entity SET body = 'x' WHERE review_id = 'r1' AND kind = 'plan'");
    db.close();
    const again = await hosts.reopen(t);
    const { receive, sent } = seatAt(again);
    receive({ type: 'subscribe', n: 1, topic: 'review', args: { reviewId: 'r1' } });
    receive({ type: 'subscribe', n: 2, topic: 'review', args: { reviewId: 'r2' } });
    receive({ type: 'subscribe', n: 3, topic: 'library', args: {} });
    expect(sent).toMatchObject([
      trouble(1, 'damaged'),
      { type: 'event', n: 2 },
      { type: 'event', n: 3, event: { reviews: [{ title: 'The damaged one' }, {}] } },
    ]);
    expect(JSON.stringify(sent[0])).toContain('The damaged one');
    expect(again.faults).toEqual([]);
  });
});

test('a fault of the program is told as one, and whoever runs it gets all of it', async () => {
  const t = await hosts.fresh(
    {},
    { report: { ...standInReport, write: async () => Promise.reject(new TypeError('x is undefined')) } },
  );
  t.desk.library.reviews.add(emptyReview('r1'));
  const job = await t.run('report.write', { reviewId: 'r1', form: 'html', short: false, copy: 'student' });
  expect(job).toMatchObject({ state: 'failed', trouble: { code: 'internal' } });
  expect(job.trouble?.message).toContain('x is undefined');
  expect(t.faults).toHaveLength(1);
});

test('no room on the disk: the window is told, and nothing is changed', async () => {
  const t = await hosts.fresh();
  t.desk.library.reviews.add(emptyReview('r1'));
  t.desk.library.limit(300_000);
  const { receive, sent } = seatAt(t);
  receive({ type: 'subscribe', n: 1, topic: 'review', args: { reviewId: 'r1' } });
  const troubles = () => sent.filter((m) => m.type === 'trouble');
  let acts = 0;
  for (; troubles().length === 0; acts++) {
    const changes = [mark(note(`m${acts}`, acts, 'x'.repeat(1500)))];
    const args = { reviewId: 'r1', actId: `a${acts}`, label: 'x', changes };
    receive({ type: 'call', n: 100 + acts, name: 'review.apply', args });
  }
  expect(troubles()).toMatchObject([trouble(99 + acts, 'noSpace')]);
  expect(sent.filter((m) => m.type === 'event')).toHaveLength(acts);
  expect(t.desk.library.reviews.whole('r1').state.marks).toHaveLength(acts - 1);
});
