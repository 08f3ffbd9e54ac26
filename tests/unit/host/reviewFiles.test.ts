import { copyFile, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { jobs } from '../../../src/host/contract/calls.ts';
import { largestMessage } from '../../../src/host/contract/messages.ts';
import { callHandlers } from '../../../src/host/handlers/calls.ts';
import { reviewVersion } from '../../../src/review/document.ts';
import { sendTo } from '../host-suite/lines.ts';
import { standInVideo } from '../host-suite/standIns.ts';
import { note } from '../library/examples.ts';
import { testHosts, type TestHost } from './desks.ts';

const hosts = testHosts();

/** A review file as a coach may have it, with one clip of five frames. */
function reviewFile(video: string, more: Record<string, unknown> = {}): Record<string, unknown> {
  return {
    format: 'walkback.review',
    version: reviewVersion,
    id: 'from-elsewhere',
    header: { title: 'From another machine' },
    course: {
      obstacles: [
        { id: 'a', kind: 'barJump' },
        { id: 'b', kind: 'tunnel' },
      ],
      steps: [
        { number: 1, obstacleId: 'a' },
        { number: 2, obstacleId: 'b' },
      ],
    },
    footage: [
      {
        id: 'f1',
        name: 'ringside',
        clip: {
          sha256: createHash('sha256').update(video).digest('hex'),
          bytes: Buffer.byteLength(video),
          path: 'run.mp4',
          width: 640,
          height: 360,
          rotation: 0,
          codec: 'h264',
          timeBase: [1, 30],
          pts: [0, 1, 2, 3, 4],
        },
      },
    ],
    marks: [note('m1', 2)],
    ...more,
  };
}

const bring = async (t: TestHost, file: string) => {
  const report = await t.run('review.import', { source: { path: file } });
  expect(report.trouble).toBeNull();
  return jobs['review.import'].result.parse(report.result).reviewId;
};

const write = async (t: TestHost, name: string, content: unknown): Promise<string> => {
  const path = join(t.files, name);
  await mkdir(join(path, '..'), { recursive: true });
  await writeFile(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
};

describe('bringing a review file in', () => {
  test('keeps its id where that is free, and takes a new one where it is not', async () => {
    const t = await hosts.fresh();
    const file = await write(t, 'a.walkback.json', reviewFile('x'));
    expect(await bring(t, file)).toBe('from-elsewhere');
    const second = await bring(t, file);
    expect(second).not.toBe('from-elsewhere');
    const [one, two] = ['from-elsewhere', second].map((id) => t.desk.library.reviews.whole(id).state);
    expect({ ...two, id: '' }).toEqual({ ...one, id: '' });
    expect(t.desk.library.clips.list()).toHaveLength(1);
  });

  test('finds its footage beside it by content', async () => {
    const t = await hosts.fresh();
    const video = standInVideo({ frames: 5 });
    const file = await write(t, 'handed over/a.walkback.json', reviewFile(video));
    await write(t, 'handed over/run.mp4', video);
    await bring(t, file);
    expect(t.desk.clips.summaries()).toMatchObject([{ name: 'run.mp4', state: 'ready', frames: 5 }]);
  });

  test('finds it under the bare name where the folder in the file is not there', async () => {
    const t = await hosts.fresh();
    const video = standInVideo({ frames: 5 });
    const document = reviewFile(video) as { footage: { clip: { path: string } }[] };
    for (const f of document.footage) f.clip.path = '/home/someone/films/run.mp4';
    const file = await write(t, 'a.walkback.json', document);
    await write(t, 'run.mp4', video);
    await bring(t, file);
    expect(t.desk.clips.summaries()).toMatchObject([{ state: 'ready' }]);
  });

  test('finds it in the library by content, whatever its name there', async () => {
    const t = await hosts.fresh();
    const path = await t.video('mine.mp4', { frames: 5 });
    await t.run('clip.import', { source: { path } });
    const file = await write(t, 'elsewhere/a.walkback.json', reviewFile(await readFile(path, 'utf8')));
    await bring(t, file);
    expect(t.desk.clips.summaries()).toMatchObject([{ name: 'mine.mp4', state: 'ready' }]);
  });

  test('does not take another content of the same name and size', async () => {
    const t = await hosts.fresh();
    const file = await write(t, 'a.walkback.json', reviewFile(standInVideo({ frames: 5, mark: 'a' })));
    await write(t, 'run.mp4', standInVideo({ frames: 5, mark: 'b' }));
    await bring(t, file);
    expect(t.desk.clips.summaries()).toMatchObject([{ state: 'missing' }]);
  });

  test('work goes on without the footage: its frames come with the file; linking it later fills in the rest', async () => {
    const t = await hosts.fresh();
    const video = standInVideo({ frames: 5, needsCopy: 'codec' });
    const id = await bring(t, await write(t, 'a.walkback.json', reviewFile(video)));
    const [clip] = t.desk.clips.summaries();
    expect(clip).toMatchObject({ state: 'missing', frames: 5, name: 'run.mp4', mediaId: null });
    t.desk.library.reviews.apply(id, 'a1', 'x', [{ kind: 'mark', id: 'm2', body: note('m2', 4) }]);
    expect(await callHandlers['clip.frames'](t.desk, { clipId: clip?.id ?? '' })).toMatchObject({
      pts: [0, 1, 2, 3, 4],
    });
    const path = await write(t, 'found/again.mp4', video);
    const linked = await callHandlers['clip.relink'](t.desk, { clipId: clip?.id ?? '', source: { path } });
    expect(linked).toMatchObject({ state: 'needsCopy', why: 'codec', codec: 'hevc', container: 'mp4' });
    await t.desk.jobs.idle();
    expect(t.desk.clips.summaries()).toMatchObject([{ state: 'workingCopy' }]);
  });

  test('what was sent in is looked for by content only', async () => {
    const t = await hosts.fresh();
    const source = await sendTo(t.host, 'a.walkback.json', Buffer.from(JSON.stringify(reviewFile('x'))));
    expect(await t.run('review.import', { source })).toMatchObject({ state: 'done' });
    expect(t.desk.clips.summaries()).toMatchObject([{ state: 'missing' }]);
  });

  test('a path in it leads a loopback window nowhere outside its folders', async () => {
    const t = await hosts.fresh();
    const video = standInVideo({ frames: 5 });
    await write(t, 'private/run.mp4', video);
    const document = reviewFile(video) as { footage: { clip: { path: string } }[] };
    for (const f of document.footage) f.clip.path = '../private/run.mp4';
    const file = await write(t, 'allowed/a.walkback.json', document);
    const confined = await hosts.reopen(t, {
      trustedPaths: false,
      allowedFolders: [join(t.files, 'allowed')],
    });
    await bring(confined, file);
    expect(confined.desk.clips.summaries()).toMatchObject([{ state: 'missing' }]);
    const trusted = await hosts.reopen(confined);
    await bring(trusted, file);
    expect(trusted.desk.clips.summaries()).toMatchObject([{ state: 'ready' }]);
  });
});

describe('what is wrong with a review file is told, and nothing is changed', () => {
  const step = (number: number) => ({ number, obstacleId: 'a' });
  const good = reviewFile('x');
  const goodClip = (good['footage'] as { clip: object }[])[0]?.clip;
  const withClip = (more: object) => ({
    ...good,
    footage: [{ id: 'f1', name: 'n', clip: { ...goodClip, ...more } }],
  });
  const raw = (from: string, to: string): string => {
    const text = JSON.stringify(good);
    if (!text.includes(from)) throw new Error(`The example has no ${from}`);
    return text.replace(from, to);
  };

  test.each<[string, unknown, string]>([
    ['an empty file', '', 'badInput'],
    ['text', 'Dear diary', 'badInput'],
    ['cut off in the middle', JSON.stringify(good).slice(0, 300), 'badInput'],
    ['another kind of JSON', { name: 'x' }, 'badInput'],
    ['a list', [], 'badInput'],
    ['null', 'null', 'badInput'],
    ['a newer version', { ...good, version: 99 }, 'tooNew'],
    ['NaN as a time', raw('"pts":2', '"pts":NaN'), 'badInput'],
    ['null as a time', raw('"pts":2', '"pts":null'), 'badInput'],
    ['a huge number as a time', raw('"pts":2', '"pts":1e999'), 'badInput'],
    ['a time that is negative where the footage has none', raw('"pts":2', '"pts":-5'), 'badInput'],
    ['a time after the last frame', raw('"pts":2', '"pts":99'), 'badInput'],
    [
      'a skipped number',
      { ...good, course: { obstacles: [{ id: 'a', kind: 'wall' }], steps: [step(1), step(3)] } },
      'badInput',
    ],
    [
      'a repeated number',
      { ...good, course: { obstacles: [{ id: 'a', kind: 'wall' }], steps: [step(1), step(1)] } },
      'badInput',
    ],
    ['a number on nothing', { ...good, course: { obstacles: [], steps: [step(1)] } }, 'badInput'],
    ['two marks with one id', { ...good, marks: [note('m1', 1), note('m1', 2)] }, 'badInput'],
    [
      'a mark on footage that is not in it',
      { ...good, marks: [{ ...note('m1', 1), footageId: 'f9' }] },
      'badInput',
    ],
    ['an unknown key', { ...good, speed: 3 }, 'badInput'],
    ['frames out of order', withClip({ pts: [0, 2, 1] }), 'badInput'],
    ['no frames', withClip({ pts: [] }), 'badInput'],
    ['a time base of nothing', withClip({ timeBase: [0, 1] }), 'badInput'],
    ['a content hash that is none', withClip({ sha256: '../../x' }), 'badInput'],
  ])('%s', async (_name, content, code) => {
    const t = await hosts.fresh();
    const path = await write(t, 'a.walkback.json', content);
    const report = await t.run('review.import', { source: { path } });
    expect(report).toMatchObject({ state: 'failed', trouble: { code } });
    expect(report.trouble?.message).toContain('a.walkback.json');
    expect(t.desk.library.reviews.list()).toEqual([]);
    expect(t.desk.library.clips.list()).toEqual([]);
    expect(t.faults).toEqual([]);
  });

  test('bytes that are no text', async () => {
    const t = await hosts.fresh();
    const path = join(t.files, 'a.walkback.json');
    await writeFile(path, Buffer.from([0x7b, 0xff, 0xfe, 0x00]));
    expect(await t.run('review.import', { source: { path } })).toMatchObject({
      trouble: { code: 'badInput' },
    });
  });

  test('a file that is far too large is not read at all', async () => {
    const t = await hosts.fresh();
    const path = join(t.files, 'a.walkback.json');
    await writeFile(path, Buffer.alloc(largestMessage + 1, 0x20));
    const report = await t.run('review.import', { source: { path } });
    expect(report).toMatchObject({
      trouble: { code: 'badInput', message: expect.stringContaining('too large') },
    });
  });

  test('depths of brackets do not bring the host down', async () => {
    const t = await hosts.fresh();
    const path = await write(t, 'a.walkback.json', '['.repeat(200_000));
    expect(await t.run('review.import', { source: { path } })).toMatchObject({
      trouble: { code: 'badInput' },
    });
    const deep = `{"format":"walkback.review","version":1,"header":${'{"a":'.repeat(50_000)}1${'}'.repeat(50_000)}}`;
    const other = await write(t, 'b.walkback.json', deep);
    expect(await t.run('review.import', { source: { path: other } })).toMatchObject({
      trouble: { code: 'badInput' },
    });
    expect(t.faults).toEqual([]);
  });
});

test('the document that goes out names no folder of this machine, and comes in again the same', async () => {
  const t = await hosts.fresh();
  const video = standInVideo({ frames: 5 });
  await write(t, 'run.mp4', video);
  const id = await bring(t, await write(t, 'a.walkback.json', reviewFile(video)));
  const { json } = await callHandlers['review.document'](t.desk, { reviewId: id });
  expect(json).not.toContain(t.files);
  expect(JSON.parse(json)).toMatchObject({
    id,
    footage: [{ clip: { path: 'run.mp4', pts: [0, 1, 2, 3, 4] } }],
  });

  const other = await hosts.fresh();
  const file = await write(other, 'b.walkback.json', json);
  await copyFile(join(t.files, 'run.mp4'), join(other.files, 'run.mp4'));
  await bring(other, file);
  const [before, after] = [t, other].map((h) => h.desk.library.reviews.whole(id).state);
  const withoutClips = (s: typeof before) => ({
    ...s,
    footage: s?.footage.map((f) => ({ ...f, clipId: '' })),
  });
  expect(withoutClips(after)).toEqual(withoutClips(before));
});

test('the demo opens in a library that was made for it, once', async () => {
  const video = standInVideo({ frames: 5 });
  const t = await hosts.fresh();
  const demoFolder = join(t.files, 'demo');
  await write(t, 'demo/one.walkback.json', reviewFile(video, { id: 'demo-1' }));
  await write(t, 'demo/two.walkback.json', reviewFile(video, { id: 'demo-2' }));
  await write(t, 'demo/truth.json', { not: 'a review' });
  await write(t, 'demo/run.mp4', video);
  await t.host.close();
  await rm(t.folder, { recursive: true });

  // Folders of the user are not asked: the demo is the program's own.
  const settings = { demo: true, trustedPaths: false, allowedFolders: [] };
  const demo = await hosts.open(join(t.folder, '..'), settings, { demoFolder });
  await demo.desk.jobs.idle();
  expect(demo.desk.library.reviews.list().map((r) => r.id)).toEqual(['demo-1', 'demo-2']);
  expect(demo.desk.clips.summaries()).toMatchObject([{ state: 'ready', frames: 5 }]);
  expect(await callHandlers['library.about'](demo.desk, {})).toMatchObject({ demo: true, fresh: true });
  const again = await hosts.reopen(demo, settings, { demoFolder });
  await again.desk.jobs.idle();
  expect(await callHandlers['library.about'](again.desk, {})).toMatchObject({ demo: true, fresh: false });
  expect(again.desk.library.reviews.list()).toHaveLength(2);
});

test('a demo that is missing is told', async () => {
  await expect(hosts.fresh({ demo: true }, { demoFolder: null })).rejects.toMatchObject({ code: 'notFound' });
});
