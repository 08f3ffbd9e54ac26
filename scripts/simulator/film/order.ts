import type { Camera } from '../camera/camera.ts';
import { standCamera } from '../camera/camera.ts';
import type { Hold } from '../camera/hand.ts';
import { held } from '../camera/hand.ts';
import type { CameraAt, Lens } from '../camera/path.ts';
import type { FrameTimes } from '../frameTimes.ts';
import type { Look } from '../picture/scene.ts';
import { plainLook } from '../picture/scene.ts';
import type { RunRecord } from '../run/record.ts';

export type Codec = 'h264' | 'hevc' | 'vp9' | 'av1';

/** How the sound was caught. */
export interface SoundOrder {
  /** Share of sound that a wall throws back; 0: open field. */
  readonly echo: number;
  /** Parts per million by which the recorder's clock for sound runs fast. */
  readonly driftPpm: number;
  /** False: every sound arrives at once, as if the air were not there. */
  readonly propagation?: boolean;
  /** Seconds by which the recorder writes sound later than its picture. */
  readonly delay?: number;
  /** Seed of what only this recorder hears; the run's own where it is not given. */
  readonly recorder?: number;
  /** Barks and claps a minute from around the ring, which every camera hears. */
  readonly around?: number;
  /** Talk and knocks a minute beside this camera, which no other hears. */
  readonly beside?: number;
}

/** Everything about a film but the run it shows. */
export interface FilmOrder {
  readonly camera: Camera;
  readonly hold: Hold;
  readonly lens: Lens;
  /** Seconds from the reading of the first row to that of the last. */
  readonly readout: number;
  readonly look: Look;
  readonly codec: Codec;
  /** Constant quality of the encoder (its own scale); larger is coarser. */
  readonly quality: number;
  /** Frames between key frames at most. */
  readonly keyEvery: number;
  readonly backwardFrames: boolean;
  readonly sound: SoundOrder | null;
}

export const stillHold: Hold = { follows: false, shake: 0, zoom: 0, steps: 0 };

/** A phone on a stand on the bank: the demo's film. */
export const standFilm: FilmOrder = {
  camera: standCamera,
  hold: stillHold,
  lens: { k1: 0, k2: 0 },
  readout: 0,
  look: { ...plainLook, bystanders: true },
  codec: 'h264',
  quality: 26,
  keyEvery: 60,
  backwardFrames: true,
  sound: { echo: 0, driftPpm: 0 },
};

/** A phone in the hand of someone at the rope who follows the dog. */
export const handFilm: FilmOrder = {
  ...standFilm,
  camera: {
    at: { x: 19.4, y: -6, z: 1.7 },
    pan: 0,
    tilt: 0.07,
    roll: 0,
    focal: 1050,
    width: 1280,
    height: 720,
  },
  hold: { follows: true, shake: 1, zoom: 0.1, steps: 0.4 },
  lens: { k1: -0.08, k2: 0.01 },
  readout: 0.016,
  look: { setting: { pattern: 0.25 }, bystanders: true, shutter: 1 / 120, grain: 0.2 },
  quality: 24,
};

/** The camera of an order over one run. */
export function cameraOf(order: FilmOrder, run: RunRecord): CameraAt {
  return held(run, order.camera, order.hold, order.lens, order.readout, run.seed);
}

/** A film's frames: when each is shown, and what moment of the run it shows. */
export interface Exposures {
  readonly frames: FrameTimes;
  /** Run time of each frame, seconds. */
  readonly captured: readonly number[];
}
