import type { Analysis, Moment } from '../../review/analysis.ts';
import type { ReviewState } from '../../review/entities.ts';
import { ticksToSeconds } from '../../time/timeBase.ts';
import { lastFrame, ptsOf, type FrameTable } from '../../time/frameTable.ts';
import { frameIndex } from '../../time/units.ts';
import { dataOutWords as words } from '../../words/dataOut.ts';
import { capital } from '../../words/sentence.ts';
import { crossNamed, stayWords } from '../../words/verdicts.ts';
import { maskFor } from '../names.ts';
import { placesOf, type Dialect } from '../places.ts';
import { eventName } from '../eventName.ts';
import { lineText } from '../pieces.ts';

/** Something said from one instant of a clip to another, seconds from its first frame. */
export interface Caption {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** How long a remark stands, seconds of the clip. */
const stands = 2.5;

interface Captions {
  /** One stretch after another, each up to the frame on which its obstacle was done. */
  readonly chapters: readonly Caption[];
  /** Crosses with their verdicts, stays and what was noted, each from its frame on. */
  readonly remarks: readonly Caption[];
}

/**
 * What can be shown along a clip of the review. Its times are those of the clip itself (its first frame is 0), so that
 * they fit the file, however it was slowed down or lined up.
 */
export function captionsOf(
  review: ReviewState,
  analysis: Analysis,
  footageId: string,
  table: FrameTable,
  dialect: Dialect = 'british',
): Captions {
  const mask = maskFor(review.header);
  const places = placesOf(review, dialect, mask);
  const first = ticksToSeconds(table.timeBase, ptsOf(table, frameIndex(0)));
  const secondsOf = (frame: number): number =>
    ticksToSeconds(table.timeBase, ptsOf(table, frameIndex(Math.min(frame, lastFrame(table))))) - first;
  const at = (m: Moment | null | undefined): number | null =>
    m?.footageId === footageId ? secondsOf(m.frame) : null;
  const taken = analysis.taken.filter((t) => t.try === analysis.countedTry);
  const starts = [at(analysis.clock?.start), ...taken.map((t) => at(t.out))];
  const chapters = taken.flatMap((t, i): Caption[] => {
    const [from, to] = [starts[i] ?? at(t.in), at(t.out)];
    return from === null || to === null || !(to > from)
      ? []
      : [{ from, to, text: lineText(places.named(t.place)) }];
  });
  const remark = (m: Moment | null | undefined, text: string): Caption[] => {
    const from = at(m);
    return from === null || text === '' ? [] : [{ from, to: from + stands, text }];
  };
  const remarks = [
    ...analysis.crosses.flatMap((c) =>
      remark(
        c.deadline ?? c.cues[0]?.begins,
        words.crossed(`${crossNamed(c.kind)} at ${lineText(places.named(c.place))}`, c.verdict),
      ),
    ),
    ...analysis.startLine.flatMap((s) =>
      remark(s.moments.at(-1)?.moment, capital(`${stayWords[s.verdict]}.`)),
    ),
    ...analysis.events.flatMap((e) => {
      const where = e.place === null ? '' : ` at ${lineText(places.named(e.place))}`;
      const note = mask(e.mark.note.trim());
      return remark(e.moment, `${capital(eventName(e, mask))}${where}${note === '' ? '' : `: ${note}`}`);
    }),
  ].sort((a, b) => a.from - b.from);
  return { chapters, remarks };
}
