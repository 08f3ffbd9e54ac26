import { dogAt } from '../actors/trace.ts';
import { clamp, direction, lengthOf, sine, TURN } from '../base/exact.ts';
import { randomStream } from '../base/random.ts';
import type { RunRecord } from '../run/record.ts';
import type { Camera } from './camera.ts';
import type { CameraAt, Lens } from './path.ts';

/** How a camera is held. Angles in radians, lengths in metres. */
export interface Hold {
  /** Turns to follow the dog, with the lag of a person. */
  readonly follows: boolean;
  /** Swaying and trembling of a hand, 0: none, 1: a phone held freely. */
  readonly shake: number;
  /** Zooms by up to this share while filming. */
  readonly zoom: number;
  /** Steps about by so many metres. */
  readonly steps: number;
}

interface Wave {
  readonly rate: number;
  readonly phase: number;
  readonly height: number;
}

function waves(seed: number, label: string, rates: readonly number[], heights: readonly number[]): Wave[] {
  const random = randomStream(seed).branch(label);
  return rates.map((rate, i) => ({
    rate: rate * random.between(0.8, 1.25),
    phase: random.between(0, TURN),
    height: heights[i] ?? 0,
  }));
}

function sum(list: readonly Wave[], time: number): number {
  let out = 0;
  for (const w of list) out += w.height * sine(TURN * w.rate * time + w.phase);
  return out;
}

const DEGREE = Math.PI / 180;
/** Slow sway, breathing, steps, tremor. */
const rates = [0.23, 0.61, 1.7, 4.1, 7.3];

/** A camera in a person's hand, or on a tripod that a person turns. */
export function held(
  run: RunRecord,
  base: Camera,
  hold: Hold,
  lens: Lens,
  readout: number,
  seed: number,
): CameraAt {
  const degrees = [0.5, 0.3, 0.12, 0.05, 0.03].map((d) => d * DEGREE * hold.shake);
  const pan = waves(seed, 'pan', rates, degrees);
  const tilt = waves(seed, 'tilt', rates, degrees);
  const roll = waves(
    seed,
    'roll',
    rates,
    degrees.map((d) => 0.6 * d),
  );
  const far = [0.03, 0.015, 0.006, 0.001, 0].map((d) => d * hold.shake);
  const sideways = waves(seed, 'x', rates, far);
  const up = waves(seed, 'z', rates, far);
  const stepping = waves(seed, 'steps', [0.05, 0.11], [hold.steps, hold.steps / 2]);
  const zoom = waves(seed, 'zoom', [0.07, 0.19], [0.6 * hold.zoom, 0.4 * hold.zoom]);
  const table = hold.follows ? followed(run, base) : null;
  const at = (time: number): Camera => {
    const turned = table ? table(time) : { pan: base.pan, tilt: base.tilt };
    return {
      ...base,
      at: {
        x: base.at.x + sum(sideways, time) + sum(stepping, time),
        y: base.at.y + 0.5 * sum(sideways, time + 3),
        z: base.at.z + sum(up, time),
      },
      pan: turned.pan + sum(pan, time),
      tilt: turned.tilt + sum(tilt, time),
      roll: base.roll + sum(roll, time),
      focal: base.focal * (1 + sum(zoom, time)),
    };
  };
  const fixed = hold.shake === 0 && hold.zoom === 0 && hold.steps === 0 && !hold.follows;
  return { width: base.width, height: base.height, lens, readout, fixed, at };
}

/** Where a person who follows the dog points the camera: late, and smoothed by her own slowness. */
function followed(run: RunRecord, base: Camera): (time: number) => { pan: number; tilt: number } {
  const gap = 0.08;
  const count = Math.ceil(run.duration / gap) + 8;
  const lag = 0.22;
  const raw = Array.from({ length: count }, (_, i) => {
    const dog = dogAt(run, clamp(i * gap - lag, 0, run.duration));
    const far = lengthOf(dog.x - base.at.x, dog.y - base.at.y);
    return {
      pan: direction(dog.x - base.at.x, dog.y - base.at.y),
      tilt: direction(base.at.z - 0.5, far) - 0.02,
    };
  });
  const smooth = raw.map((_, i) => {
    let pan = 0;
    let tilt = 0;
    let weight = 0;
    for (let k = -7; k <= 7; k++) {
      const r = raw[clamp(i + k, 0, count - 1)];
      const w = 8 - Math.abs(k);
      if (!r) continue;
      pan += w * r.pan;
      tilt += w * r.tilt;
      weight += w;
    }
    return { pan: pan / weight, tilt: tilt / weight };
  });
  const curve = (of: 'pan' | 'tilt', i: number, u: number): number => {
    const v = (k: number): number => smooth[clamp(i + k, 0, count - 1)]?.[of] ?? 0;
    const [a, b, c, d] = [v(-1), v(0), v(1), v(2)];
    return (
      0.5 * (2 * b + (c - a) * u + (2 * a - 5 * b + 4 * c - d) * u * u + (3 * b - a - 3 * c + d) * u * u * u)
    );
  };
  return (time) => {
    const place = clamp(time / gap, 0, count - 1);
    const i = Math.floor(place);
    return { pan: curve('pan', i, place - i), tilt: curve('tilt', i, place - i) };
  };
}
