import { airborneLines } from './ground/airborne.ts';
import { eyesLines } from './ground/eyes.ts';
import { fitLines } from './ground/fitLines.ts';
import { handlerLines } from './ground/handler.ts';
import { lengthLines } from './ground/lengths.ts';
import { lineLines } from './ground/line.ts';
import { roughLines } from './ground/rough.ts';
import { startLineLines } from './ground/startLine.ts';
import { linesOfParts } from './frames/measure.ts';
import type { BenchLine } from './run.ts';

const parts = {
  fit: fitLines,
  line: lineLines,
  lengths: lengthLines,
  handler: handlerLines,
  airborne: airborneLines,
  rough: roughLines,
  startLine: startLineLines,
  eyes: eyesLines,
};

/** The ground under the picture and what is measured on it, on simulated footage. WALKBACK_BENCH_PART runs one part. */
export const bench = (): Promise<BenchLine[]> => linesOfParts(parts);
