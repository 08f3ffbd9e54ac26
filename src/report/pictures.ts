import type { Moment } from '../review/analysis.ts';
import type { Drawing } from '../review/marks.ts';
import type { ReviewState } from '../review/entities.ts';
import type { Track } from '../track/track.ts';
import { closeUpOf, type Part } from './closeUp.ts';
import { frameKey, type Still } from './stills.ts';

/** A still with its alternative text and the strokes that the coach drew on that frame. */
export interface Picture {
  readonly still: Still;
  readonly alt: string;
  readonly strokes: Drawing['strokes'];
  /** What of it is shown; null: all. */
  readonly part: Part | null;
}

/** The pictures at hand, by mark or drawing id. */
export interface Pictures {
  /** @param who who must be seen: where each of them is marked about that frame, it is shown close up */
  of(
    at: Pick<Moment, 'markId' | 'footageId' | 'pts'>,
    alt: string,
    who: readonly Track['who'][],
  ): Picture | null;
}

export function picturesOf(review: ReviewState, stills: ReadonlyMap<string, Still>): Pictures {
  const without = new Set(review.header.report?.without);
  const drawn = new Map<string, Drawing['strokes'][number][]>();
  for (const d of review.drawings) {
    const key = frameKey(d.footageId, d.pts);
    drawn.set(key, [...(drawn.get(key) ?? []), ...d.strokes]);
  }
  return {
    of(at, alt, who) {
      const still = without.has(at.markId) ? undefined : stills.get(at.markId);
      if (!still) return null;
      const strokes = drawn.get(frameKey(at.footageId, at.pts)) ?? [];
      return { still, alt, strokes, part: closeUpOf(review, at, who) };
    },
  };
}
