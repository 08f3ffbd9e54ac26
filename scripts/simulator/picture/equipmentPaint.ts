import type { SKRSContext2D } from '@napi-rs/canvas';
import { cosine, sine } from '../base/exact.ts';
import type { Point3 } from '../camera/camera.ts';
import type { Course, GroundPoint, Obstacle } from '../ground/equipment.ts';
import { conesOf } from '../ground/cones.ts';
import { surfaceHeight } from '../ground/gate.ts';
import { tunnelLine } from '../ground/tunnelLine.ts';
import type { Eye, Paintable } from './strokes.ts';
import { boxAround, drawNumber, face, groundDepth, rod, shade, shadowOf } from './strokes.ts';

/** What may change on an obstacle during a run. */
export interface EquipmentState {
  /** Seconds since the bar was knocked, per obstacle id. */
  readonly fallen: ReadonlyMap<string, number>;
  /** See-saw tilt, 0 to 1. */
  readonly tipped: number;
}

const colours: Readonly<Record<string, readonly [string, string]>> = {
  'jump-white': ['#f3f0e8', '#c9482f'],
  'jump-blue': ['#2f6fb3', '#f3f0e8'],
  'jump-sun': ['#e8b428', '#f3f0e8'],
  'jump-gate': ['#7a5a3c', '#f0d9a8'],
  spread: ['#7b4fa0', '#f3f0e8'],
  'jump-rose': ['#d9638a', '#f3f0e8'],
  'jump-fern': ['#2d7d55', '#f3f0e8'],
  'jump-oak': ['#a86b32', '#f3f0e8'],
  tyre: ['#d7432c', '#f2d13c'],
  'jump-plum': ['#6b3a5d', '#f3f0e8'],
  'tunnel-red': ['#c8402f', '#a33224'],
  'tunnel-blue': ['#2f69b0', '#24528b'],
};

const SHADE = '#16281250';

interface Frame {
  at(along: number, across: number, z: number): Point3;
}

function frameOf(o: Obstacle): Frame {
  const c = cosine(o.angle);
  const s = sine(o.angle);
  return {
    at: (along, across, z) => ({ x: o.x + along * c - across * s, y: o.y + along * s + across * c, z }),
  };
}

function item(
  eye: Eye,
  where: Point3,
  paint: (ctx: SKRSContext2D) => void,
  reach = 1,
  tall = 1.5,
): Paintable {
  return { depth: groundDepth(eye, where), box: () => boxAround(eye, where, reach, tall), paint };
}

function stripedBar(
  ctx: SKRSContext2D,
  eye: Eye,
  a: Point3,
  b: Point3,
  pair: readonly [string, string],
): void {
  const parts = 6;
  for (let k = 0; k < parts; k++) {
    const at = (u: number): Point3 => ({
      x: a.x + (b.x - a.x) * u,
      y: a.y + (b.y - a.y) * u,
      z: a.z + (b.z - a.z) * u,
    });
    rod(ctx, eye, at(k / parts), at((k + 1) / parts), 0.025, 0.025, k % 2 === 0 ? pair[1] : pair[0]);
  }
}

function wing(
  ctx: SKRSContext2D,
  eye: Eye,
  f: Frame,
  along: number,
  inner: number,
  o: Obstacle,
  pair: readonly [string, string],
): void {
  const wide = (o.sizes['wingWidth'] ?? 0.5) * Math.sign(inner);
  const tall = o.sizes['wingHeight'] ?? 1;
  const outer = inner + wide;
  const low = tall * 0.72;
  face(
    ctx,
    eye,
    [f.at(along, inner, 0.08), f.at(along, outer, 0.08), f.at(along, outer, low), f.at(along, inner, tall)],
    pair[0],
    '#00000030',
  );
  face(
    ctx,
    eye,
    [
      f.at(along, inner + wide * 0.22, 0.3),
      f.at(along, inner + wide * 0.8, 0.3),
      f.at(along, inner + wide * 0.8, low * 0.8),
      f.at(along, inner + wide * 0.22, tall * 0.78),
    ],
    `${pair[1]}d0`,
  );
  for (const x of [inner, outer]) {
    rod(ctx, eye, f.at(along - 0.22, x, 0.03), f.at(along + 0.22, x, 0.03), 0.025, 0.025, '#e9e4d6');
    rod(
      ctx,
      eye,
      f.at(along, x, 0),
      f.at(along, x, x === inner ? tall + 0.06 : low + 0.04),
      0.028,
      0.028,
      '#f3efe3',
    );
  }
}

function barHeight(rest: number, since: number | undefined): number {
  if (since === undefined || since < 0) return rest;
  return Math.max(0.03, rest - 4.9 * since * since);
}

function jumpItems(eye: Eye, o: Obstacle, state: EquipmentState): Paintable[] {
  const f = frameOf(o);
  const pair = colours[o.id] ?? ['#888888', '#ffffff'];
  const half = (o.sizes['bar'] ?? 1.3) / 2;
  const out: Paintable[] = [];
  const since = state.fallen.get(o.id);
  const planes = o.kind === 'spread' ? [-(o.sizes['depth'] ?? 0.5) / 2, (o.sizes['depth'] ?? 0.5) / 2] : [0];
  planes.forEach((along, k) => {
    for (const side of [-half, half]) {
      out.push(item(eye, f.at(along, side * 1.35, 0), (ctx) => wing(ctx, eye, f, along, side, o, pair)));
    }
    const full = o.sizes['height'] ?? 0.55;
    const rest = o.kind === 'spread' && k === 0 ? (o.sizes['frontHeight'] ?? 0.4) : full;
    const drop = k === planes.length - 1 ? since : undefined;
    out.push(
      item(eye, f.at(along, 0, 0), (ctx) => {
        const z = barHeight(rest, drop);
        const slip = drop === undefined ? 0 : Math.min(0.35, 0.9 * drop);
        stripedBar(
          ctx,
          eye,
          f.at(along + slip, -half, z),
          f.at(along + slip * 1.6, half, barHeight(rest, drop === undefined ? drop : drop - 0.04)),
          pair,
        );
        if (o.kind === 'barJump')
          stripedBar(ctx, eye, f.at(along, -half, 0.24), f.at(along, half, 0.24), [pair[1], pair[0]]);
      }),
    );
  });
  return out;
}

function tyreItems(eye: Eye, o: Obstacle): Paintable[] {
  const f = frameOf(o);
  const wide = (o.sizes['frameWidth'] ?? 1.5) / 2;
  const r = (o.sizes['aperture'] ?? 0.55) / 2 + 0.06;
  const centre = o.sizes['centre'] ?? 0.8;
  const halfRing =
    (sign: 1 | -1) =>
    (ctx: SKRSContext2D): void => {
      for (let k = 0; k < 12; k++) {
        const p = (j: number): Point3 => {
          const a = -Math.PI / 2 + (sign * j * Math.PI) / 12;
          return f.at(0, r * Math.cos(a), centre + r * Math.sin(a));
        };
        rod(ctx, eye, p(k), p(k + 1), 0.065, 0.065, k % 4 < 2 ? '#d7432c' : '#f2d13c');
      }
      const side = sign * wide;
      rod(ctx, eye, f.at(0, side, 0), f.at(0, side, 1.35), 0.035, 0.035, '#f3efe3');
      rod(ctx, eye, f.at(-0.35, side, 0.03), f.at(0.35, side, 0.03), 0.03, 0.03, '#e9e4d6');
      rod(ctx, eye, f.at(0, 0, 1.35), f.at(0, side, 1.35), 0.03, 0.03, '#f3efe3');
      rod(ctx, eye, f.at(0, sign * r, centre), f.at(0, side, centre), 0.012, 0.012, '#e9e4d6');
    };
  return [item(eye, f.at(0, wide, 0), halfRing(1)), item(eye, f.at(0, -wide, 0), halfRing(-1))];
}

interface Tube {
  readonly line: ReturnType<typeof tunnelLine>;
  readonly rings: readonly (readonly Point3[])[];
  ringAt(s: number): Point3[];
}

const tubes = new WeakMap<Obstacle, Tube>();
const AROUND = 16;

function tubeOf(o: Obstacle, bends: readonly GroundPoint[], r: number): Tube {
  const before = tubes.get(o);
  if (before) return before;
  const line = tunnelLine(bends, false);
  const ringAt = (s: number): Point3[] => {
    const p = line.at(s);
    const nx = -sine(p.heading);
    const ny = cosine(p.heading);
    return Array.from({ length: AROUND }, (_, k) => {
      const a = (k / AROUND) * 2 * Math.PI;
      return { x: p.x + nx * r * cosine(a), y: p.y + ny * r * cosine(a), z: r + r * sine(a) };
    });
  };
  const count = Math.ceil(line.length / 0.16);
  const rings = Array.from({ length: count + 1 }, (_, k) => ringAt((k / count) * line.length));
  const tube = { line, rings, ringAt };
  tubes.set(o, tube);
  return tube;
}

function tunnelItems(eye: Eye, o: Obstacle): Paintable[] {
  if (!o.bends) return [];
  const pair = colours[o.id] ?? ['#c8402f', '#a33224'];
  const r = (o.sizes['diameter'] ?? 0.6) / 2;
  const { line, rings, ringAt } = tubeOf(o, o.bends, r);
  const out: Paintable[] = [];
  for (let k = 0; k + 1 < rings.length; k++) {
    const a = rings[k] ?? [];
    const b = rings[k + 1] ?? [];
    const middle = line.at(((k + 0.5) / (rings.length - 1)) * line.length);
    const centre = { x: middle.x, y: middle.y, z: r };
    out.push(
      item(
        eye,
        centre,
        (ctx) => {
          for (let i = 0; i < AROUND; i++) {
            const p = a[i];
            const q = a[(i + 1) % AROUND];
            const s = b[(i + 1) % AROUND];
            const t = b[i];
            if (!p || !q || !s || !t) continue;
            // Only the skin that is turned to the eye.
            const mx = (p.x + s.x) / 2;
            const my = (p.y + s.y) / 2;
            const mz = (p.z + s.z) / 2;
            const facing =
              (mx - centre.x) * (eye.at.x - mx) +
              (my - centre.y) * (eye.at.y - my) +
              (mz - r) * (eye.at.z - mz);
            if (facing < -0.05) continue;
            face(
              ctx,
              eye,
              [p, q, s, t],
              shade(k % 3 === 0 ? pair[1] : pair[0], 0.55 + 0.55 * ((p.z + q.z) / (4 * r))),
            );
          }
        },
        0.7,
        0.8,
      ),
    );
  }
  const mouth = (s: number): Paintable => {
    const ring = ringAt(s);
    const p = line.at(s);
    const inward = s === 0 ? 1 : -1;
    // Seen from outside only: the dark of the mouth.
    const toEye =
      (eye.at.x - p.x) * cosine(p.heading) * -inward + (eye.at.y - p.y) * sine(p.heading) * -inward;
    return item(eye, { x: p.x, y: p.y, z: r }, (ctx) => {
      if (toEye > 0) face(ctx, eye, ring, '#241a18');
      ctx.strokeStyle = pair[1];
      ctx.lineWidth = Math.max(1.4, 0.05 * eye.look({ x: p.x, y: p.y, z: r }).scale);
      ctx.beginPath();
      ring.forEach((c, i) => {
        const q = eye.look(c);
        if (i === 0) ctx.moveTo(q.u, q.v);
        else ctx.lineTo(q.u, q.v);
      });
      ctx.closePath();
      ctx.stroke();
    });
  };
  out.push(mouth(0), mouth(line.length));
  for (const share of [0.22, 0.5, 0.78]) {
    const p = line.at(share * line.length);
    out.push({
      depth: groundDepth(eye, { x: p.x, y: p.y, z: 0 }) - 0.31,
      box: () => boxAround(eye, { x: p.x, y: p.y, z: 0 }, 0.7, 0.9),
      paint: (ctx) => {
        const nx = -sine(p.heading);
        const ny = cosine(p.heading);
        const bow = [-1, -0.7, -0.35, 0, 0.35, 0.7, 1].map((u) => ({
          x: p.x + nx * r * 1.25 * u,
          y: p.y + ny * r * 1.25 * u,
          z: Math.max(0.04, 2.03 * r * Math.sqrt(Math.max(0, 1 - u * u * 0.98))),
        }));
        for (let i = 0; i + 1 < bow.length; i++) {
          const m = bow[i];
          const n = bow[i + 1];
          if (m && n) rod(ctx, eye, m, n, 0.035, 0.035, '#e9dfc8');
        }
      },
    });
  }
  return out;
}

function plankItems(eye: Eye, o: Obstacle, tipped: number): Paintable[] {
  const f = frameOf(o);
  const foot = o.sizes['footprint'] ?? 4;
  const half = foot / 2;
  const w = (o.sizes['width'] ?? 0.3) / 2;
  const zone = o.sizes['contact'] ?? 0.9;
  const at = (along: number, across: number, under = 0): Point3 =>
    f.at(
      along - half,
      across,
      Math.max(0.02, surfaceHeight(o, Math.min(along, foot - 1e-6), tipped) - under),
    );
  const flat = o.kind === 'aFrame' ? zone * 0.777 : o.kind === 'dogWalk' ? zone * 0.943 : zone * 0.99;
  const base = o.kind === 'aFrame' ? '#3f7f86' : o.kind === 'dogWalk' ? '#35608f' : '#57717e';
  const breaks =
    o.kind === 'aFrame'
      ? [0, flat, half, foot - flat, foot]
      : o.kind === 'dogWalk'
        ? [0, flat, (foot - 3.6) / 2, (foot + 3.6) / 2, foot - flat, foot]
        : [0, flat, half, foot - flat, foot];
  const parts: Paintable[] = [];
  const supports: Paintable[] = [];
  const leg = (along: number): Paintable =>
    item(eye, f.at(along - half, 0, 0), (ctx) => {
      const top = surfaceHeight(o, along, tipped) - 0.05;
      for (const side of [-1, 1]) {
        rod(
          ctx,
          eye,
          f.at(along - half, side * (w + 0.18), 0),
          f.at(along - half, side * w * 0.8, top),
          0.03,
          0.03,
          '#d8d2c2',
        );
      }
    });
  if (o.kind === 'dogWalk')
    for (const along of [(foot - 3.6) / 2, (foot + 3.6) / 2]) supports.push(leg(along));
  if (o.kind === 'seeSaw') supports.push(leg(half));
  for (let k = 0; k + 1 < breaks.length; k++) {
    const a = breaks[k] ?? 0;
    const b = breaks[k + 1] ?? 0;
    const isZone = k === 0 || k === breaks.length - 2;
    const spread = (along: number): number =>
      o.kind === 'aFrame' ? w * (1 + (0.28 * Math.abs(along - half)) / half) : w;
    parts.push(
      item(
        eye,
        f.at((a + b) / 2 - half, 0, 0),
        (ctx) => {
          const top = isZone ? '#e9c23a' : base;
          const near = eye.look(at(a, w)).depth < eye.look(at(a, -w)).depth ? 1 : -1;
          face(
            ctx,
            eye,
            [
              at(a, near * spread(a), 0.07),
              at(b, near * spread(b), 0.07),
              at(b, near * spread(b)),
              at(a, near * spread(a)),
            ],
            isZone ? '#b8952a' : shade(base, 0.62),
          );
          face(
            ctx,
            eye,
            [at(a, spread(a)), at(b, spread(b)), at(b, -spread(b)), at(a, -spread(a))],
            top,
            '#00000025',
          );
          if (o.kind === 'aFrame') {
            ctx.strokeStyle = '#00000030';
            ctx.lineWidth = 1;
            for (let s = a + 0.16; s < b; s += 0.2) {
              const p = eye.look(at(s, spread(s)));
              const q = eye.look(at(s, -spread(s)));
              ctx.beginPath();
              ctx.moveTo(p.u, p.v);
              ctx.lineTo(q.u, q.v);
              ctx.stroke();
            }
          }
        },
        (b - a) / 2 + 0.6,
        1.9,
      ),
    );
  }
  if (o.kind === 'aFrame') {
    const near = eye.look(at(half, w)).depth < eye.look(at(half, -w)).depth ? 1 : -1;
    parts.unshift(
      item(
        eye,
        f.at(0, 0, 0),
        (ctx) => {
          // Between the ramps one looks at their undersides.
          const inner = [at(0, -near * w), at(half, -near * w), at(half, near * w), at(0, near * w)];
          face(
            ctx,
            eye,
            inner.map((q) => ({ ...q, z: q.z - 0.04 })),
            '#23474b',
          );
          const other = [at(foot, -near * w), at(half, -near * w), at(half, near * w), at(foot, near * w)];
          face(
            ctx,
            eye,
            other.map((q) => ({ ...q, z: q.z - 0.04 })),
            '#2b565b',
          );
          rod(
            ctx,
            eye,
            f.at(-half * 0.45, near * w, 0.9),
            f.at(half * 0.45, near * w, 0.9),
            0.012,
            0.012,
            '#dcd6c4',
          );
        },
        half + 0.6,
        1.9,
      ),
    );
  }
  // The dog walks on these: they are drawn before anything that stands on them.
  return [...supports, ...parts].map((p) => ({ ...p, depth: p.depth + 0.55 }));
}

function poleItems(eye: Eye, o: Obstacle): Paintable[] {
  const f = frameOf(o);
  const count = o.sizes['poles'] ?? 12;
  const gap = o.sizes['spacing'] ?? 0.6;
  const tall = o.sizes['height'] ?? 1.1;
  const out: Paintable[] = [];
  for (let k = 0; k < count; k++) {
    const foot = f.at(k * gap, 0, 0);
    out.push(
      item(eye, foot, (ctx) => {
        for (let j = 0; j < 5; j++) {
          const a = f.at(k * gap, 0, (j * tall) / 5);
          const b = f.at(k * gap, 0, ((j + 1) * tall) / 5);
          rod(ctx, eye, a, b, 0.022, 0.022, j % 2 === 0 ? '#f6f2e7' : k % 2 === 0 ? '#d7432c' : '#2f69b0');
        }
      }),
    );
  }
  return out;
}

/** All obstacles as things to draw. */
export function equipmentItems(eye: Eye, course: Course, state: EquipmentState): Paintable[] {
  return course.obstacles.flatMap((o) => {
    switch (o.kind) {
      case 'tunnel':
        return tunnelItems(eye, o);
      case 'weavePoles':
        return poleItems(eye, o);
      case 'aFrame':
      case 'dogWalk':
        return plankItems(eye, o, 0);
      case 'seeSaw':
        return plankItems(eye, o, state.tipped);
      case 'tyre':
        return tyreItems(eye, o);
      default:
        return jumpItems(eye, o, state);
    }
  });
}

/** Number cones as things to draw. */
export function coneItems(eye: Eye, course: Course): Paintable[] {
  return conesOf(course).map(({ number, x, y }) =>
    item(eye, { x, y, z: 0 }, (ctx) => {
      const p = eye.look({ x, y, z: 0.3 });
      const foot = eye.look({ x, y, z: 0 });
      ctx.fillStyle = '#d9652a';
      ctx.beginPath();
      ctx.moveTo(p.u, p.v - 1);
      ctx.lineTo(foot.u + 0.13 * p.scale, foot.v);
      ctx.lineTo(foot.u - 0.13 * p.scale, foot.v);
      ctx.closePath();
      ctx.fill();
      const high = Math.max(11, 0.34 * p.scale);
      const wide = high * (number > 9 ? 1.35 : 1.02);
      ctx.fillStyle = '#fffdf6';
      ctx.strokeStyle = '#2b2420';
      ctx.lineWidth = 1;
      ctx.beginPath();
      ctx.rect(p.u - wide / 2, p.v - high, wide, high);
      ctx.fill();
      ctx.stroke();
      drawNumber(ctx, p.u, p.v - high / 2, high * 0.62, number, '#1d1a17');
    }),
  );
}

/** Shadows of what never moves, for the background. */
export function paintStandingShadows(ctx: SKRSContext2D, eye: Eye, course: Course): void {
  const cast = (a: Point3, b: Point3, r: number): void =>
    rod(ctx, eye, shadowOf(a, 0), shadowOf(b, 0), r, r, SHADE);
  for (const o of course.obstacles) {
    const f = frameOf(o);
    if (o.kind === 'tunnel' && o.bends) {
      const line = tunnelLine(o.bends, false);
      const edge = Array.from({ length: 30 }, (_, k) => line.at((k / 29) * line.length));
      ctx.strokeStyle = SHADE;
      ctx.lineCap = 'round';
      ctx.lineJoin = 'round';
      ctx.lineWidth = 0.62 * eye.look({ x: o.x, y: o.y, z: 0 }).scale * 0.55;
      ctx.beginPath();
      edge.forEach((p, i) => {
        const q = eye.look({ x: p.x + 0.22, y: p.y + 0.06, z: 0 });
        if (i === 0) ctx.moveTo(q.u, q.v);
        else ctx.lineTo(q.u, q.v);
      });
      ctx.stroke();
    } else if (o.kind === 'weavePoles') {
      for (let k = 0; k < 12; k++) cast(f.at(k * 0.6, 0, 0), f.at(k * 0.6, 0, 1.1), 0.02);
      rod(ctx, eye, f.at(0, 0, 0.01), f.at(6.6, 0, 0.01), 0.03, 0.03, '#d9d4c6');
    } else if (o.kind === 'aFrame' || o.kind === 'dogWalk' || o.kind === 'seeSaw') {
      const foot = o.sizes['footprint'] ?? 4;
      const w = (o.sizes['width'] ?? 0.3) / 2;
      const n = 24;
      const side = (across: number): Point3[] =>
        Array.from({ length: n + 1 }, (_, k) => {
          const along = (k / n) * foot;
          return shadowOf(
            f.at(along - foot / 2, across, surfaceHeight(o, Math.min(along, foot - 1e-6), 0)),
            0,
          );
        });
      face(ctx, eye, [...side(w), ...side(-w).reverse()], SHADE);
    } else {
      const half = (o.sizes['bar'] ?? o.sizes['frameWidth'] ?? 1.3) / 2;
      for (const s of [-1, 1]) {
        const wide = o.sizes['wingWidth'] ?? 0.1;
        const inner = s * half;
        const outer = s * (half + wide);
        const corners = [f.at(0, inner, 0), f.at(0, outer, 0), f.at(0, outer, 0.72), f.at(0, inner, 1)];
        face(
          ctx,
          eye,
          corners.map((c) => shadowOf(c, 0)),
          SHADE,
        );
      }
      cast(f.at(0, -half, o.sizes['height'] ?? 0.5), f.at(0, half, o.sizes['height'] ?? 0.5), 0.025);
    }
  }
}
