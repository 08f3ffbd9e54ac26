import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clip, clipKinds, type ClipKind } from '../../../scripts/clips/make.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { probe } from '../../../src/footage/probe.ts';
import { still, stills } from '../../../src/footage/still.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { leaveBuild, packaged, systemBuild, useBuild } from '../../reference/footage/builds.ts';
import { markers, readStill } from './readStill.ts';

/** Whole numbers below `count` from a fixed seed, so that a failure can be seen again. */
function places(seed: number, count: number, many: number): number[] {
  let state = seed;
  return Array.from({ length: many }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * count);
  });
}

/** The number painted in frame `index` of the table: its own, except where frames were left out of the table. */
const painted = (kind: ClipKind, index: number): number =>
  kind === 'editListPieces' && index >= 100 ? index + 2 : index;

const system = await systemBuild();

for (const build of [system, packaged]) {
  describe.skipIf(build === null)(
    `stills, with ${build?.name ?? 'a system build, which is not here'}`,
    () => {
      if (build === null) return;
      beforeAll(() => useBuild(build));
      afterAll(leaveBuild);

      it.each(clipKinds)('show the frame asked for, upright: %s', async (kind) => {
        const { path, width, height } = await clip(kind);
        const facts = await probe(path);
        const { table } = await indexFrames(path, { facts });
        const count = table.pts.length;
        const asked = [count - 1, 0, ...places(7, count, 14)];
        const pictures = await stills(path, table, asked, { facts });
        const read = await Promise.all(pictures.map(readStill));
        expect(read.map((r) => r.number)).toEqual(asked.map((index) => painted(kind, index)));
        const wide = kind === 'widePixels' ? Math.round((width * 4) / 3) : width;
        expect(read.every((r) => r.width === wide && r.height === height)).toBe(true);

        const [index = 0] = places(11, count, 1);
        const one = await still(path, table, index, { facts });
        expect((await readStill(one)).number).toBe(painted(kind, index));
      });
    },
  );
}

describe('a still', () => {
  it('carries nothing but the picture', async () => {
    const { path } = await clip('rotated90');
    const { table } = await indexFrames(path);
    const found = markers(await still(path, table, 3));
    // APP1 holds EXIF and XMP, APP13 captions, COM the program's name; APP0 is the plain JFIF head.
    const application = found.filter((m) => (m >= 0xe1 && m <= 0xef) || m === 0xfe);
    expect(application).toEqual([]);
    expect(found).toContain(0xda);
  });

  it('is made smaller where asked, and never larger', async () => {
    const { path } = await clip('h264');
    const { table } = await indexFrames(path);
    const small = await still(path, table, 120, { maxWidth: 200, quality: 60 });
    expect(await readStill(small)).toEqual({ number: 120, width: 200, height: 113 });
    const large = await still(path, table, 120, { maxWidth: 4000 });
    expect(await readStill(large)).toMatchObject({ width: 640, height: 360 });
    expect(large.length).toBeGreaterThan(small.length);
  });

  it.each([-1, 300, 1.5, NaN, Infinity])('is refused for a frame that is not there: %s', async (index) => {
    const { path } = await clip('h264');
    const { table } = await indexFrames(path);
    await expect(still(path, table, index)).rejects.toMatchObject({ code: 'badInput' });
  });

  it('is found by counting where a seek cannot find its time', async () => {
    const { path } = await clip('h264Silent');
    const { table } = await indexFrames(path);
    // A table that is off by a tick from frame 100 on: no frame has such a time.
    const off = frameTable(
      table.timeBase,
      table.pts.map((at, i) => (i < 100 ? at : at + 1)),
    );
    expect((await readStill(await still(path, off, 150))).number).toBe(150);
  });

  it('keeps white white and black black, also from full-range video', async () => {
    for (const kind of ['h264', 'movOdd'] as const) {
      const { path } = await clip(kind);
      const { table } = await indexFrames(path);
      const bytes = await still(path, table, 0, { quality: 100 });
      const { loadImage, createCanvas } = await import('@napi-rs/canvas');
      const image = await loadImage(bytes);
      const context = createCanvas(image.width, image.height).getContext('2d');
      context.drawImage(image, 0, 0);
      const at = (sixteenthX: number, sixteenthY: number): number =>
        context.getImageData((image.width * sixteenthX) / 16, (image.height * sixteenthY) / 16, 1, 1)
          .data[0] ?? 0;
      // The left mark: painted 235 above, 20 below.
      expect(Math.abs(at(1.5, 2.5) - 235)).toBeLessThan(8);
      expect(Math.abs(at(1.5, 5.5) - 20)).toBeLessThan(8);
    }
  });
});
