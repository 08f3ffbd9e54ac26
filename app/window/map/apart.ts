/** A place on the sheet, in its pixels. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Width and height that each board needs to itself, so that no board covers another (WCAG 2.2, 2.5.8). */
export const boardRoom = { width: 29, height: 26 } as const;

const mostRounds = 200;

/**
 * Moves boards that overlap apart, each pair by the shorter way, within a sheet of `width` by `height` pixels. Boards
 * with room around them stay where they are. On a sheet too small for all of them some still overlap.
 */
export function apart(spots: readonly Spot[], width: number, height: number): Spot[] {
  const placed = spots.map(({ x, y }) => ({ x, y }));
  for (let round = 0; round < mostRounds; round++) {
    for (const spot of placed) {
      spot.x = within(spot.x, boardRoom.width, width);
      spot.y = within(spot.y, boardRoom.height, height);
    }
    let moved = false;
    for (let i = 0; i < placed.length; i++) {
      for (let j = i + 1; j < placed.length; j++) {
        const a = placed[i];
        const b = placed[j];
        if (a && b && push(a, b)) moved = true;
      }
    }
    if (!moved) break;
  }
  return placed;
}

function push(a: { x: number; y: number }, b: { x: number; y: number }): boolean {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const overX = boardRoom.width - Math.abs(dx);
  const overY = boardRoom.height - Math.abs(dy);
  if (overX <= 0.01 || overY <= 0.01) return false;
  // A little more than half each, so that rounding does not leave them touching for ever.
  if (overX <= overY) {
    const by = (overX / 2 + 0.05) * (dx < 0 ? -1 : 1);
    a.x -= by;
    b.x += by;
  } else {
    const by = (overY / 2 + 0.05) * (dy < 0 ? -1 : 1);
    a.y -= by;
    b.y += by;
  }
  return true;
}

function within(at: number, room: number, size: number): number {
  return Math.min(Math.max(size - room / 2, room / 2), Math.max(room / 2, at));
}
