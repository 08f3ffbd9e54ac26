import type { GroundPoint } from '../../course/points.ts';
import { lengthOf, plainHeading, type Pose } from '../../course/pose.ts';
import type { DrawnStep } from '../../course/sequence.ts';
import { pointsOn, type DubinsPath, type Facing } from '../dubins.ts';
import type { LikelyLine, LineStep, LineStretch } from '../line.ts';
import { point, type Gate, type Taking } from './gates.ts';
import type { Chosen } from './refine.ts';
import type { Way } from './ways.ts';

/** Points on a turn, radians from one to the next at the most. */
const fineness = Math.PI / 24;

const degrees = (radians: number): number => (radians * 180) / Math.PI;
const poseOf = ({ x, y, angle }: Facing): Pose => ({ x, y, headingDegrees: plainHeading(degrees(angle)) });

/** A way in metres, as it is driven. */
export function driveOf({ word, pieces: [a, b, c], radius, length }: Way): DubinsPath {
  return { word, radius, length, pieces: [a * radius, b * radius, c * radius] };
}

/** The line from what was chosen at each gate: numbers with their stretches, wing ends drawn into the stretch they lie on. */
export function lineFrom(gates: readonly Gate[], drawn: readonly DrawnStep[], chosen: Chosen): LikelyLine {
  const steps: LineStep[] = [];
  const stretches: LineStretch[] = [];
  let open = newOpen(null);
  let clock = 0;
  gates.forEach((gate, i) => {
    const taking = chosen.takings[i];
    if (!taking) return;
    const route = chosen.routes[i - 1];
    if (route) addWays(open, route.ways, route.seconds, route.clear);
    const step = gate.step === null ? undefined : drawn[gate.step];
    if (!step) {
      if (!taking.clear) open.blocked = true;
      return;
    }
    addLead(open, taking.before, taking.entry, taking.leadSeconds[0]);
    if (!taking.clear) open.blocked = true;
    clock += open.seconds;
    stretches.push(closed(open, step.step.number));
    const inAt = clock;
    clock += taking.seconds;
    steps.push(stepOf(step, taking, inAt, clock));
    open = newOpen(step.step.number);
    addLead(open, taking.exit, taking.after, taking.leadSeconds[1]);
  });
  clock += open.seconds;
  stretches.push(closed(open, null));
  const length =
    stretches.reduce((sum, s) => sum + s.length, 0) + steps.reduce((sum, s) => sum + lengthOf(s.through), 0);
  return { steps, stretches, length, seconds: clock };
}

interface Open {
  readonly from: number | null;
  points: GroundPoint[];
  length: number;
  seconds: number;
  turn: number;
  radius: number | null;
  blocked: boolean;
}

const newOpen = (from: number | null): Open => ({
  from,
  points: [],
  length: 0,
  seconds: 0,
  turn: 0,
  radius: null,
  blocked: false,
});

function add(open: Open, points: readonly GroundPoint[]): void {
  for (const p of points) {
    const last = open.points.at(-1);
    if (!last || Math.hypot(last.x - p.x, last.y - p.y) > 1e-9) open.points.push(point(p));
  }
}

function addWays(open: Open, ways: readonly Way[], seconds: number, clear: boolean): void {
  for (const way of ways) {
    const path = driveOf(way);
    add(open, pointsOn(way.from, path, fineness));
    open.length += way.length;
    [...way.word].forEach((piece, i) => {
      const size = way.pieces[i] ?? 0;
      if (piece === 'S' || size === 0) return;
      open.turn += piece === 'L' ? size : -size;
      open.radius = Math.min(open.radius ?? Infinity, way.radius);
    });
  }
  open.seconds += seconds;
  if (!clear) open.blocked = true;
}

function addLead(open: Open, from: Facing, to: Facing, seconds: number): void {
  add(open, [from, to]);
  open.length += Math.hypot(to.x - from.x, to.y - from.y);
  open.seconds += seconds;
}

const closed = (open: Open, to: number | null): LineStretch => ({
  from: open.from,
  to,
  points: open.points,
  length: open.length,
  seconds: open.seconds,
  turnDegrees: degrees(open.turn),
  radius: open.radius,
  blocked: open.blocked,
});

const stepOf = ({ step, obstacle }: DrawnStep, taking: Taking, inAt: number, outAt: number): LineStep => ({
  number: step.number,
  obstacleId: obstacle.id,
  kind: obstacle.kind,
  entry: poseOf(taking.entry),
  exit: poseOf(taking.exit),
  through: taking.through.length > 0 ? taking.through : [point(taking.entry)],
  offset: taking.offset,
  sliceDegrees: degrees(taking.slice),
  inAt,
  outAt,
});
