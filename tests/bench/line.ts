import { dragLines } from './line/dragging.ts';
import { exhaustiveLines } from './line/exhaustive.ts';
import { faithLines } from './line/faith.ts';
import { readingLines } from './line/reading.ts';
import { spareLines } from './line/spare/lines.ts';
import { togetherLines } from './line/together.ts';
import type { BenchLine } from './run.ts';

/** Parts to run, by name, while working on one of them; all where nothing is said. */
const only = process.env['WALKBACK_BENCH_PART'];

/** The dog's line and the handler's plan against what is measured outside of them. */
const parts: Readonly<Record<string, () => Promise<BenchLine[]> | BenchLine[]>> = {
  exhaustive: exhaustiveLines,
  faith: faithLines,
  dragging: dragLines,
  reading: readingLines,
  together: togetherLines,
  simulator: spareLines,
};

export async function bench(): Promise<BenchLine[]> {
  const lines: BenchLine[] = [];
  for (const [name, part] of Object.entries(parts)) {
    if (only === undefined || only === name) lines.push(...(await part()));
  }
  return lines;
}
