import { compareLines } from './review/compareLines.ts';
import { costLines } from './review/costLines.ts';
import { linesOfParts } from './frames/measure.ts';
import type { BenchLine } from './run.ts';

const parts = {
  compare: compareLines,
  cost: costLines,
};

/** What happened against what was planned, and runs side by side. WALKBACK_BENCH_PART runs one part. */
export const bench = (): Promise<BenchLine[]> => linesOfParts(parts);
