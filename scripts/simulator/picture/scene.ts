import type { Canvas, SKRSContext2D } from '@napi-rs/canvas';
import { createCanvas } from '@napi-rs/canvas';
import { Doing } from '../actors/dogWorld.ts';
import { dogBodyAt } from '../actors/dogBody.ts';
import { handlerFootfalls, pawContacts } from '../actors/footfalls.ts';
import { handlerBodyAt } from '../actors/handlerBody.ts';
import { dogAt } from '../actors/trace.ts';
import { cosine, sine } from '../base/exact.ts';
import { randomStream } from '../base/random.ts';
import type { Point3 } from '../camera/camera.ts';
import type { CameraAt } from '../camera/path.ts';
import { frameMatrices, seenInFrame, straighten } from '../camera/path.ts';
import { gateOf, surfaceHeight } from '../ground/gate.ts';
import type { RunRecord } from '../run/record.ts';
import { bystandersOf } from './cast.ts';
import { brambleCoat, dogBox, dogItems, otherCoat, paintDogShadow } from './dogPaint.ts';
import { coneItems, equipmentItems, paintStandingShadows } from './equipmentPaint.ts';
import { handlerBox, handlerClothes, handlerItems, paintHandlerShadow } from './handlerPaint.ts';
import type { Box, Eye, Paintable } from './strokes.ts';
import { boxAround, eyeOf, joined, overlaps } from './strokes.ts';
import { paintRope, paintTents } from './surroundings.ts';
import type { Setting, Straight } from './turf.ts';
import { paintTurf } from './turf.ts';

/** How a film looks beyond its camera. */
export interface Look {
  readonly setting: Setting;
  readonly bystanders: boolean;
  /** Seconds that the shutter is open; 0: frozen. */
  readonly shutter: number;
  /** Strength of the grain, 0 to 1. */
  readonly grain: number;
}

export const plainLook: Look = { setting: { pattern: 1 }, bystanders: false, shutter: 0, grain: 0 };

/** Draws any moment of one run. */
export interface Scene {
  readonly canvas: Canvas;
  draw(time: number): void;
}

/** The movers and changed things of one moment, ready to be drawn. */
interface Moment {
  readonly items: Paintable[];
  readonly areas: Box[];
  readonly standing: Paintable[] | null;
  shadows(ctx: SKRSContext2D): void;
}

/** Instants that an open shutter is made of: two where it is so short that even a fast pan moves a few pixels. */
const subFramesOf = (shutter: number): number => (shutter <= 1 / 100 ? 2 : 4);

export function sceneOf(run: RunRecord, path: CameraAt, look: Look): Scene {
  const { width, height } = path;
  const paws = pawContacts(run);
  const falls = handlerFootfalls(run);
  const gates = run.course.places.map((place) => gateOf(run.course, place));
  const knocked = run.happened.filter((h) => h.kind === 'barDown');
  const seeSawLeft = run.notices.filter(
    (n) => n.kind === 'out' && gates[n.place - 1]?.obstacle.kind === 'seeSaw',
  );
  const cast = look.bystanders ? bystandersOf(run, run.seed) : [];
  const straight = straightened(path);
  const canvas = createCanvas(width, height);
  const ctx = canvas.getContext('2d');
  const grains = look.grain > 0 ? grainTiles(width, height, look.grain) : [];

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

  const momentOf = (eye: Eye, frameTime: number): Moment => {
    // A body is drawn as it is when its own rows are read.
    const readAt = (p: Point3): number => {
      if (path.readout === 0) return frameTime;
      return frameTime + path.readout * (seenInFrame(eye.frame, p).v / height - 0.5);
    };
    const rough = dogAt(run, frameTime);
    const time = readAt({ x: rough.x, y: rough.y, z: rough.z });
    const dog = dogAt(run, time);
    const body = dogBodyAt(run, paws, time);
    const person = handlerBodyAt(run, falls, readAt(handlerBodyAt(run, falls, frameTime).chest));
    const hidden = hiddenAt(time);
    const gate = gates[dog.index];
    const on = dog.doing === Doing.contact && gate ? gate : null;
    const along = on ? (dog.x - on.x) * cosine(on.axis) + (dog.y - on.y) * sine(on.axis) : 0;
    const floor = on ? surfaceHeight(on.obstacle, along, dog.tipped) : 0;
    const left = seeSawLeft.filter((n) => n.at <= time).pop();
    const falling = left ? Math.max(0, 1 - (time - left.at - 0.5) / 0.9) : 0;
    const tipped = on?.obstacle.kind === 'seeSaw' ? dog.tipped : Math.min(1, falling);
    const fallen = new Map<string, number>();
    for (const k of knocked) {
      const obstacle = gates[(k.place ?? 0) - 1]?.obstacle;
      if (obstacle && time >= k.at) fallen.set(obstacle.id, time - k.at);
    }
    const changed = fallen.size > 0 || tipped > 0;
    const areas: Box[] = [dogBox(eye, body), handlerBox(eye, person)];
    for (const o of run.course.obstacles) {
      if (fallen.has(o.id)) areas.push(boxAround(eye, { x: o.x, y: o.y, z: 0 }, 1.8, 1.3));
      if (tipped > 0 && o.kind === 'seeSaw') areas.push(boxAround(eye, { x: o.x, y: o.y, z: 0 }, 2.2, 1.4));
    }
    const others = cast.map((b) => ({
      b,
      person: b.person(frameTime),
      dog: b.dog ? b.dog(frameTime) : null,
    }));
    for (const o of others) {
      areas.push(handlerBox(eye, o.person));
      if (o.dog) areas.push(dogBox(eye, o.dog));
    }
    return {
      areas,
      standing: changed ? standingItems(eye, run, fallen, tipped) : null,
      items: [
        ...others.flatMap((o) => [
          ...handlerItems(eye, o.person, {
            jacket: o.b.jacket,
            trousers: o.b.trousers,
            hair: o.b.hair,
            competes: false,
          }),
          ...(o.dog ? dogItems(eye, o.dog, () => false, otherCoat) : []),
        ]),
        ...handlerItems(eye, person, handlerClothes),
        ...dogItems(eye, body, hidden, brambleCoat),
      ],
      shadows: (target) => {
        for (const o of others) {
          paintHandlerShadow(target, eye, o.person);
          if (o.dog) paintDogShadow(target, eye, o.dog, 0, () => false);
        }
        paintHandlerShadow(target, eye, person);
        if (floor < 0.05) paintDogShadow(target, eye, body, 0, hidden);
      },
    };
  };

  const image = ctx.createImageData(width, height);
  const pixels = new Uint32Array(image.data.buffer, image.data.byteOffset, width * height);
  const paintGrass = (target: SKRSContext2D, eye: Eye): void => {
    paintTurf(pixels, eye.frame, look.setting, straight);
    target.putImageData(image, 0, 0);
  };
  const paintBehind = (target: SKRSContext2D, eye: Eye): void => {
    paintTents(target, eye);
    paintRope(target, eye, run.course, false);
    paintStandingShadows(target, eye, run.course);
  };

  const still = path.fixed
    ? stillParts(run, eyeOf(frameMatrices(path, 0)), paintGrass, paintBehind, width, height)
    : null;

  /** Draws one instant, frozen, on grass that is already there unless `grass`. */
  const drawInstant = (target: SKRSContext2D, time: number, grass: boolean): void => {
    if (still) {
      drawOverStill(target, still, momentOf(still.eye, time));
      return;
    }
    const eye = eyeOf(frameMatrices(path, time));
    const moment = momentOf(eye, time);
    if (grass) paintGrass(target, eye);
    else target.putImageData(image, 0, 0);
    paintBehind(target, eye);
    moment.shadows(target);
    const standing = moment.standing ?? standingItems(eye, run, new Map(), 0);
    const items = [...standing, ...moment.items].sort((a, b) => b.depth - a.depth);
    for (const item of items) item.paint(target);
    paintRope(target, eye, run.course, true);
  };

  const instant = look.shutter > 0 ? createCanvas(width, height) : null;
  const draw = (time: number): void => {
    if (!instant) drawInstant(ctx, time, true);
    else {
      // Blades of grass show no blur worth its price: the grass of the middle of the exposure serves all of it.
      const one = instant.getContext('2d');
      if (!still) paintTurf(pixels, frameMatrices(path, time), look.setting, straight);
      const subFrames = subFramesOf(look.shutter);
      const at = (k: number): number => time + look.shutter * ((k + 0.5) / subFrames - 0.5);
      drawInstant(ctx, at(0), false);
      for (let k = 1; k < subFrames; k++) {
        drawInstant(one, at(k), false);
        ctx.globalAlpha = 1 / (k + 1);
        ctx.drawImage(instant, 0, 0);
        ctx.globalAlpha = 1;
      }
    }
    const tile = grains[Math.floor(time * 1000) % Math.max(1, grains.length)];
    if (!tile) return;
    ctx.globalCompositeOperation = 'overlay';
    const shift = (Math.floor(time * 7919) % 64) * 2;
    ctx.drawImage(tile, -shift, -(shift * 5) % 128);
    ctx.globalCompositeOperation = 'source-over';
  };
  return { draw, canvas };
}

interface StillParts {
  readonly eye: Eye;
  readonly behind: Canvas;
  readonly full: Canvas;
  readonly front: Canvas;
  readonly items: readonly Paintable[];
}

function standingItems(
  eye: Eye,
  run: RunRecord,
  fallen: ReadonlyMap<string, number>,
  tipped: number,
): Paintable[] {
  return [...equipmentItems(eye, run.course, { fallen, tipped }), ...coneItems(eye, run.course)];
}

function stillParts(
  run: RunRecord,
  eye: Eye,
  paintGrass: (target: SKRSContext2D, eye: Eye) => void,
  paintBehind: (target: SKRSContext2D, eye: Eye) => void,
  width: number,
  height: number,
): StillParts {
  const behind = createCanvas(width, height);
  paintGrass(behind.getContext('2d'), eye);
  paintBehind(behind.getContext('2d'), eye);
  const front = createCanvas(width, height);
  paintRope(front.getContext('2d'), eye, run.course, true);
  const items = standingItems(eye, run, new Map(), 0).sort((a, b) => b.depth - a.depth);
  const full = createCanvas(width, height);
  const ctx = full.getContext('2d');
  ctx.drawImage(behind, 0, 0);
  for (const item of items) item.paint(ctx);
  ctx.drawImage(front, 0, 0);
  return { eye, behind, full, front, items };
}

/** Only what a mover covers is drawn anew, whole and in order of depth, so that every still pixel stays. */
function drawOverStill(ctx: SKRSContext2D, still: StillParts, moment: Moment): void {
  ctx.drawImage(still.full, 0, 0);
  const standing = moment.standing ?? still.items;
  for (const area of apart(moment.areas)) {
    const wide = area.right - area.left;
    const tall = area.bottom - area.top;
    ctx.save();
    ctx.beginPath();
    ctx.rect(area.left, area.top, wide, tall);
    ctx.clip();
    ctx.drawImage(still.behind, area.left, area.top, wide, tall, area.left, area.top, wide, tall);
    moment.shadows(ctx);
    const items = [...standing, ...moment.items].filter((item) => overlaps(item.box(), area));
    items.sort((a, b) => b.depth - a.depth);
    for (const item of items) item.paint(ctx);
    ctx.drawImage(still.front, area.left, area.top, wide, tall, area.left, area.top, wide, tall);
    ctx.restore();
  }
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

/** Pinhole pixels of a lens that bows; a zoom changes them little, so one table serves the film. */
function straightened(path: CameraAt): Straight | null {
  const { lens, width, height } = path;
  if (lens.k1 === 0 && lens.k2 === 0) return null;
  const camera = path.at(0);
  const u = new Float32Array(width * height);
  const v = new Float32Array(width * height);
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const flat = straighten(camera, lens, i + 0.5, j + 0.5);
      u[j * width + i] = flat.u;
      v[j * width + i] = flat.v;
    }
  }
  return { u, v };
}

function grainTiles(width: number, height: number, strength: number): Canvas[] {
  const random = randomStream(5);
  return Array.from({ length: 3 }, () => {
    const tile = createCanvas(width + 128, height + 128);
    const ctx = tile.getContext('2d');
    const image = ctx.createImageData(tile.width, tile.height);
    for (let i = 0; i < image.data.length; i += 4) {
      const n = 128 + 90 * (random.uniform() + random.uniform() - 1);
      image.data[i] = n;
      image.data[i + 1] = n;
      image.data[i + 2] = n;
      image.data[i + 3] = 255 * strength;
    }
    ctx.putImageData(image, 0, 0);
    return tile;
  });
}
