import { mkdir, truncate, writeFile } from 'node:fs/promises';
import { execFileSync } from 'node:child_process';
import { basename, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { sample } from '../report/sample.ts';
import { cli, folder, shell } from './cli.ts';

type Json = Record<string, never>;
const good = (): Json => JSON.parse(JSON.stringify(sample().document)) as Json;

/** Writes a review file and asks for its analysis. */
async function analyse(content: string | Buffer, name = 'r.walkback.json') {
  const path = join(await folder(), name);
  await writeFile(path, content);
  return { path, ran: await cli('analyse', path, '--json') };
}

function oneLine(err: string, path: string): void {
  expect(err.trimEnd().split('\n')).toHaveLength(1);
  expect(err).toContain(basename(path));
  expect(err).not.toMatch(/\n\s+at |Error:|\[object|undefined/);
}

const marks = (change: (mark: Record<string, unknown>) => Record<string, unknown>): string => {
  const review = good() as unknown as { marks: Record<string, unknown>[] };
  return JSON.stringify({ ...review, marks: review.marks.map((m, i) => (i === 8 ? change(m) : m)) });
};
const steps = (change: (step: { number: number }, i: number) => unknown): string => {
  const review = good() as unknown as { course: { steps: { number: number }[] } };
  return JSON.stringify({ ...review, course: { ...review.course, steps: review.course.steps.map(change) } });
};

describe('bad review files: exit 1, one line that names the file, nothing on standard output', () => {
  test.each<[string, string | Buffer, RegExp]>([
    ['empty', '', /empty/],
    ['blank', ' \n\t ', /empty/],
    ['malformed', '{"format": "walkback.review",', /not JSON/],
    ['a list', '[]', /not a review file/],
    ['another kind of file', '{"format":"walkback.plan","version":1}', /not a review file/],
    ['newer', '{"format":"walkback.review","version":99}', /version 99/],
    ['not text', Buffer.from([0xff, 0xfe, 0x00, 0xd8]), /not a text file/],
    ['deep beyond reason', '['.repeat(200_000), /./],
    ['NaN as a number', JSON.stringify(good()).replace('"pts":180', '"pts":NaN'), /not JSON/],
    ['NaN written as text', marks((m) => ({ ...m, pts: 'NaN' })), /marks\.8\.pts/],
    ['infinity', JSON.stringify(good()).replace('"pts":180', '"pts":1e999'), /marks/],
    ['half a tick', marks((m) => ({ ...m, pts: 10.5 })), /marks\.8\.pts/],
    ['a time before the first frame', marks((m) => ({ ...m, pts: -5 })), /outside the footage/],
    ['a time after the last frame', marks((m) => ({ ...m, pts: 10 ** 9 })), /outside the footage/],
    ['a negative uncertainty', marks((m) => ({ ...m, unsure: -1 })), /marks\.8\.unsure/],
    [
      'unknown footage in a mark',
      marks((m) => ({ ...m, footageId: 'f9' })),
      /"f9", which is not in the file/,
    ],
    ['an unknown number in a mark', marks((m) => ({ ...m, place: 99 })), /obstacle 99/],
    ['a repeated mark', marks((m) => ({ ...m, id: 'm1' })), /"m1" occurs more than once/],
    ['a skipped number', steps((s, i) => (i === 4 ? { ...s, number: 42 } : s)), /number 5 is missing/],
    [
      'a repeated number',
      steps((s, i) => (i === 4 ? { ...s, number: 4 } : s)),
      /number 4 occurs more than once/,
    ],
    ['a number on nothing', steps((s, i) => (i === 4 ? { ...s, obstacleId: 'x' } : s)), /"x"/],
  ])('%s', async (_what, content, says) => {
    const { path, ran } = await analyse(content);
    expect(ran.code).toBe(1);
    expect(ran.out).toBe('');
    oneLine(ran.err, path);
    expect(ran.err).toMatch(says);
  });

  test('too large: refused by its size, before it is read', async () => {
    const path = join(await folder(), 'huge.walkback.json');
    await writeFile(path, '{');
    await truncate(path, 64 * 1024 * 1024 + 1);
    const ran = await cli('analyse', path);
    expect(ran.code).toBe(1);
    oneLine(ran.err, path);
    expect(ran.err).toMatch(/too large/);
  });

  test('missing, a folder, a pipe', async () => {
    const place = await folder();
    const missing = await cli('analyse', join(place, 'no.json'));
    expect(missing).toMatchObject({ code: 1, err: expect.stringMatching(/no such file/) as string });
    await mkdir(join(place, 'sub'));
    const isFolder = await cli('analyse', join(place, 'sub'));
    expect(isFolder).toMatchObject({ code: 1, err: expect.stringMatching(/is a folder/) as string });
    execFileSync('mkfifo', [join(place, 'pipe')]);
    const pipe = await cli('analyse', join(place, 'pipe'));
    expect(pipe).toMatchObject({ code: 1, err: expect.stringMatching(/not a plain file/) as string });
  });

  test('a file that may not be read', async () => {
    const place = await folder();
    const path = join(place, 'r.json');
    await writeFile(path, JSON.stringify(good()), { mode: 0 });
    const nobody = { uid: 65534, gid: 65534 };
    const root = process.getuid?.() === 0;
    if (root) execFileSync('chmod', ['755', place]);
    const ran = await shell('"$@"', ['analyse', path], root ? nobody : undefined);
    expect(ran.code).toBe(1);
    oneLine(ran.err, path);
    expect(ran.err).toMatch(/may not be read/);
  });

  test('many mistakes are told as the first and a count', async () => {
    const { path, ran } = await analyse(steps((s) => ({ ...s, obstacleId: 'x' })));
    expect(ran.code).toBe(1);
    oneLine(ran.err, path);
    expect(ran.err).toMatch(/And \d+ more problems\./);
  });

  test('hostile names in the file do not act on the terminal', async () => {
    const { ran } = await analyse(marks((m) => ({ ...m, footageId: 'x\u001b[2J\ny' })));
    expect(ran.code).toBe(1);
    expect(ran.err.trimEnd().split('\n')).toHaveLength(1);
    expect(ran.err).not.toContain('\u001b');
  });
});

describe('bad videos: exit 1, one line that names the file', () => {
  test.each<[string, string | Buffer]>([
    ['empty.mp4', ''],
    ['text.mp4', 'this is a letter, not a film\n'.repeat(50)],
    [`quote's “犬” name.mov`, Buffer.from([0, 0, 0, 24, 0x66, 0x74, 0x79, 0x70, 0x69, 0x73, 0x6f, 0x6d])],
  ])('%s', async (name, content) => {
    const path = join(await folder(), name);
    await writeFile(path, content);
    const ran = await cli('frames', path, '--json');
    expect(ran.code).toBe(1);
    expect(ran.out).toBe('');
    oneLine(ran.err, path);
  });

  test('missing, and a folder', async () => {
    const place = await folder();
    expect(await cli('frames', join(place, 'no.mp4'))).toMatchObject({ code: 1 });
    expect(await cli('frames', place)).toMatchObject({ code: 1 });
  });
});
