import { spawnSync } from 'node:child_process';
import { EncodedPacketSink, FilePathSource, Input, MATROSKA, MP4, QTFF } from 'mediabunny';
import { clipBy } from '../../../scripts/clips/make.ts';
import type { ClipRecipe } from '../../../scripts/clips/kinds.ts';
import { findPrograms } from '../../../src/footage/programs/find.ts';
import type { BenchLine } from '../run.ts';
import { atMost, median, ms } from './measure.ts';

const turns = 7;
const recipe = (ending: 'mp4' | 'mkv', frames: number): ClipRecipe => ({
  ...{ width: 320, height: 240, ending, frames, rate: '60' },
  encode: [
    ...['-c:v', 'libx264', '-preset', 'ultrafast', '-crf', '30', '-pix_fmt', 'yuv420p'],
    ...['-bf', '3', '-b_strategy', '0', '-g', '250'],
  ],
});

/**
 * The packet table of a clip as the frame window's demuxer reads it from the container, against ffprobe's packet list
 * of the same file; the two lists must be the same.
 */
export async function indexLines(): Promise<BenchLine[]> {
  const lines: BenchLine[] = [];
  for (const [ending, frames] of [
    ['mp4', 1800],
    ['mkv', 1800],
    ['mp4', 4000],
  ] as const) {
    const { path } = await clipBy(`bench-index-${frames}`, recipe(ending, frames));
    lines.push(await indexLine(path, `${frames} frames, ${ending}`));
  }
  return lines;
}

async function indexLine(path: string, what: string): Promise<BenchLine> {
  const { ffprobe } = await findPrograms();
  const [own, theirs]: [number[], number[]] = [[], []];
  let equal = true;
  // Both have read the file once before it counts.
  for (let turn = 0; turn <= turns; turn++) {
    let begun = performance.now();
    const table = await packetTable(path);
    if (turn > 0) own.push(performance.now() - begun);
    begun = performance.now();
    const listed = packetList(ffprobe, path);
    if (turn > 0) theirs.push(performance.now() - begun);
    equal &&= table.length === listed.length && table.every((at, i) => at === listed[i]);
  }
  const told = `${ms(median(own))} to ${ms(median(theirs))}; lists ${equal ? 'equal' : 'differ'}`;
  const line = atMost(
    `index of a clip, to ffprobe's packet list: ${what}`,
    median(own) / median(theirs),
    0.5,
    told,
  );
  return { ...line, holds: line.holds && equal };
}

/** Presentation times of all packets in decode order, in ticks of the track, as src/frames lists them. */
async function packetTable(path: string): Promise<number[]> {
  const input = new Input({ source: new FilePathSource(path), formats: [MP4, QTFF, MATROSKA] });
  try {
    const track = await input.getPrimaryVideoTrack();
    if (!track) throw new Error(`no video in ${path}`);
    const resolution = await track.getTimeResolution();
    const sink = new EncodedPacketSink(track);
    const options = { metadataOnly: true };
    const list: number[] = [];
    let packet = await sink.getFirstPacket(options);
    while (packet) {
      list.push(Math.round(packet.timestamp * resolution));
      packet = await sink.getNextPacket(packet, options);
    }
    return list;
  } finally {
    input.dispose();
  }
}

/** The same from ffprobe. */
function packetList(ffprobe: string, path: string): number[] {
  const { stdout, status } = spawnSync(
    ffprobe,
    ['-v', 'error', '-select_streams', 'v:0', '-show_entries', 'packet=pts', '-of', 'csv=p=0', path],
    { encoding: 'utf8', maxBuffer: 2 ** 28 },
  );
  if (status !== 0) throw new Error(`ffprobe ended with ${String(status)}`);
  return stdout.split('\n').flatMap((line) => (/^-?\d+/.test(line) ? [Number.parseInt(line, 10)] : []));
}
