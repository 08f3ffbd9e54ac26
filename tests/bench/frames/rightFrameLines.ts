import type { Stand } from '../../e2e/frames/stand.ts';
import type { BenchLine } from '../run.ts';
import { clipKinds } from '../../../scripts/clips/make.ts';
import { clipSources, someFrames } from '../../e2e/frames/clipSources.ts';
import { underLoad } from '../../e2e/frames/load.ts';
import type { PlainSource } from '../../e2e/frames/page.ts';
import { threeHours } from './clips.ts';
import { plainSource, sourceOf } from './sources.ts';

/** Kinds that are stepped through for the count; 4K and three hours come on top. */
const walked = clipKinds.filter((kind) => kind !== 'oneFrame');

/** Thousands of seeks and steps over every kind of clip; each number painted is read. */
export async function rightFrameLines(stand: Stand): Promise<BenchLine[]> {
  const wrong: string[] = [];
  let asks = 0;
  let kinds = 0;
  const walk = async (name: string, source: PlainSource, seed: number, modulo: number): Promise<void> => {
    const to = someFrames(8, source.pts.length, seed);
    const [asked = 0, ...bad] = await stand.page.evaluate(
      async ({ s, t, m }) => {
        await window.bench.open(s);
        const seen = await window.bench.walk(t, 9, s, m);
        await window.bench.close();
        return seen;
      },
      { s: source, t: to, m: modulo },
    );
    asks += asked;
    wrong.push(...bad.map((frame) => `${name} ${frame}`));
  };
  const all = async (seed: number): Promise<void> => {
    kinds = 0;
    for (const kind of walked) {
      const { original, copy } = await clipSources(stand, kind);
      await walk(kind, copy ?? original, seed, 4096);
      kinds++;
    }
    await walk('4K', await sourceOf(stand, 'fourK'), seed, 4096);
    await walk('three hours', await plainSource(stand, await threeHours()), seed, 1500);
    const one = await clipSources(stand, 'oneFrame');
    await walk('one frame', one.copy ?? one.original, seed, 4096);
    kinds += 3;
  };
  await all(101);
  const idle = asks;
  await underLoad(() => all(202));
  return [
    {
      figure: `seeks and steps over ${kinds} kinds of clip, idle and loaded: wrong frames`,
      asked: '0 of 5,000',
      measured: `${wrong.length} of ${asks} (${idle} idle, ${asks - idle} loaded)${wrong.length > 0 ? `: ${wrong.slice(0, 5).join(', ')}` : ''}`,
      holds: wrong.length === 0 && asks >= 5000,
    },
  ];
}
