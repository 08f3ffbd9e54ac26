import { basename } from 'node:path';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { probe } from '../../../src/footage/probe.ts';
import { columns } from '../../../src/report/plainText.ts';
import { ticksToSeconds } from '../../../src/time/timeBase.ts';
import { cliWords } from '../../../src/words/cli.ts';
import type { Output } from '../output.ts';
import { checkPlainFile } from '../plainFile.ts';

/** Prints every frame's presentation time of a video, as JSON on one line or as a table. */
export async function printFrames(
  path: string,
  json: boolean,
  out: Output,
  signal: AbortSignal,
): Promise<void> {
  await checkPlainFile(path);
  const facts = await probe(path, { signal });
  const { table } = await indexFrames(path, { facts, signal });
  const { picture } = facts;
  const { num, den } = table.timeBase;
  const seconds = table.pts.map((p) => ticksToSeconds(table.timeBase, p));
  if (json) {
    out.json(
      {
        timeBase: [num, den],
        frames: table.pts.length,
        pts: table.pts,
        seconds,
        rotation: picture.rotation,
        codec: picture.codec,
      },
      true,
    );
    return;
  }
  const about = [picture.codec, `${picture.width} × ${picture.height}`, cliWords.timeBase(num, den)];
  if (picture.rotation !== 0) about.push(cliWords.rotation(picture.rotation));
  const rows = table.pts.map((p, i) => {
    const here = seconds[i] ?? 0;
    const next = seconds[i + 1];
    return [String(i), String(p), here.toFixed(6), next === undefined ? '' : (next - here).toFixed(6)];
  });
  out.text(
    [
      cliWords.framesTitle(basename(path), table.pts.length),
      about.join(', '),
      ...columns([[...cliWords.frameColumns], ...rows], [0, 1, 2, 3]),
    ].join('\n'),
  );
}
