import type { Manner } from '../course/kinds.ts';
import type { CrossKind } from '../plan/plan.ts';
import type { CrossAnalysis, CrossReason, CrossVerdict, StartTry, StayVerdict } from '../review/analysis.ts';
import { listed, plural } from './locale.ts';
import { capital, say, type Sentence } from './sentence.ts';
import { crossWords } from './trade.ts';

export const verdictWords: Record<CrossVerdict, string> = {
  inTime: 'in time',
  tight: 'tight',
  late: 'late',
  tooEarly: 'too early',
  cannotTell: 'cannot tell at this frame rate',
  notMarked: 'not measured yet',
  standing: 'made standing',
};

export const stayWords: Record<StayVerdict, string> = {
  kept: 'stay kept',
  broken: 'broke the stay',
  cannotTell: 'cannot tell at this frame rate',
  notMarked: 'not measured yet',
};

/** What the two edges of an obstacle are called, by how it is taken. */
export const edgeWords: Record<Manner, { readonly in: string; readonly out: string }> = {
  jumped: { in: 'take-off', out: 'landing' },
  through: { in: 'the entry', out: 'the exit' },
  woven: { in: 'the entry', out: 'the exit' },
  climbed: { in: 'the first paw on', out: 'the last paw off' },
  unknown: { in: 'take-off', out: 'landing' },
};

export const crossNamed = (kind: CrossKind): string => capital(crossWords[kind]);

/** A figure with its size only: the words say which way it points. */
export interface Sized<Piece> {
  readonly piece: Piece;
  readonly value: number;
}

/** What a sentence about a cross needs. Figures are written by their size; null where they are not measured. */
export interface CrossTold<Piece> {
  readonly kind: CrossKind;
  readonly reason: CrossReason;
  readonly open: CrossAnalysis['open'];
  readonly manner: Manner;
  readonly lead: Sized<Piece> | null;
  readonly finish: Sized<Piece> | null;
  readonly afterCommitted: Sized<Piece> | null;
  readonly stride: Piece;
}

/** Why a cross came out as it did, in one or two plain sentences. */
export function crossSentence<Piece>(c: CrossTold<Piece>): Sentence<Piece> {
  const edge = edgeWords[c.manner];
  const lead = c.lead?.piece ?? '';
  switch (c.reason) {
    case 'cueBeforeWithStride':
      return say`The cue came ${lead} before ${edge.in}. That left a stride (${c.stride}) to gather.${unfinished(c)}`;
    case 'cueBeforeWithoutStride':
      return say`The cue came ${lead} before ${edge.in}: soon enough to be seen, but with less than the stride (${c.stride}) the dog needs to gather.${unfinished(c)}`;
    case 'cueAfterCommitment':
      return say`The cue came ${lead} after ${edge.in}. ${tooLateToTurn[c.manner]}`;
    case 'finishedAfterLanding':
      return say`The cross was finished ${c.finish?.piece ?? ''} after ${edge.out}: the new side was not there yet when the dog came to it.`;
    case 'begunBeforeCommitted':
      return say`It began ${c.afterCommitted?.piece ?? ''} before the dog was committed to the obstacle. That can draw a dog off it.`;
    case 'begunBetween':
      return say`It began ${c.afterCommitted?.piece ?? ''} after the dog was committed to the obstacle and ${lead} before ${edge.in}.`;
    case 'bracketsOverlap':
      return say`The frames leave open ${listed(c.open.map((o) => openWords(o, edge)))}. A clip with more frames a second could tell.`;
    case 'momentsMissing':
      return say`There is no verdict yet: ${listed(c.open.map((o) => missingWords(o, c.kind, edge)))}.`;
    case 'pivotStanding':
      return say`A pivot is made standing, before the dog is on its way, so there is no take-off to be in time for.`;
  }
}

const tooLateToTurn: Record<Manner, string> = {
  jumped: 'In the air no dog can turn: the dog did nothing wrong.',
  through: 'Inside, the dog could no longer see it: the dog did nothing wrong.',
  woven: 'By then the dog was at work in the poles: the dog did nothing wrong.',
  climbed: 'By then the dog was on the equipment: the dog did nothing wrong.',
  unknown: 'By then the dog was committed to its path: the dog did nothing wrong.',
};

function unfinished<Piece>(c: CrossTold<Piece>): string {
  if (c.finish) return '';
  return ` Whether it was finished by ${edgeWords[c.manner].out} is not marked.`;
}

type Edge = { readonly in: string; readonly out: string };

function openWords(open: CrossAnalysis['open'][number], edge: Edge): string {
  switch (open) {
    case 'lead':
      return `whether the cue came before ${edge.in}`;
    case 'stride':
      return 'whether a stride was left to gather';
    case 'finish':
      return `whether the cross was finished by ${edge.out}`;
    case 'commitment':
      return 'whether the dog was committed to the obstacle when it began';
  }
}

function missingWords(open: CrossAnalysis['open'][number], kind: CrossKind, edge: Edge): string {
  switch (open) {
    case 'lead':
    case 'stride':
      return `the cue or ${edge.in} is not marked`;
    case 'finish':
      return `the end of the ${crossWords[kind]} or ${edge.out} is not marked`;
    case 'commitment':
      return 'where the dog was committed to the obstacle is not marked';
  }
}

/** "0.10 s ± 0.03 before take-off", the figure given by its size. */
export function beforeOrAfter<Piece>(figure: Sized<Piece>, what: string): Sentence<Piece> {
  return figure.value >= 0 ? say`${figure.piece} before ${what}` : say`${figure.piece} after ${what}`;
}

/** How a try at the start line went, in a plain sentence. */
export function staySentence<Piece>(
  verdict: StayVerdict,
  stay: Piece | null,
  early: Sized<Piece> | null,
): Sentence<Piece> {
  switch (verdict) {
    case 'kept':
      return stay === null
        ? say`No paw moved before the release.`
        : say`No paw moved before the release, ${stay} after setting up.`;
    case 'broken': {
      const waited = stay === null ? '' : stay;
      if (early && stay !== null)
        return say`A paw moved ${early.piece} before the release, ${waited} after setting up.`;
      if (early) return say`A paw moved ${early.piece} before the release.`;
      return stay === null
        ? say`A paw moved; there was no release.`
        : say`A paw moved ${waited} after setting up; there was no release.`;
    }
    case 'cannotTell':
      return say`A paw and the release came so close together that the frames cannot tell which was first.`;
    case 'notMarked':
      return say`Neither a paw nor the release is marked.`;
  }
}

/** Fakes and shifts of a try, or nothing. */
export function waitingWords({ fakes, shifts }: Pick<StartTry, 'fakes' | 'shifts'>): string {
  const parts: string[] = [];
  if (fakes > 0) parts.push(plural(fakes, { one: '# fake', other: '# fakes' }));
  if (shifts > 0)
    parts.push(
      plural(shifts, { one: '# shift of weight without a paw', other: '# shifts of weight without a paw' }),
    );
  return parts.length === 0 ? '' : `${capital(listed(parts))}.`;
}
