import type { Stand } from '../../e2e/frames/stand.ts';
import type { BenchLine } from '../run.ts';
import type { PlainSource } from '../../e2e/frames/page.ts';
import { atMost, median, ms, p95 } from './measure.ts';
import { sourceOf } from './sources.ts';

/** Steps from mid-group on for longer than the window holds, both ways: refill and messages are in the figure. */
export async function stepLines(stand: Stand): Promise<BenchLine[]> {
  const lines: BenchLine[] = [];
  for (const [name, title] of [
    ['hd60', '1080p60 H.264 with B-frames'],
    ['hdVfr', '1080p, variable rate'],
    ['hd240', '1080p, 240 fps'],
  ] as const) {
    const source = await sourceOf(stand, name);
    const last = source.pts.length - 1;
    const result = await stand.page.evaluate(
      async ({ s, end }) => {
        const { bench: b } = window;
        const cold = await b.open(s);
        const empty = [...(await b.empty(100))];
        const forward = await b.steps(37, 250, 1, 40);
        const backward = await b.steps(end - 23, 250, -1, 40);
        empty.push(...(await b.empty(100)));
        await b.close();
        return { cold, empty, forward, backward };
      },
      { s: source, end: last },
    );
    const base = p95(result.empty);
    for (const [way, list] of [
      ['forward', result.forward],
      ['backward', result.backward],
    ] as const) {
      const told = `p95 ${ms(p95(list))}, median ${ms(median(list))}; empty double frame p95 ${ms(base)}`;
      lines.push(atMost(`step ${way}, ${title}, to the empty double frame`, p95(list) / base, 1.2, told));
    }
    lines.push({
      figure: `cold start, ${title}`,
      asked: 'stated',
      measured: `${ms(result.cold)} from opening to the first picture`,
      holds: Number.isFinite(result.cold),
    });
  }
  return lines;
}

/** The same steps by the browser's own player. */
export async function playerLines(stand: Stand, longGop: PlainSource): Promise<BenchLine[]> {
  const lines: BenchLine[] = [];
  for (const [way, from, by] of [
    ['forward', 130, 1],
    ['backward', 1120, -1],
  ] as const) {
    const result = await stand.page.evaluate(
      async ({ s, f, d }) => {
        const { bench: b } = window;
        await b.open(s);
        const ours = await b.steps(f, 150, d, 0);
        await b.close();
        return { ours, video: await b.videoSteps(s, f, 40, d) };
      },
      { s: longGop, f: from, d: by },
    );
    const told = `p95 ${ms(p95(result.ours))} to ${ms(p95(result.video))}`;
    lines.push(
      atMost(
        `step ${way}, key frame every 250, to <video>`,
        p95(result.ours) / p95(result.video),
        0.35,
        told,
      ),
    );
  }
  return lines;
}
