import { useDesk, useDeskView, useGround } from '../DeskContext.ts';
import type { Grip } from '../look/Magnified.tsx';
import type { Place } from '../look/magnifier.ts';

/** What the pointer does on the picture while the course is fitted; nothing otherwise. */
export function useGroundHands(): {
  readonly onTouch?: (place: Place) => void;
  readonly onOver?: (place: Place) => void;
  readonly grip?: Grip;
} {
  const { ground } = useDesk();
  const fitting = useDeskView((v) => v.mode.name === 'ground');
  const atHand = useGround((v) => v.part !== null);
  if (!fitting) return {};
  return atHand ? { onTouch: ground.click, onOver: ground.over, grip: ground.grip } : { grip: ground.grip };
}
