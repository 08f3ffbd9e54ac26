// Published source: track header matrices for turned display, ISO/IEC 14496-12 (8.3.2), entries 16.16 and 2.30, as
// several public muxers write them: (0 1 -1 0) shows the picture turned clockwise by 90, and so on.
import { readFile, writeFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clip } from '../../../scripts/clips/make.ts';
import { probe } from '../../../src/footage/probe.ts';
import { scratch } from '../../unit/footage/makeFile.ts';
import { leaveBuild, packaged, systemBuild, useBuild } from './builds.ts';

const one = 0x10000;
const cases = [
  [[one, 0, 0, 0, one, 0], 0],
  [[0, one, 0, -one, 0, 0], 90],
  [[-one, 0, 0, 0, -one, 0], 180],
  [[0, -one, 0, one, 0, 0], 270],
] as const;

let room: Awaited<ReturnType<typeof scratch>>;
beforeAll(async () => {
  room = await scratch();
});
afterAll(() => room.clear());

const system = await systemBuild();

for (const build of [system, packaged]) {
  const title = `the matrix of a track, with ${build?.name ?? 'a system build, which is not here'}`;
  describe.skipIf(build === null)(title, () => {
    if (build === null) return;
    beforeAll(() => useBuild(build));
    afterAll(leaveBuild);

    it.each(cases)('%j turns clockwise by %d', async (matrix, clockwise) => {
      const bytes = await readFile((await clip('h264')).path);
      const at = bytes.indexOf('tkhd') + 4 + 40;
      [...matrix, 0, 0, 0x40000000].forEach((value, i) => bytes.writeInt32BE(value, at + i * 4));
      await writeFile(room.at('turned.mp4'), bytes);
      const { picture } = await probe(room.at('turned.mp4'));
      expect(picture.rotation).toBe(clockwise);
      const lying = clockwise === 90 || clockwise === 270;
      expect([picture.width, picture.height]).toEqual(lying ? [360, 640] : [640, 360]);
      expect(picture.coded).toEqual({ width: 640, height: 360 });
    });
  });
}
