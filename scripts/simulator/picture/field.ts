import type { SKRSContext2D } from '@napi-rs/canvas';
import { randomStream } from '../base/random.ts';
import { groundAt } from '../camera.ts';
import type { Course } from '../ground/equipment.ts';
import type { Eye } from './strokes.ts';
import { face, rod, shadowOf } from './strokes.ts';

function patch(random: () => number): (x: number, y: number) => number {
  const size = 64;
  const grid = Array.from({ length: size * size }, random);
  return (x, y) => {
    const i = Math.floor(x);
    const j = Math.floor(y);
    const u = x - i;
    const v = y - j;
    const at = (a: number, b: number): number =>
      grid[(((b % size) + size) % size) * size + (((a % size) + size) % size)] ?? 0;
    const s = u * u * (3 - 2 * u);
    const t = v * v * (3 - 2 * v);
    return (
      (at(i, j) * (1 - s) + at(i + 1, j) * s) * (1 - t) + (at(i, j + 1) * (1 - s) + at(i + 1, j + 1) * s) * t
    );
  };
}

/** Sky, hedge, mown grass: all that never moves and lies behind. */
export function paintField(ctx: SKRSContext2D, eye: Eye): void {
  const { width, height } = eye.camera;
  const random = randomStream(77);
  const horizon = eye.look({ x: eye.camera.at.x, y: 4000, z: 0 }).v;
  const sky = ctx.createLinearGradient(0, 0, 0, Math.max(2, horizon));
  sky.addColorStop(0, '#b9d3e6');
  sky.addColorStop(1, '#e9efe9');
  ctx.fillStyle = sky;
  ctx.fillRect(0, 0, width, height);
  const picture = ctx.getImageData(0, 0, width, height);
  const data = picture.data;
  const soft = patch(random.uniform);
  for (let v = Math.max(0, Math.ceil(horizon)); v < height; v++) {
    for (let u = 0; u < width; u++) {
      const g = groundAt(eye.matrix, u + 0.5, v + 0.5);
      const far = Math.min(1, Math.max(0, (g.y - 18) / 60));
      const phase = Math.sin((g.x * Math.PI) / 2.2);
      const band = Math.max(-1, Math.min(1, phase * 6)) * (1 - far) * 5.5;
      const tone =
        (soft(g.x * 0.32, g.y * 0.32) - 0.5) * 15 + (soft(g.x * 1.7, g.y * 1.7) - 0.5) * 7 * (1 - far);
      const blade = (soft(g.x * 9, g.y * 5) - 0.5) * 9 * (1 - far);
      const light = band + tone + blade;
      const k = (v * width + u) * 4;
      data[k] = 98 + light * 0.85 + far * 34;
      data[k + 1] = 142 + light + far * 22;
      data[k + 2] = 66 + light * 0.6 + far * 40;
      data[k + 3] = 255;
    }
  }
  ctx.putImageData(picture, 0, 0);
  paintHedge(ctx, eye);
}

function paintHedge(ctx: SKRSContext2D, eye: Eye): void {
  const random = randomStream(12);
  for (let row = 0; row < 3; row++) {
    const y = 62 - row * 9;
    const colours = ['#7f9a78', '#6a8a62', '#55784d'];
    const foot = eye.look({ x: eye.camera.at.x, y, z: 0 });
    const wall = row === 0 ? 4 : row === 1 ? 2 : 0.4;
    ctx.fillStyle = colours[row] ?? '#6a8a62';
    ctx.fillRect(0, foot.v - wall * foot.scale, eye.camera.width, wall * foot.scale);
    for (let x = -40; x < 80; x += 1.1) {
      const tall = (row === 0 ? 7.5 : row === 1 ? 4.6 : 1.5) * (0.75 + 0.5 * random.uniform());
      const base = eye.look({ x: x + random.uniform(), y, z: 0 });
      const r = tall * base.scale * 0.62;
      ctx.fillStyle = colours[row] ?? '#6a8a62';
      ctx.beginPath();
      ctx.ellipse(base.u, base.v - r * 0.75, r * 0.8, r, 0, 0, 2 * Math.PI);
      ctx.fill();
    }
  }
  for (const [x, y, colour] of [
    [8, 27, '#f3efe4'],
    [11.6, 27.4, '#e4572e'],
    [33, 28, '#f3efe4'],
  ] as const) {
    const w = 1.5;
    const roof = (dx: number, dy: number, z: number): { x: number; y: number; z: number } => ({
      x: x + dx,
      y: y + dy,
      z,
    });
    for (const dx of [-w, w]) rod(ctx, eye, roof(dx, 0, 0), roof(dx, 0, 2.1), 0.04, 0.04, '#d9d4c6');
    face(ctx, eye, [roof(-w, w, 0), roof(w, w, 0), roof(w, w, 2.1), roof(-w, w, 2.1)], '#c9c5b6');
    face(ctx, eye, [roof(-w, 0, 2.0), roof(w, 0, 2.0), roof(0, w * 0.5, 3.0)], colour);
    face(
      ctx,
      eye,
      [roof(-w, 0, 1.85), roof(w, 0, 1.85), roof(w, 0, 2.05), roof(-w, 0, 2.05)],
      colour,
      '#00000018',
    );
  }
}

/** Rope and posts around the ring; `near` picks the side in front of everything. */
export function paintRope(ctx: SKRSContext2D, eye: Eye, course: Course, near: boolean): void {
  const { length, depth } = course.ring;
  const post = (x: number, y: number): void => {
    const foot = { x, y, z: 0 };
    const top = { x, y, z: 0.9 };
    rod(ctx, eye, foot, shadowOf(top, 0), 0.02, 0.02, '#1f331a40');
    rod(ctx, eye, foot, top, 0.025, 0.022, '#f1ede2');
  };
  const rope = (ax: number, ay: number, bx: number, by: number): void => {
    ctx.strokeStyle = '#f4f0e6';
    for (const z of [0.82, 0.45]) {
      ctx.lineWidth = 1.1;
      ctx.beginPath();
      for (let k = 0; k <= 8; k++) {
        const u = k / 8;
        const sag = 0.08 * (1 - (2 * u - 1) * (2 * u - 1));
        const p = eye.look({ x: ax + (bx - ax) * u, y: ay + (by - ay) * u, z: z - sag });
        if (k === 0) ctx.moveTo(p.u, p.v);
        else ctx.lineTo(p.u, p.v);
      }
      ctx.stroke();
    }
  };
  const gap = 4;
  if (near) {
    for (let x = 0; x < length; x += gap) rope(x, 0, x + gap, 0);
    for (let x = 0; x <= length; x += gap) post(x, 0);
    return;
  }
  for (let x = 0; x < length; x += gap) rope(x, depth, x + gap, depth);
  for (let x = 0; x <= length; x += gap) post(x, depth);
  for (let y = 0; y < depth; y += gap) {
    rope(0, y, 0, y + gap);
    rope(length, y, length, y + gap);
    post(0, y);
    post(length, y);
  }
}
