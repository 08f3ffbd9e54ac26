import { crossParts, type CrossPart } from '../review/marks.ts';
import type { Analysis, CrossAnalysis, Moment } from '../review/analysis.ts';
import type { ReviewState } from '../review/entities.ts';

/** A still as it stands in the report: a JPEG in base64, upright. */
export interface Still {
  readonly base64: string;
  readonly width: number;
  readonly height: number;
}

/** A frame that the report would show. */
export interface StillWanted {
  /** Id of the mark or drawing it belongs to; stills are supplied by it. */
  readonly id: string;
  readonly footageId: string;
  readonly pts: number;
}

/** The most stills in one report: a file must still open from mail on a phone. */
export const mostStills = 96;

/** A moment of a cross; `cueIndex` says which of its cues, where it is one. */
export interface CrossMoment {
  readonly part: CrossPart;
  readonly cueIndex: number | null;
  readonly moment: Moment;
}

/** The moments of a cross in the order they came. */
export function crossMoments(cross: CrossAnalysis): CrossMoment[] {
  const cues = cross.cues.map((c, i) => ({ part: 'cueBegins' as const, cueIndex: i, moment: c.begins }));
  const parts = crossParts.flatMap((part) => {
    const moment = part === 'cueBegins' ? undefined : cross.parts[part];
    return moment ? [{ part, cueIndex: null, moment }] : [];
  });
  const middle = (m: Moment): number => (m.bracket.from + m.bracket.to) / 2;
  return [...cues, ...parts].sort((a, b) => middle(a.moment) - middle(b.moment));
}

/** The moments that a verdict stands on are pictured: the earliest cue, the deadline, the end; the rest is told. */
export function isPictured(
  cross: CrossAnalysis,
  { part, cueIndex }: Pick<CrossMoment, 'part' | 'cueIndex'>,
): boolean {
  if (part === 'cueBegins') return cueIndex === 0;
  return part !== 'committed' || cross.kind === 'rear';
}

/** The stills that a report shows: of those that it can show, the ones that the coach has not left out; at most `mostStills`. */
export function stillsWanted(review: ReviewState, analysis: Analysis): StillWanted[] {
  const without = new Set(review.header.report?.without);
  return stillsOffered(review, analysis)
    .filter(({ id }) => !without.has(id))
    .slice(0, mostStills);
}

/**
 * The stills that a report can show, each once, in the order they appear: the deciding moments of each cross, paws
 * and releases at the start line, the drawings.
 */
export function stillsOffered(review: ReviewState, analysis: Analysis): StillWanted[] {
  const wanted = new Map<string, StillWanted>();
  const want = (id: string, footageId: string, pts: number): void => {
    if (!wanted.has(id)) wanted.set(id, { id, footageId, pts });
  };
  const moments = [
    ...analysis.crosses.flatMap((c) =>
      crossMoments(c)
        .filter((m) => isPictured(c, m))
        .map((m) => m.moment),
    ),
    ...analysis.startLine.flatMap((t) =>
      t.moments.filter((m) => m.part === 'step' || m.part === 'release').map((m) => m.moment),
    ),
  ];
  for (const m of moments) want(m.markId, m.footageId, m.pts);
  const shown = new Set(moments.map((m) => frameKey(m.footageId, m.pts)));
  for (const d of review.drawings) {
    if (!shown.has(frameKey(d.footageId, d.pts))) want(d.id, d.footageId, d.pts);
  }
  return [...wanted.values()];
}

/** One key for one frame of one clip. */
export const frameKey = (footageId: string, pts: number): string => `${pts}/${footageId}`;
