import { clipLines } from './report/clipLines.ts';
import { reportLines } from './report/reportLines.ts';
import { linesOfParts } from './frames/measure.ts';
import type { BenchLine } from './run.ts';

const parts = {
  report: reportLines,
  clips: clipLines,
};

/** What leaves the program for a student. WALKBACK_BENCH_PART runs one part. */
export const bench = (): Promise<BenchLine[]> => linesOfParts(parts);
