import { readFileSync } from 'node:fs';
import type { Stand } from '../../e2e/frames/stand.ts';
import type { BenchLine } from '../run.ts';
import type { PlainSource } from '../../e2e/frames/page.ts';
import { sourceOf } from './sources.ts';

/** Minutes of random stepping on 4K; the figure asked for is for ten. */
const roamMinutes = Number(process.env['WALKBACK_BENCH_ROAM'] ?? 10);

/** What is held, how much room it takes, and what is left after closing. */
export async function memoryLines(stand: Stand, source: PlainSource): Promise<BenchLine[]> {
  const full = await stand.page.evaluate(async (s) => {
    const { bench: b } = window;
    await b.open(s, 600_000_000);
    await b.seek(700);
    let most = 0;
    // The window fills by itself while the coach looks; half a minute is plenty.
    for (let i = 0; i < 300 && most < 180; i++) {
      await b.until(100);
      most = Math.max(most, b.openFrames());
    }
    return { most, left: await b.close() };
  }, source);
  const bytesEach = 1920 * 1088 * 1.5;
  const big = await sourceOf(stand, 'fourK');
  const budget = 600_000_000;
  const each = 3840 * 2160 * 1.5;
  const renderers = await renderersOf(stand);
  const before = residentBytes(renderers);
  let peak = before;
  const watch = setInterval(() => (peak = Math.max(peak, residentBytes(renderers))), 500);
  const roam = await stand.page.evaluate(
    async ({ s, m, b: bytes }) => {
      const { bench: b } = window;
      await b.open(s, bytes);
      const seen = await b.roam(m * 60_000, s.pts.length, 31);
      return { ...seen, left: await b.close() };
    },
    { s: big, m: roamMinutes, b: budget },
  );
  clearInterval(watch);
  const held = roam.most * each;
  return [
    {
      figure: 'full 1080p frames held in 600 MB',
      asked: 'at least 180',
      measured: `${full.most} frames, ${((full.most * bytesEach) / 1e6).toFixed(0)} MB`,
      holds: full.most >= 180 && full.most * bytesEach <= 600e6 * 1.1,
    },
    {
      figure: `budget over ${roamMinutes} minutes of random stepping on 4K (${roam.asks} asks)`,
      asked: 'at most 1.1 of 600 MB, for 10 minutes',
      measured: `${(held / budget).toFixed(2)}: ${roam.most} frames open at most, ${(held / 1e6).toFixed(0)} MB; the process grew by ${((peak - before) / 1e6).toFixed(0)} MB at most`,
      holds: held <= budget * 1.1 && roamMinutes >= 10,
    },
    {
      figure: 'VideoFrames left open after closing',
      asked: '0',
      measured: `${full.left + roam.left}`,
      holds: full.left + roam.left === 0,
    },
  ];
}

/** Ids of the processes of this browser that draw pages. */
async function renderersOf(stand: Stand): Promise<number[]> {
  const session = await stand.page.context().browser()?.newBrowserCDPSession();
  const told = await session?.send('SystemInfo.getProcessInfo');
  await session?.detach();
  return (told?.processInfo ?? []).filter((p) => p.type === 'renderer').map((p) => p.id);
}

/** Resident bytes of processes together; 0 where the system does not tell. */
function residentBytes(ids: readonly number[]): number {
  let sum = 0;
  for (const id of ids) {
    try {
      sum += Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${id}/status`, 'utf8'))?.[1] ?? 0) * 1024;
    } catch {
      // It ended in between.
    }
  }
  return sum;
}
