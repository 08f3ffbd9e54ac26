import { mkdtemp, readdir, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clip, clipKinds } from '../../../scripts/clips/make.ts';
import { reasonForCopy } from '../../../src/footage/decodable.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { probe } from '../../../src/footage/probe.ts';
import { makeWorkingCopy } from '../../../src/footage/workingCopy.ts';
import { leaveBuild, useBuild, type Build } from './builds.ts';
import { paintedNumbers, risingPlaces, showFrames } from './independent.ts';

/** Whole numbers of one unit for both clocks, counted from the first frame. */
function sinceFirst(times: readonly number[], [num, den]: readonly [number, number], unit: bigint): bigint[] {
  return times.map((at) => (BigInt(at - (times[0] ?? 0)) * BigInt(num) * unit) / BigInt(den));
}

/** Working copies of every kind of clip with one build of ffmpeg, checked by ffprobe's list and by the painted numbers. */
export function checkCopies(build: Build | null): void {
  const title = `working copies, with ${build?.name ?? 'a system build, which is not here'}`;
  describe.skipIf(build === null)(title, () => {
    if (build === null) return;
    let folder = '';
    beforeAll(async () => {
      useBuild(build);
      folder = await mkdtemp(path.join(os.tmpdir(), 'walkback-copies-'));
    });
    afterAll(async () => {
      leaveBuild();
      await rm(folder, { recursive: true });
    });

    it.each(clipKinds)('have the same frames at the same times: %s', async (kind) => {
      const { path: original } = await clip(kind);
      const facts = await probe(original);
      const { table } = await indexFrames(original, { facts });
      const out = path.join(folder, `${kind}.mp4`);
      const steps: number[] = [];
      const made = await makeWorkingCopy(original, table, out, {
        facts,
        onProgress: (done, of) => steps.push(done / of),
      });

      const before = showFrames(build, original);
      const after = showFrames(build, out);
      const kept = risingPlaces(before.best);
      // One tick of AVI's clock after its neighbour: the place of a frame that has no time of its own.
      const source = kept.map((i) => before.best[i] ?? (before.best[i - 1] ?? 0) + 1);
      const copied = after.pts.map((at) => at ?? NaN);
      expect(copied).toHaveLength(source.length);
      const unit = BigInt(before.timeBase[1]) * BigInt(after.timeBase[1]);
      expect(sinceFirst(copied, after.timeBase, unit)).toEqual(sinceFirst(source, before.timeBase, unit));
      expect(after.timeBase[1] % before.timeBase[1]).toBe(0);
      // The shift maps the original's times onto the copy's.
      const perTick = (before.timeBase[0] * after.timeBase[1]) / (before.timeBase[1] * after.timeBase[0]);
      expect(copied[0]).toBe(((source[0] ?? 0) + made.shift) * perTick);

      expect(paintedNumbers(build, out)).toEqual(kept);

      const copy = await probe(out);
      expect(reasonForCopy(copy)).toBeNull();
      expect(copy.picture).toMatchObject({
        codec: 'h264',
        rotation: 0,
        pixelShape: [1, 1],
        width: made.width,
        height: made.height,
      });
      expect(made.width - facts.picture.width).toBeLessThanOrEqual(1);
      expect(made.height - facts.picture.height).toBeLessThanOrEqual(1);
      expect(made.sound).toBe(facts.sound !== null);
      expect(copy.sound !== null).toBe(made.sound);
      expect(made.bytes).toBe(copy.bytes);

      expect(steps.at(-1)).toBe(1);
      expect(steps).toEqual([...steps].sort((a, b) => a - b));
      expect(await readdir(folder)).toEqual(
        expect.not.arrayContaining([expect.stringMatching(/unfinished/)]),
      );
      await rm(out);
    });
  });
}
