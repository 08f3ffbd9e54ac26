import type { GroundPoint } from '../../course/points.ts';
import type { Facing } from '../dubins.ts';

/** One way of taking a number: where the way on the ground ends before it and goes on behind it. */
export interface Taking {
  /** Take-off, entry, first paw on; and the way she runs there. */
  readonly entry: Facing;
  /** Landing, exit, last paw off. */
  readonly exit: Facing;
  /** Her way from entry to exit. */
  readonly through: readonly GroundPoint[];
  /** From entry to exit. */
  readonly seconds: number;
  /** The facing that the way on the ground leads to; she goes straight on from there to `entry`. */
  readonly before: Facing;
  /** The facing from which the way on the ground goes on; she comes straight from `exit`. */
  readonly after: Facing;
  /** Seconds for the straight pieces from `before` to `entry` and from `exit` to `after`. */
  readonly leadSeconds: readonly [number, number];
  readonly offset: number;
  readonly slice: number;
  /** False where she would come too near to something solid while she takes it. */
  readonly clear: boolean;
}

/** A number, or an end of a wing that has to be rounded, as the search sees it. */
export interface Gate {
  /** Which of the drawn steps it is; null: a wing's end, the start, the finish. */
  readonly step: number | null;
  /** m/s at which she comes in and goes out. */
  readonly speedIn: number;
  readonly speedOut: number;
  /**
   * What can be chosen about it: for each free figure, how many of them stand in the grid from -1 to 1, and whether
   * those between may be taken.
   */
  readonly free: readonly { readonly count: number; readonly between: boolean; readonly round?: boolean }[];
  /** The taking for figures between -1 and 1. */
  readonly taking: (figures: readonly number[]) => Taking;
}

/** All combinations of the figures that stand in a gate's grid. */
export function gridOf(gate: Gate, counts: readonly number[] = gate.free.map((f) => f.count)): number[][] {
  return gate.free.reduce<number[][]>(
    (grid, free, i) => {
      const count = counts[i] ?? free.count;
      const figures = Array.from({ length: count }, (_, k) =>
        // On a full circle the first and the last would be the same.
        free.round === true ? -1 + (2 * k) / count : count === 1 ? 0 : -1 + (2 * k) / (count - 1),
      );
      return grid.flatMap((row) => figures.map((figure) => [...row, figure]));
    },
    [[]],
  );
}

/** Facing from a place `along` metres ahead and `aside` to the left, turned by `turn`. */
export function fromFacing(f: Facing, along: number, aside = 0, turn = 0): Facing {
  const [cos, sin] = [Math.cos(f.angle), Math.sin(f.angle)];
  return {
    x: f.x + along * cos - aside * sin,
    y: f.y + along * sin + aside * cos,
    angle: f.angle + turn,
  };
}

export const point = ({ x, y }: GroundPoint): GroundPoint => ({ x, y });

/** A facing that is run through. */
export const spot = (at: Facing, clear: boolean): Taking => ({
  entry: at,
  exit: at,
  through: [],
  seconds: 0,
  before: at,
  after: at,
  leadSeconds: [0, 0],
  offset: 0,
  slice: 0,
  clear,
});
