import type { Moment } from '../review/analysis.ts';
import type { Drawing } from '../review/marks.ts';
import type { ReviewState } from '../review/entities.ts';
import { frameKey, type Still } from './stills.ts';

/** A still with its alternative text and the strokes that the coach drew on that frame. */
export interface Picture {
  readonly still: Still;
  readonly alt: string;
  readonly strokes: Drawing['strokes'];
}

/** The pictures at hand, by mark or drawing id. */
export interface Pictures {
  of(at: Pick<Moment, 'markId' | 'footageId' | 'pts'>, alt: string): Picture | null;
}

export function picturesOf(review: ReviewState, stills: ReadonlyMap<string, Still>): Pictures {
  const without = new Set(review.header.report?.without);
  const drawn = new Map<string, Drawing['strokes'][number][]>();
  for (const d of review.drawings) {
    const key = frameKey(d.footageId, d.pts);
    drawn.set(key, [...(drawn.get(key) ?? []), ...d.strokes]);
  }
  return {
    of(at, alt) {
      const still = without.has(at.markId) ? undefined : stills.get(at.markId);
      return still ? { still, alt, strokes: drawn.get(frameKey(at.footageId, at.pts)) ?? [] } : null;
    },
  };
}
