import { describe, expect, it } from 'vitest';
import { cosine, direction, exponential, sine, wrapAngle } from '../../../scripts/simulator/base/exact.ts';
import { randomStream } from '../../../scripts/simulator/base/random.ts';
import type { Camera } from '../../../scripts/simulator/camera/camera.ts';
import { cameraMatrix, standCamera } from '../../../scripts/simulator/camera/camera.ts';
import { held } from '../../../scripts/simulator/camera/hand.ts';
import { groundSeen, seenAt, standing, straighten } from '../../../scripts/simulator/camera/path.ts';
import { handFilm } from '../../../scripts/simulator/film/order.ts';
import { simulateRun } from '../../../scripts/simulator/run/run.ts';
import { drawnOrder } from './runs.ts';

describe('angles without the engine', () => {
  it('agree with the engine to the last digits that matter', () => {
    const random = randomStream(3);
    for (let i = 0; i < 20_000; i++) {
      const a = random.between(-20, 20);
      const b = random.between(-20, 20);
      expect(Math.abs(sine(a) - Math.sin(a))).toBeLessThan(1e-13);
      expect(Math.abs(cosine(a) - Math.cos(a))).toBeLessThan(1e-13);
      expect(Math.abs(wrapAngle(direction(a, b) - Math.atan2(a, b)))).toBeLessThan(1e-13);
      expect(Math.abs(exponential(a / 4) / Math.exp(a / 4) - 1)).toBeLessThan(1e-12);
    }
  });
});

describe('cameras', () => {
  const run = simulateRun(drawnOrder(1));
  const bowed = { k1: -0.12, k2: 0.02 };
  const paths = [
    ['on a stand', standing(standCamera)],
    ['on a stand, a lens that bows', standing(standCamera, bowed)],
    [
      'in a hand, rolling shutter, a lens that bows',
      held(run, handFilm.camera, handFilm.hold, bowed, 0.02, 9),
    ],
  ] as const;

  it.each(paths)('%s: what is seen leads back to where it lies', (_, path) => {
    const random = randomStream(17);
    let seen = 0;
    for (let i = 0; i < 3000; i++) {
      const p = { x: random.between(0, 40), y: random.between(0.5, 20), z: 0 };
      const time = random.between(0, run.duration);
      const pixel = seenAt(path, p, time);
      if (!pixel) continue;
      const back = groundSeen(path, time, pixel.u, pixel.v);
      expect(Math.hypot(back.x - p.x, back.y - p.y)).toBeLessThan(2e-3);
      seen++;
    }
    expect(seen).toBeGreaterThan(500);
  });

  it('the matrix is the pinhole: intrinsics times a rotation, and the place it stands on is its null space', () => {
    const camera: Camera = { ...standCamera, pan: 0.4, tilt: 0.2, roll: 0.05 };
    const m = cameraMatrix(camera);
    const at = [camera.at.x, camera.at.y, camera.at.z, 1];
    for (const row of m) {
      expect(row.reduce((sum, v, i) => sum + v * (at[i] ?? 0), 0)).toBeCloseTo(0, 8);
    }
    // Undo focal length and centre: three orthonormal rows remain.
    const r = [0, 1].map((k) =>
      [0, 1, 2].map((i) => {
        const centre = (k === 0 ? camera.width : camera.height) / 2;
        return ((m[k]?.[i] ?? 0) - centre * (m[2]?.[i] ?? 0)) / camera.focal;
      }),
    );
    const rows = [...r, [m[2][0], m[2][1], m[2][2]]];
    for (const [i, a] of rows.entries()) {
      for (const [j, b] of rows.entries()) {
        const dot = a.reduce((sum, v, k) => sum + v * (b[k] ?? 0), 0);
        expect(dot).toBeCloseTo(i === j ? 1 : 0, 12);
      }
    }
  });

  it('a lens that bows moves the corners and leaves the middle', () => {
    const middle = straighten(standCamera, bowed, 640, 360);
    expect(Math.hypot(middle.u - 640, middle.v - 360)).toBeLessThan(1e-9);
    const corner = straighten(standCamera, bowed, 10, 10);
    expect(Math.hypot(corner.u - 10, corner.v - 10)).toBeGreaterThan(20);
  });

  it('a hand moves the camera by less between frames than a film can bear, and a stand not at all', () => {
    const hand = held(run, handFilm.camera, { ...handFilm.hold, follows: false }, bowed, 0.02, 9);
    let most = 0;
    for (let t = 0; t < run.duration; t += 1 / 30) {
      const a = hand.at(t);
      const b = hand.at(t + 1 / 30);
      most = Math.max(most, Math.abs(a.pan - b.pan) * a.focal);
    }
    expect(most).toBeGreaterThan(0.5);
    expect(most).toBeLessThan(40);
    expect(standing(standCamera).fixed).toBe(true);
    expect(hand.fixed).toBe(false);
  });
});
