import { boardsApart, type Spot } from '../../../src/course/boardsApart.ts';

/** Width and height in pixels that each board needs to itself, so that no board covers another (WCAG 2.2, 2.5.8). */
export const boardRoom = { width: 29, height: 26 } as const;

/** Boards of a map on the screen, moved apart within a sheet of `width` by `height` pixels. */
export const apart = (spots: readonly Spot[], width: number, height: number): Spot[] =>
  boardsApart(spots, { width, height }, boardRoom);
