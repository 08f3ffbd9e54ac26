import { describe, expect, it } from 'vitest';
import { footAt, handlerFootfalls, pawContacts, paws } from '../../../scripts/simulator/actors/footfalls.ts';
import { dogBodyAt } from '../../../scripts/simulator/actors/dogBody.ts';
import { Doing } from '../../../scripts/simulator/actors/dogWorld.ts';
import { dogAt } from '../../../scripts/simulator/actors/trace.ts';
import {
  dogParameters,
  footings,
  gravity,
  handlerParameters,
  valueOf,
  type Footing,
} from '../../../scripts/simulator/parameters.ts';
import { STEP } from '../../../scripts/simulator/run/record.ts';
import { simulateRun } from '../../../scripts/simulator/run/run.ts';
import { lineLengths } from '../../../scripts/simulator/truth/lineLengths.ts';
import { drawnOrder, drawnRuns } from './runs.ts';

const runs = drawnRuns(24);
/** Second differences are taken over this many samples each way (16 ms). */
const K = 4;

/** Largest horizontal acceleration of the dog, by what she is doing, away from changes of what she does. */
function accelerations(of: number, these = runs): { most: number; count: number } {
  let most = 0;
  let count = 0;
  for (const run of these) {
    const { x, y, doing, index } = run.dog;
    for (let i = K; i + K < run.samples; i++) {
      let same = true;
      for (let j = -K; j <= K; j++) same &&= doing[i + j] === of && index[i + j] === index[i];
      if (!same) continue;
      const ax = ((x[i + K] ?? 0) - 2 * (x[i] ?? 0) + (x[i - K] ?? 0)) / (K * STEP) ** 2;
      const ay = ((y[i + K] ?? 0) - 2 * (y[i] ?? 0) + (y[i - K] ?? 0)) / (K * STEP) ** 2;
      most = Math.max(most, Math.hypot(ax, ay));
      count++;
    }
  }
  return { most, count };
}

describe('the dog as a body', () => {
  const grip = valueOf(dogParameters.lateralAcceleration);

  it('turns and brakes within her grip on the grass', () => {
    const { most, count } = accelerations(Doing.gallop);
    expect(count).toBeGreaterThan(50_000);
    // Turning and braking share the grip; a fifth more than one of them alone is what both can reach together.
    expect(most).toBeLessThanOrEqual(1.25 * grip);
    expect(most).toBeGreaterThan(0.7 * grip);
  });

  it.each(Object.keys(footings) as Footing[])(
    'on %s she turns and brakes within the grip it gives',
    (footing) => {
      const on = (seed: number) => {
        const order = drawnOrder(seed);
        return simulateRun({ ...order, course: { ...order.course, footing } });
      };
      const these = Array.from({ length: 8 }, (_, seed) => on(seed));
      const hold = valueOf(footings[footing]);
      const { most } = accelerations(Doing.gallop, these);
      // A landing costs the same speed on any ground: a little more than the bound on dry grass.
      expect(most).toBeLessThanOrEqual(1.35 * grip * hold);
      expect(most).toBeGreaterThan(0.7 * grip * hold);
    },
  );

  it('a slippery ring costs time: the same dogs are slower over the same stretches', () => {
    const stretchTime = (footing: Footing): number => {
      let total = 0;
      for (let seed = 0; seed < 8; seed++) {
        const order = drawnOrder(seed);
        const run = simulateRun({
          ...order,
          happenings: { natural: false },
          course: { ...order.course, footing },
        });
        for (const stretch of lineLengths(run)) if (stretch.from <= 3) total += stretch.time;
      }
      return total;
    };
    expect(stretchTime('wetGrass')).toBeGreaterThan(stretchTime('dryGrass'));
    expect(stretchTime('artificialTurf')).toBeLessThan(stretchTime('wetGrass'));
  });

  it('bends no sharper than her smallest turn, and no sharper than speed allows', () => {
    const tightest = 1 / valueOf(dogParameters.smallestTurn);
    let sharpest = 0;
    let strongest = 0;
    for (const run of runs) {
      const { heading, speed, doing } = run.dog;
      for (let i = 1; i < run.samples; i++) {
        if (doing[i] !== Doing.gallop || doing[i - 1] !== Doing.gallop) continue;
        const v = speed[i - 1] ?? 0;
        if (v < 0.8) continue;
        let turn = (heading[i] ?? 0) - (heading[i - 1] ?? 0);
        if (turn > Math.PI) turn -= 2 * Math.PI;
        if (turn < -Math.PI) turn += 2 * Math.PI;
        const bend = Math.abs(turn) / (v * STEP);
        sharpest = Math.max(sharpest, bend);
        strongest = Math.max(strongest, bend * v * v);
      }
    }
    expect(sharpest).toBeLessThanOrEqual(tightest * 1.02);
    expect(strongest).toBeLessThanOrEqual(grip * 1.02);
  });

  it('keeps within her own bounds in tunnels, in the poles and on contact equipment', () => {
    expect(accelerations(Doing.tunnel).most).toBeLessThanOrEqual(
      1.15 * valueOf(dogParameters.tunnelLateralAcceleration),
    );
    expect(accelerations(Doing.weave).most).toBeLessThanOrEqual(
      1.1 * valueOf(dogParameters.weaveLateralAcceleration),
    );
    expect(accelerations(Doing.contact).most).toBeLessThanOrEqual(1.25 * grip);
  });

  it('flies straight, at even speed, and falls with gravity', () => {
    const g = valueOf(gravity);
    let flights = 0;
    let off = 0;
    for (const run of runs) {
      const { x, y, z, doing } = run.dog;
      for (let i = 1; i + 1 < run.samples; i++) {
        if (doing[i - 1] !== Doing.flight || doing[i] !== Doing.flight || doing[i + 1] !== Doing.flight)
          continue;
        const second = (v: Float64Array): number =>
          ((v[i + 1] ?? 0) - 2 * (v[i] ?? 0) + (v[i - 1] ?? 0)) / (STEP * STEP);
        off = Math.max(off, Math.abs(second(x)), Math.abs(second(y)), Math.abs(second(z) + g));
        flights++;
      }
    }
    expect(off).toBeLessThan(1e-6);
    expect(flights).toBeGreaterThan(10_000);
  });

  it('is never faster than her top speed allows', () => {
    for (const run of runs) {
      expect(run.dog.speed.reduce((a, b) => Math.max(a, b), 0)).toBeLessThanOrEqual(
        1.04 * run.traits.topSpeed + 1e-9,
      );
    }
  });

  it('stays inside the ring and passes the bars between the wings', () => {
    for (const run of runs) {
      expect(run.dog.x.every((x) => x > 0 && x < run.course.ring.length)).toBe(true);
      expect(run.dog.y.every((y) => y > 0 && y < run.course.ring.depth)).toBe(true);
      for (const taken of run.notices.filter((n) => n.kind === 'takeOff')) {
        const place = run.course.places[taken.place - 1];
        const o = run.course.obstacles.find((one) => one.id === place?.obstacleId);
        const down = run.notices.find((n) => n.kind === 'landing' && n.place === taken.place);
        if (!o || !down) throw new Error('A jump was taken that is not on the course or never landed.');
        const a = dogAt(run, taken.at);
        const b = dogAt(run, down.at);
        const side = (p: { x: number; y: number }): number =>
          (p.x - o.x) * Math.cos(o.angle) + (p.y - o.y) * Math.sin(o.angle);
        const u = side(a) / (side(a) - side(b));
        expect(u).toBeGreaterThan(0);
        expect(u).toBeLessThan(1);
        const cx = a.x + (b.x - a.x) * u - o.x;
        const cy = a.y + (b.y - a.y) * u - o.y;
        expect(Math.hypot(cx, cy)).toBeLessThan(0.65);
      }
    }
  });
});

describe('paws and feet', () => {
  it('the last hind paw leaves at take-off and the first front paw touches at landing', () => {
    for (const run of runs.slice(0, 8)) {
      const contacts = pawContacts(run);
      for (const n of run.notices) {
        if (n.kind === 'takeOff') {
          const hind = [...contacts.leftHind, ...contacts.rightHind];
          expect(Math.min(...hind.map((c) => Math.abs(c.end - n.at)))).toBeLessThan(1e-9);
        }
        if (n.kind === 'landing') {
          const front = [...contacts.leftFront, ...contacts.rightFront];
          expect(Math.min(...front.map((c) => Math.abs(c.begin - n.at)))).toBeLessThan(1e-9);
        }
      }
      for (const n of run.notices.filter((one) => one.kind === 'takeOff')) {
        const down = run.notices.find((one) => one.kind === 'landing' && one.place === n.place);
        for (const paw of paws) {
          const inAir = contacts[paw].filter((c) => c.begin < (down?.at ?? 0) - 1e-9 && c.end > n.at + 1e-9);
          expect(inAir, `${paw} on the ground over ${n.place}`).toEqual([]);
        }
      }
    }
  });

  it('a paw in contact stands on the grass or on the equipment, and does not slide', () => {
    for (const run of runs.slice(0, 4)) {
      const contacts = pawContacts(run);
      for (const paw of paws) {
        for (const c of contacts[paw]) {
          expect(c.z).toBeGreaterThanOrEqual(0);
          expect(c.end).toBeGreaterThan(c.begin);
          const middle = (c.begin + c.end) / 2;
          if (middle > run.duration) continue;
          const foot = footAt(contacts[paw], middle);
          expect(Math.hypot(foot.x - c.x, foot.y - c.y)).toBeLessThan(1e-9);
          const dog = dogAt(run, middle);
          if (dog.doing !== Doing.contact && dog.doing !== Doing.flight) expect(c.z).toBe(0);
          // While she gets up from sitting, her hind paws are still being set.
          if (run.tries.some((t) => t.step !== null && Math.abs(middle - t.step) < 0.3)) continue;
          if (dog.doing !== Doing.gallop) continue;
          const body = dogBodyAt(run, contacts, middle);
          const drawn = body.limbs[paw].paw;
          expect(Math.hypot(drawn.x - c.x, drawn.y - c.y, drawn.z - c.z)).toBeLessThan(0.005);
        }
      }
    }
  });

  it('no paw is in two contacts at once', () => {
    for (const run of runs.slice(0, 8)) {
      const contacts = pawContacts(run);
      for (const paw of paws) {
        const list = contacts[paw];
        for (let i = 1; i < list.length; i++) {
          expect(list[i]?.begin ?? 0).toBeGreaterThanOrEqual(list[i - 1]?.end ?? Infinity);
        }
      }
    }
  });

  it('the handler runs within her speed and turns her feet as she steps', () => {
    for (const run of runs.slice(0, 8)) {
      const { speed, x, y } = run.handler;
      expect(speed.reduce((a, b) => Math.max(a, b), 0)).toBeLessThanOrEqual(
        valueOf(handlerParameters.topSpeed) + 1e-9,
      );
      let most = 0;
      for (let i = K; i + K < run.samples; i++) {
        const ax = ((x[i + K] ?? 0) - 2 * (x[i] ?? 0) + (x[i - K] ?? 0)) / (K * STEP) ** 2;
        const ay = ((y[i + K] ?? 0) - 2 * (y[i] ?? 0) + (y[i - K] ?? 0)) / (K * STEP) ** 2;
        most = Math.max(most, Math.hypot(ax, ay));
      }
      expect(most).toBeLessThanOrEqual(1.02 * valueOf(handlerParameters.braking));
      const falls = handlerFootfalls(run);
      for (const foot of ['left', 'right'] as const) {
        expect(falls[foot].length).toBeGreaterThan(20);
        for (const fall of falls[foot]) {
          const i = Math.min(run.samples - 1, Math.round(fall.begin / STEP));
          const far = Math.hypot(fall.x - (x[i] ?? 0), fall.y - (y[i] ?? 0));
          expect(far).toBeLessThan(1.3);
        }
      }
    }
  });
});
