import { clamp, cosine, mix, sine, smoothStep } from '../base/exact.ts';
import type { Point3 } from '../camera/camera.ts';
import { Doing } from './dogWorld.ts';
import type { Paw, PawContacts } from './footfalls.ts';
import { footAt, paws } from './footfalls.ts';
import type { DogMoment } from './trace.ts';

/** One leg, from shoulder or hip to the paw. */
export interface Limb {
  readonly root: Point3;
  readonly middle: Point3;
  readonly low: Point3;
  readonly paw: Point3;
}

/** The joint between two rods that reach from a to b, bent toward a direction. */
export function bendJoint(a: Point3, b: Point3, upper: number, lower: number, toward: Point3): Point3 {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const dz = b.z - a.z;
  const far = Math.max(0.02, Math.sqrt(dx * dx + dy * dy + dz * dz));
  const reach = Math.min(far, (upper + lower) * 0.997);
  const along = (upper * upper - lower * lower + reach * reach) / (2 * reach);
  const out = Math.sqrt(Math.max(0, upper * upper - along * along));
  const dot = (toward.x * dx + toward.y * dy + toward.z * dz) / (far * far);
  const px = toward.x - dot * dx;
  const py = toward.y - dot * dy;
  const pz = toward.z - dot * dz;
  const pl = Math.max(1e-6, Math.sqrt(px * px + py * py + pz * pz));
  const share = along / far;
  return {
    x: a.x + dx * share + (px / pl) * out,
    y: a.y + dy * share + (py / pl) * out,
    z: a.z + dz * share + (pz / pl) * out,
  };
}

/** Farthest from shoulder or hip that a paw is drawn: in the air, and stretched out on the ground. */
const reaches = { front: [0.47, 0.56], hind: [0.52, 0.62] } as const;

/** All four legs. `sit`: 0 on her feet, 1 sitting; `busy`: 0 at rest, 1 at a gallop. */
export function dogLimbs(
  dog: DogMoment,
  contacts: PawContacts,
  time: number,
  chest: Point3,
  croup: Point3,
  sit: number,
  busy: number,
): Record<Paw, Limb> {
  const c = cosine(dog.heading);
  const s = sine(dog.heading);
  const limb = (paw: Paw): Limb => {
    const isFront = paw === 'leftFront' || paw === 'rightFront';
    const side = paw === 'leftFront' || paw === 'leftHind' ? 0.075 : -0.075;
    const foot = footAt(contacts[paw], time);
    const from = isFront ? chest : croup;
    const planted = foot.lift === 0 && dog.doing !== Doing.flight;
    let z = foot.z;
    if (dog.doing === Doing.flight) {
      const own = isFront ? clamp(foot.share * 1.15, 0, 1) : smoothStep(0.25, 1, foot.share);
      const tuck = (isFront ? 0.24 : 0.2) * sine(Math.PI * own);
      z = Math.max(0, from.z - (isFront ? 0.43 : 0.45) + tuck);
      if (foot.share > 0.8) z = mix(z, foot.z, (foot.share - 0.8) / 0.2);
      if (foot.share < 0.12) z = mix(foot.z, z, foot.share / 0.12);
    } else if (!planted) {
      z = foot.z + foot.lift * (isFront ? 0.17 : 0.14) * (0.35 + 0.65 * busy);
    }
    let paw3: Point3 = { x: foot.x, y: foot.y, z };
    if (sit > 0 && !isFront) {
      const x = dog.x - 0.12 * c - 1.5 * side * s;
      const y = dog.y - 0.12 * s + 1.5 * side * c;
      paw3 = { x: mix(foot.x, x, sit), y: mix(foot.y, y, sit), z: mix(z, 0, sit) };
    }
    const root = { x: from.x - side * s, y: from.y + side * c, z: from.z - (isFront ? 0.04 : 0.02) };
    // A paw in the air that the leg cannot reach trails at its end.
    const most = reaches[isFront ? 'front' : 'hind'][planted ? 1 : 0];
    const dx = paw3.x - root.x;
    const dy = paw3.y - root.y;
    const dz = paw3.z - root.z;
    const far = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (far > most) {
      const k = most / far;
      paw3 = { x: root.x + dx * k, y: root.y + dy * k, z: root.z + dz * k };
    }
    if (isFront) {
      const middle = bendJoint(root, paw3, 0.23, 0.25, { x: -c, y: -s, z: 0 });
      return { root, middle, low: { ...paw3, z: paw3.z + 0.03 }, paw: paw3 };
    }
    const toPaw = clamp((paw3.x - root.x) * c + (paw3.y - root.y) * s, -0.4, 0.4);
    const back = 0.07 + 0.05 * toPaw;
    const hock = { x: paw3.x - c * back, y: paw3.y - s * back, z: paw3.z + 0.14 - 0.1 * Math.abs(toPaw) };
    return { root, middle: bendJoint(root, hock, 0.2, 0.21, { x: c, y: s, z: 0.2 }), low: hock, paw: paw3 };
  };
  const out: Partial<Record<Paw, Limb>> = {};
  for (const paw of paws) out[paw] = limb(paw);
  return out as Record<Paw, Limb>;
}
