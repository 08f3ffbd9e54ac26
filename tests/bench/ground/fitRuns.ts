import { fitCourse, type Fit } from '../../../src/ground/fit.ts';
import { onGround } from '../../../src/ground/groundError.ts';
import type { PlanePoint } from '../../../src/ground/homography.ts';
import type { Sighting } from '../../../src/ground/model.ts';
import { deviations } from '../../../src/ground/spread.ts';
import { randomStream, type RandomStream } from '../../../scripts/simulator/base/random.ts';
import { seenAt, standing, type CameraAt } from '../../../scripts/simulator/camera/path.ts';

/** The ring in which the runs are filmed, metres. */
const ring = { width: 20, length: 40 };
const picture = { width: 1920, height: 1080 };
/** Share 0.95 of a normal distribution in the plane. */
const within95 = -2 * Math.log(0.05);

/** What is measured in one group of runs. */
export interface Group {
  readonly height: number;
  readonly points: number;
  /** Of the lens, on the scale of the focal length. */
  readonly k1: number;
  /** Share of the points that are clicked 40 px beside their spot. */
  readonly wrong: number;
}

/** One run: a camera, its clicks, and what came of them. */
export interface Run {
  /** Root mean square over the ring of the distance between mapped and true spots, metres. */
  readonly error: number;
  /** The same as the fit itself expects it. */
  readonly expected: number;
  /** The spots within the ellipses that hold 95 %. */
  readonly covered: number;
  readonly wrong: number;
  readonly caught: number;
  readonly falselySetAside: number;
  readonly lensFitted: boolean;
}

/** A camera beside a short or a long side of the ring that looks over it, its field and place by chance. */
function cameraBy(random: RandomStream, { height, k1 }: Group): CameraAt {
  const field = (random.between(60, 75) * Math.PI) / 180;
  const back = random.between(3, 7);
  const end = random.chance(0.5);
  const aside = random.between(-0.3, 0.3);
  const at = end ? { x: ring.width * (0.5 + aside), y: -back } : { x: -back, y: ring.length * (0.5 + aside) };
  const aim = {
    x: ring.width / 2 + random.between(-2, 2),
    y: ring.length / 2 + random.between(-4, 4),
  };
  const far = Math.hypot(aim.x - at.x, aim.y - at.y);
  return standing(
    {
      at: { ...at, z: height },
      pan: Math.atan2(aim.x - at.x, aim.y - at.y),
      tilt: Math.atan2(height, 0.7 * far),
      roll: random.between(-0.02, 0.02),
      focal: picture.width / 2 / Math.tan(field / 2),
      ...picture,
    },
    { k1, k2: 0 },
  );
}

/** Spots of the ring that the camera shows, no farther than `most` metres from it. */
function spots(camera: CameraAt, count: number, random: RandomStream): PlanePoint[] {
  const list: PlanePoint[] = [];
  for (let i = 0; i < 20_000 && list.length < count; i++) {
    const p = { x: random.between(0, ring.width), y: random.between(0, ring.length) };
    if (seenAt(camera, { ...p, z: 0 }, 0)) list.push(p);
  }
  return list;
}

/** Plays one run of a group. */
export function play(group: Group, seed: number): Run {
  const random = randomStream(seed).branch(`${group.height} ${group.points}`);
  const camera = cameraBy(random.branch('camera'), group);
  const clicks = random.branch('clicks');
  const wrong = new Set<number>();
  const sightings = spots(camera, group.points, random.branch('spots')).map((ground, i): Sighting => {
    const at = seenAt(camera, { ...ground, z: 0 }, 0) ?? { u: NaN, v: NaN };
    const [ex, ey, turn] = [clicks.bell(), clicks.bell(), clicks.between(0, 2 * Math.PI)];
    const off = clicks.chance(group.wrong) ? 40 : 0;
    if (off > 0) wrong.add(i);
    return {
      id: String(i),
      ground,
      pixel: { x: at.u + 2 * ex + off * Math.cos(turn), y: at.v + 2 * ey + off * Math.sin(turn) },
    };
  });
  const fit = fitCourse(sightings, picture);
  if (!fit.fitted) throw new Error(`run ${seed} was not fitted: ${fit.why}`);
  const aside = fit.points.flatMap((p, i) => (p.used ? [] : [i]));
  const caught = aside.filter((i) => wrong.has(i)).length;
  return {
    ...overRing(camera, fit, random.branch('ring')),
    wrong: wrong.size,
    caught,
    falselySetAside: aside.length - caught,
    lensFitted: fit.numbers.length > 8,
  };
}

/** Maps exact pixels of the ring: what is off is the fit's alone. */
function overRing(
  camera: CameraAt,
  fit: Fit,
  random: RandomStream,
): Pick<Run, 'error' | 'expected' | 'covered'> {
  let [squares, told, covered] = [0, 0, 0];
  const list = spots(camera, 60, random);
  for (const spot of list) {
    const seen = seenAt(camera, { ...spot, z: 0 }, 0) ?? { u: NaN, v: NaN };
    const ground = onGround(fit, { x: seen.u, y: seen.v }, 0);
    if (!ground) throw new Error('a spot of the ring above the horizon');
    const [ex, ey] = [ground.at.x - spot.x, ground.at.y - spot.y];
    squares += ex * ex + ey * ey;
    told += ground.spread.xx + ground.spread.yy;
    if (deviations(ground.spread, ex, ey) <= within95) covered++;
  }
  return {
    error: Math.sqrt(squares / list.length),
    expected: Math.sqrt(told / list.length),
    covered: covered / list.length,
  };
}
