import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { randomStream, type RandomStream } from '../../../scripts/simulator/base/random.ts';
import type { Point3 } from '../../../scripts/simulator/camera/camera.ts';
import { runA, runB } from '../../../scripts/simulator/demoRuns.ts';
import { standFilm, type SoundOrder } from '../../../scripts/simulator/film/order.ts';
import { soundOf, wavOf } from '../../../scripts/simulator/film/sound.ts';
import { secondsOf, steadyFrames } from '../../../scripts/simulator/frameTimes.ts';
import type { RunRecord } from '../../../scripts/simulator/run/record.ts';
import { simulateRun } from '../../../scripts/simulator/run/run.ts';
import { inRealTime } from '../../../scripts/simulator/simulate.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { readSound } from '../../../src/footage/sound.ts';
import type { FootageUse } from '../../../src/review/document.ts';
import { byMoment, bySound, linedUp, soundBarred } from '../../../src/review/lineUp.ts';
import type { ClipClock } from '../../../src/time/bracket.ts';
import { ptsOf } from '../../../src/time/frameTable.ts';
import { soundLineUpNow, type SoundAnswer } from '../../../src/time/lineUp/bySound.ts';
import type { SoundTrack } from '../../../src/time/lineUp/soundTrack.ts';
import { frameIndex } from '../../../src/time/units.ts';
import type { BenchLine } from '../run.ts';

const seeds = Array.from({ length: 20 }, (_, i) => 4001 + i);

/** One camera's film of a run, read back from its file as the product reads it. */
interface Angle {
  readonly track: SoundTrack;
  readonly clock: ClipClock;
  /** Run time of the first frame: what the product is to find out. */
  readonly origin: number;
  readonly at: Point3;
}

/** One run seen from two places, and the same again with nothing that keeps sound from its picture. */
interface Pair {
  readonly run: RunRecord;
  readonly clean: readonly [Angle, Angle];
  readonly real: readonly [Angle, Angle];
}

/**
 * Sound line-up on simulated footage: two recorders anywhere around the ring, each begun at its own time, with echo,
 * bystanders that both hear, talk that one hears, and noise of its own, stored as AAC beside a small picture and read
 * back through ffmpeg. The truth is the run time of each film's first frame.
 */
export async function soundLines(): Promise<BenchLine[]> {
  const folder = await mkdtemp(join(tmpdir(), 'walkback-sound-'));
  try {
    const errors: number[] = [];
    const refused: string[] = [];
    let covered = 0;
    let widest = 0;
    let unlike = 0;
    let overridden = 0;
    let before: Pair | null = null;
    for (const seed of seeds) {
      const pair = await filmed(seed, folder);
      const clean = aligned(pair.clean, 0);
      if (clean.found) errors.push(Math.abs(clean.offset - truthOf(pair.clean)));
      else refused.push(`seed ${seed}: ${clean.why}`);

      const spacing = spacingOf(pair.real);
      const real = aligned(pair.real, spacing);
      if (real.found) {
        covered += Math.abs(real.offset - truthOf(pair.real)) <= real.plusMinus ? 1 : 0;
        widest = Math.max(widest, real.plusMinus);
        overridden += momentWins(pair, real, spacing) ? 1 : 0;
      } else refused.push(`seed ${seed}, with propagation: ${real.why}`);

      if (before) {
        const answer = aligned([before.real[0], pair.real[1]], spacingOf([before.real[0], pair.real[1]]));
        unlike += answer.found ? 0 : 1;
      }
      before = pair;
    }
    return [
      {
        figure: 'sound line-up, propagation off, on simulated footage: largest error of 20 seeds',
        asked: 'under 5 ms',
        measured: `${milli(Math.max(...errors))}, ${errors.length} of 20 lined up${told(refused)}`,
        holds: errors.length === seeds.length && Math.max(...errors) < 0.005,
      },
      {
        figure: 'sound line-up, propagation, drift of 50 ppm and recorder delay on, on simulated footage',
        asked: 'spacing / 343 m/s + allowance covers the truth, 20 of 20',
        measured: `${covered} of 20 covered, widest ± ${milli(widest)}`,
        holds: covered === seeds.length,
      },
      {
        figure: 'sounds of two different runs, on simulated footage',
        asked: 'refused, all',
        measured: `${unlike} of ${seeds.length - 1} refused`,
        holds: unlike === seeds.length - 1,
      },
      {
        figure: 'a moment shown on both clips overrides the sound, on simulated footage',
        asked: 'kept, within its own plus or minus, 20 of 20',
        measured: `${overridden} of 20`,
        holds: overridden === seeds.length,
      },
    ];
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

const milli = (seconds: number): string => `${(seconds * 1000).toFixed(2)} ms`;
const told = (refused: readonly string[]): string => (refused.length === 0 ? '' : ` (${refused.join('; ')})`);
const truthOf = ([a, b]: readonly [Angle, Angle]): number => b.origin - a.origin;
const spacingOf = ([a, b]: readonly [Angle, Angle]): number =>
  Math.hypot(a.at.x - b.at.x, a.at.y - b.at.y, a.at.z - b.at.z);
const aligned = ([a, b]: readonly [Angle, Angle], spacing: number): SoundAnswer =>
  soundLineUpNow(a.track, b.track, spacing);

async function filmed(seed: number, folder: string): Promise<Pair> {
  const order = { ...(seed % 2 === 0 ? runA : runB), seed, traits: {}, happenings: { natural: true } };
  const run = simulateRun(order);
  const random = randomStream(seed).branch('two cameras');
  const places = [aroundTheRing(random), aroundTheRing(random)] as const;
  const origins = [random.between(0, 3), random.between(0, 6)] as const;
  const recorder = (i: number): SoundOrder => ({
    echo: random.between(0, 0.4),
    driftPpm: 0,
    propagation: false,
    recorder: seed * 10 + i,
    around: 15,
    beside: 8,
  });
  const faulty = (i: number): SoundOrder => ({
    ...recorder(i),
    propagation: true,
    driftPpm: i === 0 ? 50 : -50,
    // One stage of production may put sound 5 ms early to 15 ms late (EBU R 37).
    delay: random.between(-0.005, 0.015),
  });
  const angle = (i: 0 | 1, sound: SoundOrder): Promise<Angle> =>
    stored(run, places[i], origins[i], i === 0 ? 30 : 50, sound, folder);
  return {
    run,
    clean: [await angle(0, recorder(0)), await angle(1, recorder(1))],
    real: [await angle(0, faulty(0)), await angle(1, faulty(1))],
  };
}

/** Where people stand with a camera: outside of the rope, on any side, hand height or up a bank. */
function aroundTheRing(random: RandomStream): Point3 {
  const z = random.between(1.5, 5);
  const side = random.whole(4);
  if (side === 0) return { x: random.between(0, 40), y: random.between(-10, -2), z };
  if (side === 1) return { x: random.between(0, 40), y: random.between(22, 30), z };
  return { x: side === 2 ? random.between(-8, -2) : random.between(42, 48), y: random.between(0, 20), z };
}

async function stored(
  run: RunRecord,
  at: Point3,
  origin: number,
  rate: number,
  sound: SoundOrder,
  folder: string,
): Promise<Angle> {
  const frames = steadyFrames(rate, run.duration - origin);
  const film = { ...standFilm, camera: { ...standFilm.camera, at }, sound };
  const wav = join(folder, 'heard.wav');
  const file = join(folder, 'film.mp4');
  await writeFile(wav, wavOf(soundOf(run, film, inRealTime(frames, origin))));
  const seconds = secondsOf(frames);
  await promisify(execFile)('ffmpeg', [
    ...['-v', 'error', '-y', '-f', 'lavfi', '-i', `color=s=64x36:r=${rate}`, '-i', wav],
    ...[
      '-frames:v',
      String(seconds.length),
      '-c:v',
      'libx264',
      '-preset',
      'ultrafast',
      '-pix_fmt',
      'yuv420p',
    ],
    ...['-c:a', 'aac', '-b:a', '96k', file],
  ]);
  const { table } = await indexFrames(file);
  const clock: ClipClock = { table, speed: [], offset: 0, rate: 1 };
  return { track: await readSound(file, table), clock, origin, at };
}

/** Whether a moment seen on both clips replaces the sound, is kept, and holds the truth within its plus or minus. */
function momentWins(
  { run, real: [a, b] }: Pair,
  sound: Extract<SoundAnswer, { found: true }>,
  spacing: number,
): boolean {
  const use = (id: string): FootageUse => ({ id, clipId: id, name: id, speed: [], offset: 0, rate: 1 });
  const bySoundFirst = moved([use('a'), use('b')], bySound(sound, spacing));
  const moment = run.notices.find((n) => n.at > 8)?.at ?? 10;
  const firstFrame = ({ clock, origin }: Angle) => {
    const { table } = clock;
    const { num, den } = table.timeBase;
    const index = table.pts.findIndex((p) => (p * num) / den >= moment - origin);
    return { clock, pts: ptsOf(table, frameIndex(index)) };
  };
  const relation = byMoment(firstFrame(a), firstFrame(b));
  const [base, clip] = moved(bySoundFirst, relation);
  if (!base || clip?.lineUp?.by !== 'moment') return false;
  const error = Math.abs(clip.offset - (b.origin - a.origin));
  return error <= clip.lineUp.plusMinus && soundBarred(base, clip) === 'moment';
}

function moved(footage: readonly FootageUse[], relation: Parameters<typeof linedUp>[3]): FootageUse[] {
  const changes = linedUp(footage, 'a', 'b', relation);
  return footage.map((f) => {
    const change = changes.find((c) => c.id === f.id);
    return change?.kind === 'footage' && change.body ? change.body : f;
  });
}
