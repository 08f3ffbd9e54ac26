import { describe, expect, test } from 'vitest';
import { runB } from '../../../scripts/simulator/demoRuns.ts';
import { dogParameters, valueOf } from '../../../scripts/simulator/parameters.ts';
import { STEP, type RunRecord } from '../../../scripts/simulator/run/record.ts';
import { simulateRun } from '../../../scripts/simulator/run/run.ts';
import { Dog } from '../../../src/line/dog.ts';
import { assumedRunner } from '../../../src/line/runner.ts';
import {
  fitRunner,
  fittedFigures,
  ownFigures,
  type MeasuredRun,
  type MeasuredTurn,
} from '../../../src/line/runnerFit.ts';
import type { Quantity } from '../../../src/time/quantity.ts';

const metres = (value: number, plusMinus = 0.05): Quantity => ({ value, plusMinus, unit: 'm' });
const seconds = (value: number, plusMinus = 1 / 60): Quantity => ({ value, plusMinus, unit: 's' });
const speed = (value: number, plusMinus = 0.1): Quantity => ({ value, plusMinus, unit: 'm/s' });

const nothing: MeasuredRun = { stretches: [], taken: [], turns: [] };
const taken = { seconds: null, metres: null, takeOff: null, landing: null } as const;

/** How far apart the moments are between which a bend is looked at, seconds. */
const window = 0.3;

/** A run of the simulator as a perfect camera would measure it. */
function measured({ dog, notices, tries, course }: RunRecord): MeasuredRun {
  const i = (t: number): number => Math.round(t / STEP);
  const at = (t: number) => ({ x: dog.x[i(t)] ?? NaN, y: dog.y[i(t)] ?? NaN });
  const far = (a: { x: number; y: number }, b: { x: number; y: number }): number =>
    Math.hypot(a.x - b.x, a.y - b.y);
  const way = (from: number, to: number): number => {
    let sum = 0;
    for (let k = i(from); k < i(to); k++) sum += far(at(k * STEP), at((k + 1) * STEP));
    return sum;
  };
  const turned = (from: number, to: number): number => {
    let sum = 0;
    for (let k = i(from); k < i(to); k++) {
      const d = (dog.heading[k + 1] ?? 0) - (dog.heading[k] ?? 0);
      sum += Math.atan2(Math.sin(d), Math.cos(d));
    }
    return (sum * 180) / Math.PI;
  };
  const fastest = (from: number, to: number): number => {
    let best = 0;
    for (let t = from; t + window <= to; t += 0.02) best = Math.max(best, way(t, t + window) / window);
    return best;
  };
  const time = (kind: string, place: number): number | undefined =>
    notices.findLast((n) => n.kind === kind && n.place === place)?.at;
  const places = course.places.flatMap(({ number, obstacleId }) => {
    const obstacle = course.obstacles.find((o) => o.id === obstacleId);
    const [from, to] = [time('in', number), time('out', number)];
    return obstacle && from !== undefined && to !== undefined ? [{ obstacle, from, to }] : [];
  });
  const begins = tries.at(-1)?.step ?? NaN;
  const ways = places.map(({ from }, k) => ({ from: places[k - 1]?.to ?? begins, to: from, first: k === 0 }));
  return {
    stretches: ways.map(({ from, to, first }) => ({
      metres: metres(way(from, to)),
      seconds: seconds(to - from),
      turnDegrees: turned(from, to),
      fastest: speed(fastest(from, to)),
      fromStand: first,
    })),
    taken: places.map(({ obstacle: { kind, x, y }, from, to }) => {
      const flown = kind === 'barJump' ? far(at(from), { x, y }) : undefined;
      return {
        kind,
        seconds: seconds(to - from),
        metres: metres(way(from, to)),
        takeOff: flown === undefined ? null : metres(flown),
        landing: flown === undefined ? null : metres(far(at(to), { x, y })),
      };
    }),
    turns: ways.flatMap(({ from, to }): MeasuredTurn[] => {
      const looks = Array.from({ length: Math.max(0, Math.floor((to - from - window) / 0.02)) }, (_, k) => {
        const [a, b] = [from + k * 0.02, from + k * 0.02 + window];
        const bend = Math.abs(turned(a, b)) * (Math.PI / 180);
        return { radius: way(a, b) / bend, speed: way(a, b) / window, bend };
      });
      const tightest = looks.reduce((best, l) => (l.bend > best.bend ? l : best), {
        ...{ radius: NaN, speed: NaN, bend: 0.25 },
      });
      return Number.isNaN(tightest.radius)
        ? []
        : [{ speed: speed(tightest.speed), radius: metres(tightest.radius) }];
    }),
  };
}

describe('a dog of the simulator, whose figures are known', () => {
  const runs = [1, 2, 3, 4].map((seed) => measured(simulateRun({ ...runB, seed })));
  const fit = fitRunner(runs);

  test('her weave speed comes out as it is; the fastest she ran between obstacles on this course stays below her top', () => {
    const weaves = runB.traits?.weaveSpeed ?? NaN;
    expect(fit.weaveSpeed).toMatchObject({ count: 4, from: 'runs' });
    expect(Math.abs(fit.weaveSpeed.value - weaves)).toBeLessThan(0.05 * weaves);
    const top = runB.traits?.topSpeed ?? NaN;
    expect(fit.topSpeed.from).toBe('runs');
    expect(fit.topSpeed.value).toBeGreaterThan(0.75 * top);
    expect(fit.topSpeed.value).toBeLessThanOrEqual(1.01 * top);
  });

  test('her grip is what the ground gave her at most, and she turns no tighter than her tightest', () => {
    const ground = valueOf(dogParameters.lateralAcceleration);
    expect(fit.grip.from).toBe('runs');
    expect(fit.grip.value).toBeGreaterThan(0.6 * ground);
    expect(fit.grip.value).toBeLessThan(1.1 * ground);
    const tightest = Math.min(...runs.flatMap((r) => r.turns.map((t) => t.radius.value)));
    expect(fit.leastRadius.value).toBeGreaterThanOrEqual(tightest);
    expect(fit.leastRadius.value).toBeLessThan(2.5 * tightest);
  });

  test('what she flies is what she flew, and no more is told than was seen often enough', () => {
    const jumps = runs.flatMap((r) => r.taken.filter((t) => t.takeOff !== null));
    expect(fit.takeOff.count).toBe(jumps.length);
    const flights = jumps.map((t) => (t.takeOff?.value ?? NaN) + (t.landing?.value ?? NaN));
    const mean = flights.reduce((sum, f) => sum + f, 0) / flights.length;
    expect(fit.takeOff.value + fit.landing.value).toBeCloseTo(mean, 9);
    expect(ownFigures(fit)).toHaveProperty('dogWalkSpeed');
    // As her library keeps her: within all bounds.
    expect(Dog.safeParse({ id: 'd', name: 'Fen', runner: ownFigures(fit) }).success).toBe(true);
    // One run is not enough for what stands once on a course.
    const one = fitRunner(runs.slice(0, 1));
    expect(one.weaveSpeed).toMatchObject({
      ...{ value: assumedRunner.weaveSpeed.usual, plusMinus: null, count: 1, needed: 3, from: 'assumed' },
    });
    expect(ownFigures(one)).not.toHaveProperty('weaveSpeed');
  });
});

describe('in closed form', () => {
  const tunnel = (s: number) => ({
    ...taken,
    kind: 'tunnel' as const,
    metres: metres(5, 0),
    seconds: seconds(s, 0),
  });

  test('nothing measured is all as assumed', () => {
    for (const none of [[], [nothing], [nothing, nothing]]) {
      const fit = fitRunner(none);
      for (const figure of fittedFigures)
        expect(fit[figure]).toMatchObject({ value: assumedRunner[figure].usual, count: 0, from: 'assumed' });
      expect(ownFigures(fit)).toEqual({});
    }
  });

  test('a mean has the band of its spread by Student’s t, and no less than one measurement is off by', () => {
    const fit = fitRunner([{ ...nothing, taken: [1, 1.25, 0.8].map(tunnel) }]);
    // 5, 4 and 6.25 m/s: mean 61/12, spread 1.127312; t for two degrees is 4.303.
    expect(fit.tunnelSpeed.value).toBeCloseTo(61 / 12, 9);
    expect(fit.tunnelSpeed.plusMinus).toBeCloseTo((4.303 * 1.127312) / Math.sqrt(3), 4);
    const alike = fitRunner([
      { ...nothing, taken: [1, 1, 1].map((s) => ({ ...tunnel(s), seconds: seconds(s, 0.1) })) },
    ]);
    expect(alike.tunnelSpeed).toMatchObject({ value: 5, count: 3 });
    expect(alike.tunnelSpeed.plusMinus).toBeCloseTo(0.5, 9);
  });

  test('picking up from standing: s = a t² / 2 where top speed is not reached, and past it v / 2a + s / v', () => {
    const open = {
      turnDegrees: 0,
      fastest: null,
      fromStand: false,
      metres: metres(12, 0),
      seconds: seconds(2, 0),
    };
    const from = (m: number, s: number) => ({
      ...open,
      fromStand: true,
      metres: metres(m, 0),
      seconds: seconds(s, 0),
    });
    const fitted = (m: number, s: number) =>
      fitRunner([
        {
          ...nothing,
          stretches: [...Array.from({ length: 9 }, () => open), from(m, s), from(m, s), from(m, s)],
        },
      ]);
    // Top speed 6: at 4 m/s² 4.5 m take 1.5 s; ten metres more 10/6 s.
    expect(fitted(4.5, 1.5).topSpeed.value).toBe(6);
    expect(fitted(4.5, 1.5).pickUp.value).toBeCloseTo(4, 9);
    expect(fitted(14.5, 1.5 + 10 / 6).pickUp.value).toBeCloseTo(4, 9);
    expect(fitted(2, 1).pickUp.value).toBeCloseTo(4, 9);
  });

  test('turns: v² / r of the sharpest third', () => {
    const turn = (v: number, r: number): MeasuredTurn => ({ speed: speed(v, 0), radius: metres(r, 0) });
    const sharp = Array.from({ length: 3 }, () => turn(4, 2));
    const gentle = Array.from({ length: 6 }, () => turn(4, 4));
    const fit = fitRunner([{ ...nothing, turns: [...gentle, ...sharp] }]);
    expect(fit.grip).toMatchObject({ value: 8, count: 9, needed: 9, from: 'runs' });
    expect(fit.leastRadius).toMatchObject({ value: 2, count: 9 });
    expect(fitRunner([{ ...nothing, turns: [...gentle, ...sharp].slice(1) }]).grip).toMatchObject({
      ...{ count: 8, from: 'assumed' },
    });
  });

  test('slips and what is no number are left out', () => {
    const wrong = [0, NaN, Infinity, -1, 1e-9, 1e9].map(tunnel);
    const fit = fitRunner([{ ...nothing, taken: [...wrong, tunnel(1), tunnel(1)] }]);
    expect(fit.tunnelSpeed).toMatchObject({ count: 2, from: 'assumed' });
    const unsure = [NaN, -1, Infinity].map((pm) => ({ ...tunnel(1), metres: metres(5, pm) }));
    expect(fitRunner([{ ...nothing, taken: unsure }]).tunnelSpeed.count).toBe(0);
  });
});
