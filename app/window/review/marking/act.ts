import type { Change } from '../../../../src/review/entities.ts';
import type { Mark } from '../../../../src/review/marks.ts';

/** One act as it goes to the host: one step of undo, named by its label. */
export interface Act {
  readonly label: string;
  readonly changes: readonly Change[];
  /** The mark that is the thing being acted on afterwards; null for none; absent to leave it as it is. */
  readonly selects?: string | null;
}

/** Where a new mark lies: the frame on the screen, and by how many frames the press may be off. */
export interface Spot {
  readonly footageId: string;
  readonly pts: number;
  readonly unsure: number;
}

/** Makes ids for new entities; passed in, so that this room stays free of chance. */
export type MakeId = () => string;

/** The change that puts a mark into the review, new or altered. */
export function put(mark: Mark): Change {
  return { kind: 'mark', id: mark.id, body: mark };
}

/** The change that takes a mark out of the review. */
export function drop(id: string): Change {
  return { kind: 'mark', id, body: null };
}

/** An existing mark, put on another spot. */
export function movedTo<M extends Mark>(mark: M, spot: Spot): M {
  return { ...mark, footageId: spot.footageId, pts: spot.pts, unsure: spot.unsure };
}
