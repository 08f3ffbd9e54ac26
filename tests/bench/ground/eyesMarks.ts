import type { PartName } from '../../../src/ground/parts.ts';
import { standCamera, type Camera } from '../../../scripts/simulator/camera/camera.ts';
import { runA } from '../../../scripts/simulator/demoRuns.ts';
import type { RunOrder } from '../../../scripts/simulator/run/run.ts';
import { randomStream } from '../../../scripts/simulator/base/random.ts';
import { cameraOf } from './scene.ts';

/** A run that was marked by eye from its pictures alone, before anything was compared with the truth. */
export interface SeenRun {
  readonly name: string;
  readonly order: RunOrder;
  readonly camera: Camera;
  readonly rate: number;
  /** Parts of the course and the pixel at which each was seen to touch the ground, on the first frame. */
  readonly points: readonly (readonly [obstacle: string, part: PartName, x: number, y: number])[];
  /** The dog's left front paw once a stride: the frame on which its leg was seen upright, and the pixel. */
  readonly paw: readonly (readonly [frame: number, x: number, y: number])[];
  /**
   * The first and the last frame on which that paw was seen down, looked for afterwards as the window says: whoever did
   * knew that the frames above had come late, but not on which stride by how much.
   */
  readonly down: readonly (readonly [first: number, last: number])[];
}

/** Read off enlarged pictures; where she turns away or a board hides the paw the click is a guess, as a coach's is. */
export const seenRuns: readonly SeenRun[] = [
  {
    name: 'the demo film, 720p, 30 fps, from landing after 3 to 4',
    order: runA,
    camera: standCamera,
    rate: 30,
    points: [
      ['weave', 'pole12', 591.8, 595.3],
      ['weave', 'pole1', 986.7, 595.3],
      ['jump-blue', 'rightWing', 634.9, 524.8],
      ['jump-sun', 'rightWing', 908.7, 524.5],
      ['jump-rose', 'leftWing', 191.3, 605.3],
      ['jump-rose', 'rightWing', 263.7, 541.8],
      ['jump-fern', 'leftWing', 119.9, 463.8],
      ['jump-fern', 'rightUpright', 194.0, 468.0],
      ['tyre', 'leftFoot', 753.7, 371.1],
      ['jump-gate', 'leftWing', 759.3, 428.1],
      ['jump-gate', 'rightWing', 834.3, 414.2],
      ['a-frame', 'downRight', 487.6, 401.5],
    ],
    paw: [
      [485, 974.0, 499.8],
      [496, 1038.0, 484.0],
      [508, 1036.0, 460.5],
      [519, 989.3, 443.6],
      [530, 930.4, 440.0],
      [537, 899.6, 445.8],
      [552, 848.2, 458.2],
      [563, 789.5, 447.6],
    ],
    down: [
      [484, 486],
      [494, 497],
      [506, 508],
      [516, 519],
      [527, 530],
      [537, 540],
      [549, 552],
      [560, 563],
    ],
  },
  {
    name: 'a camera 3 m high, 1080p, 60 fps, from before the poles on',
    order: { ...runA, seed: 2718 },
    camera: cameraOf(3, randomStream(314).branch('eyes')),
    rate: 60,
    points: [
      ['jump-white', 'rightWing', 197.5, 574.0],
      ['jump-white', 'leftWing', 328.0, 536.0],
      ['a-frame', 'downRight', 596.5, 482.5],
      ['weave', 'pole10', 621.0, 680.0],
      ['weave', 'pole6', 928.0, 693.0],
      ['weave', 'pole1', 1342.5, 711.5],
      ['jump-blue', 'rightWing', 678.0, 599.0],
      ['jump-sun', 'rightWing', 1243.0, 620.0],
      ['jump-gate', 'leftWing', 1048.5, 517.0],
      ['jump-gate', 'rightWing', 1207.5, 508.5],
      ['tyre', 'leftFoot', 1102.5, 470.0],
      ['tyre', 'rightFoot', 1164.0, 462.5],
    ],
    paw: [
      [1438, 1744.4, 708.0],
      [1466, 1425.8, 716.8],
      [1499, 1190.4, 708.3],
      [1528, 1005.8, 705.3],
    ],
    down: [
      [1434, 1440],
      [1461, 1467],
      [1490, 1501],
      [1520, 1531],
    ],
  },
];
