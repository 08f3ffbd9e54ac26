import type { ObstacleKind } from '../course/kinds.ts';
import type { RefusalKind } from '../course/refusals.ts';
import type { CrossKind } from '../plan/plan.ts';
import type { CrossPart, CueKind, EventKind, StartPart } from '../review/marks.ts';

/** Names of equipment in both dialects. */
export const obstacleWords: Record<'british' | 'american', Record<ObstacleKind, string>> = {
  british: {
    barJump: 'bar jump',
    spread: 'spread',
    panel: 'panel',
    wall: 'wall',
    longJump: 'long jump',
    tyre: 'tyre',
    tunnel: 'tunnel',
    weavePoles: 'weave poles',
    aFrame: 'A-frame',
    dogWalk: 'dog walk',
    seeSaw: 'see-saw',
    table: 'table',
    unknown: 'obstacle',
  },
  american: {
    barJump: 'bar jump',
    spread: 'spread jump',
    panel: 'panel jump',
    wall: 'wall',
    longJump: 'long jump',
    tyre: 'tire',
    tunnel: 'tunnel',
    weavePoles: 'weave poles',
    aFrame: 'A-frame',
    dogWalk: 'dog walk',
    seeSaw: 'teeter',
    table: 'table',
    unknown: 'obstacle',
  },
};

export const crossWords: Record<CrossKind, string> = {
  front: 'front cross',
  blind: 'blind cross',
  rear: 'rear cross',
  leadOutPivot: 'lead-out pivot',
  serpentine: 'serpentine',
  threadle: 'threadle',
};

export const cueWords: Record<CueKind, string> = {
  feet: 'feet',
  shoulders: 'shoulders',
  slowing: 'slowing',
  voice: 'voice',
};

export const crossPartWords: Record<CrossPart, string> = {
  cueBegins: 'cue begins',
  cueEnds: 'cross finished',
  committed: 'committed to the obstacle',
  takeOff: 'take-off',
  landing: 'landing',
};

export const startPartWords: Record<StartPart, string> = {
  setUp: 'set up',
  fake: 'fake',
  shift: 'shift, no paw',
  step: 'paw moved',
  release: 'release',
};

export const eventWords: Record<EventKind, string> = {
  barDown: 'bar down',
  refusal: 'refusal',
  offCourse: 'off-course',
  missedEntry: 'missed entry',
  poppedOut: 'popped out',
  missedContact: 'missed contact',
  wide: 'wide',
  lateCross: 'late cross',
  happy: 'happy sign',
  worried: 'worried sign',
  reward: 'reward',
  clockStart: 'clock started',
  clockStop: 'clock stopped',
  note: 'note',
};

export const refusalWords: Record<RefusalKind, string> = {
  stopped: 'stopped in front',
  ranBy: 'run-out',
  throughFrame: 'through the frame',
  walkedThrough: 'walked through',
  headInTunnel: 'into the tunnel and out again',
};
