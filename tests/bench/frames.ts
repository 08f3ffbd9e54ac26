import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { indexFrames } from '../../src/footage/frameIndex.ts';
import { makeWorkingCopy } from '../../src/footage/workingCopy.ts';
import { openStand } from '../e2e/frames/stand.ts';
import { benchClip } from './frames/clips.ts';
import { copyLines } from './frames/copyLines.ts';
import { holdingLines } from './frames/holdingLines.ts';
import { indexLines } from './frames/indexLines.ts';
import { jumpLines, openingLines } from './frames/jumpLines.ts';
import { memoryLines } from './frames/memoryLines.ts';
import { rightFrameLines } from './frames/rightFrameLines.ts';
import { plainSource } from './frames/sources.ts';
import { soundLines } from './frames/soundLines.ts';
import { playerLines, stepLines } from './frames/steppingLines.ts';
import type { BenchLine } from './run.ts';

const here = path.join(path.dirname(fileURLToPath(import.meta.url)), 'frames');
/** Parts to run, by name, while working on one of them; all where nothing is said. */
const only = process.env['WALKBACK_BENCH_PART'];

/**
 * The frame window against the machine's own double animation frame, a bare decoder and the browser's player, all in
 * one run in one page.
 */
export async function bench(): Promise<BenchLine[]> {
  const folder = await mkdtemp(path.join(tmpdir(), 'walkback-bench-'));
  const stand = await openStand(here);
  const lines: BenchLine[] = [];
  try {
    const file = await benchClip('longGop');
    const longGop = await plainSource(stand, file);
    const copyFile = path.join(folder, 'copy.mp4');
    const { table } = await indexFrames(file);
    await makeWorkingCopy(file, table, copyFile);
    const copy = { ...longGop, url: stand.serve(copyFile) };
    const parts: Readonly<Record<string, () => Promise<BenchLine[]>>> = {
      steps: () => stepLines(stand),
      player: () => playerLines(stand, longGop),
      holding: () => holdingLines(stand, longGop, copy),
      jumps: () => jumpLines(stand, longGop, copy),
      opening: () => openingLines(stand),
      rightFrames: () => rightFrameLines(stand),
      memory: () => memoryLines(stand, longGop),
      index: indexLines,
      copies: copyLines,
      sound: soundLines,
    };
    for (const [name, run] of Object.entries(parts)) {
      if (only !== undefined && only !== name) continue;
      process.stderr.write(`${name} …\n`);
      lines.push(...(await run()));
    }
  } finally {
    await stand.close();
    await rm(folder, { recursive: true, force: true });
  }
  return lines;
}
