import { fitCourse } from '../../../src/ground/fit.ts';
import type { PlanePoint } from '../../../src/ground/homography.ts';
import { groundViewOf } from '../../../src/track/groundView.ts';
import type { GroundView } from '../../../src/track/fromMarks.ts';
import { farthestTold, startLineStayed, type Stayed, type WaitingMark } from '../../../src/track/stayed.ts';
import type { DogPoint } from '../../../src/track/track.ts';
import { randomStream, type RandomStream } from '../../../scripts/simulator/base/random.ts';
import { cameraMatrix, type CameraMatrix } from '../../../scripts/simulator/camera/camera.ts';
import type { BenchLine } from '../run.ts';
import { firstSeed, percent, readingsOn, runs, tableOf } from './lineRuns.ts';
import { blurred } from './scene.ts';

const heights = [1.6, 3, 5] as const;
const sizes = [
  { name: '1080p', width: 1920, height: 1080 },
  { name: '4K', width: 3840, height: 2160 },
] as const;
type Size = (typeof sizes)[number];
const steps = [0, 0.02, 0.05, 0.1] as const;
/** Clicks on each paw of each frame: a coach who clicks once, and one who wants to know. */
const clickCounts = [1, 9] as const;
/** What counts as a step, metres: as usual, and for a coach to whom nearly any counts. */
const criteria = [0.03, 0.01] as const;
const rate = 60;
const away = 10;
const noise = 2;

/** A camera that looks at a dog `away` metres off over the ground, and the ground as twenty clicked points have it. */
interface Stand {
  readonly matrix: CameraMatrix;
  readonly size: Size;
  readonly focal: number;
  readonly view: GroundView;
  readonly dog: PlanePoint;
}

/** Paws at the start line: what a step must be to be told, and that no verdict is wrong. */
export async function startLineLines(): Promise<BenchLine[]> {
  return heights.flatMap((height) => sizes.flatMap((size) => linesOf(height, size)));
}

function standOf(
  height: number,
  size: Size,
  far: number,
  random: RandomStream,
  degrees = random.between(60, 75),
): Stand {
  const field = (degrees * Math.PI) / 180;
  const focal = size.width / 2 / Math.tan(field / 2);
  const at = { x: 20, y: -9, z: height };
  const pan = random.between(-0.3, 0.3);
  const matrix = cameraMatrix({
    at,
    pan,
    tilt: Math.atan2(height, far),
    roll: random.between(-0.02, 0.02),
    focal,
    width: size.width,
    height: size.height,
  });
  const spots: { id: string; ground: PlanePoint; pixel: PlanePoint }[] = [];
  for (let i = 0; i < 20_000 && spots.length < 20; i++) {
    const ground = { x: random.between(0, 40), y: random.between(-8.9, 20) };
    const pixel = pixelOf(matrix, size, ground);
    if (pixel) spots.push({ id: `${i}`, ground, pixel: blurred(pixel, random, noise) });
  }
  const fit = fitCourse(spots, { width: size.width, height: size.height });
  if (!fit.fitted) throw new Error(`the course was not fitted: ${fit.why}`);
  const dog = { x: at.x + far * Math.sin(pan), y: at.y + far * Math.cos(pan) };
  return { matrix, size, focal, view: groundViewOf(fit), dog };
}

function pixelOf(m: CameraMatrix, size: Size, p: PlanePoint): PlanePoint | null {
  const row = (k: 0 | 1 | 2): number => m[k][0] * p.x + m[k][1] * p.y + m[k][3];
  const depth = row(2);
  const at = { x: row(0) / depth, y: row(1) / depth };
  return depth > 0.1 && at.x >= 0 && at.y >= 0 && at.x < size.width && at.y < size.height ? at : null;
}

const paws: readonly (readonly [DogPoint, number, number])[] = [
  ['leftFrontPaw', 0.2, 0.08],
  ['rightFrontPaw', 0.2, -0.08],
  ['leftHindPaw', -0.2, 0.08],
  ['rightHindPaw', -0.2, -0.08],
];

/** Four paws and the nose on three frames of a wait; one paw steps before the second, and the head nods by 30 cm. */
function waited(
  stand: Stand,
  step: { readonly metres: number; readonly way: number },
  clicks: number,
  random: RandomStream,
): WaitingMark[] {
  const stepping = random.whole(paws.length);
  const marks: WaitingMark[] = [];
  const mark = (point: DogPoint, pts: number, at: PlanePoint): void => {
    const pixel = pixelOf(stand.matrix, stand.size, at);
    if (!pixel && point === 'nose') return;
    if (!pixel) throw new Error('the dog is not in the picture');
    for (let i = 0; i < clicks; i++) {
      const clicked = blurred(pixel, random, noise);
      const share = { x: clicked.x / stand.size.width, y: clicked.y / stand.size.height };
      const [reading] = readingsOn(stand.view, [{ pts, at: share, contact: 'ground' }], rate);
      if (reading?.contact === 'ground') marks.push({ point, reading });
    }
  };
  [0, 60, 150].forEach((pts, k) => {
    paws.forEach(([point, along, side], i) => {
      const gone = k > 0 && i === stepping ? step.metres : 0;
      mark(point, pts, {
        x: stand.dog.x + along + gone * Math.cos(step.way),
        y: stand.dog.y + side + gone * Math.sin(step.way),
      });
    });
    mark('nose', pts, { x: stand.dog.x + 0.5 + 0.3 * k, y: stand.dog.y });
  });
  return marks;
}

function linesOf(height: number, size: Size): BenchLine[] {
  const line = tableOf(`camera ${height} m, ${size.name}`);
  const list: BenchLine[] = [];
  const random = (i: number): RandomStream =>
    randomStream(9000 + firstSeed + i).branch(`${height} ${size.name}`);
  const stands = Array.from({ length: runs }, (_, i) => standOf(height, size, away, random(i)));
  for (const clicks of clickCounts)
    for (const countsFrom of criteria) {
      const told = steps.map((step) => {
        const truth: Stayed = step > countsFrom ? 'broke' : 'kept';
        const count = { right: 0, open: 0, wrong: 0 };
        stands.forEach((stand, i) => {
          const its = random(i).branch(`${step} ${clicks}`);
          const marks = waited(stand, { metres: step, way: its.between(0, 2 * Math.PI) }, clicks, its);
          const { verdict } = startLineStayed(marks, stand.view.error, 10, { countsFrom });
          if (verdict === truth) count.right++;
          else if (verdict === 'cannotTell') count.open++;
          else count.wrong++;
        });
        return { step, truth, ...count };
      });
      const wrong = told.reduce((sum, t) => sum + t.wrong, 0);
      list.push(
        line(
          `steps at ${away} m, ${clickWords(clicks)}, a step counts from ${100 * countsFrom} cm`,
          'right or “cannot tell”, never wrong',
          `${told.map((t) => `${100 * t.step} cm: ${t.right} ${t.truth}, ${t.open} cannot tell`).join('; ')}; ${wrong} wrong of ${runs * steps.length}`,
          wrong === 0,
        ),
      );
    }
  for (const clicks of clickCounts)
    for (const countsFrom of criteria) list.push(farthestLine(height, size, clicks, countsFrom, line));
  return list;
}

const clickWords = (clicks: number): string => (clicks === 1 ? 'one click a paw' : `${clicks} clicks a paw`);

const nearest = 0.5;
const farthest = 40;

/** Nearer over the ground, and farther from the lens, than the program's own figure by so much. */
const nearer = 0.75;
const beyond = 1.35;

/** What a pixel is goes by the distance to the lens, so that beyond is counted from there and told over the ground. */
const beyondOf = (far: number, height: number): number =>
  Math.sqrt((far * far + height * height) * beyond * beyond - height * height);
const field = 67.5;

/** By the program's own figure, and how often a step is told well within and well beyond that. */
function farthestLine(
  height: number,
  size: Size,
  clicks: number,
  countsFrom: number,
  line: ReturnType<typeof tableOf>,
): BenchLine {
  const focal = size.width / 2 / Math.tan((field * Math.PI) / 360);
  const told = farthestTold({ height, focal }, 0.05, noise, clicks, { countsFrom }, 2);
  const ways = [
    ['across the picture', told.across, 0],
    ['toward the camera', told.along, -Math.PI / 2],
  ] as const;
  let holds = true;
  const measured = ways.map(([name, far, turn]) => {
    if (far < nearest) return `${name}: nowhere`;
    const share = (where: number): number => {
      const at = Math.min(farthest, where);
      let broke = 0;
      for (let i = 0; i < runs / 2; i++) {
        const random = randomStream(70_000 + firstSeed + i).branch(
          `${height} ${size.name} ${clicks} ${where}`,
        );
        const stand = standOf(height, size, at, random, field);
        const pan = Math.atan2(stand.dog.x - 20, stand.dog.y + 9);
        const marks = waited(stand, { metres: 0.05, way: turn - pan }, clicks, random);
        if (startLineStayed(marks, stand.view.error, 10, { countsFrom }).verdict === 'broke') broke++;
      }
      return broke / (runs / 2);
    };
    const [near, off] = [nearer * far, beyondOf(far, height)];
    const [within, past] = [share(near), share(off)];
    holds &&= within >= 0.7 && past <= 0.35;
    return `${name} ${far.toFixed(1)} m (told in ${percent(within)} at ${near.toFixed(1)} m, in ${percent(past)} at ${off.toFixed(1)} m)`;
  });
  return line(
    `farthest that a step of 5 cm can be told, ${clickWords(clicks)}, a step counts from ${100 * countsFrom} cm`,
    'told in 70 % of tries at three quarters of it, in at most 35 % a third farther from the lens',
    measured.join('; '),
    holds,
  );
}
