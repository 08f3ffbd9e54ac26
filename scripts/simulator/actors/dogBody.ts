import { clamp, cosine, direction, lengthOf, mix, sine, smoothStep, wrapAngle } from '../base/exact.ts';
import type { Point3 } from '../camera/camera.ts';
import type { RunRecord } from '../run/record.ts';
import { Doing } from './dogWorld.ts';
import type { Limb } from './dogLimbs.ts';
import { dogLimbs } from './dogLimbs.ts';
import type { Paw, PawContacts } from './footfalls.ts';
import { footAt } from './footfalls.ts';
import type { DogMoment } from './trace.ts';
import { dogAt, handlerAt } from './trace.ts';

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

/** The row of poles she is in: her body winds around it, most at the head. */
function poleRow(
  run: RunRecord,
  index: number,
  time: number,
): { beside(dog: DogMoment, along: number, side: number, rise: number): Point3 } | null {
  const place = run.course.places[index];
  const o = run.course.obstacles.find((one) => one.id === place?.obstacleId);
  if (o?.kind !== 'weavePoles') return null;
  const c = cosine(o.angle);
  const s = sine(o.angle);
  const wrong = run.notices.some(
    (n) => n.kind === 'wrongEntry' && n.place === index + 1 && Math.abs(n.at + 0.2 - time) < 0.85,
  );
  const long = ((o.sizes['poles'] ?? 12) - 1) * (o.sizes['spacing'] ?? 0.6);
  return {
    beside: (dog, along, side, rise) => {
      const at = (dog.x - o.x) * c + (dog.y - o.y) * s + along;
      const off = -(dog.x - o.x) * s + (dog.y - o.y) * c;
      const inside = smoothStep(-0.5, 0.4, at) * (1 - smoothStep(long - 0.2, long + 0.6, at));
      const wide = mix(0.1, 0.17, clamp((along + 0.3) / 0.7, 0, 1));
      const swing = wide * cosine((Math.PI * at) / 0.6);
      // A wrong entry runs one gap late: past the second pole on its right, then on the other side of each.
      const target = wrong ? mix(-0.15, swing, smoothStep(0.45, 1.65, at)) : -swing;
      const lateral = mix(off, target, inside) + side;
      const x = o.x + at * c - lateral * s;
      const y = o.y + at * s + lateral * c;
      return { x, y, z: dog.z + rise };
    },
  };
}

/** The dog's body at a moment. */
export function dogBodyAt(run: RunRecord, contacts: PawContacts, time: number): DogBody {
  const dog = dogAt(run, time);
  const before = dogAt(run, time - 0.03);
  const after = dogAt(run, time + 0.03);
  const { sit, lean } = sitting(run, time);
  const climb = (after.z - before.z) / 0.06;
  const run2 = Math.max(lengthOf(after.x - before.x, after.y - before.y) / 0.06, 0.6);
  const pitch = clamp(climb / run2, -0.75, 0.75) * (dog.doing === Doing.flight ? 0.5 : 1) * (1 - sit);
  const bend = clamp(wrapAngle(after.heading - before.heading) * 1.6, -0.5, 0.5);
  const hindPaw = footAt(contacts.leftHind, time);
  const frontPaw = footAt(contacts.leftFront, time);
  const busy = smoothStep(0.8, 3.5, dog.speed);
  const gather = busy * 0.06 * (hindPaw.share - frontPaw.share) * (dog.doing === Doing.flight ? 0.4 : 1);
  const bob = busy * 0.03;
  const poles = dog.doing === Doing.weave ? poleRow(run, dog.index, time) : null;
  const at = (along: number, side: number, rise: number): Point3 => {
    if (poles) return poles.beside(dog, along, side, rise);
    const h = dog.heading + bend * clamp(along / 0.5, -1, 1) * 0.5;
    const c = cosine(h);
    const s = sine(h);
    return {
      x: dog.x + along * c - side * s,
      y: dog.y + along * s + side * c,
      z: dog.z + rise + along * pitch,
    };
  };
  const chestRise = 0.02 + bob * (frontPaw.lift - 0.4) * 1.4 + 0.03 * sit;
  const croupRise = 0.04 + bob * (hindPaw.lift - 0.4) * 1.4 - 0.27 * sit;
  const front = 0.21 + gather + 0.05 * lean - 0.07 * sit;
  const hind = -0.29 + gather * -0.6 + 0.08 * sit;
  const chest = at(front, 0, chestRise);
  const withers = at(front - 0.03, 0, chestRise + 0.1);
  const croup = at(hind, 0, croupRise + 0.03);
  const belly = at(-0.06, 0, mix(chestRise, croupRise, 0.45));
  const low = dog.doing === Doing.gallop || dog.doing === Doing.tunnel ? busy : 0;
  const nod = 0.03 * busy * (frontPaw.lift - 0.5);
  const headAlong = front + mix(0.2, 0.3, low) + 0.03 * lean;
  const head = at(headAlong, 0, chestRise + mix(0.27, 0.16, low) + nod + 0.04 * sit);
  // At rest she looks for her handler.
  const h = handlerAt(run, time);
  const toHandler = wrapAngle(direction(h.y - dog.y, h.x - dog.x) - dog.heading);
  const gaze = clamp(toHandler, -1.1, 1.1) * (1 - busy) * (poles ? 0 : 1);
  const ahead = at(headAlong + 0.2 * cosine(gaze), 0.2 * sine(gaze), chestRise + mix(0.24, 0.1, low) + nod);
  const nose = { ...ahead, z: ahead.z - 0.03 * lean + 0.03 * sit };
  const wag = sine(time * (sit > 0.5 ? 9 : 13)) * (sit > 0.5 ? 0.07 : 0.05);
  const tailUp = mix(0.08, -0.16, sit) + (dog.doing === Doing.flight ? 0.08 : 0);
  const limbs = dogLimbs(dog, contacts, time, chest, croup, sit, busy);
  return {
    centre: { x: dog.x, y: dog.y, z: dog.z },
    chest,
    withers,
    belly,
    croup,
    head,
    nose,
    tailRoot: at(hind - 0.1, 0, croupRise + 0.06),
    tailMiddle: at(hind - 0.26, wag * 0.5, croupRise + 0.04 + tailUp * 0.6),
    tailTip: at(hind - 0.44, wag, croupRise + 0.02 + tailUp + 0.05),
    limbs,
    heading: dog.heading,
  };
}
