import type { Camera, CameraMatrix, Point3, Seen } from './camera.ts';
import { cameraMatrix } from './camera.ts';

/** Radial distortion on the normalised picture: r' = r (1 + k1 r^2 + k2 r^4). Straight lines bow; 0, 0: none. */
export interface Lens {
  readonly k1: number;
  readonly k2: number;
}

/** A camera over the time of a run. */
export interface CameraAt {
  readonly width: number;
  readonly height: number;
  readonly lens: Lens;
  /** Seconds between the reading of the first and the last row; the middle row is read at the frame's time. */
  readonly readout: number;
  /** True where pose and focal length never change. */
  readonly fixed: boolean;
  at(time: number): Camera;
}

/** A camera on a stand that nobody touches. */
export function standing(camera: Camera, lens: Lens = { k1: 0, k2: 0 }): CameraAt {
  const { width, height } = camera;
  return { width, height, lens, readout: 0, fixed: true, at: () => camera };
}

/** One frame's matrices: while the rows are read the camera goes from `top` to `bottom`, elements linear in between. */
export interface FrameMatrices {
  readonly top: CameraMatrix;
  readonly bottom: CameraMatrix;
  readonly camera: Camera;
  readonly lens: Lens;
  readonly rolling: boolean;
}

export function frameMatrices(path: CameraAt, time: number): FrameMatrices {
  const camera = path.at(time);
  const middle = cameraMatrix(camera);
  const rolling = path.readout > 0 && !path.fixed;
  if (!rolling) return { top: middle, bottom: middle, camera, lens: path.lens, rolling };
  return {
    top: cameraMatrix(path.at(time - path.readout / 2)),
    bottom: cameraMatrix(path.at(time + path.readout / 2)),
    camera,
    lens: path.lens,
    rolling,
  };
}

/** The matrix in force for a row, `share` of the height from the top. */
export function matrixAtRow(f: FrameMatrices, share: number): CameraMatrix {
  if (!f.rolling) return f.top;
  const w = Math.min(1.5, Math.max(-0.5, share));
  const row = (k: 0 | 1 | 2): [number, number, number, number] => {
    const a = f.top[k];
    const b = f.bottom[k];
    return [
      a[0] + (b[0] - a[0]) * w,
      a[1] + (b[1] - a[1]) * w,
      a[2] + (b[2] - a[2]) * w,
      a[3] + (b[3] - a[3]) * w,
    ];
  };
  return [row(0), row(1), row(2)];
}

/** Projects with the matrix in force at a row, `w` of the height from the top (no arrays: this runs a lot). */
function project(f: FrameMatrices, w: number, p: Point3): Seen {
  const { camera, lens, top } = f;
  const [a, b, c] = top;
  let du = a[0] * p.x + a[1] * p.y + a[2] * p.z + a[3];
  let dv = b[0] * p.x + b[1] * p.y + b[2] * p.z + b[3];
  let dw = c[0] * p.x + c[1] * p.y + c[2] * p.z + c[3];
  if (f.rolling) {
    const [d, e, g] = f.bottom;
    du += (d[0] * p.x + d[1] * p.y + d[2] * p.z + d[3] - du) * w;
    dv += (e[0] * p.x + e[1] * p.y + e[2] * p.z + e[3] - dv) * w;
    dw += (g[0] * p.x + g[1] * p.y + g[2] * p.z + g[3] - dw) * w;
  }
  const depth = Math.max(0.05, dw);
  let u = du / depth;
  let v = dv / depth;
  if (lens.k1 !== 0 || lens.k2 !== 0) {
    const cx = camera.width / 2;
    const cy = camera.height / 2;
    const x = (u - cx) / camera.focal;
    const y = (v - cy) / camera.focal;
    const r2 = Math.min(4, x * x + y * y);
    const k = 1 + lens.k1 * r2 + lens.k2 * r2 * r2;
    u = cx + camera.focal * x * k;
    v = cy + camera.focal * y * k;
  }
  return { u, v, scale: camera.focal / depth, depth };
}

/** Where a point that stands still is seen in a frame, rows read one after the other. */
export function seenInFrame(f: FrameMatrices, p: Point3): Seen {
  let seen = project(f, 0.5, p);
  if (!f.rolling) return seen;
  const { height } = f.camera;
  for (let i = 0; i < 2; i++) seen = project(f, Math.min(1.5, Math.max(-0.5, seen.v / height)), p);
  return seen;
}

/** Where a point is seen in the frame of that time; null: behind the camera or outside of the picture. */
export function seenAt(path: CameraAt, p: Point3, time: number): Seen | null {
  const seen = seenInFrame(frameMatrices(path, time), p);
  const inside = seen.u >= 0 && seen.v >= 0 && seen.u < path.width && seen.v < path.height;
  return seen.depth > 0.1 && inside ? seen : null;
}

/** Undoes the lens: the pinhole pixel of a distorted one. */
export function straighten(camera: Camera, lens: Lens, u: number, v: number): { u: number; v: number } {
  const cx = camera.width / 2;
  const cy = camera.height / 2;
  const x = (u - cx) / camera.focal;
  const y = (v - cy) / camera.focal;
  let k = 1;
  for (let i = 0; i < 12; i++) {
    const r2 = (x * x + y * y) / (k * k);
    k = 1 + lens.k1 * r2 + lens.k2 * r2 * r2;
  }
  return { u: cx + (camera.focal * x) / k, v: cy + (camera.focal * y) / k };
}

/** The spot on the grass that a pixel shows, for a frame of that time. */
export function groundSeen(path: CameraAt, time: number, u: number, v: number): { x: number; y: number } {
  const f = frameMatrices(path, time);
  const flat = straighten(f.camera, path.lens, u, v);
  const [a, b, c] = matrixAtRow(f, v / path.height);
  const p = [a[0] - flat.u * c[0], a[1] - flat.u * c[1], a[3] - flat.u * c[3]] as const;
  const q = [b[0] - flat.v * c[0], b[1] - flat.v * c[1], b[3] - flat.v * c[3]] as const;
  const det = p[0] * q[1] - p[1] * q[0];
  return { x: (p[1] * q[2] - p[2] * q[1]) / det, y: (p[2] * q[0] - p[0] * q[2]) / det };
}
