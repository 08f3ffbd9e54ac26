import { frameAt } from '../../../src/time/frameTable.ts';
import { pts } from '../../../src/time/units.ts';
import type { FootageRoom } from '../../../src/host/footageRoom.ts';
import { ownRooms } from '../../../src/host/ownRooms.ts';
import { stillWidth, writeReport, type StillOf } from '../../../src/host/report.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { clocksOf, stateOf } from '../../../src/review/readDocument.ts';
import { cliWords } from '../../../src/words/cli.ts';
import type { ReviewDocument } from '../../../src/review/document.ts';
import { footageBeside } from '../footageBeside.ts';
import type { Output } from '../output.ts';
import { readReviewFile } from '../reviewFile.ts';

/** Writes the coaching report of a review file into a folder and prints where it is. */
export async function writeReportOf(
  path: string,
  folder: string,
  out: Output,
  signal: AbortSignal,
): Promise<void> {
  const document = await readReviewFile(path);
  const state = stateOf(document);
  const clocks = clocksOf(document);
  const written = await writeReport({
    state,
    analysis: analyse(state, clocks),
    clips: document.footage.map(({ id, clip }) => ({
      footageId: id,
      frames: clip.pts.length,
      width: clip.width,
      height: clip.height,
      codec: clip.codec,
    })),
    folder,
    stillOf: await stillsFrom(path, document, clocks, out, signal),
    signal,
  });
  out.text(cliWords.wrote(written.path, written.bytes));
}

/** Stills from the footage that lies beside the review file; what is not found is said. */
async function stillsFrom(
  path: string,
  document: ReviewDocument,
  clocks: ReturnType<typeof clocksOf>,
  out: Output,
  signal: AbortSignal,
): Promise<StillOf> {
  if (document.footage.length === 0) return async () => null;
  const room: FootageRoom = (await ownRooms()).footage;
  const files = new Map<string, string>();
  for (const beside of await footageBeside(path, document.footage, room, signal)) {
    const { id, name } = beside.footage;
    if (beside.path !== null) files.set(id, beside.path);
    else {
      if (beside.other !== null) out.remark(cliWords.otherFootage(name, beside.other));
      out.remark(cliWords.noFootage(name));
    }
  }
  return async (wanted) => {
    const file = files.get(wanted.footageId);
    const table = clocks.get(wanted.footageId)?.table;
    if (file === undefined || !table) return null;
    return room.still(file, table, frameAt(table, pts(wanted.pts)), stillWidth, signal);
  };
}
