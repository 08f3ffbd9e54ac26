import type { Stand } from '../../e2e/frames/stand.ts';
import type { BenchLine } from '../run.ts';
import type { PlainSource } from '../../e2e/frames/page.ts';
import { atLeast } from './measure.ts';

const perSecond = (rate: number): string => `${rate.toFixed(0)} frames/s`;

/** The key held down over the whole clip, against the bare decoder; no screen shows more than it refreshes. */
export async function holdingLines(
  stand: Stand,
  longGop: PlainSource,
  copy: PlainSource,
): Promise<BenchLine[]> {
  const result = await stand.page.evaluate(
    async ({ s, c }) => {
      const { bench: b } = window;
      const last = s.pts.length - 1;
      const screen = await b.screenRate();
      const bare = await b.bareRate(s.url, 600);
      const bareCopy = await b.bareRate(c.url, 600);
      await b.open(s);
      const forward = await b.hold(0, 900, 1);
      const backward = await b.hold(last, 750, -1);
      const backwardChecked = await b.hold(last, 260, -1, true);
      await b.close();
      await b.open(c);
      const onCopy = await b.hold(last, 600, -1);
      await b.close();
      return { screen, bare, bareCopy, forward, backward, backwardChecked, onCopy };
    },
    { s: longGop, c: copy },
  );
  const against = (bare: number): string =>
    `the bare decoder ${perSecond(bare)}, the screen ${perSecond(result.screen)}`;
  const most = (bare: number): number => Math.min(bare, result.screen);
  const line = (figure: string, rate: number, bare: number, least: number): BenchLine =>
    atLeast(figure, rate / most(bare), least, `${perSecond(rate)}; ${against(bare)}`);
  return [
    line('held forward, key frame every 250, to the bare decoder', result.forward.rate, result.bare, 0.8),
    line('held backward, key frame every 250, to the bare decoder', result.backward.rate, result.bare, 0.4),
    line('held backward, its working copy, to the bare decoder', result.onCopy.rate, result.bareCopy, 0.8),
    {
      figure: 'held backward: pictures that were not the frame asked for',
      asked: '0',
      measured: `${result.backwardChecked.wrong} of 260`,
      holds: result.backwardChecked.wrong === 0,
    },
  ];
}
