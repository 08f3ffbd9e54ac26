import { clamp, cosine, lengthOf, mix, sine, smoothStep, wrapAngle } from '../base/exact.ts';
import type { Point3 } from '../camera/camera.ts';
import type { RunRecord } from '../run/record.ts';
import { Doing } from './dogWorld.ts';
import type { Paw, PawContacts } from './footfalls.ts';
import { footAt, paws } from './footfalls.ts';
import { dogAt } from './trace.ts';

export interface Limb {
  readonly root: Point3;
  readonly middle: Point3;
  readonly low: Point3;
  readonly paw: Point3;
}

/** Named points of the dog's body. */
export interface DogBody {
  readonly centre: Point3;
  readonly chest: Point3;
  readonly withers: Point3;
  readonly belly: Point3;
  readonly croup: Point3;
  readonly head: Point3;
  readonly nose: Point3;
  readonly tailRoot: Point3;
  readonly tailMiddle: Point3;
  readonly tailTip: Point3;
  readonly limbs: Readonly<Record<Paw, Limb>>;
  readonly heading: number;
}

function bendJoint(a: Point3, b: Point3, upper: number, lower: number, toward: Point3): Point3 {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const dz = b.z - a.z;
  const far = Math.max(0.02, Math.sqrt(dx * dx + dy * dy + dz * dz));
  const reach = Math.min(far, (upper + lower) * 0.995);
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

/** How far she sits (0 on her feet, 1 sitting), and how far she leans when her weight shifts. */
function sitting(run: RunRecord, time: number): { sit: number; lean: number } {
  const up = run.tries.map((t) => t.step ?? Infinity);
  let sit = 0;
  for (const [i, t] of run.tries.entries()) {
    const step = up[i] ?? Infinity;
    if (time >= t.setUp && time < step + 0.3) {
      const down = i === 0 ? 1 : smoothStep(t.setUp, t.setUp + 0.5, time);
      sit = Math.max(sit, down * (1 - smoothStep(step - 0.06, step + 0.22, time)));
    }
  }
  let lean = 0;
  for (const s of run.weightShift) {
    lean = Math.max(
      lean,
      smoothStep(s.begin, s.begin + 0.14, time) * (1 - smoothStep(s.end, s.end + 0.2, time)),
    );
  }
  return { sit, lean };
}

/** The dog's body at a moment. */
export function dogBodyAt(run: RunRecord, contacts: PawContacts, time: number): DogBody {
  const dog = dogAt(run, time);
  const before = dogAt(run, time - 0.03);
  const after = dogAt(run, time + 0.03);
  const { sit, lean } = sitting(run, time);
  const climb = (after.z - before.z) / 0.06;
  const run2 = Math.max(lengthOf(after.x - before.x, after.y - before.y) / 0.06, 0.6);
  const pitch = clamp(climb / run2, -0.75, 0.75) * (dog.doing === Doing.flight ? 0.85 : 1) * (1 - sit);
  const bend = clamp(wrapAngle(after.heading - before.heading) * 1.6, -0.5, 0.5);
  const hindPaw = footAt(contacts.leftHind, time);
  const frontPaw = footAt(contacts.leftFront, time);
  const busy = smoothStep(0.8, 3.5, dog.speed);
  const gather = busy * 0.06 * (hindPaw.share - frontPaw.share) * (dog.doing === Doing.flight ? 0.4 : 1);
  const bob = busy * 0.03;
  const weaving = dog.doing === Doing.weave ? 1 : 0;
  let flex = 0;
  if (weaving) {
    const side = wrapAngle(after.heading - before.heading);
    flex = clamp(side * 1.4, -0.16, 0.16);
  }
  const up = { x: 0, y: 0, z: 1 };
  const at = (along: number, side: number, rise: number): Point3 => {
    const h = dog.heading + bend * clamp(along / 0.5, -1, 1) * 0.5;
    const c = cosine(h);
    const s = sine(h);
    return {
      x: dog.x + along * c - side * s,
      y: dog.y + along * s + side * c,
      z: dog.z + rise + along * pitch,
    };
  };
  const chestRise = 0.02 + bob * (frontPaw.lift - 0.4) * 1.4 - 0.02 * sit;
  const croupRise = 0.04 + bob * (hindPaw.lift - 0.4) * 1.4 - 0.24 * sit;
  const front = 0.21 + gather + 0.05 * lean - 0.04 * sit;
  const hind = -0.29 + gather * -0.6 + 0.1 * sit;
  const chest = at(front, flex * 0.5, chestRise);
  const withers = at(front - 0.03, flex * 0.4, chestRise + 0.1);
  const croup = at(hind, -flex * 0.5, croupRise + 0.03);
  const belly = at(-0.06, flex * 0.1, mix(chestRise, croupRise, 0.45) - 0.0);
  const low = dog.doing === Doing.gallop || dog.doing === Doing.tunnel ? busy : 0;
  const nod = 0.03 * busy * (frontPaw.lift - 0.5);
  const headAlong = front + mix(0.2, 0.3, low) + 0.03 * lean;
  const head = at(headAlong, flex, chestRise + mix(0.27, 0.16, low) + nod + 0.03 * sit);
  const nose = at(headAlong + 0.2, flex * 1.15, chestRise + mix(0.24, 0.1, low) + nod - 0.03 * lean);
  const wag = sine(time * (sit > 0.5 ? 9 : 13)) * (sit > 0.5 ? 0.07 : 0.05);
  const tailUp = mix(0.08, -0.16, sit) + (dog.doing === Doing.flight ? 0.08 : 0);
  const limbs: Partial<Record<Paw, Limb>> = {};
  for (const paw of paws) {
    const isFront = paw === 'leftFront' || paw === 'rightFront';
    const left = paw === 'leftFront' || paw === 'leftHind';
    const side = left ? 0.075 : -0.075;
    const foot = footAt(contacts[paw], time);
    const flying = dog.doing === Doing.flight;
    const reach = isFront ? chest : croup;
    let z = foot.z;
    if (flying) {
      const own = isFront ? foot.share : smoothStep(0.25, 1, foot.share);
      const tuck = isFront
        ? 0.24 * sine(Math.PI * clamp(foot.share * 1.15, 0, 1))
        : 0.2 * sine(Math.PI * own);
      z = Math.max(0, reach.z - 0.43 + tuck + (isFront ? 0 : -0.02));
      if (foot.share > 0.8) z = mix(z, foot.z, (foot.share - 0.8) / 0.2);
      if (foot.share < 0.12) z = mix(foot.z, z, foot.share / 0.12);
    } else {
      const high = isFront ? 0.17 : 0.14;
      z = foot.z + foot.lift * high * (0.35 + 0.65 * busy);
    }
    let pawPoint: Point3 = { x: foot.x, y: foot.y, z };
    if (sit > 0 && !isFront) {
      const folded = at(-0.12, side * 1.5, -dog.z + 0.0);
      pawPoint = { x: mix(foot.x, folded.x, sit), y: mix(foot.y, folded.y, sit), z: mix(z, 0, sit) };
    }
    const c = cosine(dog.heading);
    const s = sine(dog.heading);
    const root = {
      x: reach.x - side * s,
      y: reach.y + side * c,
      z: reach.z - (isFront ? 0.04 : 0.02),
    };
    // A paw the leg cannot reach trails: it is drawn at the end of the leg.
    const most = isFront ? 0.47 : 0.52;
    const dx = pawPoint.x - root.x;
    const dy = pawPoint.y - root.y;
    const dz = pawPoint.z - root.z;
    const far = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (far > most) {
      const k = most / far;
      pawPoint = { x: root.x + dx * k, y: root.y + dy * k, z: root.z + dz * k };
    }
    if (isFront) {
      const back = { x: -c, y: -s, z: 0 };
      const middle = bendJoint(root, pawPoint, 0.23, 0.25, back);
      limbs[paw] = { root, middle, low: { ...pawPoint, z: pawPoint.z + 0.03 }, paw: pawPoint };
    } else {
      const toPaw = clamp((pawPoint.x - root.x) * c + (pawPoint.y - root.y) * s, -0.4, 0.4);
      const hock = {
        x: pawPoint.x - c * (0.07 + 0.05 * toPaw),
        y: pawPoint.y - s * (0.07 + 0.05 * toPaw),
        z: pawPoint.z + 0.14 - 0.1 * Math.abs(toPaw),
      };
      const ahead = { x: c, y: s, z: 0.2 };
      const middle = bendJoint(root, hock, 0.2, 0.21, ahead);
      limbs[paw] = { root, middle, low: hock, paw: pawPoint };
    }
  }
  void up;
  return {
    centre: { x: dog.x, y: dog.y, z: dog.z },
    chest,
    withers,
    belly,
    croup,
    head,
    nose,
    tailRoot: at(hind - 0.1, -flex * 0.6, croupRise + 0.06),
    tailMiddle: at(hind - 0.26, -flex * 0.6 + wag * 0.5, croupRise + 0.04 + tailUp * 0.6),
    tailTip: at(hind - 0.44, -flex * 0.7 + wag, croupRise + 0.02 + tailUp + 0.05),
    limbs: limbs as Record<Paw, Limb>,
    heading: dog.heading,
  };
}
