// Published source: ffprobe's own listing of decoded frames (`ffprobe -show_frames`, ffprobe documentation), printed as
// JSON with its default decoder settings and read here without the code under test.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clip, clipKinds, type ClipKind } from '../../../scripts/clips/make.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { leaveBuild, packaged, systemBuild, useBuild } from './builds.ts';
import { risingPlaces, showFrames } from './independent.ts';

/** Kinds whose container or edit list leaves times out or turns them back: no table can hold these as they are. */
const odd: Partial<Record<ClipKind, { guessed: number; leftOut: number }>> = {
  aviMpeg4: { guessed: 1, leftOut: 0 },
  editListPieces: { guessed: 0, leftOut: 2 },
};

const system = await systemBuild();

for (const build of [system, packaged]) {
  describe.skipIf(build === null)(
    `the frame index, with ${build?.name ?? 'a system build, which is not here'}`,
    () => {
      if (build === null) return;
      beforeAll(() => useBuild(build));
      afterAll(leaveBuild);

      it.each(clipKinds.filter((kind) => !(kind in odd)))('equals the decoded frames: %s', async (kind) => {
        const { path, frames } = await clip(kind);
        const shown = showFrames(build, path);
        const { table, guessed, leftOut } = await indexFrames(path);
        expect(table.pts).toEqual(shown.pts);
        expect([table.timeBase.num, table.timeBase.den]).toEqual(shown.timeBase);
        expect(table.pts).toHaveLength(frames);
        expect({ guessed, leftOut }).toEqual({ guessed: 0, leftOut: 0 });
      });

      it('gives the frames of an old AVI the times that the decoder makes out, and one to the last', async () => {
        const { path, frames } = await clip('aviMpeg4');
        const { best } = showFrames(build, path);
        expect(best.at(-1)).toBeNull();
        const { table, ...rest } = await indexFrames(path);
        expect(table.pts).toEqual([...best.slice(0, -1), (best.at(-2) ?? 0) + 1]);
        expect(table.pts).toHaveLength(frames);
        expect(rest).toMatchObject(odd.aviMpeg4 ?? {});
      });

      it('leaves out the frames that an edit list in pieces sets at times already past, and says how many', async () => {
        const { path } = await clip('editListPieces');
        const { pts } = showFrames(build, path);
        const { table, ...rest } = await indexFrames(path);
        expect(table.pts).toEqual(risingPlaces(pts).map((i) => pts[i]));
        expect(rest).toMatchObject(odd.editListPieces ?? {});
      });
    },
  );
}
