import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { HostTrouble, type Link } from '../../../src/host/contract/link.ts';
import type { TopicEvent } from '../../../src/host/contract/calls.ts';
import type { Change } from '../../../src/review/entities.ts';

/** A line to a host with an empty library, however it travels. */
export interface Connected {
  readonly link: Link;
  close(): Promise<void>;
}

const note = (id: string, pts: number): Change => ({
  kind: 'mark',
  id,
  body: { id, kind: 'event', event: 'note', footageId: 'f', pts, unsure: 0, note: '' },
});

const newId = (): string => crypto.randomUUID();

/** The tests that every way to the host must pass: in process, over a process border, loopback, desktop. */
export function hostSuite(name: string, connect: () => Promise<Connected>): void {
  describe(`the host, ${name}`, () => {
    let line: Connected;
    let host: Link;
    beforeAll(async () => {
      line = await connect();
      host = line.link;
    });
    afterAll(async () => {
      await line.close();
    });

    const create = async (title = 'A run'): Promise<string> =>
      (await host.call('review.create', { title, obstacles: 3 })).reviewId;

    const apply = (reviewId: string, label: string, changes: Change[], actId = newId()) =>
      host.call('review.apply', { reviewId, actId, label, changes });

    test('tells about itself', async () => {
      const about = await host.call('library.about', {});
      expect(about.folder).not.toBe('');
    });

    test('creates, lists, applies, undoes and redoes', async () => {
      const reviewId = await create('First run');
      const done = await apply(reviewId, 'Mark a note', [note('m1', 5)]);
      expect(done).toMatchObject({ canUndo: 'Mark a note', canRedo: null });
      const undone = await host.call('review.undo', { reviewId });
      expect(undone).toMatchObject({ act: done.act + 1, canUndo: null, canRedo: 'Mark a note' });
      const again = await host.call('review.redo', { reviewId });
      expect(again).toMatchObject({ act: done.act + 2, canUndo: 'Mark a note', canRedo: null });
      const listed = await first<TopicEvent<'library'>>((on) => host.subscribe('library', {}, on));
      const mine = listed.reviews.find((r) => r.id === reviewId);
      expect(mine).toMatchObject({ title: 'First run', obstacles: 3, marks: 1, lastAct: again.act });
    });

    test('subscriptions: the whole first, then every act', async () => {
      const reviewId = await create();
      const events: TopicEvent<'review'>[] = [];
      const stop = host.subscribe('review', { reviewId }, (e) => events.push(e));
      await apply(reviewId, 'one', [note('m1', 1)]);
      await apply(reviewId, 'two', [note('m2', 2)]);
      await until(() => events.length >= 3);
      stop();
      expect(events[0]).toMatchObject({ type: 'whole', state: { id: reviewId } });
      expect(events.slice(1)).toMatchObject([
        { type: 'act', label: 'one' },
        { type: 'act', label: 'two', canUndo: 'two' },
      ]);
    });

    test('refuses what it does not know', async () => {
      const error = await host.call('review.undo', { reviewId: 'nobody' }).catch((e: unknown) => e);
      expect(error).toBeInstanceOf(HostTrouble);
      expect(error).toMatchObject({ code: 'notFound' });
    });
  });
}

/** The first event of a subscription, which is then stopped. */
function first<E>(subscribe: (on: (event: E) => void) => () => void): Promise<E> {
  return new Promise((resolve) => {
    const stop = subscribe((event) => {
      queueMicrotask(() => stop());
      resolve(event);
    });
  });
}

/** Waits until something holds; a test that never gets there ends at its own time limit. */
async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 5));
}
