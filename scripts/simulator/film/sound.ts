import type { RunRecord } from '../run/record.ts';
import { handlerAt } from '../actors/trace.ts';
import { randomStream } from '../base/random.ts';
import { secondsOf } from '../frameTimes.ts';
import type { Exposures, FilmOrder } from './order.ts';
import { speedOfSound, valueOf } from '../parameters.ts';
import { burstsAround, burstsBeside, burstWave } from './ringside.ts';

export const sampleRate = 44100;

interface Vowel {
  readonly pitch: readonly [number, number];
  readonly formants: readonly [number, number];
}

const words: Readonly<Record<string, readonly Vowel[]>> = {
  wait: [{ pitch: [235, 215], formants: [560, 1900] }],
  release: [{ pitch: [270, 330], formants: [500, 850] }],
  oops: [{ pitch: [250, 190], formants: [320, 800] }],
  jump: [{ pitch: [255, 235], formants: [700, 1200] }],
  turn: [{ pitch: [300, 260], formants: [520, 1350] }],
  tunnel: [
    { pitch: [265, 255], formants: [680, 1150] },
    { pitch: [235, 220], formants: [450, 1300] },
  ],
  poles: [{ pitch: [265, 235], formants: [500, 850] }],
  climb: [{ pitch: [265, 235], formants: [760, 1350] }],
  here: [{ pitch: [285, 305], formants: [350, 2200] }],
  good: [{ pitch: [320, 250], formants: [400, 1000] }],
};

/** Adds a voiced sound: a buzz at the pitch, shaped by two resonances. */
function addWord(out: Float32Array, word: string, at: number, long: number, loud: number): void {
  const vowels = words[word] ?? words['here'] ?? [];
  const each = long / Math.max(1, vowels.length);
  vowels.forEach((vowel, k) => {
    let phase = 0;
    const state = vowel.formants.map((f) => ({ f, y1: 0, y2: 0 }));
    const start = Math.round((at + k * each) * sampleRate);
    const count = Math.round(each * sampleRate);
    for (let n = 0; n < count; n++) {
      const u = n / count;
      const pitch = vowel.pitch[0] + (vowel.pitch[1] - vowel.pitch[0]) * u;
      phase += pitch / sampleRate;
      phase -= Math.floor(phase);
      const buzz = 1 - 2 * phase;
      let voice = 0;
      for (const s of state) {
        const width = 90;
        const r = Math.exp((-Math.PI * width) / sampleRate);
        const y = buzz * (1 - r) + 2 * r * Math.cos((2 * Math.PI * s.f) / sampleRate) * s.y1 - r * r * s.y2;
        s.y2 = s.y1;
        s.y1 = y;
        voice += y;
      }
      const envelope = Math.min(1, u * 14, (1 - u) * 6);
      const i = start + n;
      if (i >= 0 && i < out.length) out[i] = (out[i] ?? 0) + voice * envelope * loud;
    }
  });
}

/** When the start signal sounds. */
export const beepAt = 0.6;

/** What a microphone at the camera hears: each sound as late as its way through the air takes, on the film's clock. */
export function soundOf(run: RunRecord, film: FilmOrder, exposures: Exposures): Int16Array {
  const { captured, frames } = exposures;
  const times = secondsOf(frames);
  const first = captured[0] ?? 0;
  const lastMedia = times[times.length - 1] ?? 0;
  const drift = 1 + (film.sound?.driftPpm ?? 0) * 1e-6;
  const out = new Float32Array(Math.ceil((lastMedia + 0.2) * sampleRate));
  const c = film.sound?.propagation === false ? Infinity : valueOf(speedOfSound);
  const recorder = film.sound?.recorder ?? run.seed;
  const ear = film.camera.at;
  // Slowed films carry the sound of their own time line: each sound begins where its picture is shown.
  const mediaOf = (runTime: number): number => {
    let i = captured.findIndex((t) => t >= runTime);
    if (i < 0) i = captured.length - 1;
    const a = Math.max(0, i - 1);
    const span = (captured[i] ?? 0) - (captured[a] ?? 0);
    const u = span > 0 ? (runTime - (captured[a] ?? 0)) / span : 0;
    return ((times[a] ?? 0) + ((times[i] ?? 0) - (times[a] ?? 0)) * u) * drift + (film.sound?.delay ?? 0);
  };
  const way = (x: number, y: number): number =>
    Math.sqrt((x - ear.x) ** 2 + (y - ear.y) ** 2 + (ear.z - 1.5) ** 2);
  const table = way(20, 21);
  const beep = Math.round(mediaOf(Math.max(first, beepAt + table / c)) * sampleRate);
  for (let n = 0; n < 0.32 * sampleRate && beepAt >= first; n++) {
    const i = beep + n;
    const envelope = Math.min(1, n / 200, (0.32 * sampleRate - n) / 900);
    if (i < out.length)
      out[i] = (out[i] ?? 0) + 0.22 * envelope * Math.sin((2 * Math.PI * 980 * n) / sampleRate);
  }
  for (const s of run.said) {
    if (s.begin < first) continue;
    const h = handlerAt(run, s.begin);
    const far = way(h.x, h.y);
    addWord(out, s.word, mediaOf(s.begin + far / c), s.end - s.begin, 5.5 / far);
  }
  const bursts = [
    ...burstsAround(run.seed, run.duration, film.sound?.around ?? 0),
    ...burstsBeside(recorder, ear, run.duration, film.sound?.beside ?? 0),
  ];
  for (const burst of bursts) {
    if (burst.at < first) continue;
    const far = way(burst.x, burst.y);
    const from = Math.round(mediaOf(burst.at + far / c) * sampleRate);
    burstWave(burst, sampleRate).forEach((v, n) => {
      if (from + n < out.length) out[from + n] = (out[from + n] ?? 0) + (v * burst.loud * 40) / far;
    });
  }
  addEcho(out, film.sound?.echo ?? 0);
  const random = randomStream(recorder).branch('air');
  let low = 0;
  for (let i = 0; i < out.length; i++) {
    low += (random.uniform() - 0.5 - low) * 0.02;
    out[i] = (out[i] ?? 0) + low * 0.02;
  }
  return Int16Array.from(out, (v) => Math.max(-32767, Math.min(32767, Math.round(v * 32767))));
}

/** Walls of a hall: four paths of their own length, each fed back into itself. */
function addEcho(out: Float32Array, share: number): void {
  if (share <= 0) return;
  const dry = out.slice();
  for (const metres of [17, 23, 31, 41]) {
    const delay = Math.round((metres / valueOf(speedOfSound)) * sampleRate);
    const line = new Float32Array(out.length);
    for (let i = delay; i < out.length; i++) {
      line[i] = share * ((dry[i - delay] ?? 0) + 0.7 * (line[i - delay] ?? 0));
      out[i] = (out[i] ?? 0) + 0.5 * (line[i] ?? 0);
    }
  }
}

/** The samples as a WAV file (RIFF, 16 bit, one channel). */
export function wavOf(samples: Int16Array): Buffer {
  const head = Buffer.alloc(44);
  head.write('RIFF', 0);
  head.writeUInt32LE(36 + samples.length * 2, 4);
  head.write('WAVEfmt ', 8);
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(sampleRate, 24);
  head.writeUInt32LE(sampleRate * 2, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write('data', 36);
  head.writeUInt32LE(samples.length * 2, 40);
  return Buffer.concat([head, Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength)]);
}
