import type { ClipClock } from '../time/bracket.ts';
import type { Analysis } from './analysis.ts';
import type { ReviewState } from './entities.ts';

/** Frame tables and clocks of the footage in use, by footage id. */
export type Clocks = ReadonlyMap<string, ClipClock>;

/** (signature; the body follows) */
export function analyse(_review: ReviewState, _clocks: Clocks): Analysis {
  throw new Error('not built yet');
}
