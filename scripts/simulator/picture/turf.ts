import { createCanvas } from '@napi-rs/canvas';
import type { RandomStream } from '../base/random.ts';
import { randomStream } from '../base/random.ts';
import type { CameraMatrix } from '../camera/camera.ts';
import type { FrameMatrices } from '../camera/path.ts';
import { matrixAtRow } from '../camera/path.ts';

/** How the grass and what lies behind look. */
export interface Setting {
  /** 1: mown stripes and tufts; 0: bland, evenly green. */
  readonly pattern: number;
}

/** Grass is painted this far back; behind it stands a painted wall of hedges and sky. */
export const WALL_Y = 62;
const WALL = { left: -110, right: 150, tall: 30, perMetre: 10 };
const TILE = 512;
const COARSE = { left: -40, right: 80, near: -16, far: WALL_Y, perMetre: 16 };

interface Turf {
  /** Fine blades, one tile for each halving of detail. */
  readonly fine: readonly Int8Array[];
  readonly coarse: Int8Array;
  readonly coarseWide: number;
  readonly coarseTall: number;
  /** Colours by light (0 to 127), one table for each of 16 distances. */
  readonly colours: readonly Uint32Array[];
  readonly wall: Uint32Array;
  readonly wallWide: number;
  readonly wallTall: number;
}

function smoothNoise(random: RandomStream, size: number): (x: number, y: number) => number {
  const grid = new Float32Array(size * size);
  for (let i = 0; i < grid.length; i++) grid[i] = random.uniform() - 0.5;
  const at = (a: number, b: number): number => grid[(b & (size - 1)) * size + (a & (size - 1))] ?? 0;
  return (x, y) => {
    const i = Math.floor(x);
    const j = Math.floor(y);
    const u = x - i;
    const v = y - j;
    const s = u * u * (3 - 2 * u);
    const t = v * v * (3 - 2 * v);
    const top = at(i, j) * (1 - s) + at(i + 1, j) * s;
    const low = at(i, j + 1) * (1 - s) + at(i + 1, j + 1) * s;
    return top * (1 - t) + low * t;
  };
}

function buildTurf(setting: Setting): Turf {
  const random = randomStream(77);
  const noise = smoothNoise(random, 64);
  const first = new Int8Array(TILE * TILE);
  for (let y = 0; y < TILE; y++) {
    for (let x = 0; x < TILE; x++) {
      // 64 pixels a metre; periodic because the noise grid is (64 cells over 512 pixels).
      const v = 8 * noise(x / 8, y / 8) + 6 * noise(x / 2 + 0.5, y / 4) + 3 * (random.uniform() - 0.5);
      first[y * TILE + x] = Math.round(v);
    }
  }
  const fine = [first];
  for (let level = 1; level < 7; level++) {
    const finer = fine[level - 1] ?? first;
    const size = TILE >> level;
    const next = new Int8Array(size * size);
    for (let y = 0; y < size; y++) {
      for (let x = 0; x < size; x++) {
        const k = 2 * y * 2 * size + 2 * x;
        const total =
          (finer[k] ?? 0) + (finer[k + 1] ?? 0) + (finer[k + 2 * size] ?? 0) + (finer[k + 2 * size + 1] ?? 0);
        next[y * size + x] = Math.round(total / 4);
      }
    }
    fine.push(next);
  }
  const coarseWide = (COARSE.right - COARSE.left) * COARSE.perMetre;
  const coarseTall = (COARSE.far - COARSE.near) * COARSE.perMetre;
  const coarse = new Int8Array(coarseWide * coarseTall);
  for (let j = 0; j < coarseTall; j++) {
    const y = COARSE.near + (j + 0.5) / COARSE.perMetre;
    const fade = Math.min(1, Math.max(0, (y - 22) / 34));
    for (let i = 0; i < coarseWide; i++) {
      const x = COARSE.left + (i + 0.5) / COARSE.perMetre;
      const stripe = Math.max(-1, Math.min(1, 7 * Math.sin((x * Math.PI) / 2.2))) * 5 * (1 - 0.8 * fade);
      const tufts = 17 * noise(x * 0.32, y * 0.32) + 9 * noise(x * 1.1 + 7, y * 1.1) * (1 - fade);
      coarse[j * coarseWide + i] = Math.round((stripe + tufts) * setting.pattern);
    }
  }
  const colours = Array.from({ length: 16 }, (_, k) => {
    const far = k / 15;
    return Uint32Array.from({ length: 128 }, (__, n) => {
      const light = n - 64;
      const part = (base: number, gain: number, haze: number): number =>
        Math.max(0, Math.min(255, Math.round(base + gain * light + haze * far)));
      const r = part(98, 0.85, 30);
      const g = part(142, 1, 20);
      const b = part(66, 0.6, 38);
      return (255 << 24) | (b << 16) | (g << 8) | r;
    });
  });
  return { fine, coarse, coarseWide, coarseTall, colours, ...buildWall() };
}

function buildWall(): { wall: Uint32Array; wallWide: number; wallTall: number } {
  const wide = (WALL.right - WALL.left) * WALL.perMetre;
  const tall = WALL.tall * WALL.perMetre;
  const canvas = createCanvas(wide, tall);
  const ctx = canvas.getContext('2d');
  const sky = ctx.createLinearGradient(0, 0, 0, tall * 0.8);
  sky.addColorStop(0, '#b4d0e6');
  sky.addColorStop(1, '#ecf1ea');
  ctx.fillStyle = sky;
  ctx.fillRect(0, 0, wide, tall);
  const random = randomStream(12);
  const rows = [
    { colour: '#8da785', dark: '#7f9a78', high: 12.5, step: 3.4 },
    { colour: '#75946c', dark: '#678860', high: 8.0, step: 2.6 },
    { colour: '#5b7d52', dark: '#4e7046', high: 3.4, step: 1.5 },
  ];
  for (const row of rows) {
    for (let x = WALL.left - 4; x < WALL.right + 4; x += row.step) {
      const high = row.high * (0.78 + 0.4 * random.uniform());
      const u = (x - WALL.left + random.uniform()) * WALL.perMetre;
      const r = row.step * WALL.perMetre * (0.8 + 0.35 * random.uniform());
      const top = tall - high * WALL.perMetre;
      ctx.fillStyle = row.dark;
      ctx.beginPath();
      ctx.ellipse(u, top + r * 1.1, r, r * 1.25, 0, 0, 2 * Math.PI);
      ctx.fill();
      ctx.fillRect(u - r * 1.1, top + r, 2.2 * r, tall);
      ctx.fillStyle = row.colour;
      ctx.beginPath();
      ctx.ellipse(u - r * 0.15, top + r * 0.95, r * 0.78, r * 0.95, 0, 0, 2 * Math.PI);
      ctx.fill();
    }
  }
  const data = canvas.data();
  const wall = new Uint32Array(wide * tall);
  new Uint8Array(wall.buffer).set(data.subarray(0, wide * tall * 4));
  return { wall, wallWide: wide, wallTall: tall };
}

const built = new Map<number, Turf>();

function turfOf(setting: Setting): Turf {
  const before = built.get(setting.pattern);
  if (before) return before;
  const turf = buildTurf(setting);
  built.set(setting.pattern, turf);
  return turf;
}

/**
 * The 3 x 3 matrix from a pixel (u, v, 1) to a plane given by three columns of a camera matrix, row by row;
 * of such a sign that the last component is positive in front of the camera.
 */
function inverse(m: readonly (readonly [number, number, number])[]): number[] {
  const [a, b, c] = m[0] ?? [0, 0, 0];
  const [d, e, f] = m[1] ?? [0, 0, 0];
  const [g, h, i] = m[2] ?? [0, 0, 0];
  const A = e * i - f * h;
  const B = f * g - d * i;
  const C = d * h - e * g;
  const sign = a * A + b * B + c * C < 0 ? -1 : 1;
  const adjugate = [
    A,
    c * h - b * i,
    b * f - c * e,
    B,
    a * i - c * g,
    c * d - a * f,
    C,
    b * g - a * h,
    a * e - b * d,
  ];
  return adjugate.map((x) => sign * x);
}

function groundInverse(m: CameraMatrix): number[] {
  return inverse(m.map((r) => [r[0], r[1], r[3]] as const));
}

function wallInverse(m: CameraMatrix): number[] {
  return inverse(m.map((r) => [r[0], r[2], r[3] + WALL_Y * r[1]] as const));
}

/** Pinhole pixels of every pixel of a distorted picture; kept per lens. */
export interface Straight {
  readonly u: Float32Array;
  readonly v: Float32Array;
}

/** Paints sky, hedge and grass, pixel by pixel, into 32-bit pixels (red in the lowest byte). */
export function paintTurf(
  pixels: Uint32Array,
  frame: FrameMatrices,
  setting: Setting,
  straight: Straight | null,
): void {
  const turf = turfOf(setting);
  const { width, height, focal } = frame.camera;
  const { wall, wallWide, wallTall, coarse, coarseWide, coarseTall } = turf;
  // Through a lens that bows, detail of one pixel is lost anyway: two at a time are enough.
  const wide = straight && width % 2 === 0 ? 2 : 1;
  let ground = groundInverse(frame.top);
  let behind = wallInverse(frame.top);
  for (let v = 0; v < height; v++) {
    if (frame.rolling) {
      const m = matrixAtRow(frame, (v + 0.5) / height);
      ground = groundInverse(m);
      behind = wallInverse(m);
    }
    const [g0 = 0, g1 = 0, g2 = 0, g3 = 0, g4 = 0, g5 = 0, g6 = 0, g7 = 0, g8 = 0] = ground;
    const [h0 = 0, h1 = 0, h2 = 0, h3 = 0, h4 = 0, h5 = 0, h6 = 0, h7 = 0, h8 = 0] = behind;
    // Detail by the distance in the middle of the row.
    const mw = g6 * (width / 2) + g7 * (v + 0.5) + g8;
    const my = (g3 * (width / 2) + g4 * (v + 0.5) + g5) / mw;
    const away = Math.max(2, Math.abs(my - frame.camera.at.y));
    const level = Math.max(0, Math.min(6, Math.round(Math.log2((64 * away) / focal))));
    const fine = turf.fine[level] ?? turf.fine[0];
    const size = TILE >> level;
    const mask = size - 1;
    const perMetre = 64 >> level;
    let k = v * width;
    for (let u = 0; u < width; u += wide, k += wide) {
      const pu = straight ? (straight.u[k] ?? 0) : u + 0.5;
      const pv = straight ? (straight.v[k] ?? 0) : v + 0.5;
      const w = g6 * pu + g7 * pv + g8;
      const x = (g0 * pu + g1 * pv + g2) / w;
      const y = (g3 * pu + g4 * pv + g5) / w;
      if (w > 0 && y < WALL_Y && y > COARSE.near) {
        const ci = ((x - COARSE.left) * COARSE.perMetre) | 0;
        const cj = ((y - COARSE.near) * COARSE.perMetre) | 0;
        const c = ci >= 0 && ci < coarseWide && cj < coarseTall ? (coarse[cj * coarseWide + ci] ?? 0) : 0;
        const fx = Math.floor(x * perMetre) & mask;
        const fy = Math.floor(y * perMetre) & mask;
        const f = fine ? (fine[fy * size + fx] ?? 0) : 0;
        const far = y < 18 ? 0 : Math.min(15, ((y - 18) * 0.34) | 0);
        const colour = turf.colours[far]?.[64 + c + f] ?? 0;
        pixels[k] = colour;
        if (wide > 1) pixels[k + 1] = colour;
        continue;
      }
      const ww = h6 * pu + h7 * pv + h8;
      const wx = (h0 * pu + h1 * pv + h2) / ww;
      const wz = (h3 * pu + h4 * pv + h5) / ww;
      const i = Math.max(0, Math.min(wallWide - 1, ((wx - WALL.left) * WALL.perMetre) | 0));
      const j = Math.max(0, Math.min(wallTall - 1, ((WALL.tall - wz) * WALL.perMetre) | 0));
      const colour = wall[j * wallWide + i] ?? 0;
      pixels[k] = colour;
      if (wide > 1) pixels[k + 1] = colour;
    }
  }
}
