import { reach } from './planShapes.ts';
import { from } from './pose.ts';
import type { DrawnStep } from './sequence.ts';

/** Where a number stands on the grass. */
export interface Board {
  readonly number: number;
  readonly obstacleId: string;
  readonly x: number;
  readonly y: number;
}

/**
 * Numbers on the side the dog comes from, `size` metres high: several that are taken the same way stand side by
 * side. They may overlap those of other obstacles.
 */
export function boardsOf(steps: readonly DrawnStep[], size: number): readonly Board[] {
  const seen = new Map<string, number>();
  return steps.map(({ step, obstacle, stand, entry }) => {
    const key = `${obstacle.id}/${step.direction}`;
    const before = seen.get(key) ?? 0;
    seen.set(key, before + 1);
    const aside = before * size * 1.4;
    const away = reach(obstacle) + size * 0.8;
    const at =
      obstacle.kind === 'tunnel'
        ? from(entry, -away, aside)
        : from(stand, step.direction === 'forward' ? -away : away, aside);
    return { number: step.number, obstacleId: obstacle.id, ...at };
  });
}
