import type { Course, Obstacle, Stand, Step } from './course.ts';
import type { GroundPoint } from './points.ts';
import { wayThrough } from './planShapes.ts';
import { distance, from, type Pose } from './pose.ts';
import { drawnSizes } from './equipment.ts';
import { tunnelLine } from './tunnelLine.ts';

/** A number whose obstacle stands on the grass. */
export interface DrawnStep {
  readonly step: Step;
  readonly obstacle: Obstacle;
  readonly stand: Stand;
  /** Where the dog goes in and where it comes out, and how it runs there. */
  readonly entry: Pose;
  readonly exit: Pose;
}

/** The numbers of a course that are drawn, in the order in which they are run. */
export function drawnSteps(course: Course): readonly DrawnStep[] {
  const byId = new Map(course.obstacles.map((o) => [o.id, o]));
  return course.steps
    .toSorted((a, b) => a.number - b.number)
    .flatMap((step) => {
      const obstacle = byId.get(step.obstacleId);
      if (!obstacle?.stand) return [];
      const [entry, exit] = wayThrough(obstacle, obstacle.stand, step.direction);
      return [{ step, obstacle, stand: obstacle.stand, entry, exit }];
    });
}

/** How far outside of a wing the way to a backside and a wrap are drawn, metres. */
const besideWing = 0.7;

/** From the middle of a piece to the outer end of its wing, metres. */
export function halfBreadth(o: Pick<Obstacle, 'kind' | 'sizes'>): number {
  const size = drawnSizes(o.kind, o.sizes);
  if (o.kind === 'tyre') return size.tyreFrame / 2;
  return size.barWidth / 2 + (size.wings ? size.wingWidth : 0);
}

/**
 * The order of the course as a line from number to number: a reading aid, not the line a dog runs. To a backside it
 * goes round the nearer wing; after a wrap it goes round the wing that is wrapped.
 */
export function orderLine(steps: readonly DrawnStep[]): readonly GroundPoint[] {
  const line: GroundPoint[] = [];
  for (const { step, obstacle, stand, entry, exit } of steps) {
    const last = line.at(-1);
    if (step.backside === true && last) {
      const out = halfBreadth(obstacle) + besideWing;
      const left = from(entry, 0, out);
      const right = from(entry, 0, -out);
      const side = distance(last, left) <= distance(last, right) ? out : -out;
      line.push(from(entry, 0, side), from(entry, -besideWing, side / 2));
    }
    if (obstacle.kind === 'tunnel') line.push(...through(stand, obstacle, step.direction));
    else {
      line.push({ x: entry.x, y: entry.y });
      if (exit.x !== entry.x || exit.y !== entry.y) line.push({ x: exit.x, y: exit.y });
    }
    if (step.wrap) {
      const out = (halfBreadth(obstacle) + besideWing) * (step.wrap === 'left' ? 1 : -1);
      line.push(from(exit, besideWing, out / 2), from(exit, 0, out));
    }
  }
  return line;
}

/** The way through a tunnel, from the mouth the dog goes in at. */
function through(stand: Stand, o: Obstacle, direction: Step['direction']): readonly GroundPoint[] {
  const line = tunnelLine(stand, drawnSizes(o.kind, o.sizes).tunnelLength);
  return direction === 'forward' ? line : line.toReversed();
}
