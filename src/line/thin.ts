/**
 * Which points of a line must stay so that no other lies further than `tolerance` from the line through those that
 * stay (Ramer 1972, Douglas and Peucker 1973). 1 for each point that stays; first and last always do.
 */
export function pointsKept(
  count: number,
  x: (i: number) => number,
  y: (i: number) => number,
  tolerance: number,
): Uint8Array {
  const keep = new Uint8Array(count);
  if (count === 0) return keep;
  keep[0] = 1;
  keep[count - 1] = 1;
  const open: [number, number][] = [[0, count - 1]];
  for (let pair = open.pop(); pair; pair = open.pop()) {
    const [a, b] = pair;
    let far = -1;
    let distance = tolerance;
    for (let i = a + 1; i < b; i++) {
      const d = fromSegment(x(i), y(i), x(a), y(a), x(b), y(b));
      if (d > distance) {
        distance = d;
        far = i;
      }
    }
    if (far < 0) continue;
    keep[far] = 1;
    open.push([a, far], [far, b]);
  }
  return keep;
}

function fromSegment(px: number, py: number, ax: number, ay: number, bx: number, by: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const size = dx * dx + dy * dy;
  const t = size === 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / size));
  return Math.hypot(px - (ax + t * dx), py - (ay + t * dy));
}
