import { compareLines } from './review/compareLines.ts';
import { costLines } from './review/costLines.ts';
import type { BenchLine } from './run.ts';

const parts: Readonly<Record<string, () => Promise<BenchLine[]>>> = {
  compare: compareLines,
  cost: costLines,
};

/** What happened against what was planned, and runs side by side. WALKBACK_BENCH_PART runs one part. */
export async function bench(): Promise<BenchLine[]> {
  const only = process.env['WALKBACK_BENCH_PART'];
  const lines: BenchLine[] = [];
  for (const [name, part] of Object.entries(parts)) {
    if (only === undefined || only === name) lines.push(...(await part()));
  }
  return lines;
}
