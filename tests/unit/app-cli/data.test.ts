import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { cli, demo, folder } from './cli.ts';

const review = join(demo, 'first-evening.walkback.json');

describe('data', () => {
  test('writes tables, captions and the analysis into a folder of their own, the analysis as analyse prints it', async () => {
    const out = await folder();
    const ran = await cli('data', review, '--out', out);
    expect(ran).toMatchObject({ code: 0, err: '' });
    const [made = ''] = await readdir(out);
    expect((await readdir(join(out, made))).sort()).toEqual([
      '1-run-a.chapters.vtt',
      '1-run-a.remarks.vtt',
      'analysis.json',
      'crosses.csv',
      'events.csv',
      'obstacles.csv',
      'splits.csv',
      'start-line.csv',
    ]);
    const told: unknown = JSON.parse(await readFile(join(out, made, 'analysis.json'), 'utf8'));
    expect(told).toEqual(JSON.parse((await cli('analyse', review, '--json')).out));
    const remarks = await readFile(join(out, made, '1-run-a.remarks.vtt'), 'utf8');
    expect(remarks).toContain(
      '00:00:15.567 --> 00:00:18.067\nFront cross at 3 (bar jump, the yellow one): late.',
    );
  });

  test('says what is no review file, and leaves nothing', async () => {
    const out = await folder();
    const ran = await cli('data', join(demo, 'run-a.mp4'), '--out', out);
    expect(ran.code).toBe(1);
    expect(ran.err).toContain('run-a.mp4');
    expect(await readdir(out)).toEqual([]);
  });
});
