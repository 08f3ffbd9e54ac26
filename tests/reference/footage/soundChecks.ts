import { execFileSync } from 'node:child_process';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { readSound, soundRate } from '../../../src/footage/sound.ts';
import { frameSeconds } from '../../../src/time/frameTable.ts';
import type { SoundTrack } from '../../../src/time/lineUp/soundTrack.ts';
import { frameIndex } from '../../../src/time/units.ts';
import { scratch } from '../../unit/footage/makeFile.ts';
import { leaveBuild, useBuild, type Build } from './builds.ts';

/**
 * A film whose picture turns white at the moment of a click, made by ffmpeg's own sources: where the click is read
 * must be where the frame table has the first white frame, whatever the container does to its times.
 */
export function checkSound(build: Build | null): void {
  const title = `the sound of a clip, read by ${build?.name ?? 'a system build, which is not here'}`;
  describe.skipIf(build === null)(title, () => {
    if (build === null) return;
    let files: Awaited<ReturnType<typeof scratch>>;
    const made = (...args: string[]): void => {
      execFileSync('ffmpeg', ['-v', 'error', '-y', ...args], { stdio: ['ignore', 'ignore', 'pipe'] });
    };
    beforeAll(async () => {
      files = await scratch();
      useBuild(build);
      // White from frame 50 on, at 2 s of 25 frames a second; the click begins there too.
      made(
        ...['-f', 'lavfi', '-i', 'color=c=black:s=64x36:r=25:d=5,drawbox=c=white:t=fill:enable=gte(n\\,50)'],
        ...['-f', 'lavfi', '-i', "aevalsrc='if(between(t,2,2.01),0.8*sin(2*PI*1000*t),0)':s=44100:d=5"],
        ...[
          '-c:v',
          'libx264',
          '-g',
          '10',
          '-bf',
          '2',
          '-pix_fmt',
          'yuv420p',
          '-c:a',
          'aac',
          files.at('plain.mp4'),
        ],
      );
      const plain = files.at('plain.mp4');
      const copy = ['-c', 'copy'];
      made(
        '-i',
        plain,
        '-itsoffset',
        '0.7',
        '-i',
        plain,
        ...copy,
        '-map',
        '0:v',
        '-map',
        '1:a',
        files.at('late.mp4'),
      );
      made('-ss', '1', '-i', plain, ...copy, files.at('edit.mp4'));
      made('-i', plain, ...copy, '-output_ts_offset', '5000', files.at('camcorder.ts'));
      made('-i', plain, '-c:v', 'copy', '-c:a', 'pcm_s16le', '-ar', '48000', files.at('linear.mov'));
      made('-i', plain, '-an', '-c:v', 'copy', files.at('silent.mp4'));
    });
    afterAll(async () => {
      leaveBuild();
      await files.clear();
    });

    const read = async (name: string, options = {}): Promise<{ track: SoundTrack; zero: number }> => {
      const { table } = await indexFrames(files.at(name));
      return {
        track: await readSound(files.at(name), table, options),
        zero: frameSeconds(table, frameIndex(0)),
      };
    };
    const clickIn = ({ samples, from, rate }: SoundTrack): number => {
      const i = samples.findIndex((v) => Math.abs(v) > 0.15);
      return i < 0 ? NaN : from + i / rate;
    };

    it.each([
      ['plain.mp4', 2],
      ['late.mp4', 2.7],
      ['edit.mp4', 1],
      ['camcorder.ts', 2],
      ['linear.mov', 2],
    ])('%s: the click lies at its media time', async (name, after) => {
      const { track, zero } = await read(name);
      expect(track.rate).toBe(soundRate);
      expect(track.from).toBe(zero);
      // AAC spreads a click by a few milliseconds, to both sides.
      expect(Math.abs(clickIn(track) - zero - after)).toBeLessThan(0.004);
    });

    it('a clip without sound gives an empty track, not an error', async () => {
      const { track } = await read('silent.mp4');
      expect(track.samples.length).toBe(0);
    });

    it('is read only as far as asked', async () => {
      const { track } = await read('plain.mp4', { seconds: 1.5 });
      expect(track.samples.length).toBe(1.5 * soundRate);
    });

    it('can be stopped', async () => {
      const { table } = await indexFrames(files.at('plain.mp4'));
      const reading = readSound(files.at('plain.mp4'), table, { signal: AbortSignal.abort() });
      await expect(reading).rejects.toMatchObject({ code: 'cancelled' });
    });
  });
}
