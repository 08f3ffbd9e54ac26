import type { GroundPoint } from '../course/points.ts';

/** What a shape laid over the ground stands for; who paints it gives it its colours. */
export type GroundRole =
  'likely' | 'range' | 'wanted' | 'measured' | 'handler' | 'dog' | 'remark' | 'trap' | 'spot';

/**
 * A shape laid over a course, in metres of the ground. One list for the map, the footage and paper; sizes that do not
 * grow with the map are in pixels.
 */
export type GroundShape =
  | {
      readonly shape: 'way';
      readonly points: readonly GroundPoint[];
      readonly as: GroundRole;
      readonly dashed?: boolean;
      readonly pixels?: number;
    }
  | { readonly shape: 'area'; readonly points: readonly GroundPoint[]; readonly as: GroundRole }
  | {
      /** What is seen from a place: `half` degrees to each side of the heading, `metres` far. */
      readonly shape: 'fan';
      readonly at: GroundPoint;
      readonly headingDegrees: number;
      readonly half: number;
      readonly metres: number;
      readonly as: GroundRole;
    }
  | {
      readonly shape: 'dot';
      readonly at: GroundPoint;
      readonly as: GroundRole;
      readonly pixels: number;
      /** Filled where it can be taken hold of or is meant; else only its edge. */
      readonly full?: boolean;
    }
  | {
      /** A dog or a person that looks somewhere. */
      readonly shape: 'body';
      readonly at: GroundPoint;
      readonly headingDegrees: number;
      readonly as: 'dog' | 'handler';
    }
  | {
      readonly shape: 'label';
      readonly at: GroundPoint;
      readonly text: string;
      readonly as: GroundRole;
    };
