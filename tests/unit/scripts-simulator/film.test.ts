import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readFileSync, statSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runB } from '../../../scripts/simulator/demoRuns.ts';
import { decodedFrames, makeFilm } from '../../../scripts/simulator/film/encode.ts';
import type { Codec, Exposures, FilmOrder } from '../../../scripts/simulator/film/order.ts';
import { cameraOf, handFilm, standFilm } from '../../../scripts/simulator/film/order.ts';
import { sampleRate, soundOf } from '../../../scripts/simulator/film/sound.ts';
import type { FrameTimes } from '../../../scripts/simulator/frameTimes.ts';
import {
  secondsOf,
  slowedFrames,
  steadyFrames,
  unsteadyFrames,
} from '../../../scripts/simulator/frameTimes.ts';
import { simulateRun } from '../../../scripts/simulator/run/run.ts';
import { inRealTime } from '../../../scripts/simulator/simulate.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'films-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** A small picture of the same scene, quick to draw. */
function small(film: FilmOrder, codec: Codec): FilmOrder {
  const { camera } = film;
  return {
    ...film,
    codec,
    quality: 34,
    camera: { ...camera, width: 320, height: 180, focal: camera.focal / 4 },
  };
}

function slowed(): Exposures {
  const paces = [
    { until: 0.05, slow: 1 },
    { until: 0.1, slow: 8 },
    { until: 9, slow: 1 },
  ];
  const frames = slowedFrames(240, 0.16, paces);
  return { frames, captured: frames.pts.map((_, i) => 9 + i / 240) };
}

const films: readonly (readonly [string, Codec, FilmOrder, Exposures])[] = [
  ['stand-30.mp4', 'h264', standFilm, inRealTime(steadyFrames(30, 0.8), 9.2)],
  ['stand-25.mov', 'hevc', standFilm, inRealTime(steadyFrames(25, 0.8), 9.2)],
  ['stand-60.mkv', 'vp9', { ...standFilm, sound: null }, inRealTime(steadyFrames(50, 0.4), 9.2)],
  [
    'hand-unsteady.mp4',
    'h264',
    { ...handFilm, backwardFrames: false },
    inRealTime(unsteadyFrames(3, 30, 1), 9.2),
  ],
  [
    'hand-unsteady-backward.mp4',
    'h264',
    { ...handFilm, backwardFrames: true },
    inRealTime(unsteadyFrames(4, 30, 1), 9.2),
  ],
  ['stand-240-slowed.mov', 'h264', { ...standFilm, sound: null }, slowed()],
  ['stand-30.webm', 'av1', standFilm, inRealTime(steadyFrames(30, 0.5), 9.2)],
];

describe('the frames of a film are those of its truth', () => {
  it.each(films)('%s', async (name, codec, film, exposures) => {
    const file = join(folder, name);
    await makeFilm(runB, small(film, codec), exposures, file, 2, () => undefined);
    const seen = decodedFrames(file);
    expect(seen.pts).toHaveLength(exposures.captured.length);
    const toTicks = (frames: FrameTimes, base: readonly [number, number]): number[] =>
      secondsOf(frames).map((t) => Math.round((t * base[1]) / base[0]));
    // WebM and Matroska keep whole milliseconds; MP4 and MOV keep the ticks themselves.
    if (/\.(mkv|webm)$/.test(name)) expect(seen.timeBase).toEqual([1, 1000]);
    else expect(seen.timeBase).toEqual(exposures.frames.timeBase);
    expect(seen.pts).toEqual(toTicks(exposures.frames, seen.timeBase));
  });
});

describe('the pictures', () => {
  const pixelsOf = (file: string, wide: number, tall: number): Uint8Array => {
    const out = spawnSync('ffmpeg', ['-v', 'error', '-i', file, '-f', 'rawvideo', '-pix_fmt', 'gray', '-'], {
      maxBuffer: 1 << 28,
    });
    expect(out.stdout.length % (wide * tall)).toBe(0);
    return out.stdout;
  };

  it('two workers draw what one draws', async () => {
    const film = { ...small(standFilm, 'h264'), sound: null };
    const exposures = inRealTime(steadyFrames(30, 0.3), 9.3);
    const one = join(folder, 'one.mkv');
    const two = join(folder, 'two.mkv');
    await makeFilm(runB, film, exposures, one, 1, () => undefined);
    await makeFilm(runB, film, exposures, two, 2, () => undefined);
    expect(Buffer.compare(pixelsOf(one, 320, 180), pixelsOf(two, 320, 180))).toBe(0);
  });

  it('on a stand only what moves changes; in a hand everything does', async () => {
    const exposures = inRealTime(steadyFrames(25, 0.16), 9.3);
    const changed = async (film: FilmOrder, name: string): Promise<number> => {
      const file = join(folder, name);
      await makeFilm(
        runB,
        { ...small(film, 'h264'), quality: 8, sound: null },
        exposures,
        file,
        1,
        () => undefined,
      );
      const data = pixelsOf(file, 320, 180);
      const size = 320 * 180;
      let count = 0;
      for (let i = 0; i < size; i++) if (Math.abs((data[i] ?? 0) - (data[3 * size + i] ?? 0)) > 12) count++;
      return count / size;
    };
    expect(await changed(standFilm, 'still.mkv')).toBeLessThan(0.03);
    expect(await changed(handFilm, 'moving.mkv')).toBeGreaterThan(0.05);
  });
});

describe('the sound', () => {
  const run = simulateRun(runB);
  const exposures = inRealTime(steadyFrames(25, 12), 0);
  const loudFrom = (samples: Int16Array, from: number, level: number): number => {
    for (let i = Math.round(from * sampleRate); i < samples.length; i++) {
      if (Math.abs(samples[i] ?? 0) > level) return i / sampleRate;
    }
    return NaN;
  };

  it('comes as late as its way through the air takes, at 343 m/s', () => {
    const samples = soundOf(run, standFilm, exposures);
    const said = run.said.find((s) => s.word === 'release');
    if (!said) throw new Error('Nobody released the dog.');
    const i = Math.round(said.begin * 250);
    const { at } = standFilm.camera;
    const way = Math.hypot((run.handler.x[i] ?? 0) - at.x, (run.handler.y[i] ?? 0) - at.y, at.z - 1.5);
    const heard = loudFrom(samples, said.begin - 0.05, 900);
    expect(heard - said.begin).toBeGreaterThan(way / 343 - 0.001);
    expect(heard - said.begin).toBeLessThan(way / 343 + 0.015);
  });

  it('a recorder that runs fast puts it earlier or later by its drift, a hall lets it ring', () => {
    const said = run.said.find((s) => s.word === 'release');
    if (!said) throw new Error('Nobody released the dog.');
    const plain = soundOf(run, standFilm, exposures);
    const fast = soundOf(run, { ...standFilm, sound: { echo: 0, driftPpm: 5000 } }, exposures);
    const shift = loudFrom(fast, said.begin - 0.02, 900) - loudFrom(plain, said.begin - 0.05, 900);
    expect(shift).toBeGreaterThan(0.8 * 5e-3 * said.begin);
    expect(shift).toBeLessThan(1.2 * 5e-3 * said.begin);
    const hall = soundOf(run, { ...standFilm, sound: { echo: 0.5, driftPpm: 0 } }, exposures);
    const energy = (samples: Int16Array): number => {
      let sum = 0;
      for (let i = Math.round((said.end + 0.12) * sampleRate); i < (said.end + 0.3) * sampleRate; i++) {
        sum += (samples[i] ?? 0) ** 2;
      }
      return sum;
    };
    expect(energy(hall)).toBeGreaterThan(20 * energy(plain));
  });
});

describe('the demo that is shipped', () => {
  const demo = (name: string): string =>
    fileURLToPath(new URL(`../../../fixtures/demo/${name}`, import.meta.url));

  it.each(['run-a', 'run-b'])('%s: film and truth hold the same frames, 1280 x 720', (name) => {
    const truth = JSON.parse(readFileSync(demo(`${name}.truth.json`), 'utf8')) as {
      frames: FrameTimes;
      camera: { width: number; height: number };
    };
    expect(decodedFrames(demo(`${name}.mp4`))).toEqual(truth.frames);
    expect([truth.camera.width, truth.camera.height]).toEqual([1280, 720]);
  });

  it('is small enough to ship', () => {
    const bytes = ['run-a.mp4', 'run-b.mp4'].reduce((sum, name) => sum + statSync(demo(name)).size, 0);
    expect(bytes).toBeLessThan(8_000_000);
  });

  it('has a camera for each of its frames', () => {
    const run = simulateRun(runB);
    expect(cameraOf(standFilm, run).fixed).toBe(true);
    expect(cameraOf(handFilm, run).fixed).toBe(false);
  });
});
