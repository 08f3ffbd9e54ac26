import { dogAt } from '../../../scripts/simulator/actors/trace.ts';
import { pawContacts } from '../../../scripts/simulator/actors/footfalls.ts';
import { Doing } from '../../../scripts/simulator/actors/dogWorld.ts';
import { randomStream, type RandomStream } from '../../../scripts/simulator/base/random.ts';
import { cameraMatrix, type Camera, type CameraMatrix } from '../../../scripts/simulator/camera/camera.ts';
import { runA } from '../../../scripts/simulator/demoRuns.ts';
import { demoCourse } from '../../../scripts/simulator/ground/demoCourse.ts';
import { simulateRun, type RunOrder } from '../../../scripts/simulator/run/run.ts';
import type { RunRecord } from '../../../scripts/simulator/run/record.ts';

export const picture = { width: 1920, height: 1080 } as const;
/** Pixels, one standard deviation, of every click in either direction. */
export const clickNoise = 2;

/** What the map knows of the course and a picture shows: feet of wings, poles, corners of contacts, corners of the ring. */
export const knownPoints: readonly { readonly x: number; readonly y: number }[] = [
  ...demoCourse.obstacles.flatMap((o) => {
    const [c, s] = [Math.cos(o.angle), Math.sin(o.angle)];
    const at = (along: number, side: number) => ({
      x: o.x + along * c - side * s,
      y: o.y + along * s + side * c,
    });
    const size = (name: string): number => o.sizes[name] ?? 0;
    switch (o.kind) {
      case 'barJump':
      case 'spread':
        return [-1, 1].flatMap((side) => [
          at(0, (side * size('bar')) / 2),
          at(0, side * (size('bar') / 2 + size('wingWidth'))),
        ]);
      case 'tyre':
        return [-1, 1].map((side) => at(0, (side * size('frameWidth')) / 2));
      case 'weavePoles':
        return Array.from({ length: size('poles') }, (_, i) => at(i * size('spacing'), 0));
      case 'aFrame':
      case 'dogWalk':
      case 'seeSaw':
        return [-1, 1].flatMap((end) =>
          [-1, 1].map((side) => at((end * size('footprint')) / 2, (side * size('width')) / 2)),
        );
      default:
        return [-1, 1].map((side) => at(0, (side * size('diameter')) / 2));
    }
  }),
  { x: 0, y: 0 },
  { x: demoCourse.ring.length, y: 0 },
  { x: 0, y: demoCourse.ring.depth },
  { x: demoCourse.ring.length, y: demoCourse.ring.depth },
];

/** The numbers of weave poles. */
const weavePlaces = demoCourse.places.flatMap(({ number, obstacleId }) =>
  demoCourse.obstacles.some((o) => o.id === obstacleId && o.kind === 'weavePoles') ? [number] : [],
);

/** A camera on a stand beside the ring's long side, as high as asked, that looks over it. */
export function cameraOf(height: number, random: RandomStream): Camera {
  const field = (random.between(60, 75) * Math.PI) / 180;
  const focal = picture.width / 2 / Math.tan(field / 2);
  const at = { x: random.between(14, 26), y: random.between(-12, -7), z: height };
  const to = { x: random.between(17, 23), y: 9 };
  const away = Math.hypot(to.x - at.x, to.y - at.y);
  return {
    at,
    pan: Math.atan2(to.x - at.x, to.y - at.y),
    tilt: Math.atan2(height, away),
    roll: random.between(-0.02, 0.02),
    focal,
    ...picture,
  };
}

export interface Pixel {
  readonly x: number;
  readonly y: number;
}

/** Where a camera sees a point; null outside of its picture. */
export function seen(m: CameraMatrix, p: { x: number; y: number; z?: number }): Pixel | null {
  const row = (k: 0 | 1 | 2): number => m[k][0] * p.x + m[k][1] * p.y + m[k][2] * (p.z ?? 0) + m[k][3];
  const w = row(2);
  const at = { x: row(0) / w, y: row(1) / w };
  const inside = at.x >= 0 && at.y >= 0 && at.x < picture.width && at.y < picture.height;
  return w > 0.1 && inside ? at : null;
}

export const blurred = (p: Pixel, random: RandomStream, noise = clickNoise): Pixel => ({
  x: p.x + noise * random.bell(),
  y: p.y + noise * random.bell(),
});

/** Where the left front paw meets the ground under her, carried along with her body: the point whose line is measured. */
export function pawAt(run: RunRecord, time: number): { x: number; y: number } {
  const d = dogAt(run, time);
  const [c, s] = [Math.cos(d.heading), Math.sin(d.heading)];
  return { x: d.x + 0.22 * c - 0.075 * s, y: d.y + 0.22 * s + 0.075 * c };
}

export interface Run {
  readonly run: RunRecord;
  /** First and last frame of interest: she moves off, and the last landing. */
  readonly flights: readonly { readonly from: number; readonly to: number }[];
  readonly stretches: readonly { readonly from: number; readonly to: number }[];
  /** Times between weave poles. */
  readonly weaves: readonly { readonly from: number; readonly to: number }[];
  /** Touches of the left front paw on the ground where it can be seen: the moment half way, and the place. */
  readonly touches: readonly { readonly at: number; readonly x: number; readonly y: number }[];
}

/** A dog and a day drawn from a seed: with the demo's own dog and nothing left to chance every seed is the same run. */
export function orderOf(seed: number): RunOrder {
  const { traits: _, ...rest } = runA;
  return { ...rest, seed, happenings: { natural: true } };
}

export const runOf = (seed: number): Run => runBy(orderOf(seed));

/** A run as its order has it. */
export function runBy(order: RunOrder): Run {
  const run = simulateRun(order);
  const notices = run.notices.toSorted((a, b) => a.at - b.at);
  const flights = notices.flatMap((n, i) => {
    if (n.kind !== 'takeOff') return [];
    const landing = notices.slice(i).find((l) => l.kind === 'landing');
    return landing ? [{ from: n.at, to: landing.at }] : [];
  });
  const stretches = notices.flatMap((n) => {
    const next = n.kind === 'out' && notices.find((m) => m.kind === 'in' && m.at > n.at);
    return next ? [{ from: n.at, to: next.at }] : [];
  });
  const weaves = notices.flatMap((n) => {
    if (n.kind !== 'in' || !weavePlaces.includes(n.place)) return [];
    const out = notices.find((m) => m.kind === 'out' && m.at > n.at);
    return out ? [{ from: n.at, to: out.at }] : [];
  });
  const touches = pawContacts(run).leftFront.flatMap((c) => {
    const at = (c.begin + c.end) / 2;
    const { doing } = dogAt(run, at);
    const hidden = doing === Doing.tunnel || doing === Doing.contact || doing === Doing.stay;
    return c.z > 0.005 || hidden ? [] : [{ at, x: c.x, y: c.y }];
  });
  return { run, flights, stretches, weaves, touches };
}

/** The camera of a run's group and the pixels of everything that is clicked in it. */
export interface Shot {
  readonly camera: Camera;
  readonly matrix: CameraMatrix;
  /** Forty known points that the picture shows, spread over it from the first on, each clicked once. */
  readonly known: readonly { readonly from: Pixel; readonly to: Pixel }[];
  readonly random: RandomStream;
}

/** A shot that shows at least `least` known points. */
export function shotOf(height: number, seed: number, least: number): Shot {
  const random = randomStream(seed).branch(`camera ${height}`);
  for (;;) {
    const camera = cameraOf(height, random);
    const matrix = cameraMatrix(camera);
    const inSight = knownPoints.flatMap((from) => {
      const to = seen(matrix, from);
      return to ? [{ from, to }] : [];
    });
    if (inSight.length < least) continue;
    const known = spread(inSight, random).map((pair) => ({ from: pair.from, to: blurred(pair.to, random) }));
    return { camera, matrix, known, random };
  }
}

/** The first drawn, each next one furthest in the picture from those before: a coach clicks here and there, as asked. */
function spread<T extends { readonly to: Pixel }>(pairs: readonly T[], random: RandomStream): T[] {
  const [first] = pairs.slice(random.whole(pairs.length));
  const out = first ? [first] : [];
  const far = (p: T): number => Math.min(...out.map((o) => Math.hypot(o.to.x - p.to.x, o.to.y - p.to.y)));
  while (out.length < Math.min(40, pairs.length)) {
    const next = pairs.reduce((a, b) => (far(b) > far(a) ? b : a));
    out.push(next);
  }
  return out;
}
