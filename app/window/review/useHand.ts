import { useReview } from '../stores/react.ts';
import { useDesk, useDeskView } from './DeskContext.ts';
import type { AtHand } from './marking/atHand.ts';

/** The obstacle at hand; follows the playhead, the marks and what was typed. */
export function useHand(): AtHand {
  const { desk } = useDesk();
  useDeskView((v) => v.frame);
  useDeskView((v) => v.footageId);
  useDeskView((v) => v.typed);
  useReview((v) => v.state);
  useReview((v) => v.clocks);
  return desk.hand();
}
