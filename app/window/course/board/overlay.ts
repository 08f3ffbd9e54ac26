import type { GroundPoint } from '../../../../src/course/points.ts';
import type { GroundShape } from '../../../../src/line/groundShapes.ts';

/** A place over the course that can be dragged, or moved by keys while it is in hand: a landing, a spot, a node. */
export interface Grip {
  readonly id: string;
  readonly at: GroundPoint;
  /** While it is dragged, once for each movement. */
  readonly drag: (to: GroundPoint) => void;
  /** Where it was let go. */
  readonly drop: (to: GroundPoint) => void;
  /** The drag was taken back. */
  readonly leave: () => void;
}

/** What a page lays over the course, and what of it can be taken hold of. */
export interface Overlay {
  readonly shapes: readonly GroundShape[];
  readonly grips: readonly Grip[];
}

export const noOverlay: Overlay = { shapes: [], grips: [] };

/** The grip at a point of the ground; the nearest within `slack` metres. */
export function gripUnder(grips: readonly Grip[], at: GroundPoint, slack: number): Grip | null {
  let nearest: Grip | null = null;
  let best = slack;
  for (const grip of grips) {
    const far = Math.hypot(grip.at.x - at.x, grip.at.y - at.y);
    if (far <= best) {
      best = far;
      nearest = grip;
    }
  }
  return nearest;
}
