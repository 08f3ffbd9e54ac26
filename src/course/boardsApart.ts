/** A place on the sheet, in its units. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Width and height of the sheet, or of the room that each board needs to itself, in the same units. */
export interface Room {
  readonly width: number;
  readonly height: number;
}

const mostRounds = 200;

/**
 * Moves boards that overlap apart, each pair by the shorter way, within a sheet. Boards with room around them stay
 * where they are. On a sheet too small for all of them some still overlap.
 */
export function boardsApart(spots: readonly Spot[], sheet: Room, room: Room): Spot[] {
  const placed = spots.map(({ x, y }) => ({ x, y }));
  // A little more than half each, so that rounding does not leave them touching for ever.
  const spare = room.width / 600;
  for (let round = 0; round < mostRounds; round++) {
    for (const spot of placed) {
      spot.x = within(spot.x, room.width, sheet.width);
      spot.y = within(spot.y, room.height, sheet.height);
    }
    let moved = false;
    for (let i = 0; i < placed.length; i++) {
      for (let j = i + 1; j < placed.length; j++) {
        const a = placed[i];
        const b = placed[j];
        if (a && b && push(a, b, room, spare)) moved = true;
      }
    }
    if (!moved) break;
  }
  return placed;
}

interface Placed {
  x: number;
  y: number;
}

function push(a: Placed, b: Placed, room: Room, spare: number): boolean {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const overX = room.width - Math.abs(dx);
  const overY = room.height - Math.abs(dy);
  if (overX <= spare / 5 || overY <= spare / 5) return false;
  if (overX <= overY) {
    const by = (overX / 2 + spare) * (dx < 0 ? -1 : 1);
    a.x -= by;
    b.x += by;
  } else {
    const by = (overY / 2 + spare) * (dy < 0 ? -1 : 1);
    a.y -= by;
    b.y += by;
  }
  return true;
}

function within(at: number, room: number, size: number): number {
  return Math.min(Math.max(size - room / 2, room / 2), Math.max(room / 2, at));
}
