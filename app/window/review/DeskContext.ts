import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import type { ReviewState } from '../../../src/review/entities.ts';
import { useReview } from '../stores/react.ts';
import type { ClipHands } from './clip/clipHands.ts';
import type { CutHands } from './clip/cutHands.ts';
import type { Desk } from './desk/desk.ts';
import type { Hands } from './desk/hands.ts';
import type { DeskView } from './desk/view.ts';
import type { Ground, GroundView } from './ground/ground.ts';
import type { Look, LookView } from './look/look.ts';
import type { LinesStore, LinesView } from './track/linesStore.ts';
import type { TrackHands, TrackView } from './track/trackHands.ts';
import type { Stills } from './stills.ts';

/** What the parts of this screen share. */
export interface ReviewDesk {
  readonly desk: Desk;
  readonly hands: Hands;
  readonly clipHands: ClipHands;
  readonly cutHands: CutHands;
  readonly stills: Stills;
  readonly look: Look;
  readonly ground: Ground;
  readonly track: TrackHands;
  readonly lines: LinesStore;
}

export const DeskContext = createContext<ReviewDesk | null>(null);

export function useDesk(): ReviewDesk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error('A part of the review screen was drawn outside its desk.');
  return desk;
}

/** A part of the desk's view; selectors must return what is in the store. */
export function useDeskView<T>(select: (view: DeskView) => T): T {
  return useStore(useDesk().desk.store, select);
}

/** A part of how the coach looks; selectors must return what is in the store. */
export function useLook<T>(select: (view: LookView) => T): T {
  return useStore(useDesk().look.store, select);
}

/** A part of how the course is fitted to the picture; selectors must return what is in the store. */
export function useGround<T>(select: (view: GroundView) => T): T {
  return useStore(useDesk().ground.store, select);
}

/** A part of what is being marked along the line; selectors must return what is in the store. */
export function useTrack<T>(select: (view: TrackView) => T): T {
  return useStore(useDesk().track.store, select);
}

/** The lines of the clip on the desk; selectors must return what is in the store. */
export function useLines<T>(select: (view: LinesView) => T): T {
  return useStore(useDesk().lines, select);
}

/** The open review; the screen is drawn only while one is open. */
export function useOpenReview(): ReviewState {
  const state = useReview((view) => view.state);
  if (!state) throw new Error('The review screen was drawn without a review.');
  return state;
}
