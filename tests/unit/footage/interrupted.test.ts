import { execFileSync, spawn } from 'node:child_process';
import { chmod, mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { clip, type ClipKind } from '../../../scripts/clips/make.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { findPrograms, type Programs } from '../../../src/footage/programs/find.ts';
import { still } from '../../../src/footage/still.ts';
import { sweepUnfinished } from '../../../src/footage/unfinished.ts';
import { makeWorkingCopy } from '../../../src/footage/workingCopy.ts';
import type { FrameTable } from '../../../src/time/frameTable.ts';
import { scratch } from './makeFile.ts';

let room: Awaited<ReturnType<typeof scratch>>;
let programs: Programs;
beforeEach(async () => {
  room = await scratch();
  programs = await findPrograms();
});
afterEach(async () => {
  delete process.env['WALKBACK_FFMPEG'];
  delete process.env['WALKBACK_FFPROBE'];
  await room.clear();
});

const table = async (kind: ClipKind): Promise<{ file: string; frames: FrameTable }> => {
  const { path: file } = await clip(kind);
  return { file, frames: (await indexFrames(file)).table };
};

/** A program in place of ffmpeg: `body` is a shell script; $REAL is the real one. */
async function inPlaceOf(which: 'FFMPEG' | 'FFPROBE', body: string): Promise<void> {
  const script = room.at(`${which.toLowerCase()}.sh`);
  const real = which === 'FFMPEG' ? programs.ffmpeg : programs.ffprobe;
  await writeFile(script, `#!/bin/sh\nREAL='${real}'\n${body}\n`);
  await chmod(script, 0o755);
  process.env[`WALKBACK_${which}`] = script;
}

/** Runs a program of the system; throws where it fails. */
function system(program: string, ...args: string[]): string {
  return execFileSync(program, args, { encoding: 'utf8', stdio: 'pipe' });
}

/** Files in the folder of copies. */
async function copies(): Promise<string[]> {
  return (await readdir(room.at('copies'))).sort();
}

/** Processes that still have the scratch folder on their command line. */
function stillRunning(): string[] {
  const listed = system('ps', '-eo', 'pid=,args=');
  return listed.split('\n').filter((line) => line.includes(room.folder) && /ffmpeg|ffprobe/.test(line));
}

describe('a working copy that is broken off', () => {
  beforeEach(() => mkdir(room.at('copies')));
  const out = (): string => path.join(room.at('copies'), 'run.mp4');

  it('by the user: the program is ended and nothing is left', async () => {
    const { file, frames } = await table('hevc');
    const stop = new AbortController();
    let seen: string[] = [];
    const copy = makeWorkingCopy(file, frames, out(), {
      signal: stop.signal,
      onProgress: (done) => {
        if (done === 0 || stop.signal.aborted) return;
        void copies().then((list) => (seen = list));
        stop.abort();
      },
    });
    await expect(copy).rejects.toMatchObject({
      code: 'cancelled',
      message: /hevc.*was stopped. Nothing was changed/,
    });
    expect(seen).toHaveLength(1);
    expect(await copies()).toEqual([]);
    expect(stillRunning()).toEqual([]);
  });

  it('before it began', async () => {
    const { file, frames } = await table('oneFrame');
    const signal = AbortSignal.abort();
    await expect(makeWorkingCopy(file, frames, out(), { signal })).rejects.toMatchObject({
      code: 'cancelled',
    });
    expect(await copies()).toEqual([]);
  });

  it('at any moment, many times over: nothing is ever left half done', async () => {
    const { file, frames } = await table('rotated270');
    const begun = performance.now();
    await makeWorkingCopy(file, frames, out());
    const whole = performance.now() - begun;
    const ends = new Set<string>();
    for (let i = 0; i < 12; i++) {
      await rm(out(), { force: true });
      const stop = new AbortController();
      setTimeout(() => stop.abort(), (i / 11) * whole * 1.5);
      const ended = await makeWorkingCopy(file, frames, out(), { signal: stop.signal }).then(
        () => 'made',
        (error: unknown) => (error as { code: string }).code,
      );
      ends.add(ended);
      if (ended === 'made') expect((await indexFrames(out())).table.pts).toHaveLength(200);
      else expect([ended, await copies()]).toEqual(['cancelled', []]);
    }
    expect(ends).toContain('cancelled');
    expect(stillRunning()).toEqual([]);
  }, 300_000);

  it('by the death of ffmpeg: an error that says so, nothing left, and no second try', async () => {
    const { file, frames } = await table('hevc');
    await inPlaceOf(
      'FFMPEG',
      `case "$*" in *libx264*) echo x >> '${room.at('tries')}'; "$REAL" "$@" & sleep 0.3; kill -9 $!; kill -9 $$;; esac
exec "$REAL" "$@"`,
    );
    await expect(makeWorkingCopy(file, frames, out())).rejects.toMatchObject({
      code: 'internal',
      message: /ended from outside.*SIGKILL.*The original is unchanged/,
    });
    expect(await copies()).toEqual([]);
    expect(await readFile(room.at('tries'), 'utf8')).toBe('x\n');
  });

  it('by our own death: the leftover is swept at the next start, other files stay', async () => {
    const { file } = await table('hevc');
    const script = room.at('die.ts');
    const here = path.resolve(import.meta.dirname, '../../../src/footage');
    await writeFile(
      script,
      `import { indexFrames } from '${here}/frameIndex.ts';
       import { makeWorkingCopy } from '${here}/workingCopy.ts';
       const { table } = await indexFrames(${JSON.stringify(file)});
       await makeWorkingCopy(${JSON.stringify(file)}, table, ${JSON.stringify(out())}, {
         onProgress: (done) => { if (done > 0) process.kill(process.pid, 'SIGKILL'); },
       });`,
    );
    const child = spawn(process.execPath, [script], { stdio: 'ignore' });
    const signal = await new Promise((resolve) => child.once('close', (_, s) => resolve(s)));
    expect(signal).toBe('SIGKILL');
    const left = await copies();
    expect(left).toHaveLength(1);
    expect(left[0]).toMatch(/unfinished$/);
    await writeFile(path.join(room.at('copies'), 'other.mp4'), 'x');
    await writeFile(path.join(room.at('copies'), '.walkback-mine.unfinished.txt'), 'x');
    expect(await sweepUnfinished(room.at('copies'))).toBe(1);
    expect(await copies()).toEqual(['.walkback-mine.unfinished.txt', 'other.mp4']);
    expect(await sweepUnfinished(room.at('no such folder'))).toBe(0);
  });

  it('keeps the copy that stood there before', async () => {
    const { file, frames } = await table('oneFrame');
    await writeFile(out(), 'the copy of before');
    const other = (await table('h264Silent')).frames;
    await expect(makeWorkingCopy(file, other, out())).rejects.toMatchObject({ code: 'damaged' });
    expect(await readFile(out(), 'utf8')).toBe('the copy of before');
    await makeWorkingCopy(file, frames, out());
    expect((await indexFrames(out())).table.pts).toHaveLength(1);
  });

  it('is not swept while it is made', async () => {
    const { file, frames } = await table('h264');
    let swept: Promise<number> | undefined;
    await makeWorkingCopy(file, frames, out(), {
      onProgress: (done) => {
        if (done > 0) swept ??= sweepUnfinished(room.at('copies'));
      },
    });
    expect(await swept).toBe(0);
    expect(await copies()).toEqual(['run.mp4']);
  });
});

describe('a full disk', () => {
  beforeEach(() => mkdir(room.at('copies')));
  const noRoom = {
    code: 'noSpace',
    message: /no room for a working copy of .*h264.* in .*copies\. Make room there/,
  };

  it('gives a clear message and leaves nothing (every write refused: /dev/full)', async () => {
    const { file, frames } = await table('h264');
    // The last argument is the file to write; /dev/full answers every write with ENOSPC, for any user.
    await inPlaceOf(
      'FFMPEG',
      `case "$*" in *libx264*) n=$#; i=0; for a in "$@"; do shift; i=$((i+1));
if [ $i -eq $n ]; then set -- "$@" /dev/full; else set -- "$@" "$a"; fi; done;; esac
exec "$REAL" "$@"`,
    );
    await expect(
      makeWorkingCopy(file, frames, path.join(room.at('copies'), 'run.mp4')),
    ).rejects.toMatchObject(noRoom);
    expect(await copies()).toEqual([]);
  });

  it.each(['ignored', 'as the system sets it'])(
    'gives the same where a file may not grow on (a limit of 64 KB; its signal %s)',
    async (how) => {
      const { file, frames } = await table('h264');
      const trap = how === 'ignored' ? "trap '' XFSZ" : ':';
      await inPlaceOf('FFMPEG', `case "$*" in *libx264*) ${trap}; ulimit -f 128;; esac\nexec "$REAL" "$@"`);
      const copy = makeWorkingCopy(file, frames, path.join(room.at('copies'), 'run.mp4'));
      await expect(copy).rejects.toMatchObject(noRoom);
      expect(await copies()).toEqual([]);
    },
  );

  it('gives the same on a real small disk, where one can be mounted', async (context) => {
    const { file, frames } = await table('h264');
    try {
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=100k', 'tmpfs', room.at('copies')], {
        stdio: 'pipe',
      });
    } catch {
      context.skip('this user may not mount; the two tests above cover the same errors');
    }
    try {
      const copy = makeWorkingCopy(file, frames, path.join(room.at('copies'), 'run.mp4'));
      await expect(copy).rejects.toMatchObject(noRoom);
      expect(await copies()).toEqual([]);
    } finally {
      system('umount', room.at('copies'));
    }
  });

  it('is told apart from a folder that is not there', async () => {
    const { file, frames } = await table('oneFrame');
    await expect(makeWorkingCopy(file, frames, room.at('none/run.mp4'))).rejects.toMatchObject({
      code: 'notFound',
      message: /folder .*none is not there/,
    });
  });
});

describe('a copy whose frames are not those of the original', () => {
  it('is thrown away, after every way was tried', async () => {
    const { file, frames } = await table('fps240');
    await mkdir(room.at('copies'));
    // An ffmpeg that loses every tenth frame.
    await inPlaceOf(
      'FFMPEG',
      `case "$*" in *libx264*) echo x >> '${room.at('tries')}'; n=$#; i=0; vf=0; for a in "$@"; do shift; i=$((i+1));
if [ $vf -eq 1 ]; then a="$a,select=mod(n\\,10)"; vf=0; fi; if [ "$a" = -vf ]; then vf=1; fi; set -- "$@" "$a"; done;; esac
exec "$REAL" "$@"`,
    );
    await expect(
      makeWorkingCopy(file, frames, path.join(room.at('copies'), 'run.mp4')),
    ).rejects.toMatchObject({
      code: 'damaged',
      message: /was made, but it had 270 frames instead of 300, so it was thrown away: marks would not fit/,
    });
    expect(await copies()).toEqual([]);
    expect(await readFile(room.at('tries'), 'utf8')).toBe('x\nx\nx\n');
  });

  it('is made a second time with its frames counted, where the first came out uneven', async () => {
    const { file, frames } = await table('h264Silent');
    await mkdir(room.at('copies'));
    // An ffmpeg that keeps no time where it is asked to keep the clip's own.
    await inPlaceOf(
      'FFMPEG',
      `case "$*" in *prev_selected_pts*libx264*) n=$#; i=0; vf=0; for a in "$@"; do shift; i=$((i+1));
if [ $vf -eq 1 ]; then a="$a,setpts=PTS+mod(N\\,3)"; vf=0; fi; if [ "$a" = -vf ]; then vf=1; fi; set -- "$@" "$a"; done;; esac
exec "$REAL" "$@"`,
    );
    const out = path.join(room.at('copies'), 'run.mp4');
    await makeWorkingCopy(file, frames, out);
    expect((await indexFrames(out)).table.pts).toEqual(frames.pts);
  });
});

describe('reading that is broken off', () => {
  it('ends the program', async () => {
    const { path: file } = await clip('hevc');
    await inPlaceOf(
      'FFPROBE',
      `case "$*" in *show_entries*frame=pts*) exec sleep 300; esac\nexec "$REAL" "$@"`,
    );
    const stop = new AbortController();
    setTimeout(() => stop.abort(), 1500);
    await expect(indexFrames(file, { signal: stop.signal })).rejects.toMatchObject({ code: 'cancelled' });
  });

  it('holds for stills too', async () => {
    const { file, frames } = await table('h264');
    await expect(still(file, frames, 1, { signal: AbortSignal.abort() })).rejects.toMatchObject({
      code: 'cancelled',
    });
  });

  it('by a crash of ffprobe is an error that names the file', async () => {
    const { path: file } = await clip('h264');
    await inPlaceOf('FFPROBE', `case "$*" in *frame=pts*) kill -SEGV $$; esac\nexec "$REAL" "$@"`);
    await expect(indexFrames(file)).rejects.toMatchObject({ code: 'damaged', message: /h264.*SIGSEGV/ });
  });

  it('tells how far it is, never backwards', async () => {
    const { path: file, frames } = await clip('h264');
    const told: [number, number | null][] = [];
    await indexFrames(file, { onProgress: (done, share) => told.push([done, share]) });
    expect(told.length).toBeGreaterThan(3);
    expect(told.at(-1)).toEqual([frames, 1]);
    expect(told.map(([done]) => done)).toEqual(told.map(([done]) => done).sort((a, b) => a - b));
    expect(told.every(([, share]) => share !== null && share >= 0 && share <= 1)).toBe(true);
  });
});
