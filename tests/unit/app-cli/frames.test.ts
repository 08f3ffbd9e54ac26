import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { findPrograms } from '../../../src/footage/programs/find.ts';
import { cli, demo, folder } from './cli.ts';

describe('frames', () => {
  test('--json prints exactly time base, count, times in ticks and seconds, rotation and codec', async () => {
    const { ffmpeg, ffprobe } = await findPrograms();
    const path = join(await folder(), 'a “clip”.mp4');
    execFileSync(ffmpeg, [
      ...['-v', 'error', '-f', 'lavfi', '-i', 'testsrc2=size=64x48:rate=30000/1001:duration=2'],
      ...['-c:v', 'libx264', '-bf', '2', '-pix_fmt', 'yuv420p', path],
    ]);
    const { code, out, err } = await cli('frames', path, '--json');
    expect([code, err]).toEqual([0, '']);
    const told = JSON.parse(out) as {
      timeBase: [number, number];
      pts: number[];
      seconds: number[];
      frames: number;
    };
    expect(Object.keys(told)).toEqual(['timeBase', 'frames', 'pts', 'seconds', 'rotation', 'codec']);
    expect(told).toMatchObject({ rotation: 0, codec: 'h264' });
    // The outside check: ffprobe's own list of decoded frames.
    const listed = execFileSync(ffprobe, [
      ...[
        '-v',
        'error',
        '-select_streams',
        'v:0',
        '-show_entries',
        'frame=pts:stream=time_base',
        '-of',
        'json',
        path,
      ],
    ]).toString();
    const frames = JSON.parse(listed) as { frames: { pts: number }[]; streams: { time_base: string }[] };
    expect(told.pts).toEqual(frames.frames.map((f) => f.pts));
    expect(told.frames).toBe(frames.frames.length);
    expect(told.timeBase.join('/')).toBe(frames.streams[0]?.time_base);
    told.pts.forEach((p, i) => expect(told.seconds[i]).toBe((p * told.timeBase[0]) / told.timeBase[1]));
  });

  test('without --json is a table', async () => {
    const { code, out } = await cli('frames', join(demo, 'run-b.mp4'));
    expect(code).toBe(0);
    const lines = out.trimEnd().split('\n');
    expect(lines[0]).toMatch(/^run-b\.mp4: [\d,]+ frames$/);
    expect(lines[2]?.trim().split(/ {2,}/)).toEqual(['frame', 'pts', 'seconds', 'to next']);
    expect(lines[3]?.trim().split(/ +/).slice(0, 2)).toEqual(['0', '0']);
  });
});
