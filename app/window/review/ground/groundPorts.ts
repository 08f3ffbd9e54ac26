import { builtBy } from '../../../../src/course/builtBy.ts';
import type { PictureSize } from '../../../../src/course/pictureLay.ts';
import { ruleBookIn } from '../../stores/ruleBooks.ts';
import type { Workbench } from '../../stores/workbench.ts';
import type { Desk } from '../desk/desk.ts';
import type { GroundPorts } from './ground.ts';

/** Where the ground has its course and its picture from. */
export function groundPorts({ review, library, preferences, ruleBooks }: Workbench, desk: Desk): GroundPorts {
  let size: PictureSize | null = null;
  return {
    course() {
      const { state } = review.getState();
      if (!state) return null;
      return builtBy(state.course, ruleBookIn(ruleBooks.getState(), state.course.ruleBook).book);
    },
    dialect: () => preferences.getState().dialect,
    picture() {
      const { footageId } = desk.store.getState();
      const use = review.getState().state?.footage.find((f) => f.id === footageId);
      const clip = use && library.getState().clips.get(use.clipId);
      if (!clip) return null;
      // The same size is the same thing: what is worked out from it is kept.
      if (size?.width !== clip.width || size.height !== clip.height)
        size = { width: clip.width, height: clip.height };
      return size;
    },
  };
}
