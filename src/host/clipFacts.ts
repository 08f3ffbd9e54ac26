import type { Clips } from '../library/clips.ts';
import type { ClipFacts } from '../review/document.ts';
import type { ReviewState } from '../review/entities.ts';
import { LibraryTrouble } from '../library/trouble.ts';
import { hostTroubles } from '../words/hostTroubles.ts';

/**
 * What the review file tells of each clip that a review uses, by clip id. The path is the bare file name: found
 * again where the clip lies beside the review file, and nobody's folders are given away.
 */
export function clipFacts(clips: Clips, review: ReviewState): Map<string, ClipFacts> {
  const facts = new Map<string, ClipFacts>();
  for (const { clipId, name } of review.footage) {
    if (facts.has(clipId)) continue;
    const clip = clips.get(clipId);
    if (!clip) throw new LibraryTrouble('damaged', hostTroubles.footageUnknownClip(name));
    const { timeBase, pts } = clips.frames(clipId);
    facts.set(clipId, {
      sha256: clip.sha256,
      bytes: clip.bytes,
      path: clip.name,
      width: clip.facts.width,
      height: clip.facts.height,
      rotation: clip.facts.rotation,
      codec: clip.facts.codec,
      timeBase: [timeBase.num, timeBase.den],
      pts: [...pts],
    });
  }
  return facts;
}
