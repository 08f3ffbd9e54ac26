import type { Light } from '../../../../src/host/contract/looks.ts';
import { useDesk, useDeskView, useLook, useOpenReview } from '../DeskContext.ts';

/** The light of the clip on the desk. */
export function useLight(): Light {
  const { look } = useDesk();
  useDeskView((v) => v.footageId);
  useLook((v) => v.lights);
  useOpenReview();
  return look.light();
}
