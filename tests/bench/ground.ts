import { airborneLines } from './ground/airborne.ts';
import { eyesLines } from './ground/eyes.ts';
import { fitLines } from './ground/fitLines.ts';
import { handlerLines } from './ground/handler.ts';
import { lengthLines } from './ground/lengths.ts';
import { lineLines } from './ground/line.ts';
import { roughLines } from './ground/rough.ts';
import { startLineLines } from './ground/startLine.ts';
import type { BenchLine } from './run.ts';

const parts: Readonly<Record<string, () => Promise<BenchLine[]>>> = {
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
export async function bench(): Promise<BenchLine[]> {
  const only = process.env['WALKBACK_BENCH_PART'];
  const lines: BenchLine[] = [];
  for (const [name, part] of Object.entries(parts)) {
    if (only === undefined || only === name) lines.push(...(await part()));
  }
  return lines;
}
