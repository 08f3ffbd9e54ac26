import { copyFile, readFile, rename, rm, utimes, writeFile } from 'node:fs/promises';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { jobs } from '../../../src/host/contract/calls.ts';
import { callHandlers } from '../../../src/host/handlers/calls.ts';
import { sendTo } from '../host-suite/lines.ts';
import { standInFootage, standInReport, standInVideo } from '../host-suite/standIns.ts';
import { testHosts, type TestHost } from './desks.ts';

const hosts = testHosts();

const bringIn = async (t: TestHost, path: string) => {
  const report = await t.run('clip.import', { source: { path } });
  expect(report.trouble).toBeNull();
  return jobs['clip.import'].result.parse(report.result).clip;
};
const relink = (t: TestHost, clipId: string, path: string) =>
  Promise.resolve(callHandlers['clip.relink'](t.desk, { clipId, source: { path } }));
/** Waits until something holds; a test that never gets there ends at its own time limit. */
const until = async (holds: () => boolean): Promise<void> => {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 5));
};
const clipsOf = (t: TestHost) => t.desk.clips.summaries();

describe('a missing file', () => {
  test('is noticed on opening; its frames and its reviews stay; the same content gives it back', async () => {
    const t = await hosts.fresh();
    const path = await t.video('run.mp4', { frames: 9 });
    const clip = await bringIn(t, path);
    const moved = join(t.files, 'moved.mp4');
    await rename(path, moved);
    const again = await hosts.reopen(t);
    expect(clipsOf(again)).toMatchObject([{ id: clip.id, state: 'missing', mediaId: null, frames: 9 }]);
    const frames = await callHandlers['clip.frames'](again.desk, { clipId: clip.id });
    expect(frames.pts).toHaveLength(9);

    const found = await relink(again, clip.id, moved);
    expect(found).toMatchObject({ id: clip.id, state: 'ready', name: 'run.mp4' });
    expect((await again.host.media(found.mediaId ?? ''))?.path).toBe(moved);
    expect(clipsOf(await hosts.reopen(again))).toMatchObject([{ id: clip.id, state: 'ready' }]);
  });

  test('is not given another content, though it has the same name and size', async () => {
    const t = await hosts.fresh();
    const path = await t.video('run.mp4', { mark: 'one' });
    const clip = await bringIn(t, path);
    await rm(path);
    const again = await hosts.reopen(t);
    const other = await again.video('run.mp4', { mark: 'two' });
    const error = await relink(again, clip.id, other).catch((e: unknown) => e);
    expect(error).toMatchObject({ code: 'badInput', message: expect.stringContaining('run.mp4') });
    const shorter = join(again.files, 'short.mp4');
    await writeFile(shorter, '{}');
    await expect(relink(again, clip.id, shorter)).rejects.toMatchObject({ code: 'badInput' });
    await expect(relink(again, clip.id, join(again.files, 'none.mp4'))).rejects.toMatchObject({
      code: 'notFound',
    });
    await expect(relink(again, 'none', other)).rejects.toMatchObject({ code: 'notFound' });
  });

  test('comes back when the same content is brought in from elsewhere', async () => {
    const t = await hosts.fresh();
    const path = await t.video('run.mp4');
    const clip = await bringIn(t, path);
    const moved = join(t.files, 'elsewhere.mp4');
    await rename(path, moved);
    const again = await hosts.reopen(t);
    expect(await bringIn(again, moved)).toMatchObject({ id: clip.id, state: 'ready' });
    expect(clipsOf(again)).toHaveLength(1);
  });

  test('a file that changed its size since is missing', async () => {
    const t = await hosts.fresh();
    const path = await t.video('run.mp4');
    await bringIn(t, path);
    await writeFile(path, standInVideo({ frames: 100_000 }));
    expect(clipsOf(await hosts.reopen(t))).toMatchObject([{ state: 'missing' }]);
  });

  test('a file that was replaced by one of the same size is found out, and marks meet no wrong frames', async () => {
    const t = await hosts.fresh();
    const path = await t.video('run.mp4', { mark: 'one' });
    const { id } = await bringIn(t, path);
    await t.video('run.mp4', { mark: 'two' });
    await utimes(path, 1, 1);
    const again = await hosts.reopen(t);
    await until(() => clipsOf(again)[0]?.state === 'missing');
    const moved = await again.video('found.mp4', { mark: 'one' });
    expect(await relink(again, id, moved)).toMatchObject({ state: 'ready' });
  });

  test('a file whose time changed, but not its content, is there and is not read again for ever', async () => {
    let reads = 0;
    const room = standInFootage();
    const counting = {
      footage: {
        ...room,
        contentHash: (...args: Parameters<typeof room.contentHash>) => {
          reads++;
          return room.contentHash(...args);
        },
      },
    };
    const t = await hosts.fresh({}, counting);
    const path = await t.video('run.mp4');
    await bringIn(t, path);
    await utimes(path, 1000, 1000);
    const again = await hosts.reopen(t, {}, counting);
    expect(clipsOf(again)).toMatchObject([{ state: 'ready' }]);
    await until(() => again.desk.library.clips.list()[0]?.fileTime === 1_000_000);
    expect(clipsOf(again)).toMatchObject([{ state: 'ready' }]);
    await hosts.reopen(again, {}, counting);
    expect(reads).toBe(2);
  });

  test('its working copy still shows', async () => {
    const t = await hosts.fresh();
    const path = await t.video('run.mp4', { needsCopy: 'codec' });
    await bringIn(t, path);
    await t.desk.jobs.idle();
    await rm(path);
    const again = await hosts.reopen(t);
    const [clip] = clipsOf(again);
    expect(clip).toMatchObject({ state: 'missing' });
    expect((await again.host.media(clip?.mediaId ?? ''))?.bytes).toBeGreaterThan(0);
  });
});

describe('working copies', () => {
  test('one that was not made is queued again on opening, and one that vanished is made again', async () => {
    const t = await hosts.fresh();
    const go = join(t.files, 'go');
    await bringIn(t, await t.video('run.mp4', { needsCopy: 'codec', copyWaitsFor: go }));
    expect(clipsOf(t)).toMatchObject([{ state: 'needsCopy' }]);
    await writeFile(go, '');
    const again = await hosts.reopen(t);
    await again.desk.jobs.idle();
    expect(clipsOf(again)).toMatchObject([{ state: 'workingCopy', why: 'codec' }]);
    await rm(join(again.folder, 'copies'), { recursive: true });
    const third = await hosts.reopen(again);
    await third.desk.jobs.idle();
    expect(clipsOf(third)).toMatchObject([{ state: 'workingCopy' }]);
  });

  test('an upright copy of a turned clip needs no turn', async () => {
    const room = standInFootage();
    const turned = {
      ...room,
      probe: async (p: string, s: AbortSignal) => ({ ...(await room.probe(p, s)), rotation: 90 as const }),
    };
    const t = await hosts.fresh({}, { footage: turned });
    await bringIn(t, await t.video('plain.mp4'));
    const { id } = await bringIn(t, await t.video('copied.mp4', { needsCopy: 'codec' }));
    await t.desk.jobs.idle();
    expect(clipsOf(t)).toMatchObject([{ rotation: 90 }, { id, rotation: 0 }]);
  });

  test('one that cannot be made says why; the clip stays as it is', async () => {
    const room = standInFootage();
    const failing = {
      ...room,
      makeWorkingCopy: async () => {
        throw Object.assign(new Error('A working copy of “run.mp4” could not be made.'), { code: 'damaged' });
      },
    };
    const t = await hosts.fresh({}, { footage: failing });
    await bringIn(t, await t.video('run.mp4', { needsCopy: 'codec' }));
    await t.desk.jobs.idle();
    expect(t.desk.jobs.list().at(-1)).toMatchObject({
      name: 'clip.workingCopy',
      state: 'failed',
      trouble: { code: 'damaged', message: 'A working copy of “run.mp4” could not be made.' },
    });
    expect(clipsOf(t)).toMatchObject([{ state: 'needsCopy' }]);
    expect(t.faults).toEqual([]);
  });

  test('asking for one twice is one job', async () => {
    const t = await hosts.fresh();
    const go = join(t.files, 'go');
    const { id } = await bringIn(t, await t.video('run.mp4', { needsCopy: 'codec', copyWaitsFor: go }));
    const asked = t.run('clip.workingCopy', { clipId: id });
    await writeFile(go, '');
    expect(await asked).toMatchObject({ state: 'done' });
    expect(t.desk.jobs.list().filter((j) => j.name === 'clip.workingCopy')).toHaveLength(1);
  });
});

describe('a clip that was sent in', () => {
  test('moves into the library under its own name', async () => {
    const t = await hosts.fresh();
    const source = await sendTo(t.host, 'Übung 1.mp4', Buffer.from(standInVideo()));
    const report = await t.run('clip.import', { source });
    const { clip } = jobs['clip.import'].result.parse(report.result);
    const path = t.desk.library.clips.get(clip.id)?.path ?? '';
    expect(path).toBe(join(t.folder, 'clips', clip.sha256, 'Übung 1.mp4'));
    expect(existsSync(path)).toBe(true);
    expect(clipsOf(await hosts.reopen(t))).toMatchObject([{ state: 'ready' }]);
  });

  test('one that is no video leaves nothing behind', async () => {
    const t = await hosts.fresh();
    const source = await sendTo(t.host, 'text.mp4', Buffer.from('Dear diary'));
    expect(await t.run('clip.import', { source })).toMatchObject({
      state: 'failed',
      trouble: { code: 'noVideo' },
    });
    expect(clipsOf(t)).toEqual([]);
    for (const folder of ['incoming', 'clips']) {
      const { readdir } = await import('node:fs/promises');
      expect(await readdir(join(t.folder, folder))).toEqual([]);
    }
  });

  test('no room for the clip in the store: the file is not left behind either', async () => {
    const t = await hosts.fresh();
    t.desk.library.limit(1);
    const source = await sendTo(t.host, 'run.mp4', Buffer.from(standInVideo({ frames: 50_000 })));
    expect(await t.run('clip.import', { source })).toMatchObject({
      state: 'failed',
      trouble: { code: 'noSpace' },
    });
    const { readdir } = await import('node:fs/promises');
    expect(await readdir(join(t.folder, 'clips'))).toEqual([]);
  });
});

test('the original is never written to', async () => {
  const t = await hosts.fresh();
  const path = await t.video('run.mp4', { needsCopy: 'codec' });
  const before = await readFile(path);
  await bringIn(t, path);
  await t.desk.jobs.idle();
  expect(await readFile(path)).toEqual(before);
});

test('a named pipe and a folder are no files, and hold nothing up', async () => {
  const t = await hosts.fresh();
  const { execFileSync } = await import('node:child_process');
  const pipe = join(t.files, 'pipe.mp4');
  execFileSync('mkfifo', [pipe]);
  for (const path of [pipe, t.files, '/dev/zero']) {
    expect(await t.run('clip.import', { source: { path } })).toMatchObject({
      state: 'failed',
      trouble: { code: 'badInput' },
    });
  }
});

test('frames of the report come from the working copy where the original is gone, by its own times', async () => {
  const asked: { path: string; first: number | undefined; frame: number }[] = [];
  const room = standInFootage();
  const t = await hosts.fresh(
    {},
    {
      footage: {
        ...room,
        indexFrames: async (path, signal, on) =>
          room.indexFrames(path, signal, on).catch(async () => {
            const { frameTable } = await import('../../../src/time/frameTable.ts');
            return { table: frameTable({ num: 1, den: 30 }, [500, 501, 502]), slow: null };
          }),
        still: async (path, frames, frame) => {
          asked.push({ path, first: frames.pts[0], frame });
          return Uint8Array.of(1);
        },
      },
      report: {
        ...standInReport,
        async write({ review, still }) {
          await still(review.footage[0]?.clipId ?? '', 2, 100);
          return { name: 'r.html', content: '<p>' };
        },
      },
    },
  );
  const path = await t.video('run.mp4', { frames: 3, needsCopy: 'codec' });
  const clip = await bringIn(t, path);
  await t.desk.jobs.idle();
  const { reviewId } = await callHandlers['review.create'](t.desk, {
    title: 'x',
    dog: '',
    handler: '',
    obstacles: 0,
    clipIds: [clip.id],
  });
  await t.run('report.write', { reviewId, form: 'html', short: false, copy: 'student' });
  await copyFile(path, `${path}.kept`);
  await rm(path);
  await t.desk.clips.look();
  await t.run('report.write', { reviewId, form: 'html', short: false, copy: 'student' });
  expect(asked).toEqual([
    { path, first: 0, frame: 2 },
    { path: join(t.folder, 'copies', `${clip.id}.mp4`), first: 500, frame: 2 },
  ]);
});
