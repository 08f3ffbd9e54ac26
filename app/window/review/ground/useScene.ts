import { useBookOf } from '../../stores/bookOf.ts';
import { useClips, usePreferences } from '../../stores/react.ts';
import { useDesk, useDeskView, useGround, useOpenReview } from '../DeskContext.ts';
import type { NoScene } from './ground.ts';
import type { Scene } from './scene.ts';

/** The course and the picture at the frame on the desk; follows all that it is made of. */
export function useScene(): Scene | NoScene {
  const { ground } = useDesk();
  const { course } = useOpenReview();
  useBookOf(course);
  useClips();
  usePreferences((p) => p.dialect);
  useGround((v) => v.stretch);
  // It stays the same scene from frame to frame as long as it shows the same.
  return useDeskView(() => ground.scene());
}
