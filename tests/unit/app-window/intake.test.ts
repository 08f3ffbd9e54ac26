import { beforeEach, describe, expect, it, vi } from 'vitest';
import { createIntake, type IntakeStore } from '../../../app/window/library/intake.ts';
import { createNotices, type NoticesStore } from '../../../app/window/stores/notices.ts';
import { HostTrouble, link } from '../../../src/host/contract/link.ts';
import type { PickedFile } from '../../../src/host/contract/shell.ts';
import { memoryHost, type MemoryHost } from './memoryHost.ts';

let host: MemoryHost;
let notices: NoticesStore;
let intake: IntakeStore;

const file = (
  name: string,
  source: PickedFile['source'] = () => Promise.resolve({ path: `/v/${name}` }),
): PickedFile => ({
  name,
  bytes: 10,
  source,
});

beforeEach(() => {
  host = memoryHost();
  notices = createNotices();
  intake = createIntake(link(host.wire), notices);
});

describe('files on their way in', () => {
  it('opens the form at once and knows the clips when they are read', async () => {
    intake.take([file('a.mp4'), file('b.mov')]);
    const { form } = intake.getState();
    expect(form?.itemIds.length).toBe(2);
    const items = await intake.settled(form?.itemIds ?? []);
    expect(items.map((item) => [item.name, item.stage])).toEqual([
      ['a.mp4', 'in'],
      ['b.mov', 'in'],
    ]);
    expect(new Set(items.map((item) => item.clipId)).size).toBe(2);
  });

  it('says why a file cannot be used and keeps the others', async () => {
    intake.take([file('broken.mp4'), file('good.mp4')]);
    const items = await intake.settled(intake.getState().form?.itemIds ?? []);
    expect(items.map((item) => item.stage)).toEqual(['failed', 'in']);
    expect(items[0]?.trouble).toContain('no video');
  });

  it('takes review files in without a form and tells who listens', async () => {
    const on = vi.fn();
    intake.onReview(on);
    intake.take([file('handed over.json')]);
    expect(intake.getState().form).toBeNull();
    await vi.waitFor(() => {
      expect(on).toHaveBeenCalledTimes(1);
    });
    expect(host.review(String(on.mock.calls[0]?.[0]))?.header.title).toContain('handed over');
  });

  it('stops a file while its bytes are handed over, without an error', async () => {
    const source: PickedFile['source'] = (_, signal) =>
      new Promise((_resolve, reject) => {
        signal?.addEventListener('abort', () => {
          reject(new HostTrouble({ code: 'cancelled', message: 'stopped' }));
        });
      });
    intake.take([file('long.mp4', source)]);
    const [id = 0] = intake.getState().form?.itemIds ?? [];
    intake.stop(id);
    const [item] = await intake.settled([id]);
    expect(item?.stage).toBe('stopped');
    expect(item?.trouble).toBeNull();
    expect(notices.getState().list).toEqual([]);
  });

  it('forgets what has ended when the form is shut, and keeps what is at work', async () => {
    let letGo: () => void = () => undefined;
    const slow: PickedFile['source'] = () =>
      new Promise((resolve) => {
        letGo = () => {
          resolve({ path: '/v/slow.mp4' });
        };
      });
    intake.take([file('a.mp4'), file('slow.mp4', slow)]);
    const ids = intake.getState().form?.itemIds ?? [];
    await intake.settled(ids.slice(0, 1));
    intake.closeForm();
    expect(intake.getState().items.map((item) => item.name)).toEqual(['slow.mp4']);
    letGo();
    await intake.settled(ids.slice(1));
  });

  it.each(['picture', 'course'] as const)(
    'hands a dropped %s to the screen that takes one, and says so where none does',
    (what) => {
      expect(intake.offer(what, file('map.png'))).toBe(false);
      const on = vi.fn();
      const stop = intake.onDropped(what, on);
      expect(intake.offer(what, file('map.png'))).toBe(true);
      expect(intake.offer(what === 'course' ? 'picture' : 'course', file('map.png'))).toBe(false);
      stop();
      expect(intake.offer(what, file('map.png'))).toBe(false);
      expect(on).toHaveBeenCalledTimes(1);
    },
  );
});

describe('notices', () => {
  it('show one thing done at a time, keep troubles, and repeat none', () => {
    const { say, trouble, dismiss } = notices.getState();
    say('one');
    say('two');
    trouble(new HostTrouble({ code: 'noSpace', message: 'The disk is full.' }));
    trouble(new HostTrouble({ code: 'noSpace', message: 'The disk is full.' }));
    expect(notices.getState().list.map((n) => n.text)).toEqual(['two', 'The disk is full.']);
    for (let i = 0; i < 9; i++) trouble(new HostTrouble({ code: 'damaged', message: `trouble ${i}` }));
    expect(notices.getState().list.filter((n) => n.tone === 'trouble').length).toBe(4);
    for (const { id } of notices.getState().list) dismiss(id);
    expect(notices.getState().list).toEqual([]);
  });

  it('puts what was not written for the reader into the details, and is quiet about stopped work', () => {
    const { trouble } = notices.getState();
    trouble(new TypeError('x is not a function'));
    trouble(new HostTrouble({ code: 'cancelled', message: 'stopped' }));
    const [notice, ...rest] = notices.getState().list;
    expect(notice?.text).not.toContain('x is not a function');
    expect(notice?.details).toContain('x is not a function');
    expect(rest).toEqual([]);
  });
});
