import { turnsUntil, type ObstacleKind } from '../course/kinds.ts';
import { earliest, middle, type Bracket } from '../time/bracket.ts';
import { against, timeBetween, type Quantity } from '../time/quantity.ts';
import type { CrossAnalysis, CrossReason, CrossVerdict, Moment } from './analysis.ts';
import type { Cross, CrossPart, CueKind, Mark } from './marks.ts';
import { momentOf, placed, type Clocks, type Placed } from './moments.ts';
import type { TakenPlaced } from './obstaclesTaken.ts';

type Open = CrossAnalysis['open'][number];

/** The three figures that a verdict stands on; null where their moments are not marked. */
export interface CrossFigures {
  /** Earliest cue to the commitment to the path: positive where the cue came before. */
  readonly lead: Quantity | null;
  /** Cross finished to landing: positive where it was finished before. */
  readonly finish: Quantity | null;
  /** Committed to the obstacle to the earliest cue: positive where it was begun after. */
  readonly afterCommitted: Quantity | null;
}

export interface Judged {
  readonly verdict: CrossVerdict;
  readonly reason: CrossReason;
  readonly open: readonly Open[];
}

/**
 * The verdict on a cross (common practice, design facts).
 * Front, blind, serpentine, threadle: the change shows before take-off and is finished by landing; in time with a
 * stride to gather left, tight with less, late after. Rear: begun after the dog is committed to the obstacle and
 * before take-off. Pivots are made standing. Given only where the brackets exclude every threshold.
 */
export function judgeCross(kind: Cross['kind'], figures: CrossFigures, strideSeconds: number): Judged {
  if (kind === 'leadOutPivot') return { verdict: 'standing', reason: 'pivotStanding', open: [] };
  return kind === 'rear' ? judgeRear(figures) : judgeShown(figures, strideSeconds);
}

function judgeShown({ lead, finish }: CrossFigures, strideSeconds: number): Judged {
  const cue = lead && against(lead, 0);
  const done = finish && against(finish, 0);
  if (cue === 'below') return { verdict: 'late', reason: 'cueAfterCommitment', open: [] };
  if (done === 'below') return { verdict: 'late', reason: 'finishedAfterLanding', open: [] };
  if (!lead || !cue) return { verdict: 'notMarked', reason: 'momentsMissing', open: ['lead'] };
  const stride = against(lead, strideSeconds);
  const open: Open[] = [];
  if (cue === 'open') open.push('lead');
  if (stride === 'open') open.push('stride');
  if (done === 'open') open.push('finish');
  if (open.length > 0) return { verdict: 'cannotTell', reason: 'bracketsOverlap', open };
  return stride === 'above'
    ? { verdict: 'inTime', reason: 'cueBeforeWithStride', open: [] }
    : { verdict: 'tight', reason: 'cueBeforeWithoutStride', open: [] };
}

function judgeRear({ lead, afterCommitted }: CrossFigures): Judged {
  const cue = lead && against(lead, 0);
  const committed = afterCommitted && against(afterCommitted, 0);
  if (cue === 'below') return { verdict: 'late', reason: 'cueAfterCommitment', open: [] };
  if (committed === 'below') return { verdict: 'tooEarly', reason: 'begunBeforeCommitted', open: [] };
  const missing: Open[] = [];
  if (!cue) missing.push('lead');
  if (!committed) missing.push('commitment');
  if (missing.length > 0) return { verdict: 'notMarked', reason: 'momentsMissing', open: missing };
  const open: Open[] = [];
  if (cue === 'open') open.push('lead');
  if (committed === 'open') open.push('commitment');
  if (open.length > 0) return { verdict: 'cannotTell', reason: 'bracketsOverlap', open };
  return { verdict: 'inTime', reason: 'begunBetween', open: [] };
}

/** Brings a cross, its marks and the obstacles taken together and judges it. */
export function analyseCross(
  cross: Cross,
  obstacle: { readonly kind: ObstacleKind; readonly nickname: string },
  marks: readonly Mark[],
  taken: readonly TakenPlaced[],
  clocks: Clocks,
  start: Bracket | null,
  strideSeconds: number,
): CrossAnalysis {
  const cues: { cue: CueKind | null; at: Placed }[] = [];
  const parts: Partial<Record<CrossPart, Placed>> = {};
  for (const mark of marks) {
    if (mark.kind !== 'cross' || mark.crossId !== cross.id) continue;
    const here = placed(mark, obstacle.kind, clocks);
    if (!here) continue;
    if (mark.part === 'cueBegins') cues.push({ cue: mark.cue ?? null, at: here });
    else parts[mark.part] = here;
  }
  cues.sort((a, b) => middle(a.at.bracket) - middle(b.at.bracket));
  const begins = earliest(cues.map((c) => c.at.bracket));
  const at = takenNearest(taken, cross.place, begins ?? parts.takeOff?.bracket ?? null);
  const takeOff = parts.takeOff ?? (at && !at.single ? at.in : null);
  const landing = parts.landing ?? (at && !at.single ? at.out : null);
  const deadline = turnsUntil(obstacle.kind) === 'in' ? takeOff : landing;
  const figures: CrossFigures = {
    lead: begins && deadline ? timeBetween(begins, deadline.bracket) : null,
    finish: parts.cueEnds && landing ? timeBetween(parts.cueEnds.bracket, landing.bracket) : null,
    afterCommitted: begins && parts.committed ? timeBetween(parts.committed.bracket, begins) : null,
  };
  const moment = (p: Placed): Moment => momentOf(p, start);
  const shown: Partial<Record<CrossPart, Moment>> = {};
  if (cues[0]) shown.cueBegins = moment(cues[0].at);
  for (const part of ['cueEnds', 'committed', 'takeOff', 'landing'] as const) {
    const p = part === 'landing' ? landing : part === 'takeOff' ? takeOff : parts[part];
    if (p) shown[part] = moment(p);
  }
  return {
    id: cross.id,
    place: cross.place,
    kind: cross.kind,
    nickname: obstacle.nickname,
    plannedId: cross.plannedId ?? null,
    ...judgeCross(cross.kind, figures, strideSeconds),
    ...figures,
    leadFrames: deadline
      ? framesBetween(
          cues.map((c) => c.at),
          deadline,
        )
      : null,
    stride: strideSeconds,
    cues: cues.map(({ cue, at: p }) => ({
      cue,
      begins: moment(p),
      lead: deadline ? timeBetween(p.bracket, deadline.bracket) : null,
    })),
    parts: shown,
    deadline: deadline ? moment(deadline) : null,
  };
}

/** The taking of this number that a cross belongs to: of several tries the one nearest in time, else the last. */
function takenNearest(taken: readonly TakenPlaced[], place: number, to: Bracket | null): TakenPlaced | null {
  const here = taken.filter((t) => t.place === place);
  if (here.length < 2 || !to) return here.at(-1) ?? null;
  const far = (t: TakenPlaced): number => {
    const edge = t.in ?? t.out;
    return edge ? Math.abs(middle(edge.bracket) - middle(to)) : Infinity;
  };
  return here.reduce((best, t) => (far(t) < far(best) ? t : best));
}

/** The lead in frames of the clip, where all of it was seen in one clip. */
function framesBetween(cues: readonly Placed[], deadline: Placed): Quantity | null {
  const same = cues.filter((c) => c.mark.footageId === deadline.mark.footageId);
  if (same.length === 0 || same.length !== cues.length) return null;
  const from = Math.min(...same.map((c) => c.span.from));
  const to = Math.min(...same.map((c) => c.span.to));
  const width = to - from + (deadline.span.to - deadline.span.from);
  return {
    value: (deadline.span.from + deadline.span.to) / 2 - (from + to) / 2,
    plusMinus: width / 2,
    unit: 'frames',
  };
}
