import { copyFile, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readCourseFile } from '../../../src/course/file/readCourseFile.ts';
import { demoCourse } from '../course/file/demoCourse.ts';
import { cli, demo, folder } from './cli.ts';

const review = join(demo, 'first-evening.walkback.json');

describe('course', () => {
  test('writes every form, from a review, a course file and a drawing alike', async () => {
    const out = await folder();
    for (const form of ['svg', 'pdf', 'png', 'sheet', 'json']) {
      const ran = await cli('course', review, '--to', form, '--out', out);
      expect(ran).toMatchObject({ code: 0, err: '' });
    }
    const stem = 'Long-evening-ring-two';
    expect((await readdir(out)).sort()).toEqual(
      [`${stem}-plan.pdf`, `${stem}-walk.pdf`, `${stem}.course.json`, `${stem}.png`, `${stem}.svg`].sort(),
    );
    // A drawing and a course file are the same course: what is written from them is the same file, so no number is made.
    for (const file of [`${stem}.svg`, `${stem}.course.json`]) {
      expect(await cli('course', join(out, file), '--to', 'json', '--out', out)).toMatchObject({
        code: 0,
        err: '',
      });
      expect(await cli('course', join(out, file), '--to', 'svg', '--out', out)).toMatchObject({
        code: 0,
        err: '',
      });
    }
    expect(await readdir(out)).toHaveLength(5);
    for (const file of [`${stem}.svg`, `${stem}.course.json`])
      expect(readCourseFile(await readFile(join(out, file), 'utf8'))).toEqual({
        ok: true,
        course: demoCourse(),
      });
  });

  test('leaves a file alone that is there already', async () => {
    const out = await folder();
    const there = join(out, 'Long-evening-ring-two.svg');
    await writeFile(there, 'somebody’s own');
    const ran = await cli('course', review, '--to', 'svg', '--out', out);
    expect(ran.out).toContain('Long-evening-ring-two-2.svg');
    expect(await readFile(there, 'utf8')).toBe('somebody’s own');
  });

  test.each<[string, string, RegExp]>([
    [
      'a file of ten mistakes',
      '{"format":"walkback.course","version":1,"course":{"obstacles":7}}',
      /was not taken: course\.obstacles/,
    ],
    ['another version’s file', '{"format":"walkback.course","version":9,"course":{}}', /has version 9/],
    [
      'a hostile drawing',
      '<!DOCTYPE x [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg"/>',
      /document type/,
    ],
    ['no course at all', 'Dear diary', /not JSON/],
    [
      'a course with nothing on it',
      '{"format":"walkback.course","version":1,"course":{}}',
      /nothing to draw yet/,
    ],
    ['a review that is none', '{"format":"walkback.review","version":99}', /version 99/],
  ])('%s: exit 1, one line, nothing written', async (_name, text, message) => {
    const place = await folder();
    const path = join(place, 'c.json');
    await writeFile(path, text);
    const ran = await cli('course', path, '--to', 'svg', '--out', join(place, 'out'));
    expect(ran.code).toBe(1);
    expect(ran.err.trimEnd().split('\n')).toHaveLength(1);
    expect(ran.err).toMatch(message);
    expect(await readdir(place)).toEqual(['c.json']);
  });

  test('a video, and a scale that does not fit', async () => {
    const place = await folder();
    await copyFile(join(demo, 'run-a.mp4'), join(place, 'run.svg'));
    expect((await cli('course', join(place, 'run.svg'), '--to', 'svg', '--out', place)).err).toMatch(
      /not a text file/,
    );
    const large = await cli('course', review, '--to', 'pdf', '--scale', '50', '--out', place);
    expect(large).toMatchObject({
      code: 1,
      err: expect.stringContaining('At 1:50 this course does not fit on A4'),
    });
    expect((await cli('course', review, '--to', 'gif', '--out', place)).code).toBe(2);
  });

  test('has a JSON Schema, by which a written file is valid', async () => {
    const { Ajv2020 } = await import('ajv/dist/2020.js');
    const schema: unknown = JSON.parse((await cli('schema', 'course')).out);
    const out = await folder();
    await cli('course', review, '--to', 'json', '--out', out);
    const [file = ''] = await readdir(out);
    const check = new Ajv2020({ strict: false }).compile(schema as object);
    const course: unknown = JSON.parse(await readFile(join(out, file), 'utf8'));
    expect(check(course)).toBe(true);
    expect(check({ ...(course as object), version: 2 })).toBe(false);
  });
});
