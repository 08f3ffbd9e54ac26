import type { Stand } from '../../e2e/frames/stand.ts';
import type { BenchLine } from '../run.ts';
import type { PlainSource } from '../../e2e/frames/page.ts';
import { atLeast, atMost, ms, p95 } from './measure.ts';

const perSecond = (rate: number): string => `${rate.toFixed(0)} frames/s`;

/**
 * The key held down over the whole clip, against the bare decoder: frames of the clip travelled a second from when the
 * pace of the held key has outgrown that decoder. The pictures painted on the way are checked in a journey of their
 * own, since reading them takes time.
 */
export async function holdingLines(
  stand: Stand,
  longGop: PlainSource,
  copy: PlainSource,
): Promise<BenchLine[]> {
  const result = await stand.page.evaluate(
    async ({ s, c }) => {
      const { bench: b } = window;
      const last = s.pts.length - 1;
      const bare = await b.bareRate(s.url, 900);
      const bareCopy = await b.bareRate(c.url, 900);
      await b.open(s);
      const forward = await b.hold(0, last, bare);
      const backward = await b.hold(last, 0, bare);
      const checked = [await b.hold(last, 0, bare, true), await b.hold(0, last, bare, true)];
      const halts = await b.halts(24, last);
      await b.close();
      await b.open(c);
      const onCopy = await b.hold(last, 0, bareCopy);
      await b.close();
      return { bare, bareCopy, forward, backward, checked, halts, onCopy };
    },
    { s: longGop, c: copy },
  );
  type Held = typeof result.forward;
  const line = (figure: string, held: Held, bare: number, least: number): BenchLine =>
    atLeast(
      `${figure}, to the bare decoder`,
      held.rate / bare,
      least,
      `${perSecond(held.rate)} to ${perSecond(bare)}; ${held.pictures.toFixed(0)} pictures/s`,
    );
  const pictures = result.checked.reduce((sum, h) => sum + h.count, 0);
  const wrong = result.checked.reduce((sum, h) => sum + h.wrong, 0);
  const full = result.halts.map((h) => h.full);
  return [
    line('held forward, key frame every 250', result.forward, result.bare, 0.8),
    line('held backward, key frame every 250', result.backward, result.bare, 0.4),
    line('held backward, its working copy', result.onCopy, result.bareCopy, 0.8),
    {
      figure: 'held both ways: pictures that were not the frame they were said to be',
      asked: '0',
      measured: `${wrong} of ${pictures}`,
      holds: wrong === 0 && pictures > 50,
    },
    atMost('let go: to the full picture, p95, ms', p95(full), 150, `slowest ${ms(Math.max(...full))}`),
    {
      figure: 'let go: pictures that were not full, or not the frame last seen',
      asked: '0',
      measured: `${result.halts.filter((h) => !h.right).length} of ${result.halts.length}`,
      holds: result.halts.every((h) => h.right),
    },
  ];
}
