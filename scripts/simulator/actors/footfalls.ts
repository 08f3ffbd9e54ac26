import { clamp, cosine, lengthOf, sine, wrapAngle } from '../base/exact.ts';
import { surfaceHeight } from '../ground/gate.ts';
import type { RunRecord } from '../run/record.ts';
import { STEP } from '../run/record.ts';
import { dogParameters, valueOf } from '../parameters.ts';
import { Doing } from './dogWorld.ts';
import { dogAt, handlerAt } from './trace.ts';

export type Paw = 'leftFront' | 'rightFront' | 'leftHind' | 'rightHind';
export const paws: readonly Paw[] = ['leftFront', 'rightFront', 'leftHind', 'rightHind'];

/** A foot on the ground, from touch to lift. */
export interface Contact {
  readonly begin: number;
  readonly end: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly facing: number;
}

export type PawContacts = Readonly<Record<Paw, readonly Contact[]>>;

interface Beat {
  readonly touch: Readonly<Record<Paw, number>>;
  readonly duty: number;
}

const gallop: Beat = {
  touch: { leftHind: 0, rightHind: 0.13, leftFront: 0.45, rightFront: 0.58 },
  duty: 0.26,
};
const walk: Beat = { touch: { leftHind: 0, leftFront: 0.25, rightHind: 0.5, rightFront: 0.75 }, duty: 0.6 };
const weave: Beat = { touch: { leftHind: 0, rightHind: 0.5, leftFront: 0.5, rightFront: 0 }, duty: 0.42 };

const FRONT = 0.22;
const HIND = -0.3;
const WIDE = 0.075;
/** Where hind paws are folded under her when she sits. */
const SAT = -0.12;

interface Stretch {
  readonly begin: number;
  readonly end: number;
  readonly doing: number;
}

function stretches(run: RunRecord): Stretch[] {
  const out: Stretch[] = [];
  const of = (i: number): number => {
    const d = run.dog.doing[i] ?? 0;
    if (d === Doing.stand) return Doing.stay;
    return d;
  };
  let from = 0;
  for (let i = 1; i <= run.samples; i++) {
    if (i < run.samples && of(i) === of(from)) continue;
    out.push({ begin: from * STEP, end: i * STEP, doing: of(from) });
    from = i;
  }
  return out;
}

function pawHome(run: RunRecord, paw: Paw, time: number, sits = false): Contact {
  const dog = dogAt(run, time);
  const front = paw === 'leftFront' || paw === 'rightFront';
  const left = paw === 'leftFront' || paw === 'leftHind';
  const along = front ? FRONT : sits ? SAT : HIND;
  const side = (left ? WIDE : -WIDE) * (sits && !front ? 1.5 : 1);
  const c = cosine(dog.heading);
  const s = sine(dog.heading);
  const x = dog.x + along * c - side * s;
  const y = dog.y + along * s + side * c;
  return { begin: time, end: time, x, y, z: groundUnder(run, time, x, y), facing: dog.heading };
}

/** Height of what lies under a point while the dog is on a contact obstacle, else 0. */
function groundUnder(run: RunRecord, time: number, x: number, y: number): number {
  const dog = dogAt(run, time);
  if (dog.doing !== Doing.contact) return 0;
  const place = run.course.places[dog.index];
  const obstacle = run.course.obstacles.find((o) => o.id === place?.obstacleId);
  if (!obstacle) return 0;
  const half = (obstacle.sizes['footprint'] ?? 0) / 2;
  const along = (x - obstacle.x) * cosine(obstacle.angle) + (y - obstacle.y) * sine(obstacle.angle);
  return surfaceHeight(obstacle, along + half, dog.tipped);
}

/** Every touch of every paw in the run. Takes the rhythm from the take-offs and landings, which it meets exactly. */
export function pawContacts(run: RunRecord): PawContacts {
  const out: Record<Paw, Contact[]> = { leftFront: [], rightFront: [], leftHind: [], rightHind: [] };
  const all = stretches(run);
  const landings = run.notices.filter((n) => n.kind === 'landing').map((n) => n.at);
  const takeOffs = run.notices.filter((n) => n.kind === 'takeOff').map((n) => n.at);
  all.forEach((stretch, k) => {
    if (stretch.doing === Doing.flight) return;
    if (stretch.doing === Doing.stay) {
      const middle = (stretch.begin + stretch.end) / 2;
      const sits = run.tries.some((t) => t.setUp <= middle && middle < (t.step ?? Infinity));
      for (const paw of paws) {
        const home = pawHome(run, paw, middle, sits);
        out[paw].push({ ...home, begin: stretch.begin, end: stretch.end });
      }
      return;
    }
    const beat = stretch.doing === Doing.walk ? walk : stretch.doing === Doing.weave ? weave : gallop;
    const landing = landings.find((t) => Math.abs(t - stretch.begin) < 2 * STEP);
    const takeOff = takeOffs.find((t) => Math.abs(t - stretch.end) < 2 * STEP);
    const begin = landing ?? stretch.begin;
    const end = takeOff ?? stretch.end;
    const long = end - begin;
    if (long < 0.05) return;
    const lasts = beat === weave ? 0.43 : beat === walk ? 0.55 : valueOf(dogParameters.strideTime);
    const first =
      landing !== undefined ? beat.touch.leftFront : all[k - 1]?.doing === Doing.stay ? 0.02 : 0.9;
    const last = takeOff !== undefined ? beat.touch.rightHind + beat.duty : 0.85;
    const whole = Math.max(
      takeOff !== undefined && landing !== undefined ? 1 : 0,
      Math.round(long / lasts + first - last),
    );
    const total = Math.max(0.3, whole + last - first);
    const timeOf = (phase: number): number => begin + ((phase - first) / total) * long;
    for (const paw of paws) {
      for (let n = 0; n <= whole + 1; n++) {
        const touch = n + beat.touch[paw];
        if (touch < first - 1e-9 || touch > first + total - 0.02) continue;
        const at = timeOf(touch);
        let until = timeOf(touch + beat.duty);
        if (takeOff !== undefined) until = Math.min(until, takeOff);
        const middle = (at + Math.min(until, end)) / 2;
        const home = pawHome(run, paw, clamp(middle, begin, end));
        out[paw].push({ ...home, begin: at, end: until });
      }
    }
  });
  for (const paw of paws) {
    const list = out[paw].sort((a, b) => a.begin - b.begin);
    out[paw] = list.filter((c, i) => {
      const before = list[i - 1];
      return !before || c.begin > before.begin + 0.06;
    });
    for (let i = 0; i + 1 < out[paw].length; i++) {
      const a = out[paw][i];
      const b = out[paw][i + 1];
      if (a && b && a.end > b.begin - 0.05)
        out[paw][i] = { ...a, end: Math.max(a.begin + 0.01, b.begin - 0.05) };
    }
  }
  return out;
}

export type Foot = 'left' | 'right';

/** Every footfall of the handler, with where the foot points. */
export function handlerFootfalls(run: RunRecord): Readonly<Record<Foot, readonly Contact[]>> {
  const out: Record<Foot, Contact[]> = { left: [], right: [] };
  const home = (foot: Foot, time: number): Contact => {
    const h = handlerAt(run, time);
    const side = foot === 'left' ? 0.1 : -0.1;
    return {
      begin: time,
      end: run.duration + 1,
      x: h.x - side * sine(h.feet),
      y: h.y + side * cosine(h.feet),
      z: 0,
      facing: h.feet,
    };
  };
  const down: Record<Foot, Contact> = { left: home('left', 0), right: home('right', 0) };
  let turn: Foot = 'left';
  let next = 0.1;
  for (let n = 0; n * STEP < run.duration; n++) {
    const time = n * STEP;
    if (time < next) continue;
    const h = handlerAt(run, time);
    const foot = down[turn];
    const wish = home(turn, time);
    const off = lengthOf(foot.x - wish.x, foot.y - wish.y);
    const twist = Math.abs(wrapAngle(foot.facing - wish.facing));
    if (h.speed < 0.35 && off < 0.12 && twist < 0.35) {
      const other: Foot = turn === 'left' ? 'right' : 'left';
      const w = home(other, time);
      const o = down[other];
      if (lengthOf(o.x - w.x, o.y - w.y) > 0.12 || Math.abs(wrapAngle(o.facing - w.facing)) > 0.35)
        turn = other;
      continue;
    }
    const period = clamp(0.5 - 0.055 * h.speed, 0.27, 0.5);
    const swing = clamp(0.42 - 0.03 * h.speed, 0.3, 0.42);
    const stance = Math.max(0.14, 2 * period - swing);
    const landing = time + swing;
    out[turn].push({ ...foot, end: time });
    down[turn] = { ...home(turn, Math.min(run.duration, landing + 0.5 * stance)), begin: landing };
    turn = turn === 'left' ? 'right' : 'left';
    next = time + period;
  }
  out.left.push(down.left);
  out.right.push(down.right);
  return out;
}

/** Where a foot is: on the ground, or swinging from one touch to the next (`lift` 0 to 1 to 0). */
export function footAt(
  contacts: readonly Contact[],
  time: number,
): { x: number; y: number; z: number; facing: number; lift: number; share: number } {
  let low = 0;
  let high = contacts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((contacts[middle]?.begin ?? 0) <= time) low = middle;
    else high = middle - 1;
  }
  const a = contacts[low];
  const b = contacts[low + 1];
  if (!a) return { x: 0, y: 0, z: 0, facing: 0, lift: 0, share: 0 };
  if (time <= a.end || !b) return { x: a.x, y: a.y, z: a.z, facing: a.facing, lift: 0, share: 0 };
  const u = clamp((time - a.end) / Math.max(1e-6, b.begin - a.end), 0, 1);
  const e = u * u * (3 - 2 * u);
  return {
    x: a.x + (b.x - a.x) * e,
    y: a.y + (b.y - a.y) * e,
    z: a.z + (b.z - a.z) * e,
    facing: wrapAngle(a.facing + wrapAngle(b.facing - a.facing) * e),
    lift: sine(Math.PI * u),
    share: u,
  };
}
