import { clipActs } from '../clip/acts.ts';
import { compareActs } from '../compare/acts.ts';
import { courseActs } from '../course/acts.ts';
import { frameActs } from '../frame/acts.ts';
import { libraryActs } from '../library/acts.ts';
import { reportActs } from '../report/acts.ts';
import { reviewActs } from '../review/acts.ts';

/** Every act of the window, room by room, in the order in which the sheet of keys shows them. */
export const allActs = [
  ...frameActs,
  ...libraryActs,
  ...courseActs,
  ...reviewActs,
  ...compareActs,
  ...reportActs,
  ...clipActs,
] as const;

export type ActName = (typeof allActs)[number]['name'];
