// Published source: ffmpeg's own filter (`bwdif=mode=send_field`, ffmpeg-filters documentation: "one frame for each
// field"), whose times are printed by its filter showinfo and read here without the code under test.
import { spawnSync } from 'node:child_process';
import { rm } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clip } from '../../../scripts/clips/make.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { probe } from '../../../src/footage/probe.ts';
import { makeWorkingCopy } from '../../../src/footage/workingCopy.ts';
import { fieldsOf, framesOfFields } from '../../../src/time/fields.ts';
import { scratch } from '../../unit/footage/makeFile.ts';
import { leaveBuild, packaged, systemBuild, useBuild, type Build } from './builds.ts';
import { paintedNumbers, showFrames } from './independent.ts';

/** Times that the filter gives its frames, in its own ticks, and the length of a tick. */
function filterTimes(build: Build, file: string): { times: number[]; base: string } {
  const filters = 'bwdif=mode=send_field:parity=auto:deint=all,showinfo';
  const { stderr } = spawnSync(
    build.ffmpeg,
    [
      '-hide_banner',
      '-copyts',
      '-i',
      file,
      '-map',
      '0:v:0',
      '-vf',
      filters,
      '-vsync',
      'passthrough',
      '-f',
      'null',
      '-',
    ],
    { encoding: 'utf8', maxBuffer: 2 ** 28 },
  );
  const times = [...stderr.matchAll(/n: *\d+ pts: *(-?\d+)/g)].map((m) => Number(m[1]));
  return { times, base: /config in time_base: (\d+\/\d+)/.exec(stderr)?.[1] ?? '' };
}

let room: Awaited<ReturnType<typeof scratch>>;
beforeAll(async () => {
  room = await scratch();
});
afterAll(() => room.clear());

for (const build of [await systemBuild(), packaged]) {
  const title = `half-pictures as frames, with ${build?.name ?? 'a system build, which is not here'}`;
  describe.skipIf(build === null)(title, () => {
    if (build === null) return;
    beforeAll(() => useBuild(build));
    afterAll(leaveBuild);

    it.each(['mtsInterlaced', 'mpeg2Interlaced'] as const)('%s', async (kind) => {
      const { path: original, frames } = await clip(kind);
      const facts = await probe(original);
      expect(facts.picture.interlaced).toBe(true);
      const whole = (await indexFrames(original, { facts })).table;
      const fields = fieldsOf(whole);
      expect(fields.pts).toHaveLength(2 * frames);
      expect(framesOfFields(fields)).toEqual(whole);

      const { times, base } = filterTimes(build, original);
      if (base !== '') expect(base).toBe(`${fields.timeBase.num}/${fields.timeBase.den}`);
      expect(times).toEqual(fields.pts);

      const out = room.at(`${kind}.mp4`);
      const made = await makeWorkingCopy(original, fields, out, { facts, fields: true });
      const after = showFrames(build, out);
      const perTick = after.timeBase[1] / fields.timeBase.den;
      expect(after.pts).toEqual(fields.pts.map((at) => (at + made.shift) * perTick));
      // Both half-pictures of a frame were painted with its number.
      expect(paintedNumbers(build, out)).toEqual(fields.pts.map((_, i) => Math.floor(i / 2)));
      await rm(out);
    });
  });
}
