import { existsSync, readdirSync } from 'node:fs';
import { rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { jobs } from '../../../src/host/contract/calls.ts';
import { callHandlers } from '../../../src/host/handlers/calls.ts';
import { jobHandlers } from '../../../src/host/handlers/jobs.ts';
import { readPreferences } from '../../../src/host/preferences.ts';
import { fieldsOf } from '../../../src/time/fields.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { linkTo, windowOf } from '../host-suite/lines.ts';
import type { StandInVideo } from '../host-suite/standIns.ts';
import { mark, note } from '../library/examples.ts';
import { testHosts, type TestHost } from './desks.ts';

const hosts = testHosts();

async function bringIn(t: TestHost, name: string, what: Partial<StandInVideo> = {}): Promise<string> {
  const report = await t.run('clip.import', { source: { path: await t.video(name, what) } });
  return jobs['clip.import'].result.parse(report.result).clip.id;
}
const ask = (t: TestHost, clipId: string): string =>
  t.desk.jobs.start('clip.workingCopy', jobHandlers['clip.workingCopy'](t.desk, { clipId }));
const cancel = (t: TestHost, jobId: string) => callHandlers['job.cancel'](t.desk, { jobId });
const clipOf = (t: TestHost, id: string) => t.desk.clips.summaries().find((c) => c.id === id);
const waiting = (t: TestHost) =>
  t.desk.jobs.list().flatMap((j) => (j.state === 'waiting' || j.state === 'running' ? [j.about] : []));
const review = async (t: TestHost, clipId: string): Promise<string> =>
  (
    await callHandlers['review.create'](t.desk, {
      title: 'x',
      dog: '',
      handler: '',
      obstacles: 0,
      clipIds: [clipId],
    })
  ).reviewId;
/** A window that has a review open. */
const opened = (t: TestHost, reviewId: string): (() => void) => {
  const { link, leave } = windowOf(t.host);
  link.subscribe('review', { reviewId }, () => undefined);
  return leave;
};
const limit = (t: TestHost, copiesMost: number) =>
  callHandlers['preferences.set'](t.desk, {
    preferences: { ...readPreferences(t.desk.library.notes), copiesMost },
  });
const settle = () => new Promise((resolve) => setTimeout(resolve, 5));

describe('a clip that can be shown but steps slowly', () => {
  test('gets its copy by itself, says why, and is shown from the original until it is there', async () => {
    const t = await hosts.fresh();
    const go = join(t.files, 'go');
    const id = await bringIn(t, 'long.mp4', { slow: 'longGop', copyWaitsFor: go });
    expect(clipOf(t, id)).toMatchObject({ state: 'ready', slow: 'longGop', copy: null });
    const before = clipOf(t, id)?.mediaId;
    expect(before).not.toBeNull();
    expect(waiting(t)).toEqual(['long.mp4']);
    await writeFile(go, '');
    await t.desk.jobs.idle();
    expect(clipOf(t, id)).toMatchObject({ state: 'ready', slow: 'longGop', frames: 30 });
    expect(clipOf(t, id)?.copy?.bytes).toBeGreaterThan(0);
    expect(clipOf(t, id)?.mediaId).not.toBe(before);
  });

  test('stays on the original where the copy was stopped, after a restart too, until it is asked for', async () => {
    const t = await hosts.fresh();
    const go = join(t.files, 'go');
    const id = await bringIn(t, 'long.mp4', { slow: 'longGop', copyWaitsFor: go });
    await cancel(t, t.desk.jobs.list().at(-1)?.id ?? '');
    await t.desk.jobs.idle();
    expect(clipOf(t, id)).toMatchObject({ copy: null, copyWish: 'declined' });
    const again = await hosts.reopen(t);
    expect(waiting(again)).toEqual([]);
    await writeFile(go, '');
    ask(again, id);
    await again.desk.jobs.idle();
    expect(clipOf(again, id)?.copy).not.toBeNull();
    expect(clipOf(again, id)?.copyWish).toBe('asked');
  });

  test('gives its copy up for the original where the coach wants it back', async () => {
    const t = await hosts.fresh();
    const id = await bringIn(t, 'long.mp4', { slow: 'largePicture' });
    await t.desk.jobs.idle();
    expect(await callHandlers['clip.original'](t.desk, { clipId: id })).toMatchObject({
      state: 'ready',
      copy: null,
      copyWish: 'declined',
    });
    expect(readdirSync(join(t.folder, 'copies'))).toEqual([]);
    const hevc = await bringIn(t, 'hevc.mp4', { needsCopy: 'codec' });
    await t.desk.jobs.idle();
    await expect(callHandlers['clip.original'](t.desk, { clipId: hevc })).rejects.toMatchObject({
      code: 'conflict',
    });
  });
});

describe('copies on request', () => {
  test('are made of any clip, and made again where the file is lost', async () => {
    const t = await hosts.fresh();
    const id = await bringIn(t, 'plain.mp4');
    expect(waiting(t)).toEqual([]);
    ask(t, id);
    await t.desk.jobs.idle();
    expect(clipOf(t, id)).toMatchObject({ state: 'ready', copyWish: 'asked' });
    expect(clipOf(t, id)?.copy).not.toBeNull();
    const copy = join(t.folder, 'copies', `${id}.mp4`);
    await rename(copy, `${copy}.elsewhere`);
    const again = await hosts.reopen(t);
    await again.desk.jobs.idle();
    expect(clipOf(again, id)?.copy).not.toBeNull();
  });

  test('wait in line, can be put first, and go on in that order after a restart', async () => {
    const t = await hosts.fresh();
    const go = join(t.files, 'go');
    const ids: string[] = [];
    for (const name of ['a', 'b', 'c', 'd']) {
      ids.push(await bringIn(t, `${name}.mp4`, { copyWaitsFor: go }));
    }
    const [a, b, c, d] = ids.map((id) => ask(t, id));
    expect(waiting(t).slice(-4)).toEqual(['a.mp4', 'b.mp4', 'c.mp4', 'd.mp4']);
    await callHandlers['job.first'](t.desk, { jobId: d ?? '' });
    expect(waiting(t)).toEqual(['a.mp4', 'd.mp4', 'b.mp4', 'c.mp4']);
    await cancel(t, b ?? '');
    for (const done of [a, b, 'none']) {
      expect(() => callHandlers['job.first'](t.desk, { jobId: done ?? '' })).toThrow();
    }
    expect(c).toBeDefined();
    const again = await hosts.reopen(t);
    expect(waiting(again)).toEqual(['a.mp4', 'd.mp4', 'c.mp4']);
    await writeFile(go, '');
    await again.desk.jobs.idle();
    expect(ids.map((id) => clipOf(again, id)?.copy !== null)).toEqual([true, false, true, true]);
  });
});

describe('the store of copies', () => {
  /** Clips with copies of a gigabyte each, opened in their order. */
  async function copies(t: TestHost, names: readonly string[]): Promise<string[]> {
    const ids: string[] = [];
    for (const name of names) {
      const id = await bringIn(t, name, { needsCopy: 'codec', copyBytes: 1e9 });
      await t.desk.jobs.idle();
      opened(t, await review(t, id))();
      ids.push(id);
    }
    return ids;
  }
  const there = (t: TestHost, ids: readonly string[]) => ids.map((id) => clipOf(t, id)?.copy !== null);

  test('keeps to its limit: the copies opened the longest ago go first, never one that is open', async () => {
    const t = await hosts.fresh();
    const ids = await copies(t, ['a.mp4', 'b.mp4', 'c.mp4']);
    const [a = '', b = '', c = ''] = ids;
    const leave = opened(t, await review(t, a));
    expect(callHandlers['copies.about'](t.desk, {})).toEqual({
      count: 3,
      bytes: 3e9,
      open: 1e9,
      most: 20e9,
    });
    // Opened again, a is the latest; and it is open. So b goes.
    await limit(t, 2);
    expect(there(t, ids)).toEqual([true, false, true]);
    // What nobody asked for pushes out nothing; what the coach asks for does.
    const d = await bringIn(t, 'd.mp4', { needsCopy: 'codec', copyBytes: 1e9 });
    await t.desk.jobs.idle();
    expect(there(t, [a, b, c, d])).toEqual([true, false, true, false]);
    ask(t, d);
    await t.desk.jobs.idle();
    expect(there(t, [a, b, c, d])).toEqual([true, false, false, true]);
    await limit(t, 1);
    expect(there(t, [a, b, c, d])).toEqual([true, false, false, false]);
    expect(clipOf(t, b)).toMatchObject({ state: 'needsCopy', copyWish: 'whenOpened' });
    leave();
  });

  test('a copy that made room is made again by itself when its review is opened, and not before', async () => {
    const t = await hosts.fresh();
    const [a = '', b = ''] = await copies(t, ['a.mp4', 'b.mp4']);
    await limit(t, 1);
    expect(there(t, [a, b])).toEqual([false, true]);
    const again = await hosts.reopen(t);
    await again.desk.jobs.idle();
    expect(there(again, [a, b])).toEqual([false, true]);
    const leave = opened(again, await review(again, a));
    await again.desk.jobs.idle();
    await settle();
    expect(there(again, [a, b])).toEqual([true, false]);
    expect(clipOf(again, a)?.copyWish).toBeNull();
    leave();
  });

  test('is emptied on request, but for what is open and what has no original', async () => {
    const t = await hosts.fresh();
    const ids = await copies(t, ['a.mp4', 'b.mp4', 'c.mp4']);
    opened(t, await review(t, ids[0] ?? ''));
    await rename(join(t.files, 'b.mp4'), join(t.files, 'gone.mp4'));
    await t.desk.clips.look();
    expect(await callHandlers['copies.clear'](t.desk, {})).toMatchObject({ count: 2, bytes: 2e9 });
    expect(there(t, ids)).toEqual([true, true, false]);
    expect(readdirSync(join(t.folder, 'copies'))).toHaveLength(2);
  });

  test('files that are no copy of any clip are swept at the start', async () => {
    const t = await hosts.fresh();
    const [id = ''] = await copies(t, ['a.mp4']);
    await writeFile(join(t.folder, 'copies', 'nobody.mp4'), 'x');
    const again = await hosts.reopen(t);
    expect(readdirSync(join(t.folder, 'copies'))).toEqual([`${id}.mp4`]);
    expect(clipOf(again, id)?.copy).not.toBeNull();
  });
});

describe('half-pictures as frames', () => {
  const choose = (t: TestHost, clipId: string, fields: boolean) =>
    Promise.resolve(callHandlers['clip.fields'](t.desk, { clipId, fields }));
  const interlaced = { needsCopy: 'interlaced', interlaced: true, frames: 5 };

  test('doubles the frames and makes the copy anew; whole pictures come back the same way', async () => {
    const t = await hosts.fresh();
    const id = await bringIn(t, 'run.mts', interlaced);
    await t.desk.jobs.idle();
    const whole = t.desk.library.clips.frames(id);
    expect(await choose(t, id, true)).toMatchObject({ fields: true, frames: 10, interlaced: true });
    await t.desk.jobs.idle();
    expect(t.desk.library.clips.frames(id)).toEqual(fieldsOf(whole));
    expect(clipOf(t, id)).toMatchObject({ state: 'workingCopy', frames: 10 });
    expect(readdirSync(join(t.folder, 'copies'))).toEqual([`${id}-fields.mp4`]);
    const again = await hosts.reopen(t);
    expect(clipOf(again, id)).toMatchObject({ fields: true, state: 'workingCopy' });
    await choose(again, id, false);
    await again.desk.jobs.idle();
    expect(again.desk.library.clips.frames(id)).toEqual(whole);
    expect(existsSync(join(t.folder, 'copies', `${id}.mp4`))).toBe(true);
  });

  test('is refused once something was marked, even where the mark was taken out again', async () => {
    const t = await hosts.fresh();
    const id = await bringIn(t, 'run.mts', interlaced);
    const reviewId = await review(t, id);
    const host = linkTo(t.host);
    await choose(t, id, true);
    await choose(t, id, false);
    const [use] = t.desk.library.reviews.whole(reviewId).state.footage;
    const one = mark({ ...note('m1', 1), footageId: use?.id ?? '' });
    await host.call('review.apply', { reviewId, actId: 'a1', label: 'x', changes: [one] });
    await expect(choose(t, id, true)).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('run.mts'),
    });
    await host.call('review.undo', { reviewId });
    await expect(choose(t, id, true)).rejects.toMatchObject({ code: 'conflict' });
    expect(clipOf(t, id)).toMatchObject({ fields: false, frames: 5 });
  });

  test('is refused for a clip of whole pictures, and for one that is not there', async () => {
    const t = await hosts.fresh();
    const id = await bringIn(t, 'run.mp4');
    await expect(choose(t, id, true)).rejects.toMatchObject({ code: 'badInput' });
    await rename(join(t.files, 'run.mp4'), join(t.files, 'other.mp4'));
    await t.desk.clips.look();
    await expect(choose(t, id, true)).rejects.toMatchObject({ code: 'notFound' });
  });

  test('a clip known from a review file that counts half-pictures keeps them when its file is found', async () => {
    const t = await hosts.fresh();
    const path = await t.video('run.mts', interlaced);
    const id = await bringIn(t, 'run.mts', interlaced);
    const { sha256, bytes, facts } = t.desk.library.clips.get(id) ?? {};
    const other = await hosts.fresh();
    const table = fieldsOf(frameTable({ num: 1, den: 30 }, [0, 1, 2, 3, 4]));
    other.desk.library.clips.add(
      {
        id: 'c',
        name: 'run.mts',
        path: null,
        fileTime: null,
        sha256: sha256 ?? '',
        bytes: bytes ?? 0,
        facts: { ...(facts ?? ({} as never)), decodable: null, why: null },
      },
      table,
    );
    await callHandlers['clip.relink'](other.desk, { clipId: 'c', source: { path } });
    await other.desk.jobs.idle();
    expect(clipOf(other, 'c')).toMatchObject({ fields: true, frames: 10, state: 'workingCopy' });
    expect(other.desk.library.clips.frames('c')).toEqual(table);
  });
});
