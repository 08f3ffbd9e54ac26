import { dragLines } from './line/dragging.ts';
import { exhaustiveLines } from './line/exhaustive.ts';
import { faithLines } from './line/faith.ts';
import { readingLines } from './line/reading.ts';
import { spareLines } from './line/spare/lines.ts';
import { togetherLines } from './line/together.ts';
import { linesOfParts } from './frames/measure.ts';
import type { BenchLine } from './run.ts';

/** The dog's line and the handler's plan against what is measured outside of them. */
const parts = {
  exhaustive: exhaustiveLines,
  faith: faithLines,
  dragging: dragLines,
  reading: readingLines,
  together: togetherLines,
  simulator: spareLines,
};

export const bench = (): Promise<BenchLine[]> => linesOfParts(parts);
