import type { GroundPoint } from '../course/points.ts';
import { varianceAlong, z95 } from './bands.ts';
import type { RealLine } from './realLine.ts';
import { whereAt } from './whereAt.ts';

/** A line at one moment, as it is drawn. */
export interface LineSample extends GroundPoint {
  /** Seconds of the run. */
  readonly at: number;
  /** m/s. */
  readonly speed: number;
  /** The edges of its band, 95 % straight across the way she runs, metres. */
  readonly left: GroundPoint;
  readonly right: GroundPoint;
  /** Within a time without marks: what is drawn there is a guess. */
  readonly gap: boolean;
}

/** Most points that a line is drawn with. */
const most = 3000;

/** A line as points no further apart than `step` seconds, each with its band. */
export function samplesOf(line: RealLine, step = 0.05): readonly LineSample[] {
  const count = Math.max(1, Math.min(most, Math.ceil((line.to - line.from) / step)));
  return Array.from({ length: count + 1 }, (_, i) => {
    const at = i === count ? line.to : line.from + ((line.to - line.from) * i) / count;
    return sampleAt(line, at);
  }).filter((s) => s !== null);
}

/** The line at a moment; null outside of it. */
export function sampleAt(line: RealLine, at: number): LineSample | null {
  const here = whereAt(line, at);
  if (!here) return null;
  const speed = Math.hypot(here.vx, here.vy);
  const [nx, ny] = speed > 1e-6 ? [-here.vy / speed, here.vx / speed] : [0, 1];
  const half = z95 * Math.sqrt(Math.max(0, varianceAlong([nx, ny], here.cov)));
  return {
    at,
    x: here.x,
    y: here.y,
    speed,
    left: { x: here.x + nx * half, y: here.y + ny * half },
    right: { x: here.x - nx * half, y: here.y - ny * half },
    gap: line.gaps.some((g) => at > g.from && at < g.to),
  };
}

/**
 * The sample next to a point, by the square of a distance.
 * @param far square of the distance of a sample, in whatever the hand points in
 * @param about while a hand drags: the moment it is at, so that it stays on this pass of a line that crosses itself
 */
export function nearestSample(
  samples: readonly LineSample[],
  far: (s: LineSample) => number,
  about: number | null,
): LineSample | null {
  const reach = 1.5;
  const near = about === null ? samples : samples.filter((s) => Math.abs(s.at - about) <= reach);
  return near.reduce<LineSample | null>((best, s) => (best && far(best) <= far(s) ? best : s), null);
}
