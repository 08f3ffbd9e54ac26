import { Matrix, inverse } from 'ml-matrix';
import type { RunRecord } from '../../../scripts/simulator/run/record.ts';
import type { LineReading } from '../../../src/track/readings.ts';
import { pawAt } from './scene.ts';

/** A stride, seconds: how far beyond the ends of a stretch the dog's way is taken to be known. */
const stride = 0.45;

/**
 * The least that any unbiased way of measuring can be off, one standard deviation, metres (Cramér and Rao), for one who
 * knows the camera exactly and knows more of the dog than can be known: from one stride before the stretch to one stride
 * after it every turn and every change of speed, but for where she was and for one speed to be added, the same all along.
 * Whoever knows less can only do worse. The clicks count by their noise on the ground and by half a frame of time.
 */
export function bestSpread(
  run: RunRecord,
  readings: readonly LineReading[],
  { from, to }: { readonly from: number; readonly to: number },
): number {
  const middle = (from + to) / 2;
  const information = Matrix.zeros(4, 4);
  for (const r of readings) {
    if (r.contact !== 'ground' || r.at < from - stride || r.at > to + stride) continue;
    const { x, y } = speedAt(run, r.at);
    const late = (r.unsure ?? 0) ** 2;
    const [xx, xy, yy] = r.spread;
    const noise = new Matrix([
      [xx + late * x * x, xy + late * x * y],
      [xy + late * x * y, yy + late * y * y],
    ]);
    const by = new Matrix([
      [1, 0, r.at - middle, 0],
      [0, 1, 0, r.at - middle],
    ]);
    information.add(by.transpose().mmul(inverse(noise)).mmul(by));
  }
  const slopes = lengthBySpeed(run, from, to);
  const spread = slopes.mmul(inverse(information)).mmul(slopes.transpose()).get(0, 0);
  return Math.sqrt(spread);
}

function speedAt(run: RunRecord, t: number): { x: number; y: number } {
  const [a, b] = [pawAt(run, t - 1e-3), pawAt(run, t + 1e-3)];
  return { x: (b.x - a.x) / 2e-3, y: (b.y - a.y) / 2e-3 };
}

/** How the length grows with a place (not at all) and with a speed added all along. */
function lengthBySpeed(run: RunRecord, from: number, to: number): Matrix {
  let [x, y] = [0, 0];
  for (let t = from; t < to; t += 0.01) {
    const until = Math.min(to, t + 0.01);
    const [a, b] = [pawAt(run, t), pawAt(run, until)];
    const long = Math.hypot(b.x - a.x, b.y - a.y);
    if (!(long > 0)) continue;
    x += ((b.x - a.x) / long) * (until - t);
    y += ((b.y - a.y) / long) * (until - t);
  }
  return new Matrix([[0, 0, x, y]]);
}

/** Share of a normal distribution within so many deviations to either side (Abramowitz and Stegun 1964, 7.1.26). */
export function normalWithin(deviations: number): number {
  const x = deviations / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const poly =
    ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t;
  return 1 - poly * Math.exp(-x * x);
}
