import type { GroundPoint } from '../../../src/course/points.ts';
import { realLine, type LineWish, type RealLine } from '../../../src/track/realLine.ts';
import type { GroundReading } from '../../../src/track/readings.ts';

export const reading = (at: number, x: number, y: number, sigma = 0.02): GroundReading => ({
  contact: 'ground',
  at,
  x,
  y,
  spread: [sigma ** 2, 0, sigma ** 2],
});

/** Readings of a way, every `every` seconds, without noise. */
export const readingsOf = (
  way: (t: number) => GroundPoint,
  from: number,
  to: number,
  every = 0.4,
  sigma = 0.02,
): GroundReading[] =>
  Array.from({ length: Math.round((to - from) / every) + 1 }, (_, i) => {
    const t = from + i * every;
    const { x, y } = way(t);
    return reading(t, x, y, sigma);
  });

export function lineThrough(wish: Partial<LineWish> & Pick<LineWish, 'readings'>): RealLine {
  const line = realLine({ who: 'dog', ...wish });
  if (!line) throw new Error('no line');
  return line;
}
