import { clamp, cosine, direction, mix, sine, smoothStep, wrapAngle } from '../base/exact.ts';
import type { Point3 } from '../camera/camera.ts';
import type { RunRecord } from '../run/record.ts';
import type { Contact, Foot } from './footfalls.ts';
import { footAt } from './footfalls.ts';
import { dogAt, handlerAt } from './trace.ts';

/** Named points of the handler's body. */
export interface HandlerBody {
  readonly pelvis: Point3;
  readonly chest: Point3;
  readonly neck: Point3;
  readonly head: Point3;
  readonly face: Point3;
  readonly hips: Readonly<Record<Foot, Point3>>;
  readonly knees: Readonly<Record<Foot, Point3>>;
  readonly ankles: Readonly<Record<Foot, Point3>>;
  readonly toes: Readonly<Record<Foot, Point3>>;
  readonly shoulders: Readonly<Record<Foot, Point3>>;
  readonly elbows: Readonly<Record<Foot, Point3>>;
  readonly hands: Readonly<Record<Foot, Point3>>;
  readonly feet: number;
  readonly facing: number;
}

const sides: readonly Foot[] = ['left', 'right'];

function knee(a: Point3, b: Point3, upper: number, lower: number, c: number, s: number): Point3 {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const dz = b.z - a.z;
  const far = Math.max(0.1, Math.sqrt(dx * dx + dy * dy + dz * dz));
  const reach = Math.min(far, (upper + lower) * 0.998);
  const along = (upper * upper - lower * lower + reach * reach) / (2 * reach);
  const out = Math.sqrt(Math.max(0, upper * upper - along * along));
  const dot = (c * dx + s * dy) / (far * far);
  const px = c - dot * dx;
  const py = s - dot * dy;
  const pz = -dot * dz;
  const pl = Math.max(1e-6, Math.sqrt(px * px + py * py + pz * pz));
  return {
    x: a.x + (dx * along) / far + (px / pl) * out,
    y: a.y + (dy * along) / far + (py / pl) * out,
    z: a.z + (dz * along) / far + (pz / pl) * out,
  };
}

/** The handler's body at a moment. */
export function handlerBodyAt(
  run: RunRecord,
  falls: Readonly<Record<Foot, readonly Contact[]>>,
  time: number,
): HandlerBody {
  const h = handlerAt(run, time);
  const dog = dogAt(run, time);
  const busy = smoothStep(0.6, 4, h.speed);
  const c = cosine(h.feet);
  const s = sine(h.feet);
  const sc = cosine(h.shoulders);
  const ss = sine(h.shoulders);
  const foot = { left: footAt(falls.left, time), right: footAt(falls.right, time) };
  const lift = Math.max(foot.left.lift, foot.right.lift);
  const crouch = 0.05 * busy + 0.05 * h.arm;
  const pelvis: Point3 = { x: h.x, y: h.y, z: 0.925 - crouch + 0.035 * busy * lift };
  const leanBy = 0.13 * busy + 0.06 * h.arm;
  const neck: Point3 = { x: h.x + leanBy * c, y: h.y + leanBy * s, z: pelvis.z + 0.52 };
  const chest: Point3 = { x: mix(pelvis.x, neck.x, 0.6), y: mix(pelvis.y, neck.y, 0.6), z: pelvis.z + 0.33 };
  const toDog = direction(dog.y - h.y, dog.x - h.x);
  const facing = h.shoulders + clamp(wrapAngle(toDog - h.shoulders), -1.1, 1.1) * 0.7;
  const head: Point3 = { x: neck.x + 0.03 * c, y: neck.y + 0.03 * s, z: neck.z + 0.2 };
  const face: Point3 = {
    x: head.x + 0.085 * cosine(facing),
    y: head.y + 0.085 * sine(facing),
    z: head.z - 0.01,
  };
  const hips: Partial<Record<Foot, Point3>> = {};
  const knees: Partial<Record<Foot, Point3>> = {};
  const ankles: Partial<Record<Foot, Point3>> = {};
  const toes: Partial<Record<Foot, Point3>> = {};
  const shoulders: Partial<Record<Foot, Point3>> = {};
  const elbows: Partial<Record<Foot, Point3>> = {};
  const hands: Partial<Record<Foot, Point3>> = {};
  for (const side of sides) {
    const w = side === 'left' ? 1 : -1;
    const f = foot[side];
    const hip = { x: pelvis.x - 0.1 * w * s, y: pelvis.y + 0.1 * w * c, z: pelvis.z - 0.02 };
    const heel = 0.08 + f.lift * (0.12 + 0.26 * busy * (1 - f.share));
    const ankle = { x: f.x, y: f.y, z: heel };
    const fc = cosine(f.facing);
    const fs = sine(f.facing);
    hips[side] = hip;
    knees[side] = knee(hip, ankle, 0.43, 0.43, c, s);
    ankles[side] = ankle;
    const drop = f.lift * busy * (1 - f.share) * 0.12;
    toes[side] = { x: ankle.x + 0.17 * fc, y: ankle.y + 0.17 * fs, z: Math.max(0.03, ankle.z - 0.05 - drop) };
    const shoulder = { x: neck.x - 0.19 * w * ss, y: neck.y + 0.19 * w * sc, z: neck.z - 0.05 };
    shoulders[side] = shoulder;
    const other = foot[side === 'left' ? 'right' : 'left'];
    const swing = busy * 0.26 * (other.lift > 0 ? other.share * 2 - 1 : f.lift > 0 ? 1 - f.share * 2 : 0);
    const raised = h.armSide > 0 === (side === 'left') ? h.arm : 0;
    const pointing = h.armSide > 0 === (side === 'left') ? Math.max(raised, 0.55 * busy) : 0;
    const elbowDown = {
      x: shoulder.x + sc * (swing * 0.6 - 0.04),
      y: shoulder.y + ss * (swing * 0.6 - 0.04),
      z: shoulder.z - 0.27,
    };
    const handDown = {
      x: elbowDown.x + sc * (0.1 + 0.14 * busy + swing * 0.5),
      y: elbowDown.y + ss * (0.1 + 0.14 * busy + swing * 0.5),
      z: elbowDown.z - mix(0.22, 0.02, busy),
    };
    // The arm on the dog's side points ahead of her and down.
    const aim = h.shoulders + w * 0.65;
    const ac = cosine(aim);
    const as = sine(aim);
    const high = raised > 0.6 ? 0.08 : -0.1;
    const elbowUp = {
      x: shoulder.x + ac * 0.24,
      y: shoulder.y + as * 0.24,
      z: shoulder.z - 0.12 + high * 0.4,
    };
    const handUp = { x: elbowUp.x + ac * 0.26, y: elbowUp.y + as * 0.26, z: elbowUp.z - 0.04 + high };
    const blend = (a: Point3, b: Point3): Point3 => ({
      x: mix(a.x, b.x, pointing),
      y: mix(a.y, b.y, pointing),
      z: mix(a.z, b.z, pointing),
    });
    elbows[side] = blend(elbowDown, elbowUp);
    hands[side] = blend(handDown, handUp);
  }
  return {
    pelvis,
    chest,
    neck,
    head,
    face,
    hips: hips as Record<Foot, Point3>,
    knees: knees as Record<Foot, Point3>,
    ankles: ankles as Record<Foot, Point3>,
    toes: toes as Record<Foot, Point3>,
    shoulders: shoulders as Record<Foot, Point3>,
    elbows: elbows as Record<Foot, Point3>,
    hands: hands as Record<Foot, Point3>,
    feet: h.feet,
    facing,
  };
}
