import { mannerOf, type Manner, type ObstacleKind } from '../course/kinds.ts';
import type {
  CrossAnalysis,
  CrossVerdict,
  RunClock,
  StartTry,
  StayVerdict,
  Warning,
} from '../review/analysis.ts';
import type { CrossPart, EventMark, Mark } from '../review/marks.ts';
import type { PlannedRow } from '../review/planned.ts';
import type { TurnsFrom } from '../review/turnsFrom.ts';
import type { Quantity } from '../time/quantity.ts';
import { figure } from './figures.ts';
import {
  crossPartWords,
  crossWords,
  cueWords,
  eventWords,
  obstacleWords,
  refusalWords,
  startPartWords,
} from './trade.ts';
import * as verdicts from './verdicts.ts';
import type { Sized } from './verdicts.ts';

/** What in and out are called on an obstacle, by how the dog takes it (design words). */
export const edgeWords: Record<Manner, { readonly in: string; readonly out: string }> = {
  jumped: { in: 'take-off', out: 'landing' },
  through: { in: 'entry', out: 'exit' },
  woven: { in: 'entry', out: 'exit' },
  climbed: { in: 'first paw on', out: 'last paw off' },
  unknown: { in: 'in', out: 'out' },
};

/** "take-off", "exit", "last paw off" … ; "taken" for one mark that stands for both edges. */
export function edgeWord(kind: ObstacleKind, edge: 'in' | 'out' | 'whole'): string {
  return edge === 'whole' ? 'taken' : edgeWords[mannerOf(kind)][edge];
}

/** The name of an obstacle: what the coach calls it, else its kind, else nothing (a bare count). */
export function obstacleName(
  obstacle: { readonly kind: ObstacleKind; readonly nickname: string } | undefined,
  dialect: 'british' | 'american' = 'british',
): string {
  if (!obstacle) return '';
  if (obstacle.nickname !== '') return obstacle.nickname;
  return obstacle.kind === 'unknown' ? '' : obstacleWords[dialect][obstacle.kind];
}

/** One word for how a cross came out. */
export const crossVerdictWords: Record<CrossVerdict, string> = {
  inTime: 'in time',
  tight: 'tight',
  late: 'late',
  tooEarly: 'too early',
  cannotTell: 'cannot tell',
  notMarked: 'not marked yet',
  standing: 'standing',
};

/** How a planned cross was carried out, in a few words. */
export function plannedOutcome({ as, happened }: PlannedRow): string {
  const verdict = happened ? crossVerdictWords[happened.verdict] : '';
  switch (as) {
    case 'planned':
      return verdict;
    case 'secondChoice':
      return `second choice, ${verdict}`;
    case 'otherKind':
      return `${happened ? crossWords[happened.kind] : ''} instead, ${verdict}`;
    case 'elsewhere':
      return `at ${String(happened?.place)}, ${verdict}`;
    case 'leftOut':
      return 'left out: none is marked';
    case 'notReached':
      return 'not reached';
  }
}

/** From which frame a dog could turn, and what held her until then. */
export function turnsFromSentence(turns: TurnsFrom, kind: ObstacleKind): string {
  const out = edgeWord(kind, 'out');
  switch (turns.from) {
    case 'cue':
      return `From the cue, frame ${turns.moment.frame}.`;
    case 'landing':
      return `From ${out}, frame ${turns.moment.frame}: she was in the air when the cue began.`;
    case 'exit':
      return `From ${out}, frame ${turns.moment.frame}: she was inside when the cue began.`;
    case 'leaving':
      return `From ${out}, frame ${turns.moment.frame}: she runs it to its end first.`;
    case 'open':
      return `From frame ${turns.earliest.frame} or ${turns.latest.frame}: the frames do not tell.`;
  }
}

/** One word for how a stay came out. */
export const stayVerdictWords: Record<StayVerdict, string> = {
  kept: 'kept',
  broken: 'broken',
  cannotTell: 'cannot tell',
  notMarked: 'not marked yet',
};

/** The moments of a cross in the words of the obstacle it belongs to. */
export function crossPartWord(part: CrossPart, kind: ObstacleKind): string {
  if (part === 'takeOff') return edgeWord(kind, 'in');
  if (part === 'landing') return edgeWord(kind, 'out');
  return crossPartWords[part];
}

/** Length of a figure without its sign: the words say which way it points. */
function size(q: Quantity): string {
  return figure({ ...q, value: Math.abs(q.value) });
}

function sized(q: Quantity | null): Sized<string> | null {
  return q && { piece: size(q), value: q.value };
}

/** The verdict on a cross as text for the screen; the same sentences as in the report. */
export function crossSentence(c: CrossAnalysis, kind: ObstacleKind): string {
  const told = verdicts.crossSentence({
    kind: c.kind,
    reason: c.reason,
    open: c.open,
    manner: mannerOf(kind),
    lead: sized(c.lead),
    finish: sized(c.finish),
    afterCommitted: sized(c.afterCommitted),
    stride: `${c.stride.toFixed(2)} s`,
  });
  return told.join('');
}

/** The stay of one try as text for the screen, with its fakes and shifts. */
export function staySentence(t: StartTry): string {
  const told = verdicts.staySentence(t.verdict, t.stay && size(t.stay), sized(t.early)).join('');
  return [told, verdicts.waitingWords(t)].filter((part) => part !== '').join(' ');
}

/** What the run time was measured between; always unofficial. */
export function clockSentence(clock: RunClock): string {
  const from = clock.startedBy === 'clockStart' ? 'the start line' : 'the first take-off';
  const to = clock.stoppedBy === 'clockStop' ? 'the finish line' : 'the last landing';
  const far = clock.complete ? to : `${to} marked so far`;
  return `From ${from} to ${far}. Unofficial: the judge’s clock stands.`;
}

/** The name of an event: the coach's own label, or the trade's word; a refusal says which kind. */
export function eventName(mark: EventMark, ownLabel: string | null): string {
  if (ownLabel !== null) return ownLabel;
  if (mark.event === 'refusal' && mark.refusal) return `refusal: ${refusalWords[mark.refusal]}`;
  return mark.event in eventWords
    ? eventWords[mark.event as keyof typeof eventWords]
    : 'an event of your own';
}

/** What a mark is, in two or three words and without its place. */
export function markName(mark: Mark, kind: ObstacleKind, ownLabel: string | null = null): string {
  switch (mark.kind) {
    case 'taken':
      return edgeWord(kind, mark.edge);
    case 'event':
      return eventName(mark, ownLabel);
    case 'cross':
      return mark.part === 'cueBegins' && mark.cue
        ? `cue by ${cueWords[mark.cue]}`
        : crossPartWord(mark.part, kind);
    case 'start':
      return startPartWords[mark.part];
  }
}

/** What does not fit together in the marks, as a sentence that says what to do. */
export function warningSentence(w: Warning): string {
  switch (w.warning) {
    case 'outOfOrder':
      return `${w.place} was taken before ${w.before}. If that is how it was run, leave it; else change a number.`;
    case 'inAfterOut':
      return `At ${w.place} the first mark lies after the second. Move one of them.`;
    case 'repeatedEdge':
      return `${w.place} was marked twice. The later mark counts.`;
    case 'notTaken':
      return `${w.place} has no mark. The split runs across it.`;
    case 'missingFootage':
      return 'A mark lies on a clip that cannot be found. Link the clip again to count it.';
    case 'betweenFrames':
      return 'A mark lies between two frames of its clip. It counts for the frame before, one frame less sure.';
    case 'notLinedUp':
      return `“${w.name}” is not lined up with the other clip, so times between the two say nothing. Line them up.`;
  }
}

/** A text with its first letter made large. */
export const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
