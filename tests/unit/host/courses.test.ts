import { readFile, readdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { writeCourseFile } from '../../../src/course/file/courseFile.ts';
import { callHandlers } from '../../../src/host/handlers/calls.ts';
import { demoCourse, fullCourse } from '../course/file/demoCourse.ts';
import { testHosts, type TestHost } from './desks.ts';

const hosts = testHosts();

async function withCourse(t: TestHost): Promise<string> {
  const { reviewId } = await callHandlers['review.create'](t.desk, {
    title: 'One',
    dog: '',
    handler: '',
    obstacles: 0,
    clipIds: [],
  });
  await callHandlers['review.apply'](t.desk, {
    reviewId,
    actId: 'a1',
    label: 'Course',
    changes: [{ kind: 'course', id: reviewId, body: demoCourse() }],
  });
  return reviewId;
}

const read = async (t: TestHost, text: string | Uint8Array, name = 'c.json') => {
  const path = join(t.files, name);
  await writeFile(path, text);
  return callHandlers['course.read'](t.desk, { source: { path } });
};

describe('a course and its files', () => {
  test('is written under its name, and read back the same', async () => {
    const t = await hosts.fresh();
    const reviewId = await withCourse(t);
    for (const form of ['svg', 'json'] as const) {
      const file = await callHandlers['course.export'](t.desk, { reviewId, form, paper: 'a4' });
      expect(await t.host.media(file.mediaId)).toMatchObject({ bytes: file.bytes });
      expect(await read(t, await readFile(file.path), file.name)).toEqual({
        course: demoCourse(),
        pictureMissing: false,
      });
    }
    for (const form of ['pdf', 'png', 'sheet'] as const) {
      const file = await callHandlers['course.export'](t.desk, { reviewId, form, paper: 'a5' });
      expect(file.bytes).toBeGreaterThan(1000);
    }
    expect((await readdir(join(t.folder, 'reports'))).filter((n) => n.startsWith('.'))).toEqual([]);
    expect(t.faults).toEqual([]);
  });

  test('that does not fit the paper, or is not drawn, is told', async () => {
    const t = await hosts.fresh();
    const reviewId = await withCourse(t);
    await expect(
      callHandlers['course.export'](t.desk, { reviewId, form: 'pdf', paper: 'a5', scale: 50 }),
    ).rejects.toMatchObject({ code: 'badInput', message: expect.stringContaining('At 1:50') });
    expect(await readdir(join(t.folder, 'reports'))).toEqual([]);
  });

  test('whose picture is not in this library comes without it, and says so', async () => {
    const t = await hosts.fresh();
    const { mapPicture: _, underlay: __, ...rest } = fullCourse();
    expect(await read(t, writeCourseFile(fullCourse()))).toEqual({ course: rest, pictureMissing: true });
  });

  test.each<[string, string | Uint8Array, RegExp]>([
    ['a file that is no text', Buffer.from([0xff, 0xfe, 0, 1]), /not a text file/],
    ['another version’s file', '{"format":"walkback.course","version":2}', /“c\.json”.* version 2/],
    ['a drawing of another program', '<svg xmlns="http://www.w3.org/2000/svg"/>', /carries no course/],
    ['a file beyond all size', Buffer.alloc(65 * 1024 * 1024, 32), /too large for a course/],
  ])('%s is refused', async (_name, bytes, message) => {
    const t = await hosts.fresh();
    await expect(read(t, bytes)).rejects.toMatchObject({
      code: 'badInput',
      message: expect.stringMatching(message),
    });
    expect(t.faults).toEqual([]);
  });
});
