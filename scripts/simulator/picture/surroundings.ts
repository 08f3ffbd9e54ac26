import type { SKRSContext2D } from '@napi-rs/canvas';
import type { Point3 } from '../camera/camera.ts';
import type { Course } from '../ground/equipment.ts';
import type { Eye } from './strokes.ts';
import { face, rod, shadowOf } from './strokes.ts';

/** Tents behind the ring. */
export function paintTents(ctx: SKRSContext2D, eye: Eye): void {
  for (const [x, y, colour] of [
    [8, 29, '#f3efe4'],
    [11.6, 29.4, '#dd5a33'],
    [33, 30, '#f3efe4'],
  ] as const) {
    const w = 1.5;
    const at = (dx: number, dy: number, z: number): Point3 => ({ x: x + dx, y: y + dy, z });
    face(ctx, eye, [at(-w, 0, 0), at(w, 0, 0), at(w + 0.9, 0.6, 0), at(-w + 0.9, 0.6, 0)], '#1f331a55');
    face(ctx, eye, [at(-w, w, 0), at(w, w, 0), at(w, w, 2.1), at(-w, w, 2.1)], '#c9c5b6');
    for (const dx of [-w, w]) rod(ctx, eye, at(dx, 0, 0), at(dx, 0, 2.1), 0.04, 0.04, '#d9d4c6');
    face(ctx, eye, [at(-w, 0, 2.0), at(w, 0, 2.0), at(0, w * 0.5, 3.0)], colour);
    face(ctx, eye, [at(-w, 0, 1.85), at(w, 0, 1.85), at(w, 0, 2.05), at(-w, 0, 2.05)], colour, '#00000018');
  }
}

/** Rope and posts around the ring; `near` picks the side in front of everything. */
export function paintRope(ctx: SKRSContext2D, eye: Eye, course: Course, near: boolean): void {
  const { length, depth } = course.ring;
  const post = (x: number, y: number): void => {
    const foot = { x, y, z: 0 };
    const top = { x, y, z: 0.9 };
    if (eye.look(foot).depth < 1) return;
    rod(ctx, eye, foot, shadowOf(top, 0), 0.02, 0.02, '#1f331a40');
    rod(ctx, eye, foot, top, 0.025, 0.022, '#f1ede2');
  };
  const rope = (ax: number, ay: number, bx: number, by: number): void => {
    if (eye.look({ x: ax, y: ay, z: 0 }).depth < 1 || eye.look({ x: bx, y: by, z: 0 }).depth < 1) return;
    ctx.strokeStyle = '#f4f0e6';
    for (const z of [0.82, 0.45]) {
      ctx.lineWidth = Math.max(0.7, 0.02 * eye.look({ x: (ax + bx) / 2, y: (ay + by) / 2, z }).scale);
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
    if (y > 0) {
      post(0, y);
      post(length, y);
    }
  }
}
