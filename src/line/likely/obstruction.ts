import { leastStep, toBox, type Box } from './solids.ts';

let sums = new Float64Array(256);
let gapsFrom = new Float64Array(256);
let gapsTo = new Float64Array(256);
let usualGap = 0;
let nearby = new Int32Array(256);

/** So far along from a place that lies beside a box she must have drawn clear of it, metres (our choice). */
const drawsClear = 1;

/**
 * Measures the equipment once for all ways between two places: from how long a way on a box can lie on it (both
 * distances together, an ellipse), and how near to it a way may come. Where a way begins or ends beside a box, it
 * may near that end come as near to it as that, and no nearer.
 */
export function measureBoxes(
  boxes: readonly Box[],
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  gap: number,
): void {
  if (sums.length < boxes.length) {
    sums = new Float64Array(boxes.length * 2);
    gapsFrom = new Float64Array(boxes.length * 2);
    gapsTo = new Float64Array(boxes.length * 2);
    nearby = new Int32Array(boxes.length * 2);
  }
  usualGap = gap - 1e-9;
  for (let i = 0; i < boxes.length; i++) {
    const box = boxes[i];
    if (!box) continue;
    const ax = x0 - box.x;
    const ay = y0 - box.y;
    const bx = x1 - box.x;
    const by = y1 - box.y;
    const a = Math.sqrt(ax * ax + ay * ay);
    const b = Math.sqrt(bx * bx + by * by);
    const near = box.reach + gap;
    sums[i] = a + b - 2 * near;
    gapsFrom[i] = a < near ? Math.min(gap, toBox(box, x0, y0)) - 1e-9 : usualGap;
    gapsTo[i] = b < near ? Math.min(gap, toBox(box, x1, y1)) - 1e-9 : usualGap;
  }
}

/**
 * The first of the measured boxes that a way comes too near to: begun at a place and an angle, its three pieces turned
 * to the sides `s0`, `s1`, `s2` (1 left, -1 right, 0 straight). It is stepped along by as much as is surely free.
 */
export function hitOf(
  boxes: readonly Box[],
  x0: number,
  y0: number,
  angle0: number,
  sides: readonly [number, number, number],
  t: number,
  p: number,
  q: number,
  radius: number,
): Box | undefined {
  const length = (t + p + q) * radius;
  let near = 0;
  for (let i = 0; i < boxes.length; i++) if ((sums[i] ?? 0) <= length) nearby[near++] = i;
  if (near === 0) return undefined;
  let x = x0;
  let y = y0;
  let angle = angle0;
  let gone = 0;
  for (let piece = 0; piece < 3; piece++) {
    const size = piece === 0 ? t : piece === 1 ? p : q;
    if (size === 0) continue;
    const side = sides[piece] ?? 0;
    const metres = size * radius;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    let px = x;
    let py = y;
    for (let at = 0; ;) {
      if (side === 0) {
        px = x + at * cos;
        py = y + at * sin;
      } else {
        const now = angle + (side * at) / radius;
        px = x + side * radius * (Math.sin(now) - sin);
        py = y - side * radius * (Math.cos(now) - cos);
      }
      const begins = gone + at < drawsClear;
      const ends = length - gone - at < drawsClear;
      let free = Infinity;
      for (let n = 0; n < near; n++) {
        const i = nearby[n] ?? 0;
        const box = boxes[i];
        if (!box) continue;
        let gap = usualGap;
        if (begins) gap = gapsFrom[i] ?? gap;
        if (ends) gap = Math.min(gap, gapsTo[i] ?? gap);
        const away = toBox(box, px, py);
        if (away < gap) return box;
        if (away - usualGap < free) free = away - usualGap;
      }
      if (at >= metres) break;
      at = Math.min(metres, at + Math.max(free, leastStep));
    }
    x = px;
    y = py;
    angle += side * size;
    gone += metres;
  }
  return undefined;
}
