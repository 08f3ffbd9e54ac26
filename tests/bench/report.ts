import { clipLines } from './report/clipLines.ts';
import { reportLines } from './report/reportLines.ts';
import type { BenchLine } from './run.ts';

const parts: Readonly<Record<string, () => Promise<BenchLine[]>>> = {
  report: reportLines,
  clips: clipLines,
};

/** What leaves the program for a student. WALKBACK_BENCH_PART runs one part. */
export async function bench(): Promise<BenchLine[]> {
  const only = process.env['WALKBACK_BENCH_PART'];
  const lines: BenchLine[] = [];
  for (const [name, part] of Object.entries(parts)) {
    if (only === undefined || only === name) lines.push(...(await part()));
  }
  return lines;
}
