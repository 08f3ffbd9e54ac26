import { beforeEach, describe, expect, it, vi } from 'vitest';
import { createFrameTables } from '../../../app/window/stores/clocks.ts';
import { createNotices, type NoticesStore } from '../../../app/window/stores/notices.ts';
import { createReview, type ReviewStore } from '../../../app/window/stores/review.ts';
import { link } from '../../../src/host/contract/link.ts';
import type { Change } from '../../../src/review/entities.ts';
import { memoryHost, type MemoryHost } from './memoryHost.ts';

const cross = (id: string): Change => ({
  kind: 'cross',
  id,
  body: { id, place: 3, kind: 'front', note: '' },
});
const crossIds = (store: ReviewStore): string[] => store.getState().state?.crosses.map((c) => c.id) ?? [];

let host: MemoryHost;
let notices: NoticesStore;
let review: ReviewStore;

beforeEach(async () => {
  host = memoryHost();
  host.addClip({ id: 'k1', name: 'evening.mp4' });
  host.addReview({
    id: 'r1',
    title: 'Evening',
    footage: [{ id: 'f1', clipId: 'k1', name: 'evening.mp4', speed: [], offset: 2, rate: 1 }],
  });
  notices = createNotices();
  const host1 = link(host.wire);
  let n = 0;
  review = createReview(host1, notices, createFrameTables(host1), () => `act-${++n}`);
  review.openReview('r1');
  await vi.waitFor(() => {
    expect(review.getState().clocks.size).toBe(1);
  });
});

describe('the open review', () => {
  it('has its clips on the clock of the run', () => {
    const clock = review.getState().clocks.get('f1');
    expect(clock?.offset).toBe(2);
    expect(clock?.table.pts.length).toBe(100);
    expect(clock?.table.timeBase).toEqual({ num: 1, den: 12_800 });
  });

  it('shows an act before the host has answered and keeps it once', async () => {
    host.hold();
    const kept = review.apply('Cross', [cross('c1')]);
    expect(crossIds(review)).toEqual(['c1']);
    expect(review.getState().underWay).toBe(1);
    await Promise.resolve();
    host.release();
    expect(await kept).toBe(true);
    await vi.waitFor(() => {
      expect(review.getState().underWay).toBe(0);
    });
    expect(crossIds(review)).toEqual(['c1']);
    expect(review.getState().canUndo).toBe('Cross');
    expect(host.review('r1')?.crosses.length).toBe(1);
  });

  it('sends acts in their order and shows all of them meanwhile', async () => {
    const all = [cross('c1'), cross('c2'), cross('c3')].map((c, i) => review.apply(`Cross ${i}`, [c]));
    expect(crossIds(review)).toEqual(['c1', 'c2', 'c3']);
    expect(await Promise.all(all)).toEqual([true, true, true]);
    const labels = host.asked
      .filter((a) => a.name === 'review.apply')
      .map((a) => (a.args as { label: string }).label);
    expect(labels).toEqual(['Cross 0', 'Cross 1', 'Cross 2']);
  });

  it('takes an act back that the host refuses, says why, and goes on with the next', async () => {
    host.refuse('review.apply', { code: 'noSpace', message: 'The disk is full.' });
    const first = review.apply('Cross at 3', [cross('c1')]);
    const second = review.apply('Cross at 4', [cross('c2')]);
    expect(crossIds(review)).toEqual(['c1', 'c2']);
    expect(await Promise.all([first, second])).toEqual([false, true]);
    expect(crossIds(review)).toEqual(['c2']);
    const [notice] = notices.getState().list;
    expect(notice?.tone).toBe('trouble');
    expect(notice?.text).toContain('Cross at 3');
    expect(notice?.text).toContain('The disk is full.');
  });

  it('sends an act again after a lost answer, and it is done once', async () => {
    host.loseAnswer('review.apply');
    expect(await review.apply('Cross', [cross('c1')])).toBe(true);
    const asked = host.asked.filter((a) => a.name === 'review.apply');
    expect(asked.length).toBe(2);
    expect(new Set(asked.map((a) => (a.args as { actId: string }).actId)).size).toBe(1);
    expect(await review.undo()).toBe('Cross');
    expect(host.review('r1')?.crosses).toEqual([]);
  });

  it('undoes and does again after the acts that are under way', async () => {
    void review.apply('First', [cross('c1')]);
    void review.apply('Second', [cross('c2')]);
    expect(await review.undo()).toBe('Second');
    expect(crossIds(review)).toEqual(['c1']);
    expect(await review.undo()).toBe('First');
    expect(await review.undo()).toBeNull();
    expect(crossIds(review)).toEqual([]);
    expect(await review.redo()).toBe('First');
    expect(crossIds(review)).toEqual(['c1']);
    expect(notices.getState().list).toEqual([]);
  });

  it('says so where there is no such review', async () => {
    review.openReview('nowhere');
    await vi.waitFor(() => {
      expect(review.getState().stage).toBe('failed');
    });
    expect(review.getState().failure).toContain('no such review');
    review.openReview('r1');
    await vi.waitFor(() => {
      expect(review.getState().stage).toBe('open');
    });
  });

  it('tells once of footage whose frame times cannot be had, and stays usable', async () => {
    host.addReview({
      id: 'r2',
      title: 'No frames',
      footage: [{ id: 'f9', clipId: 'gone', name: 'gone.mov', speed: [], offset: 0, rate: 1 }],
    });
    review.openReview('r2');
    await vi.waitFor(() => {
      expect(
        notices
          .getState()
          .list.map((n) => n.text)
          .join(),
      ).toContain('gone.mov');
    });
    notices.getState().list.forEach((n) => {
      notices.getState().dismiss(n.id);
    });
    expect(await review.apply('Cross', [cross('c1')])).toBe(true);
    expect(notices.getState().list).toEqual([]);
    expect(review.getState().clocks.size).toBe(0);
  });

  it('keeps the clocks as they are while acts change other things', async () => {
    const before = review.getState().clocks;
    await review.apply('Cross', [cross('c1')]);
    expect(review.getState().clocks).toBe(before);
    const use = review.getState().state?.footage[0];
    if (!use) throw new Error('no footage');
    await review.apply('Offset', [{ kind: 'footage', id: 'f1', body: { ...use, offset: 5 } }]);
    expect(review.getState().clocks.get('f1')?.offset).toBe(5);
  });
});
