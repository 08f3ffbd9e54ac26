import { execFileSync } from 'node:child_process';
import { chmod, copyFile, mkdir, readFile, symlink, truncate, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clip } from '../../../scripts/clips/make.ts';
import { readStill } from './readStill.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { probe } from '../../../src/footage/probe.ts';
import { still } from '../../../src/footage/still.ts';
import { fileTrouble, FootageError, type FootageCode } from '../../../src/footage/trouble.ts';
import { makeWorkingCopy } from '../../../src/footage/workingCopy.ts';
import { ffmpeg, scratch } from './makeFile.ts';

let room: Awaited<ReturnType<typeof scratch>>;
beforeAll(async () => {
  room = await scratch();
});
afterAll(() => room.clear());

/** The sentence of the refusal; fails where the file is taken, or refused in another way. */
async function refusal(file: string, code: FootageCode): Promise<string> {
  const error: unknown = await indexFrames(file).then(
    () => null,
    (e: unknown) => e,
  );
  expect(error).toBeInstanceOf(FootageError);
  const refused = error as FootageError;
  expect(refused.code).toBe(code);
  return refused.message;
}

async function saved(name: string, content: string | Buffer): Promise<string> {
  await writeFile(room.at(name), content);
  return room.at(name);
}

describe('a file that is no clip is refused with its name and what to do', () => {
  it('empty', async () => {
    expect(await refusal(await saved('run 1.mp4', ''), 'noVideo')).toBe(
      '“run 1.mp4” is empty. Copy it again from the camera or the phone.',
    );
  });

  it('text renamed', async () => {
    const message = await refusal(
      await saved('notes.mp4', 'Tuesday: weaves, 3 of 5.\n'.repeat(500)),
      'noVideo',
    );
    expect(message).toMatch(/“notes\.mp4” is not a video .* mp4, mov/);
  });

  it('random bytes, a picture, a web page', async () => {
    const noise = Buffer.from(
      Array.from({ length: 70_000 }, (_, i) => (Math.imul(i + 1, 2654435761) >>> 13) & 255),
    );
    await refusal(await saved('noise.mov', noise), 'noVideo');
    await ffmpeg('-f', 'lavfi', '-i', 'testsrc=s=64x64:d=0.1', '-frames:v', '1', room.at('photo.png'));
    await copyFile(room.at('photo.png'), room.at('photo.mp4'));
    await refusal(room.at('photo.mp4'), 'noVideo');
    await refusal(await saved('page.webm', '<!doctype html><title>x</title>'), 'noVideo');
  });

  it('a playlist that would make ffmpeg open other files', async () => {
    const { path: other } = await clip('mpegTs');
    const list = `#EXTM3U\n#EXT-X-TARGETDURATION:10\n#EXTINF:10,\nfile://${other}\n#EXT-X-ENDLIST\n`;
    await refusal(await saved('list.mp4', list), 'noVideo');
    await refusal(await saved('joined.mkv', `ffconcat version 1.0\nfile '${other}'\n`), 'noVideo');
  });

  it('a recording that was never finished (no movie box)', async () => {
    const whole = await readFile((await clip('h264')).path);
    const file = await saved('cut off.mp4', whole.subarray(0, Math.floor(whole.length / 2)));
    expect(await refusal(file, 'damaged')).toMatch(/“cut off\.mp4” is (?:incomplete|cut short)/);
    await saved('only head.mov', whole.subarray(0, 40));
    expect(await refusal(room.at('only head.mov'), 'damaged')).toMatch(/incomplete/);
  });

  it.each(['mkv', 'proRes', 'aviMotionJpeg'] as const)('cut short in a copy: %s', async (kind) => {
    const { path: original } = await clip(kind);
    const file = room.at(`short${path.extname(original)}`);
    await copyFile(original, file);
    await truncate(file, 60_000);
    expect(await refusal(file, 'damaged')).toMatch(/“short\.\w+” is (?:incomplete|cut short: .* missing)/);
  });

  it('cut short where the movie box stands in front', async () => {
    await ffmpeg(
      '-i',
      (await clip('h264')).path,
      '-c',
      'copy',
      '-movflags',
      '+faststart',
      room.at('front.mp4'),
    );
    await truncate(room.at('front.mp4'), 200_000);
    expect(await refusal(room.at('front.mp4'), 'damaged')).toMatch(/cut short: .* at its end are missing/);
  });

  it('sound alone, and sound with a cover', async () => {
    const tone = ['-f', 'lavfi', '-i', 'sine=duration=1'];
    await ffmpeg(...tone, '-c:a', 'aac', room.at('voice.m4a'));
    await copyFile(room.at('voice.m4a'), room.at('voice.mp4'));
    expect(await refusal(room.at('voice.mp4'), 'noVideo')).toMatch(/no moving picture/);
    await ffmpeg('-f', 'lavfi', '-i', 'testsrc=s=64x64:d=0.1', '-frames:v', '1', room.at('cover.jpg'));
    await ffmpeg(
      ...[...tone, '-i', room.at('cover.jpg'), '-map', '0', '-map', '1', '-c:a', 'aac', '-c:v', 'mjpeg'],
      ...['-disposition:v:0', 'attached_pic', room.at('song.mp4')],
    );
    expect(await refusal(room.at('song.mp4'), 'noVideo')).toMatch(/no moving picture/);
  });

  it('an absurd length in the header of the movie, or of the track', async () => {
    const original = await readFile((await clip('h264Silent')).path);
    const tooLong = /“long\.mp4” says that it runs for [\d,]+ hours; 24 hours are the most/;
    // Movie header (ISO/IEC 14496-12, 8.2.2): scale, then duration.
    const movie = Buffer.from(original);
    movie.writeUInt32BE(0xfffffff0, movie.indexOf('mvhd') + 4 + 16);
    expect(await refusal(await saved('long.mp4', movie), 'badInput')).toMatch(tooLong);
    // A clock of one tick a second (8.4.2) makes hours of the track's 122,880 ticks; the edit list must allow it.
    const track = Buffer.from(original);
    track.writeUInt32BE(1, track.indexOf('mdhd') + 4 + 12);
    track.writeUInt32BE(0xfffffff0, track.indexOf('elst') + 4 + 8);
    expect(await refusal(await saved('long.mp4', track), 'badInput')).toMatch(tooLong);
  });

  it('frames that lie years apart', async () => {
    await ffmpeg(
      ...['-f', 'lavfi', '-i', 'testsrc=s=64x64:r=25:d=0.4', '-vf', 'setpts=PTS+gt(N\\,5)*100000/TB'],
      ...['-vsync', 'passthrough', '-c:v', 'libx264', room.at('gap.mkv')],
    );
    expect(await refusal(room.at('gap.mkv'), 'badInput')).toMatch(/hours are the most/);
  });

  it('no frame that can be decoded', async () => {
    const bytes = await readFile((await clip('h264Silent')).path);
    const from = bytes.indexOf('mdat') + 4;
    const until = bytes.indexOf('moov') - 4;
    bytes.fill(0, from, until);
    expect(await refusal(await saved('blank.mp4', bytes), 'damaged')).toMatch(/“blank\.mp4”/);
  });

  it('a folder, a pipe, a name that no file can have, no file', async () => {
    await mkdir(room.at('run.mp4'));
    expect(await refusal(room.at('run.mp4'), 'badInput')).toMatch(/is a folder/);
    execFileSync('mkfifo', [room.at('pipe.mp4')]);
    expect(await refusal(room.at('pipe.mp4'), 'badInput')).toMatch(/not an ordinary file/);
    await refusal(`${room.folder}/a\0b.mp4`, 'badInput');
    expect(await refusal(room.at('gone.mp4'), 'notFound')).toMatch(/“gone\.mp4” is not there/);
    expect(await refusal(path.join(room.at('blank.mp4'), 'inside.mp4'), 'notFound')).toMatch(/is not there/);
    await symlink(room.at('nowhere'), room.at('dangling.mp4'));
    await refusal(room.at('dangling.mp4'), 'notFound');
  });

  it('an unreadable file', async () => {
    // Permission bits do not bind the superuser, so the errors themselves are translated too.
    for (const code of ['EACCES', 'EPERM', 'EIO', 'EMFILE']) {
      const error = fileTrouble('/x/run.mp4', Object.assign(new Error(code), { code }));
      expect(error.code).toBe('unreadable');
      expect(error.message).toBe(
        `“run.mp4” cannot be read (${code}). Check that you may open it and that its disk is connected.`,
      );
    }
    const file = await saved('locked.mp4', await readFile((await clip('oneFrame')).path));
    await chmod(file, 0);
    if (process.getuid?.() === 0) expect((await indexFrames(file)).table.pts).toHaveLength(1);
    else expect(await refusal(file, 'unreadable')).toMatch(/EACCES/);
  });
});

describe('a clip damaged in the middle', () => {
  it('keeps the frames that can be decoded, in order, and says that the decoder complained', async () => {
    const { path: original, frames } = await clip('h264');
    const bytes = await readFile(original);
    const middle = Math.floor(bytes.length * 0.4);
    bytes.fill(0x5a, middle, middle + 6000);
    const { table, complaints } = await indexFrames(await saved('scratched.mp4', bytes));
    expect(complaints).toBeGreaterThan(0);
    expect(table.pts.length).toBeGreaterThan(frames / 2);
    expect(table.pts.length).toBeLessThanOrEqual(frames);
  });
});

describe('names that programs stumble over', () => {
  const names = [
    'run one.mp4',
    'Ben\'s "best" run.mp4',
    '-i.mp4',
    '-version',
    'лучший забег.mp4',
    '走る犬 🐕.mp4',
    '%d%03d%s.mp4',
    'http:run.mp4',
    'concat:a|b.mp4',
    'line\nbreak\ttab.mp4',
    "a'b,c;d[e]=f\\g.mp4",
    ' leading and trailing ',
  ];
  it.each(names)('are read, copied and shown like any other: %j', async (name) => {
    const file = room.at(name);
    await copyFile((await clip('rotated270')).path, file);
    const facts = await probe(file);
    const { table } = await indexFrames(file, { facts });
    expect(table.pts).toHaveLength(200);
    expect((await readStill(await still(file, table, 77, { facts }))).number).toBe(77);
    await mkdir(room.at('copies'), { recursive: true });
    await copyFile((await clip('oneFrame')).path, file);
    const single = await indexFrames(file);
    const out = path.join(room.at('copies'), name);
    await makeWorkingCopy(file, single.table, out);
    expect((await indexFrames(out)).table.pts).toEqual([0]);
  });

  it('are shown on one line', async () => {
    expect(await refusal(await saved('two\nlines.mp4', ''), 'noVideo')).toMatch(/^“two lines\.mp4” is empty/);
  });
});
