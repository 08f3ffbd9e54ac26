import type { SKRSContext2D } from '@napi-rs/canvas';
import type { Foot } from '../actors/footfalls.ts';
import type { HandlerBody } from '../actors/handlerBody.ts';
import { cosine, sine } from '../base/exact.ts';
import type { Point3 } from '../camera/camera.ts';
import type { Box, Eye, Paintable } from './strokes.ts';
import { ball, boxAround, groundDepth, hull, joined, rod, shade, shadowOf } from './strokes.ts';

const skin = '#e3b18c';
const shoe = '#f2efe6';
const bib = '#fbf4df';

function offset(p: Point3, x: number, y: number, z: number): Point3 {
  return { x: p.x + x, y: p.y + y, z: p.z + z };
}

/** Where in the picture she and her shadow may be. */
export function handlerBox(eye: Eye, body: HandlerBody): Box {
  const { x, y } = body.pelvis;
  const above = boxAround(eye, { x, y, z: 0 }, 0.9, 2);
  return joined(above, boxAround(eye, shadowOf(body.head, 0), 0.6, 0.1));
}

/** What a person wears. */
export interface Clothes {
  readonly jacket: string;
  readonly trousers: string;
  readonly hair: string;
  /** A number bib and a peaked cap. */
  readonly competes: boolean;
}

export const handlerClothes: Clothes = {
  jacket: '#e0632f',
  trousers: '#27324a',
  hair: '#4a2f22',
  competes: true,
};

/** A person as things to draw. */
export function handlerItems(eye: Eye, body: HandlerBody, clothes: Clothes): Paintable[] {
  const { jacket, trousers, hair } = clothes;
  const jacketDark = shade(jacket, 0.8);
  const trousersFar = shade(trousers, 0.74);
  const depth = (p: Point3): number => groundDepth(eye, p);
  const own = depth(body.pelvis);
  const near: Foot = depth(body.shoulders.left) < depth(body.shoulders.right) ? 'left' : 'right';
  const far: Foot = near === 'left' ? 'right' : 'left';
  const leg = (ctx: SKRSContext2D, side: Foot, colour: string): void => {
    rod(ctx, eye, body.hips[side], body.knees[side], 0.098, 0.07, colour);
    rod(ctx, eye, body.knees[side], body.ankles[side], 0.066, 0.045, colour);
    rod(ctx, eye, offset(body.ankles[side], 0, 0, -0.03), body.toes[side], 0.045, 0.038, shoe);
  };
  const arm = (ctx: SKRSContext2D, side: Foot, colour: string): void => {
    rod(ctx, eye, body.shoulders[side], body.elbows[side], 0.062, 0.05, colour);
    rod(ctx, eye, body.elbows[side], body.hands[side], 0.048, 0.036, colour);
    ball(ctx, eye, body.hands[side], 0.048, skin);
  };
  // The shoulder line tells the way the chest faces.
  const sx = body.shoulders.left.x - body.shoulders.right.x;
  const sy = body.shoulders.left.y - body.shoulders.right.y;
  const fx = sy / 0.38;
  const fy = -sx / 0.38;
  const toEye = (eye.at.x - body.chest.x) * fx + (eye.at.y - body.chest.y) * fy;
  const dist = Math.hypot(eye.at.x - body.chest.x, eye.at.y - body.chest.y);
  const frontal = toEye / dist;
  const paint = (ctx: SKRSContext2D): void => {
    leg(ctx, far, trousersFar);
    if (frontal > -0.2) arm(ctx, far, jacketDark);
    leg(ctx, near, trousers);
    hull(
      ctx,
      eye,
      [
        { at: offset(body.pelvis, 0, 0, 0.0), radius: 0.135 },
        { at: body.hips.left, radius: 0.1 },
        { at: body.hips.right, radius: 0.1 },
      ],
      trousers,
    );
    hull(
      ctx,
      eye,
      [
        { at: offset(body.pelvis, 0, 0, 0.1), radius: 0.14 },
        { at: body.chest, radius: 0.15 },
        { at: body.shoulders.left, radius: 0.075 },
        { at: body.shoulders.right, radius: 0.075 },
        { at: body.neck, radius: 0.07 },
      ],
      jacket,
    );
    const patch = (ahead: number, low: number, high: number, half: number, colour: string): void => {
      const at = (u: number, z: number): Point3 => ({
        x: body.chest.x + fx * ahead + (sx / 0.38) * u,
        y: body.chest.y + fy * ahead + (sy / 0.38) * u,
        z: body.chest.z + z,
      });
      const corners = [at(-half, low), at(half, low), at(half, high), at(-half, high)].map((p) =>
        eye.look(p),
      );
      ctx.fillStyle = colour;
      ctx.beginPath();
      corners.forEach((p, i) => (i === 0 ? ctx.moveTo(p.u, p.v) : ctx.lineTo(p.u, p.v)));
      ctx.closePath();
      ctx.fill();
    };
    if (frontal > 0.12 && clothes.competes) patch(0.13, -0.14, 0.1, 0.12, bib);
    else if (frontal < -0.12) patch(-0.13, -0.18, 0.14, 0.13, jacketDark);
    if (frontal <= -0.2) arm(ctx, far, jacketDark);
    rod(ctx, eye, body.neck, offset(body.neck, 0, 0, 0.09), 0.055, 0.055, skin);
    const c = cosine(body.facing);
    const s = sine(body.facing);
    const faceToEye = ((eye.at.x - body.head.x) * c + (eye.at.y - body.head.y) * s) / dist;
    const tail = (): void =>
      rod(
        ctx,
        eye,
        offset(body.head, -0.1 * c, -0.1 * s, 0.04),
        offset(body.head, -0.19 * c, -0.19 * s, -0.12),
        0.05,
        0.025,
        hair,
      );
    if (faceToEye > 0) tail();
    ball(ctx, eye, offset(body.head, 0, 0, 0.01), 0.118, hair);
    if (faceToEye > -0.55) {
      ball(ctx, eye, offset(body.face, -0.035 * c, -0.035 * s, -0.03), 0.092, skin);
      hull(
        ctx,
        eye,
        [
          { at: offset(body.head, 0.03 * c, 0.03 * s, 0.075), radius: 0.075 },
          { at: offset(body.head, -0.03 * c, -0.03 * s, 0.05), radius: 0.1 },
        ],
        hair,
      );
      if (clothes.competes) {
        hull(
          ctx,
          eye,
          [
            { at: offset(body.head, 0.02 * c, 0.02 * s, 0.075), radius: 0.085 },
            { at: offset(body.head, 0.17 * c, 0.17 * s, 0.06), radius: 0.02 },
          ],
          '#f3efe3',
        );
      }
    }
    if (faceToEye <= 0) tail();
    arm(ctx, near, jacket);
  };
  return [{ depth: own, box: () => handlerBox(eye, body), paint }];
}

export function paintHandlerShadow(ctx: SKRSContext2D, eye: Eye, body: HandlerBody): void {
  const tone = '#14240f66';
  const on = (p: Point3): Point3 => shadowOf(p, 0);
  for (const side of ['left', 'right'] as const) {
    rod(ctx, eye, on(body.hips[side]), on(body.knees[side]), 0.09, 0.07, tone);
    rod(ctx, eye, on(body.knees[side]), on(body.ankles[side]), 0.07, 0.06, tone);
    rod(ctx, eye, on(body.shoulders[side]), on(body.hands[side]), 0.06, 0.045, tone);
  }
  hull(
    ctx,
    eye,
    [
      { at: on(body.pelvis), radius: 0.13 },
      { at: on(body.neck), radius: 0.16 },
    ],
    tone,
  );
  ball(ctx, eye, on(body.head), 0.12, tone);
}
