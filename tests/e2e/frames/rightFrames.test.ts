import { describe, expect, test } from 'vitest';
import { clipKinds, type ClipKind } from '../../../scripts/clips/make.ts';
import { clipSources } from './clipSources.ts';
import { testStand } from './testStand.ts';
import { walk } from './walk.ts';

/** Kinds that Debian's Chromium has no decoder for, or whose container the demuxer does not read. */
const onlyByCopy: ReadonlySet<ClipKind> = new Set([
  'hevc',
  'hevcTenBitTurned',
  'mpeg2Interlaced',
  'proRes',
  'aviMotionJpeg',
  'aviMpeg4',
  'movOdd',
  'editListPieces',
]);

const stand = testStand();

/**
 * A walk mostly waits for the screen, sixty times a second: several go on at once, each on a page of its own, as
 * many as `maxConcurrency` says.
 */
describe.concurrent('the picture shown is the frame asked for', () => {
  test.each(clipKinds)(
    '%s: 200 random seeks and 200 steps each way',
    async (kind) => {
      const page = await stand().newPage();
      const { original, copy, frames } = await clipSources(stand(), kind);
      expect(original.numbers ?? original.pts).toHaveLength(original.numbers ? original.pts.length : frames);
      if (onlyByCopy.has(kind)) {
        const refused = await page.evaluate((s) => window.page.open(s), original);
        expect(['cannotDecode', 'misaligned']).toContain(refused);
        expect(copy).not.toBeNull();
      } else {
        await walk(page, original, 200, 7);
      }
      if (copy) await walk(page, copy, onlyByCopy.has(kind) ? 200 : 50, 11);
      await page.close();
    },
    300_000,
  );
});
