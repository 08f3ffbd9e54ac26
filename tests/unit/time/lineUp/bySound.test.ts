import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recorders, speedOfSound } from '../../../../src/time/lineUp/allowance.ts';
import { soundLineUp, soundLineUpNow } from '../../../../src/time/lineUp/bySound.ts';
import { noise, rate, recorded, ringside, track } from './tracks.ts';

const found = (answer: ReturnType<typeof soundLineUpNow>) => {
  if (!answer.found) throw new Error(`refused: ${answer.why}`);
  return answer;
};

describe('two recorders of one run', () => {
  it('are lined up to less than a millisecond, wherever each begins', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), fc.integer({ min: 0, max: 6 * rate }), (seed, later) => {
        const scene = ringside(seed, 24);
        const a = recorded(scene, 0, 20 * rate, 1);
        const b = recorded(scene, later, scene.length, 2);
        const answer = found(soundLineUpNow(a, b, 0));
        expect(Math.abs(answer.offset - later / rate)).toBeLessThan(0.001);
        expect(answer.rate).toBe(1);
        const back = found(soundLineUpNow(b, a, 0));
        expect(Math.abs(back.offset + later / rate)).toBeLessThan(0.001);
      }),
      { numRuns: 6 },
    );
  });

  it('are lined up on their media times, whatever those begin with', () => {
    const scene = ringside(3, 20);
    const a = { ...recorded(scene, 0, scene.length, 1), from: 5002.8 };
    const b = { ...recorded(scene, rate, scene.length, 2), from: -0.5 };
    const { offset } = found(soundLineUpNow(a, b, 0));
    // Sample 0 of b is heard one second into a.
    expect(offset - 0.5).toBeCloseTo(5003.8, 3);
  });

  it('state a bound that grows with the cameras’ distance, and is never below what recorders may differ by', () => {
    const scene = ringside(4, 20);
    const [a, b] = [recorded(scene, 0, scene.length, 1), recorded(scene, 4000, scene.length, 2)];
    const near = found(soundLineUpNow(a, b, 0));
    const far = found(soundLineUpNow(a, b, 34.3));
    expect(near.plusMinus).toBeGreaterThan(recorders);
    expect(far.allowance.air).toBeCloseTo(34.3 / speedOfSound, 12);
    expect(far.plusMinus - near.plusMinus).toBeGreaterThanOrEqual(0.1);
    const { air, cold, clocks, measured } = far.allowance;
    expect(far.plusMinus).toBeCloseTo(air + cold + recorders + clocks + measured, 12);
  });

  it('tell the rates of their clocks apart once both are long and the cameras stand together', () => {
    const seconds = 200;
    const scene = ringside(5, seconds, 2 * seconds);
    const a = recorded(scene, 0, scene.length, 1);
    // The second recorder runs slow by 80 parts per million: its sample i is the scene's at i (1 + 80e-6).
    const drifted = new Float32Array(Math.floor(scene.length / (1 + 80e-6)) - 1);
    for (let i = 0; i < drifted.length; i++) {
      const at = i * (1 + 80e-6);
      const k = Math.floor(at);
      drifted[i] = (scene[k] ?? 0) * (1 - (at - k)) + (scene[k + 1] ?? 0) * (at - k);
    }
    const answer = found(soundLineUpNow(a, track(drifted), 0));
    expect(answer.rateTold).toBe(true);
    expect(Math.abs(answer.rate - 1 - 80e-6)).toBeLessThan(10e-6);
    const end = answer.offset + answer.rate * (drifted.length / rate);
    expect(Math.abs(end - (drifted.length / rate) * (1 + 80e-6))).toBeLessThan(0.002);
    // Sources may walk from one camera to the other: then a rate cannot be told from a walk.
    expect(found(soundLineUpNow(a, track(drifted), 20)).rateTold).toBe(false);
  });
});

describe('what cannot be lined up is refused', () => {
  const tone = (hz: number, seconds: number, on: (t: number) => boolean): Float32Array =>
    Float32Array.from({ length: seconds * rate }, (_, i) =>
      on(i / rate) ? 0.3 * Math.sin((2 * Math.PI * hz * i) / rate) : 0,
    );
  const withHiss = (samples: Float32Array, seed: number) => recorded(samples, 0, samples.length, seed);

  it('noise against noise', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (seed) => {
        const hiss = (s: number) => {
          const next = noise(s);
          return track(Float32Array.from({ length: 20 * rate }, () => next()));
        };
        expect(soundLineUpNow(hiss(seed), hiss(seed + 7), 10)).toMatchObject({ found: false });
      }),
      { numRuns: 5 },
    );
  });

  it('two different runs', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), fc.constantFrom(0, 10, 30), (seed, spacing) => {
        const [a, b] = [ringside(seed, 30), ringside(seed + 1, 30)];
        const answer = soundLineUpNow(withHiss(a, 1), withHiss(b, 2), spacing);
        expect(answer).toEqual({ found: false, why: 'unlike' });
      }),
      { numRuns: 6 },
    );
  });

  it('two runs that begin with the same call and go on differently', () => {
    const [a, b] = [ringside(8, 40), ringside(9, 40)];
    a.set(b.subarray(0, 10 * rate));
    expect(soundLineUpNow(withHiss(a, 1), withHiss(b, 2), 10)).toEqual({ found: false, why: 'unlike' });
  });

  it.each([
    ['a beep every second', tone(980, 30, (t) => t % 1 < 0.2)],
    ['a beep that never ends', tone(980, 30, () => true)],
    ['a bar of music over and over', repeated(ringside(11, 2, 12), 15)],
  ])('%s', (_, samples) => {
    const answer = soundLineUpNow(withHiss(samples, 1), withHiss(samples.slice(rate / 2), 2), 5);
    expect(answer.found).toBe(false);
  });

  it('a bar of music over and over fits in more than one place, and is told so', () => {
    const music = repeated(ringside(11, 2, 12), 15);
    const answer = soundLineUpNow(withHiss(music, 1), withHiss(music.slice(5 * rate), 2), 0);
    expect(answer).toEqual({ found: false, why: 'ambiguous' });
  });

  it('silence, a sound that is too short, nothing at all', () => {
    const scene = withHiss(ringside(12, 20), 1);
    const quiet = track(new Float32Array(20 * rate));
    expect(soundLineUpNow(scene, quiet, 0)).toEqual({ found: false, why: 'silent' });
    expect(soundLineUpNow(quiet, quiet, 0)).toEqual({ found: false, why: 'silent' });
    expect(soundLineUpNow(scene, track(new Float32Array(rate)), 0)).toEqual({
      found: false,
      why: 'tooShort',
    });
    expect(soundLineUpNow(scene, track(new Float32Array(0)), 0)).toEqual({ found: false, why: 'tooShort' });
  });

  it('numbers that are none', () => {
    const scene = withHiss(ringside(13, 10), 1);
    const broken = track(new Float32Array(10 * rate).fill(NaN));
    expect(soundLineUpNow(scene, broken, 0).found).toBe(false);
    expect(() => soundLineUpNow(scene, scene, NaN)).toThrow(RangeError);
    expect(() => soundLineUpNow(scene, { ...scene, rate: 44100 }, 0)).toThrow(RangeError);
  });
});

it('a line-up tells how far it is, and can be given up between steps', () => {
  const scene = ringside(14, 20);
  const steps = soundLineUp(recorded(scene, 0, scene.length, 1), recorded(scene, 100, scene.length, 2), 0);
  const shares: number[] = [];
  for (let step = steps.next(); !step.done; step = steps.next()) shares.push(step.value);
  expect(shares.length).toBeGreaterThan(3);
  expect(shares).toEqual([...shares].sort((a, b) => a - b));
  expect(shares.at(-1)).toBeLessThanOrEqual(1);
});

function repeated(bar: Float32Array, times: number): Float32Array {
  const out = new Float32Array(bar.length * times);
  for (let k = 0; k < times; k++) out.set(bar, k * bar.length);
  return out;
}
