import type { GroundPoint } from '../course/points.ts';
import type { GroundShape } from './groundShapes.ts';
import type { LikelyLine, LineRange } from './line.ts';

/** The likely line; stretches for which no clear way was found are dashed. */
export function lineShapes(line: LikelyLine, pixels = 2.5): readonly GroundShape[] {
  const shapes: GroundShape[] = [];
  let run: GroundPoint[] = [];
  const end = (): void => {
    if (run.length > 1) shapes.push({ shape: 'way', points: run, as: 'likely', pixels });
    run = [];
  };
  line.stretches.forEach((stretch, i) => {
    if (stretch.blocked) {
      end();
      shapes.push({ shape: 'way', points: stretch.points, as: 'likely', pixels, dashed: true });
    } else run.push(...stretch.points);
    const step = line.steps[i];
    if (step) run.push(...step.through);
  });
  end();
  return shapes;
}

/** The ground between the tight and the wide line, stretch by stretch. */
export function rangeShapes({ tight, wide }: LineRange): readonly GroundShape[] {
  const shapes: GroundShape[] = [];
  const between = (a: readonly GroundPoint[], b: readonly GroundPoint[]): void => {
    if (a.length > 1 && b.length > 1) {
      shapes.push({ shape: 'area', points: [...a, ...b.toReversed()], as: 'range' });
    }
  };
  tight.stretches.forEach((stretch, i) => {
    const other = wide.stretches[i];
    if (other) between(stretch.points, other.points);
    const [step, otherStep] = [tight.steps[i], wide.steps[i]];
    if (step && otherStep) between(step.through, otherStep.through);
  });
  return shapes;
}
