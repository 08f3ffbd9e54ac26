import { chmod, mkdir, writeFile } from 'node:fs/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { clip } from '../../../scripts/clips/make.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { findPrograms } from '../../../src/footage/programs/find.ts';
import { packaged } from '../../reference/footage/builds.ts';
import { scratch } from './makeFile.ts';

let room: Awaited<ReturnType<typeof scratch>>;
const path = process.env['PATH'] ?? '';
beforeEach(async () => {
  room = await scratch();
  await mkdir(room.at('bin'));
});
afterEach(async () => {
  process.env['PATH'] = path;
  delete process.env['WALKBACK_FFMPEG'];
  delete process.env['WALKBACK_FFPROBE'];
  await room.clear();
});

/** A stand-in for a program of the system. */
async function installed(
  name: 'ffmpeg' | 'ffprobe',
  version: string,
  avutil: string,
  encoders = '',
): Promise<void> {
  const script = `#!/bin/sh
case "$*" in
-version) echo "${name} version ${version} Copyright"; echo "libavutil      ${avutil} / ${avutil}";;
*) echo "${encoders}";;
esac
`;
  await writeFile(room.at(`bin/${name}`), script);
  await chmod(room.at(`bin/${name}`), 0o755);
}

const h264 = ' V..... libx264              libx264 H.264';

describe('the programs', () => {
  it("are the system's from version 5 on", async () => {
    await installed('ffmpeg', '5.0', '57. 17.100', h264);
    await installed('ffprobe', '5.0', '57. 17.100');
    process.env['PATH'] = room.at('bin');
    expect(await findPrograms()).toEqual({
      ffmpeg: 'ffmpeg',
      ffprobe: 'ffprobe',
      version: '5.0',
      avutil: 57,
      from: 'system',
    });
  });

  it.each([
    ['the system has none', async () => undefined],
    [
      "the system's are older",
      async () => {
        await installed('ffmpeg', '4.4.2', '56. 70.100', h264);
        await installed('ffprobe', '4.4.2', '56. 70.100');
      },
    ],
    ['one of the two is missing', () => installed('ffmpeg', '6.1', '58. 29.100', h264)],
    [
      'the two are of different age',
      async () => {
        await installed('ffmpeg', '6.1', '58. 29.100', h264);
        await installed('ffprobe', '4.2', '56. 31.100');
      },
    ],
    [
      'they cannot write H.264',
      async () => {
        await installed('ffmpeg', '6.1', '58. 29.100', ' V..... libopenh264          OpenH264');
        await installed('ffprobe', '6.1', '58. 29.100');
      },
    ],
    [
      'a build from development is old',
      async () => {
        await installed('ffmpeg', 'N-47683-g0e8eb07980-static', '56. 22.100', h264);
        await installed('ffprobe', 'N-47683-g0e8eb07980-static', '56. 22.100');
      },
    ],
    [
      'the name is taken by something else',
      async () => {
        await writeFile(room.at('bin/ffmpeg'), '#!/bin/sh\necho hello\n');
        await chmod(room.at('bin/ffmpeg'), 0o755);
      },
    ],
  ])('are those from npm where %s', async (_, prepare) => {
    await prepare();
    process.env['PATH'] = room.at('bin');
    const found = await findPrograms();
    expect(found).toMatchObject({ from: 'package', ffmpeg: packaged.ffmpeg, ffprobe: packaged.ffprobe });
    expect(found.version).not.toBe('');
  });

  it('work without anything in the path', async () => {
    const { path: file, frames } = await clip('mpegTs');
    process.env['PATH'] = room.at('bin');
    expect((await indexFrames(file)).table.pts).toHaveLength(frames);
  });

  it('can be named by the environment, each alone too', async () => {
    process.env['WALKBACK_FFMPEG'] = packaged.ffmpeg;
    const found = await findPrograms();
    expect(found).toMatchObject({ from: 'environment', ffmpeg: packaged.ffmpeg });
    expect(found.ffprobe).not.toBe('');
  });

  it('that are named but cannot be started are an error that says what to do, and is not remembered', async () => {
    const late = room.at('ffprobe-late');
    process.env['WALKBACK_FFPROBE'] = late;
    const error = {
      name: 'FootageError',
      code: 'notFound',
      message: /needs ffmpeg and ffprobe.*npm install/,
    };
    await expect(findPrograms()).rejects.toMatchObject(error);
    const { path: file } = await clip('oneFrame');
    await expect(indexFrames(file)).rejects.toMatchObject(error);
    await writeFile(late, `#!/bin/sh\nexec '${packaged.ffprobe}' "$@"\n`);
    await chmod(late, 0o755);
    expect((await indexFrames(file)).table.pts).toEqual([0]);
  });
});
