import { dogAt } from '../actors/trace.ts';
import { lengthOf } from '../base/exact.ts';
import type { RunRecord } from '../run/record.ts';

function round(value: number, digits: number): number {
  const k = 10 ** digits;
  return Math.round(value * k) / k;
}

/** Length of the dog's real way from out to out, place by place (centre of mass, in plan). */
export function lineLengths(run: RunRecord): { from: number; to: number; length: number; time: number }[] {
  const out: { from: number; to: number; length: number; time: number }[] = [];
  for (let k = 1; k < run.course.places.length; k++) {
    const a = run.notices.filter((n) => n.kind === 'out' && n.place === k).pop();
    const b = run.notices.filter((n) => n.kind === 'out' && n.place === k + 1).pop();
    if (!a || !b) continue;
    let length = 0;
    const n = Math.max(2, Math.ceil((b.at - a.at) * 250));
    let was = dogAt(run, a.at);
    for (let i = 1; i <= n; i++) {
      const now = dogAt(run, a.at + ((b.at - a.at) * i) / n);
      length += lengthOf(now.x - was.x, now.y - was.y);
      was = now;
    }
    out.push({ from: k, to: k + 1, length: round(length, 4), time: round(b.at - a.at, 6) });
  }
  return out;
}
