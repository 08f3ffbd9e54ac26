import type { SKRSContext2D } from '@napi-rs/canvas';
import type { DogBody } from '../actors/dogBody.ts';
import type { Paw } from '../actors/footfalls.ts';
import { cosine, sine } from '../base/exact.ts';
import type { Point3 } from '../camera/camera.ts';
import type { Box, Eye, Paintable } from './strokes.ts';
import { ball, boxAround, groundDepth, hull, joined, rod, shade, shadowOf } from './strokes.ts';

/** The colours of a dog. */
export interface Coat {
  readonly dark: string;
  readonly light: string;
  readonly points: string;
}

export const brambleCoat: Coat = { dark: '#2a2422', light: '#f4efe6', points: '#a8703c' };
export const otherCoat: Coat = { dark: '#a9763f', light: '#e6d3b0', points: '#8a5a2c' };

function mid(a: Point3, b: Point3, u: number): Point3 {
  return { x: a.x + (b.x - a.x) * u, y: a.y + (b.y - a.y) * u, z: a.z + (b.z - a.z) * u };
}

function up(p: Point3, z: number): Point3 {
  return { x: p.x, y: p.y, z: p.z + z };
}

function limb(ctx: SKRSContext2D, eye: Eye, body: DogBody, paw: Paw, far: boolean, coat: Coat): void {
  const l = body.limbs[paw];
  const front = paw === 'leftFront' || paw === 'rightFront';
  const dark = far ? shade(coat.dark, 0.74) : coat.dark;
  const light = far ? shade(coat.light, 0.84) : coat.light;
  const points = far ? shade(coat.points, 0.84) : coat.points;
  if (front) {
    rod(ctx, eye, l.root, l.middle, 0.062, 0.04, dark);
    rod(ctx, eye, l.middle, l.low, 0.036, 0.027, points);
    rod(ctx, eye, mid(l.middle, l.low, 0.45), l.paw, 0.028, 0.03, light);
  } else {
    rod(ctx, eye, l.root, l.middle, 0.095, 0.055, dark);
    rod(ctx, eye, l.middle, l.low, 0.05, 0.028, dark);
    rod(ctx, eye, l.low, l.paw, 0.027, 0.03, light);
  }
}

/** Where in the picture she and her shadow may be. */
export function dogBox(eye: Eye, body: DogBody): Box {
  const { x, y, z } = body.centre;
  const above = boxAround(eye, { x, y, z: 0 }, 1.0, z + 0.7);
  return joined(above, boxAround(eye, shadowOf(body.centre, 0), 1.0, 0.1));
}

/** The dog as things to draw; `hidden` says which points are inside a tunnel. */
export function dogItems(
  eye: Eye,
  body: DogBody,
  hidden: (p: Point3) => boolean,
  colours: Coat,
): Paintable[] {
  const coat = colours.dark;
  const coatLit = shade(coat, 1.6);
  const coatFar = shade(coat, 0.74);
  const white = colours.light;
  const tan = colours.points;
  const c = cosine(body.heading);
  const s = sine(body.heading);
  // Which flank is toward the camera?
  const toEye = (eye.at.x - body.centre.x) * -s + (eye.at.y - body.centre.y) * c;
  const nearLeft = toEye > 0;
  const nearFront: Paw = nearLeft ? 'leftFront' : 'rightFront';
  const farFront: Paw = nearLeft ? 'rightFront' : 'leftFront';
  const nearHind: Paw = nearLeft ? 'leftHind' : 'rightHind';
  const farHind: Paw = nearLeft ? 'rightHind' : 'leftHind';
  const depth = (p: Point3): number => groundDepth(eye, p);
  const out: Paintable[] = [];
  const box = (): Box => dogBox(eye, body);
  const middle = mid(body.chest, body.croup, 0.5);
  const show = (where: Point3, d: number, paint: (ctx: SKRSContext2D) => void): void => {
    if (!hidden(where)) out.push({ depth: d, box, paint });
  };
  const rear = depth(body.croup);
  const fore = depth(body.chest);
  show(body.limbs[farHind].low, rear + 0.04, (ctx) => limb(ctx, eye, body, farHind, true, colours));
  show(body.limbs[farFront].low, fore + 0.04, (ctx) => limb(ctx, eye, body, farFront, true, colours));
  show(body.tailMiddle, rear + 0.05, (ctx) => {
    rod(ctx, eye, body.tailRoot, body.tailMiddle, 0.04, 0.062, coat);
    rod(ctx, eye, body.tailMiddle, mid(body.tailMiddle, body.tailTip, 0.6), 0.062, 0.055, coat);
    rod(ctx, eye, mid(body.tailMiddle, body.tailTip, 0.5), body.tailTip, 0.05, 0.018, white);
  });
  show(body.croup, rear + 0.01, (ctx) => {
    hull(
      ctx,
      eye,
      [
        { at: body.croup, radius: 0.115 },
        { at: body.belly, radius: 0.115 },
      ],
      coat,
    );
    hull(
      ctx,
      eye,
      [
        { at: up(body.croup, 0.05), radius: 0.06 },
        { at: up(mid(body.croup, body.belly, 0.8), 0.065), radius: 0.05 },
      ],
      coatLit,
    );
  });
  show(middle, fore, (ctx) => {
    hull(
      ctx,
      eye,
      [
        { at: body.belly, radius: 0.117 },
        { at: body.chest, radius: 0.15 },
      ],
      coat,
    );
    hull(
      ctx,
      eye,
      [
        { at: up(body.belly, 0.06), radius: 0.05 },
        { at: up(body.chest, 0.08), radius: 0.055 },
      ],
      coatLit,
    );
  });
  show(body.chest, fore - 0.01, (ctx) => {
    const throat = mid(body.chest, body.head, 0.55);
    const breast = { x: body.chest.x + 0.07 * c, y: body.chest.y + 0.07 * s, z: body.chest.z - 0.05 };
    hull(
      ctx,
      eye,
      [
        { at: up(body.withers, -0.04), radius: 0.085 },
        { at: body.head, radius: 0.072 },
      ],
      coat,
    );
    hull(
      ctx,
      eye,
      [
        { at: breast, radius: 0.088 },
        { at: up(throat, -0.025), radius: 0.06 },
      ],
      white,
    );
    hull(
      ctx,
      eye,
      [
        { at: up(body.withers, -0.02), radius: 0.06 },
        { at: mid(body.withers, body.head, 0.5), radius: 0.045 },
      ],
      white,
    );
  });
  show(body.limbs[nearHind].low, rear - 0.03, (ctx) => limb(ctx, eye, body, nearHind, false, colours));
  show(body.limbs[nearFront].low, fore - 0.03, (ctx) => limb(ctx, eye, body, nearFront, false, colours));
  show(body.nose, Math.min(fore, depth(body.head)) - 0.04, (ctx) => {
    const head = body.head;
    const nose = body.nose;
    const stop = mid(head, nose, 0.42);
    hull(
      ctx,
      eye,
      [
        { at: head, radius: 0.088 },
        { at: stop, radius: 0.06 },
      ],
      coat,
    );
    hull(
      ctx,
      eye,
      [
        { at: up(stop, -0.015), radius: 0.048 },
        { at: nose, radius: 0.032 },
      ],
      white,
    );
    hull(
      ctx,
      eye,
      [
        { at: up(head, 0.065), radius: 0.022 },
        { at: up(stop, 0.035), radius: 0.022 },
      ],
      white,
    );
    ball(ctx, eye, { x: nose.x + 0.025 * c, y: nose.y + 0.025 * s, z: nose.z + 0.012 }, 0.022, '#15110f');
    for (const side of nearLeft ? [-1, 1] : [1, -1]) {
      const base = {
        x: head.x - 0.03 * c - side * 0.06 * s,
        y: head.y - 0.03 * s + side * 0.06 * c,
        z: head.z + 0.055,
      };
      const tip = {
        x: base.x - 0.06 * c - side * 0.03 * s,
        y: base.y - 0.06 * s + side * 0.03 * c,
        z: base.z + 0.07,
      };
      rod(ctx, eye, base, tip, 0.04, 0.014, side === (nearLeft ? 1 : -1) ? coatLit : coatFar);
    }
    const eyeAt = {
      x: stop.x - (nearLeft ? 1 : -1) * 0.045 * s,
      y: stop.y + (nearLeft ? 1 : -1) * 0.045 * c,
      z: stop.z + 0.035,
    };
    ball(ctx, eye, eyeAt, 0.014, tan);
  });
  return out;
}

/** Her shadow on whatever lies `floor` metres high below her. */
export function paintDogShadow(
  ctx: SKRSContext2D,
  eye: Eye,
  body: DogBody,
  floor: number,
  hidden: (p: Point3) => boolean,
): void {
  if (hidden(body.centre)) return;
  const tone = '#14240f66';
  const on = (p: Point3): Point3 => shadowOf(p, floor);
  hull(
    ctx,
    eye,
    [
      { at: on(body.chest), radius: 0.14 },
      { at: on(body.croup), radius: 0.11 },
      { at: on(body.head), radius: 0.07 },
    ],
    tone,
  );
  for (const l of Object.values(body.limbs)) {
    rod(ctx, eye, on(l.middle), on(l.paw), 0.035, 0.025, tone);
  }
  rod(ctx, eye, on(body.head), on(body.nose), 0.06, 0.03, tone);
}
