import { useDesk, useDeskView } from '../DeskContext.ts';
import type { Grip } from '../look/Magnified.tsx';
import type { Place } from '../look/magnifier.ts';

/** What the pointer does on the picture while a line is marked; nothing otherwise. */
export function useTrackHands(): { readonly onTouch?: (place: Place) => void; readonly grip?: Grip } {
  const { track } = useDesk();
  const marking = useDeskView((v) => v.mode.name === 'track');
  return marking ? { onTouch: track.click, grip: track.grip } : {};
}
