import { Course } from '../../../../src/course/course.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import type { Pose } from '../../../../src/course/pose.ts';
import type { Side } from '../../../../src/plan/plan.ts';
import type { Course as SimulatorCourse } from '../../../../scripts/simulator/ground/equipment.ts';
import { standardSizes } from '../../../../scripts/simulator/ground/equipment.ts';

interface Placed extends Pose {
  readonly kind: 'barJump' | 'tunnel';
}

/** A course on which one cross is tried. Metres of the ground, degrees counter-clockwise from +x. */
export interface Layout {
  readonly name: string;
  readonly start: Pose;
  readonly places: readonly Placed[];
  readonly cross: { readonly place: number; readonly kind: 'front' | 'blind' | 'rear' };
  /** The dog's side before the cross. */
  readonly before: Side;
  /** Where the handler makes it, off the dog's line on the new side, and the way she runs on from there. */
  readonly spot: GroundPoint;
  readonly onTo: GroundPoint;
  /** Where she may lead out to: between two points. */
  readonly leadOut: readonly [GroundPoint, GroundPoint];
}

const jump = (x: number, y: number, headingDegrees: number): Placed => ({
  ...{ kind: 'barJump', x, y, headingDegrees },
});
/** A straight tunnel of 5 m whose first mouth is at x, y. */
const tunnel = (x: number, y: number, headingDegrees: number): Placed => ({
  ...{ kind: 'tunnel', x, y, headingDegrees },
});
const tunnelLength = 5;

const ahead = (p: Pose, metres: number): GroundPoint => ({
  x: p.x + metres * Math.cos((p.headingDegrees * Math.PI) / 180),
  y: p.y + metres * Math.sin((p.headingDegrees * Math.PI) / 180),
});

export const layouts: readonly Layout[] = [
  {
    name: 'three in line, a square turn to the left, front cross',
    start: { x: 5, y: 8, headingDegrees: 0 },
    places: [jump(10, 8, 0), jump(15.5, 8, 0), jump(21.5, 8, 0), jump(23.6, 14, 90)],
    cross: { place: 3, kind: 'front' },
    before: 'right',
    spot: { x: 24.7, y: 10.4 },
    onTo: { x: 24.8, y: 15 },
    leadOut: [
      { x: 8, y: 10.2 },
      { x: 23, y: 10.6 },
    ],
  },
  {
    name: 'a tunnel straight on, a turn back to the right, blind cross',
    start: { x: 4, y: 12, headingDegrees: 0 },
    places: [jump(8.5, 12, 0), jump(14, 12, 0), tunnel(18.5, 12, 0), jump(26.4, 6, -100)],
    cross: { place: 3, kind: 'blind' },
    before: 'left',
    spot: { x: 27.3, y: 9.9 },
    onTo: { x: 27.3, y: 5 },
    leadOut: [
      { x: 6, y: 9.6 },
      { x: 24.5, y: 8.6 },
    ],
  },
  {
    name: 'a bend to the left, then a turn to the right, front cross',
    start: { x: 4, y: 6, headingDegrees: 0 },
    places: [jump(9, 6, 0), jump(14.6, 6.8, 16), jump(19.8, 9.4, 32), jump(25.6, 8.4, -50)],
    cross: { place: 3, kind: 'front' },
    before: 'left',
    spot: { x: 23.2, y: 10 },
    onTo: { x: 27.4, y: 8.6 },
    leadOut: [
      { x: 8, y: 3.4 },
      { x: 22, y: 7.4 },
    ],
  },
  {
    name: 'two in line, a turn to the right, blind cross',
    start: { x: 6, y: 14, headingDegrees: 0 },
    places: [jump(10.5, 14, 0), jump(16.5, 14, 0), jump(20.2, 9.2, -70)],
    cross: { place: 2, kind: 'blind' },
    before: 'left',
    spot: { x: 19.6, y: 12.1 },
    onTo: { x: 22, y: 8.4 },
    leadOut: [
      { x: 8, y: 11.4 },
      { x: 19, y: 10.6 },
    ],
  },
];

/** A cross behind the dog: only when it begins counts, and she cannot begin before the dog is committed. */
export const rearLayout: Layout = {
  name: 'three in line, a turn to the left, rear cross',
  start: { x: 4, y: 10, headingDegrees: 0 },
  places: [jump(8.5, 10, 0), jump(14.3, 10, 0), jump(20.5, 10, 0), jump(25.6, 13.6, 55)],
  cross: { place: 3, kind: 'rear' },
  before: 'left',
  spot: { x: 17.8, y: 9 },
  onTo: { x: 21, y: 11.8 },
  leadOut: [
    { x: 4.5, y: 8 },
    { x: 17, y: 7.6 },
  ],
};

/** The course as a coach draws it. */
export function courseOf({ places }: Pick<Layout, 'places'>): Course {
  return Course.parse({
    ring: { width: 40, length: 20 },
    obstacles: places.map(({ kind, ...pose }, i) => {
      const middle = kind === 'tunnel' ? ahead(pose, tunnelLength / 2) : pose;
      const stand = { ...middle, headingDegrees: pose.headingDegrees };
      return { id: `o${i + 1}`, kind, stand, ...(kind === 'tunnel' ? { sizes: { tunnelLength } } : {}) };
    }),
    steps: places.map((_, i) => ({ number: i + 1, obstacleId: `o${i + 1}` })),
  });
}

/** The same course as the simulator has it. */
export function simulatorCourseOf({ name, start, places }: Layout): SimulatorCourse {
  const radians = (degrees: number): number => (degrees * Math.PI) / 180;
  return {
    name,
    ring: { length: 40, depth: 20 },
    start: { x: start.x, y: start.y, heading: radians(start.headingDegrees) },
    obstacles: places.map((p, i) => ({
      ...{ id: `o${i + 1}`, kind: p.kind, nickname: '', x: p.x, y: p.y },
      ...{ angle: radians(p.headingDegrees), sizes: standardSizes[p.kind] },
      ...(p.kind === 'tunnel' ? { bends: [0, 0.5, 1].map((u) => ahead(p, u * tunnelLength)) } : {}),
    })),
    places: places.map((_, i) => ({ number: i + 1, obstacleId: `o${i + 1}`, reversed: false })),
  };
}
