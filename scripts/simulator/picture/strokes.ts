import type { SKRSContext2D } from '@napi-rs/canvas';
import { lengthOf } from '../base/exact.ts';
import type { Point3, Seen } from '../camera/camera.ts';
import type { FrameMatrices } from '../camera/path.ts';
import { seenInFrame } from '../camera/path.ts';

/** An eye on the scene in one frame: turns points in metres into pixels. */
export interface Eye {
  readonly frame: FrameMatrices;
  readonly at: Point3;
  /** Long edges are cut in pieces, so that they bow as the lens bows them. */
  readonly bowed: boolean;
  look(p: Point3): Seen;
}

export function eyeOf(frame: FrameMatrices): Eye {
  const bowed = frame.rolling || frame.lens.k1 !== 0 || frame.lens.k2 !== 0;
  return { frame, at: frame.camera.at, bowed, look: (p) => seenInFrame(frame, p) };
}

/** How far away the ground below a point is: what stands nearer hides what stands farther, however tall. */
export function groundDepth(eye: Eye, p: Point3): number {
  return eye.look({ x: p.x, y: p.y, z: 0 }).depth;
}

/** A part of the picture, pixels. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The part of the picture that can show anything within `reach` metres of a spot, up to `tall` metres high. */
export function boxAround(eye: Eye, at: Point3, reach: number, tall: number): Box {
  const corners: Seen[] = [];
  for (const dx of [-reach, reach]) {
    for (const dy of [-reach, reach]) {
      for (const z of [0, tall]) corners.push(eye.look({ x: at.x + dx, y: at.y + dy, z }));
    }
  }
  return {
    left: Math.floor(Math.min(...corners.map((c) => c.u))) - 3,
    right: Math.ceil(Math.max(...corners.map((c) => c.u))) + 3,
    top: Math.floor(Math.min(...corners.map((c) => c.v))) - 3,
    bottom: Math.ceil(Math.max(...corners.map((c) => c.v))) + 3,
  };
}

export function overlaps(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

export function joined(a: Box, b: Box): Box {
  return {
    left: Math.min(a.left, b.left),
    top: Math.min(a.top, b.top),
    right: Math.max(a.right, b.right),
    bottom: Math.max(a.bottom, b.bottom),
  };
}

/** Something to draw, farthest first. */
export interface Paintable {
  readonly depth: number;
  /** Worked out when asked for. */
  box(): Box;
  paint(ctx: SKRSContext2D): void;
}

/** A rod with round ends whose thickness (metres) may change along it. */
export function rod(
  ctx: SKRSContext2D,
  eye: Eye,
  a: Point3,
  b: Point3,
  radiusA: number,
  radiusB: number,
  colour: string,
): void {
  const p = eye.look(a);
  const q = eye.look(b);
  const ra = Math.max(0.45, radiusA * p.scale);
  const rb = Math.max(0.45, radiusB * q.scale);
  const dx = q.u - p.u;
  const dy = q.v - p.v;
  const far = lengthOf(dx, dy);
  ctx.fillStyle = colour;
  ctx.beginPath();
  if (far < 0.01 || far <= Math.abs(ra - rb)) {
    const big = ra > rb ? p : q;
    ctx.arc(big.u, big.v, Math.max(ra, rb), 0, 2 * Math.PI);
  } else {
    const base = Math.atan2(dy, dx);
    const open = Math.acos((ra - rb) / far);
    ctx.arc(p.u, p.v, ra, base + open, base - open + 2 * Math.PI);
    ctx.arc(q.u, q.v, rb, base - open, base + open);
  }
  ctx.closePath();
  ctx.fill();
}

export function ball(ctx: SKRSContext2D, eye: Eye, at: Point3, radius: number, colour: string): void {
  const p = eye.look(at);
  ctx.fillStyle = colour;
  ctx.beginPath();
  ctx.arc(p.u, p.v, Math.max(0.4, radius * p.scale), 0, 2 * Math.PI);
  ctx.fill();
}

/** Outline of several balls stretched over by a skin. */
export function hull(
  ctx: SKRSContext2D,
  eye: Eye,
  balls: readonly { readonly at: Point3; readonly radius: number }[],
  colour: string,
): void {
  const points: { u: number; v: number }[] = [];
  for (const b of balls) {
    const p = eye.look(b.at);
    const r = b.radius * p.scale;
    for (let k = 0; k < 14; k++) {
      const a = (k / 14) * 2 * Math.PI;
      points.push({ u: p.u + r * Math.cos(a), v: p.v + r * Math.sin(a) });
    }
  }
  points.sort((a, b) => a.u - b.u || a.v - b.v);
  const half = (list: typeof points): typeof points => {
    const out: typeof points = [];
    for (const p of list) {
      for (;;) {
        const b = out[out.length - 1];
        const a = out[out.length - 2];
        if (!a || !b || (b.u - a.u) * (p.v - a.v) - (b.v - a.v) * (p.u - a.u) > 0) break;
        out.pop();
      }
      out.push(p);
    }
    out.pop();
    return out;
  };
  const ring = [...half(points), ...half([...points].reverse())];
  ctx.fillStyle = colour;
  ctx.beginPath();
  ring.forEach((p, i) => (i === 0 ? ctx.moveTo(p.u, p.v) : ctx.lineTo(p.u, p.v)));
  ctx.closePath();
  ctx.fill();
}

export function face(
  ctx: SKRSContext2D,
  eye: Eye,
  corners: readonly Point3[],
  colour: string,
  edge: string | null = null,
): void {
  ctx.fillStyle = colour;
  ctx.beginPath();
  corners.forEach((c, i) => {
    const p = eye.look(c);
    if (i === 0) ctx.moveTo(p.u, p.v);
    else ctx.lineTo(p.u, p.v);
    const next = corners[i + 1];
    if (!eye.bowed || !next) return;
    const parts = Math.min(8, Math.ceil(lengthOf(next.x - c.x, next.y - c.y) / 0.6));
    for (let k = 1; k < parts; k++) {
      const w = k / parts;
      const q = eye.look({
        x: c.x + (next.x - c.x) * w,
        y: c.y + (next.y - c.y) * w,
        z: c.z + (next.z - c.z) * w,
      });
      ctx.lineTo(q.u, q.v);
    }
  });
  ctx.closePath();
  ctx.fill();
  if (edge === null) return;
  ctx.strokeStyle = edge;
  ctx.lineWidth = 0.8;
  ctx.stroke();
}

/** Shadow on flat ground at height `floor` of something at height z: the sun stands left behind the camera. */
export function shadowOf(p: Point3, floor: number): Point3 {
  const up = Math.max(0, p.z - floor);
  return { x: p.x + 0.55 * up, y: p.y + 0.28 * up, z: floor };
}

/** Strokes of the ten digits on a 4 x 6 grid. */
const digitStrokes: readonly (readonly (readonly (readonly [number, number])[])[])[] = [
  [
    [
      [0, 0],
      [4, 0],
      [4, 6],
      [0, 6],
      [0, 0],
    ],
  ],
  [
    [
      [1, 1.2],
      [2.3, 0],
      [2.3, 6],
    ],
  ],
  [
    [
      [0, 1],
      [1, 0],
      [3.2, 0],
      [4, 1],
      [4, 2.4],
      [0, 6],
      [4, 6],
    ],
  ],
  [
    [
      [0, 0],
      [4, 0],
      [1.8, 2.5],
      [3.2, 2.7],
      [4, 3.8],
      [4, 5],
      [3, 6],
      [0, 6],
    ],
  ],
  [
    [
      [3, 6],
      [3, 0],
      [0, 4.2],
      [4.2, 4.2],
    ],
  ],
  [
    [
      [4, 0],
      [0.3, 0],
      [0, 2.8],
      [2.8, 2.6],
      [4, 3.6],
      [4, 5],
      [3, 6],
      [0, 6],
    ],
  ],
  [
    [
      [3.6, 0],
      [1.2, 1.6],
      [0, 3.8],
      [0, 5],
      [1, 6],
      [3, 6],
      [4, 5],
      [4, 3.8],
      [3, 2.9],
      [0.4, 3.4],
    ],
  ],
  [
    [
      [0, 0],
      [4, 0],
      [1.6, 6],
    ],
  ],
  [
    [
      [1, 2.8],
      [0, 1.8],
      [0, 0.8],
      [1, 0],
      [3, 0],
      [4, 0.8],
      [4, 1.8],
      [3, 2.8],
      [1, 2.8],
      [0, 3.8],
      [0, 5.1],
      [1, 6],
      [3, 6],
      [4, 5.1],
      [4, 3.8],
      [3, 2.8],
    ],
  ],
  [
    [
      [0.4, 6],
      [2.8, 4.4],
      [4, 2.2],
      [4, 1],
      [3, 0],
      [1, 0],
      [0, 1],
      [0, 2.2],
      [1, 3.1],
      [3.6, 2.6],
    ],
  ],
];

/** A number drawn in strokes, centred on (u, v), `high` pixels tall. */
export function drawNumber(
  ctx: SKRSContext2D,
  u: number,
  v: number,
  high: number,
  value: number,
  colour: string,
): void {
  const text = String(value);
  const unit = high / 6;
  const wide = 4 * unit;
  const gap = 1.5 * unit;
  let x = u - (text.length * wide + (text.length - 1) * gap) / 2;
  ctx.strokeStyle = colour;
  ctx.lineWidth = Math.max(1, unit * 1.05);
  ctx.lineJoin = 'round';
  ctx.lineCap = 'round';
  for (const letter of text) {
    for (const stroke of digitStrokes[Number(letter)] ?? []) {
      ctx.beginPath();
      stroke.forEach(([a, b], i) => {
        const px = x + a * unit;
        const py = v - high / 2 + b * unit;
        if (i === 0) ctx.moveTo(px, py);
        else ctx.lineTo(px, py);
      });
      ctx.stroke();
    }
    x += wide + gap;
  }
}

/** A colour made darker (below 1) or lighter. */
export function shade(hex: string, by: number): string {
  const part = (i: number): number =>
    Math.max(0, Math.min(255, Math.round(parseInt(hex.slice(i, i + 2), 16) * by)));
  return `rgb(${part(1)},${part(3)},${part(5)})`;
}
