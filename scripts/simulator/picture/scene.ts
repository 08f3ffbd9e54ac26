import type { Canvas, SKRSContext2D } from '@napi-rs/canvas';
import { createCanvas } from '@napi-rs/canvas';
import { Doing } from '../actors/dog.ts';
import { dogBodyAt } from '../actors/dogBody.ts';
import { handlerFootfalls, pawContacts } from '../actors/footfalls.ts';
import { handlerBodyAt } from '../actors/handlerBody.ts';
import { dogAt } from '../actors/trace.ts';
import { cosine, sine } from '../base/exact.ts';
import type { Camera, Point3 } from '../camera.ts';
import { gateOf, surfaceHeight } from '../ground/gate.ts';
import type { RunRecord } from '../run.ts';
import { dogBox, dogItems, paintDogShadow } from './dogPaint.ts';
import { coneItems, equipmentItems, paintStandingShadows } from './equipmentPaint.ts';
import { paintField, paintRope } from './field.ts';
import { handlerBox, handlerItems, paintHandlerShadow } from './handlerPaint.ts';
import type { Box, Paintable } from './strokes.ts';
import { boxAround, eyeOf, joined, overlaps } from './strokes.ts';

/** Draws any moment of one run as one fixed camera sees it. */
export interface Scene {
  draw(time: number): void;
  readonly canvas: Canvas;
}

/** Joins overlapping areas until none overlap. */
function apart(areas: readonly Box[]): Box[] {
  const out: Box[] = [];
  for (let area of areas) {
    for (let i = 0; i < out.length;) {
      const other = out[i];
      if (other && overlaps(other, area)) {
        area = joined(other, area);
        out.splice(i, 1);
        i = 0;
      } else i++;
    }
    out.push(area);
  }
  return out;
}

export function sceneOf(run: RunRecord, camera: Camera): Scene {
  const eye = eyeOf(camera);
  const { width, height } = camera;
  const back = createCanvas(width, height);
  const behind: SKRSContext2D = back.getContext('2d');
  paintField(behind, eye);
  paintRope(behind, eye, run.course, false);
  paintStandingShadows(behind, eye, run.course);
  const front = createCanvas(width, height);
  paintRope(front.getContext('2d'), eye, run.course, true);
  const still: Paintable[] = [
    ...equipmentItems(eye, run.course, { fallen: new Map(), tipped: 0 }),
    ...coneItems(eye, run.course),
  ];
  still.sort((a, b) => b.depth - a.depth);
  const full = createCanvas(width, height);
  const whole = full.getContext('2d');
  whole.drawImage(back, 0, 0);
  for (const part of still) part.paint(whole);
  whole.drawImage(front, 0, 0);
  const canvas = createCanvas(width, height);
  const ctx = canvas.getContext('2d');
  const paws = pawContacts(run);
  const falls = handlerFootfalls(run);
  const gates = run.course.places.map((place) => gateOf(run.course, place));
  const knocked = run.happened.filter((h) => h.kind === 'barDown');
  const saw = run.notices.filter((n) => {
    const gate = gates[n.place - 1];
    return gate?.obstacle.kind === 'seeSaw' && n.kind === 'out';
  });

  const hiddenAt = (time: number): ((p: Point3) => boolean) => {
    const dog = dogAt(run, time);
    const gate = gates[dog.index];
    if (dog.doing !== Doing.tunnel || !gate) return () => false;
    const ac = cosine(gate.axis);
    const as = sine(gate.axis);
    const ec = cosine(gate.exitHeading);
    const es = sine(gate.exitHeading);
    return (p) => {
      const inside = (p.x - gate.x) * ac + (p.y - gate.y) * as;
      const outside = (p.x - gate.exitX) * ec + (p.y - gate.exitY) * es;
      const nearExit = Math.abs(outside) < 1.4 && (p.x - gate.exitX) ** 2 + (p.y - gate.exitY) ** 2 < 2;
      const nearEntry = (p.x - gate.x) ** 2 + (p.y - gate.y) ** 2 < 2;
      if (nearEntry && inside < 0.02) return false;
      return !(nearExit && outside > -0.02);
    };
  };

  const draw = (time: number): void => {
    ctx.drawImage(back, 0, 0);
    const dog = dogAt(run, time);
    const body = dogBodyAt(run, paws, time);
    const person = handlerBodyAt(run, falls, time);
    const hidden = hiddenAt(time);
    const gate = gates[dog.index];
    const on = dog.doing === Doing.contact && gate ? gate : null;
    const along = on ? (dog.x - on.x) * cosine(on.axis) + (dog.y - on.y) * sine(on.axis) : 0;
    const floor = on ? surfaceHeight(on.obstacle, along, dog.tipped) : 0;
    const lastSaw = saw.filter((n) => n.at <= time).pop();
    const back01 = lastSaw ? Math.max(0, 1 - (time - lastSaw.at - 0.5) / 0.9) : 0;
    const tipped = on?.obstacle.kind === 'seeSaw' ? dog.tipped : Math.min(1, back01);
    const fallen = new Map<string, number>();
    for (const k of knocked) {
      const obstacle = gates[(k.place ?? 0) - 1]?.obstacle;
      if (obstacle && time >= k.at) fallen.set(obstacle.id, time - k.at);
    }
    // Only what a mover covers is drawn anew, whole and in order of depth, so that every still pixel stays.
    const changed = fallen.size > 0 || tipped > 0;
    const standing = changed
      ? [...equipmentItems(eye, run.course, { fallen, tipped }), ...coneItems(eye, run.course)]
      : still;
    const movers = [...handlerItems(eye, person), ...dogItems(eye, body, hidden)];
    const areas: Box[] = [dogBox(eye, body), handlerBox(eye, person)];
    for (const o of run.course.obstacles) {
      if (fallen.has(o.id)) areas.push(boxAround(eye, { x: o.x, y: o.y, z: 0 }, 1.8, 1.3));
      if (tipped > 0 && o.kind === 'seeSaw') areas.push(boxAround(eye, { x: o.x, y: o.y, z: 0 }, 2.2, 1.4));
    }
    ctx.drawImage(full, 0, 0);
    for (const area of apart(areas)) {
      const wide = area.right - area.left;
      const tall = area.bottom - area.top;
      ctx.save();
      ctx.beginPath();
      ctx.rect(area.left, area.top, wide, tall);
      ctx.clip();
      ctx.drawImage(back, area.left, area.top, wide, tall, area.left, area.top, wide, tall);
      paintHandlerShadow(ctx, eye, person);
      if (floor < 0.05) paintDogShadow(ctx, eye, body, 0, hidden);
      const items = [...standing.filter((item) => overlaps(item.box, area)), ...movers];
      items.sort((a, b) => b.depth - a.depth);
      for (const item of items) item.paint(ctx);
      ctx.drawImage(front, area.left, area.top, wide, tall, area.left, area.top, wide, tall);
      ctx.restore();
    }
  };
  return { draw, canvas };
}
