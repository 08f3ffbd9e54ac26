import { mkdtemp, readdir, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clip, type ClipKind } from '../../../scripts/clips/make.ts';
import { makeClip } from '../../../src/footage/clip/makeClip.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { probe } from '../../../src/footage/probe.ts';
import { timelineOf, type Shown } from '../../../src/report/clip/timeline.ts';
import { leaveBuild, packaged, useBuild, type Build } from './builds.ts';
import { paintedNumbers } from './independent.ts';

/** Two parts away from key frames, with a slowed part and two frames that are held. */
const shown: Shown = {
  parts: [
    { from: 37, to: 110 },
    { from: 131, to: 151 },
  ],
  slow: [{ from: 80, to: 99, speed: 1 / 4 }],
  freezes: [
    { frame: 61, seconds: 0.5 },
    { frame: 99, seconds: 1 },
  ],
};

/** Those a coach brings most, then those whose times are odd. */
const kinds: readonly ClipKind[] = ['vfr', 'fps240', 'rotated90', 'hevcTenBitTurned'];
const more: readonly ClipKind[] = ['editList', 'mtsInterlaced', 'mpegTs', 'aviMotionJpeg'];

/** Clips to hand over, made with one build of ffmpeg: every picture is decoded and its painted number read. */
export function checkClips(build: Build | null): void {
  const title = `clips, with ${build?.name ?? 'a system build, which is not here'}`;
  describe.skipIf(build === null)(title, () => {
    if (build === null) return;
    let folder = '';
    beforeAll(async () => {
      useBuild(build);
      folder = await mkdtemp(path.join(os.tmpdir(), 'walkback clips-'));
    });
    afterAll(async () => {
      leaveBuild();
      await rm(folder, { recursive: true });
    });

    it.each(build.name === packaged.name ? kinds : [...kinds, ...more])(
      'show exactly the frames asked for: %s',
      async (kind) => {
        const { path: original } = await clip(kind);
        const facts = await probe(original);
        const { table } = await indexFrames(original, { facts });
        const { rate, ticks, shots } = timelineOf(table, shown);
        const out = path.join(folder, `${kind}.mp4`);
        const { width, height } = facts.picture;
        const size = { width: width + (width % 2), height: height + (height % 2) };
        const lane = { facts, table, parts: shown.parts, shots, size };
        await makeClip({ lanes: [lane], rate, ticks, size, layers: null, sound: [] }, out);

        const asked = shots.flatMap((s) => Array.from({ length: s.ticks }, () => s.frame));
        expect(asked).toHaveLength(ticks);
        expect(paintedNumbers(build, out)).toEqual(asked);
        expect([asked[0], asked.at(-1)]).toEqual([37, 151]);
        for (const { frame, seconds } of shown.freezes) {
          const times = asked.filter((f) => f === frame).length;
          expect(times).toBeGreaterThanOrEqual(Math.round((seconds * rate.num) / rate.den));
        }
        const made = await probe(out);
        expect(made.picture).toMatchObject({ codec: 'h264', pixelFormat: 'yuv420p', rotation: 0, ...size });
        expect(made.sound).toBeNull();
        expect(await readdir(folder)).toEqual([`${kind}.mp4`]);
        await rm(out);
      },
    );
  });
}
