import { existsSync } from 'node:fs';
import { copyFile, mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { cli, demo, folder } from './cli.ts';

describe('import and list', () => {
  test('bring a video and a review in, leave out what cannot be, and list what is there', async () => {
    const place = await folder();
    const library = join(place, 'my library');
    const review = join(place, 'first-evening.walkback.json');
    await copyFile(join(demo, 'first-evening.walkback.json'), review);
    await copyFile(join(demo, 'run-a.mp4'), join(place, 'run-a.mp4'));
    await writeFile(join(place, 'letter.mp4'), 'not a film');
    await writeFile(join(place, 'broken.json'), '{');
    const ran = await cli(
      ...['import', join(place, 'run-a.mp4'), join(place, 'letter.mp4'), review, join(place, 'broken.json')],
      ...[join(place, 'nowhere.mp4'), '--library', library],
    );
    expect(ran.code).toBe(1);
    expect(ran.out.split('\n')).toEqual([
      expect.stringMatching(/^run-a\.mp4: [\d,]+ frames$/),
      'first-evening.walkback.json: review taken in',
      '',
    ]);
    const lines = ran.err.trimEnd().split('\n');
    expect(lines).toHaveLength(3);
    for (const [i, name] of ['letter.mp4', 'broken.json', 'nowhere.mp4'].entries())
      expect(lines[i]).toContain(name);

    const listed = await cli('list', '--library', library);
    expect(listed).toMatchObject({ code: 0, err: '' });
    expect(listed.out).toMatch(
      /First evening: a cue too late · Ines and Bramble · 2026-04-18 · 19 obstacles/,
    );
    expect(listed.out).toMatch(/run-a\.mp4 · [\d,]+ frames · 1280 × 720 · h264/);
    const told = JSON.parse((await cli('list', '--library', library, '--json')).out) as {
      reviews: object[];
      clips: object[];
    };
    expect(told.reviews).toHaveLength(1);
    expect(told.clips).toEqual([expect.not.objectContaining({ mediaId: expect.anything() as unknown })]);
  });

  test('looking makes no library where there is none', async () => {
    const library = join(await folder(), 'none');
    const ran = await cli('list', '--library', library);
    expect(ran.code).toBe(1);
    expect(ran.err).toContain(library);
    expect(existsSync(library)).toBe(false);
  });

  test('a folder that is no library and a file in its place are told, not touched', async () => {
    const place = await folder();
    await mkdir(join(place, 'odd'));
    await writeFile(
      join(place, 'odd', 'walkback.sqlite'),
      'these are not the tables you look for'.repeat(100),
    );
    const damaged = await cli('list', '--library', join(place, 'odd'));
    expect(damaged.code).toBe(1);
    expect(damaged.err.trimEnd().split('\n')).toHaveLength(1);
    await writeFile(join(place, 'file'), '');
    const file = await cli('import', join(demo, 'run-a.mp4'), '--library', join(place, 'file'));
    expect(file.code).toBe(1);
    expect(file.err.trimEnd().split('\n')).toHaveLength(1);
    expect(file.err).toContain(join(place, 'file'));
  });
});
