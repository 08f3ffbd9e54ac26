import { cosine, sine } from '../base/exact.ts';

/** A point in ring coordinates, metres; z is up. */
export interface Point3 {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** A pinhole with square pixels. Angles in radians, `focal` in pixels, picture size in pixels. */
export interface Camera {
  readonly at: Point3;
  /** 0 looks along +y, positive turns toward +x. */
  readonly pan: number;
  /** Positive looks down. */
  readonly tilt: number;
  readonly roll: number;
  readonly focal: number;
  readonly width: number;
  readonly height: number;
}

/** Rows of the 3 x 4 matrix that takes (x, y, z, 1) to (u w, v w, w). */
type Row = readonly [number, number, number, number];
export type CameraMatrix = readonly [Row, Row, Row];

export interface Seen {
  readonly u: number;
  readonly v: number;
  /** Pixels per metre at this depth. */
  readonly scale: number;
  /** Distance along the optical axis, metres. */
  readonly depth: number;
}

/** Matrix of a camera: intrinsics times rotation and translation. */
export function cameraMatrix(camera: Camera): CameraMatrix {
  const { at, focal, width, height } = camera;
  const cp = cosine(camera.pan);
  const sp = sine(camera.pan);
  const ct = cosine(camera.tilt);
  const st = sine(camera.tilt);
  const forward = [sp * ct, cp * ct, -st];
  const right = [cp, -sp, 0];
  const down = [-sp * st, -cp * st, -ct];
  const cr = cosine(camera.roll);
  const sr = sine(camera.roll);
  const axis = (i: number): [number, number, number] => {
    const r = right[i] ?? 0;
    const d = down[i] ?? 0;
    return [cr * r + sr * d, cr * d - sr * r, forward[i] ?? 0];
  };
  const x = axis(0);
  const y = axis(1);
  const z = axis(2);
  const row = (k: 0 | 1 | 2): [number, number, number, number] => [
    x[k],
    y[k],
    z[k],
    -(x[k] * at.x + y[k] * at.y + z[k] * at.z),
  ];
  const w = row(2);
  const mixRow = (r: readonly number[], c: number): [number, number, number, number] => [
    focal * (r[0] ?? 0) + c * w[0],
    focal * (r[1] ?? 0) + c * w[1],
    focal * (r[2] ?? 0) + c * w[2],
    focal * (r[3] ?? 0) + c * w[3],
  ];
  return [mixRow(row(0), width / 2), mixRow(row(1), height / 2), w];
}

/** The demo's stand: on the bank above the near long side. */
export const standCamera: Camera = {
  at: { x: 19.4, y: -11.6, z: 8.2 },
  pan: 0,
  tilt: 0.28,
  roll: 0,
  focal: 950,
  width: 1280,
  height: 720,
};
