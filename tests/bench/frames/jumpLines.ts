import type { Stand } from '../../e2e/frames/stand.ts';
import type { BenchLine } from '../run.ts';
import type { PlainSource } from '../../e2e/frames/page.ts';
import { someFrames } from '../../e2e/frames/clipSources.ts';
import { atMost, median, ms, p95 } from './measure.ts';
import { sourceOf } from './sources.ts';

/** Random jumps against a bare getSample of the same frames, and against the working copy. */
export async function jumpLines(stand: Stand, longGop: PlainSource, copy: PlainSource): Promise<BenchLine[]> {
  const tick = longGop.timeBase[0] / longGop.timeBase[1];
  const to = someFrames(60, longGop.pts.length, 23);
  const seconds = to.map((i) => (longGop.pts[i] ?? 0) * tick);
  const result = await stand.page.evaluate(
    async ({ s, c, t, at }) => {
      const { bench: b } = window;
      const empty = await b.empty(60);
      const bare = await b.bareJumps(s.url, at);
      await b.open(s);
      const ours = await b.jumps(t);
      await b.close();
      await b.open(c);
      const onCopy = await b.jumps(t);
      await b.close();
      return { empty, bare, ours, onCopy };
    },
    { s: longGop, c: copy, t: to, at: seconds },
  );
  const allowed = p95(result.bare) + median(result.empty);
  return [
    atMost(
      'random jump, p95, to a bare getSample of the same frames plus a double frame',
      p95(result.ours) / allowed,
      1.15,
      `${ms(p95(result.ours))} to ${ms(p95(result.bare))} + ${ms(median(result.empty))}`,
    ),
    atMost(
      'random jump, p95, on the working copy to the source',
      p95(result.onCopy) / p95(result.ours),
      0.3,
      `${ms(p95(result.onCopy))} to ${ms(p95(result.ours))}`,
    ),
  ];
}

/** The first picture after opening. */
export async function openingLines(stand: Stand): Promise<BenchLine[]> {
  const source = await sourceOf(stand, 'hd60');
  const result = await stand.page.evaluate(async (s) => {
    const { bench: b } = window;
    const ours: number[] = [];
    const bare: number[] = [];
    for (let i = 0; i < 7; i++) {
      ours.push(await b.open(s));
      await b.close();
      bare.push(await b.bareOpen(s.url));
    }
    return { ours, bare };
  }, source);
  const told = `median of 7: ${ms(median(result.ours))} to ${ms(median(result.bare))}`;
  return [
    atMost(
      'first picture after opening, to the bare decoder',
      median(result.ours) / median(result.bare),
      1.5,
      told,
    ),
  ];
}
