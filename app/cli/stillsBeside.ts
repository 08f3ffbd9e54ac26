import { frameAt } from '../../src/time/frameTable.ts';
import { pts } from '../../src/time/units.ts';
import { stills } from '../../src/footage/still.ts';
import { stillWidth, type StillOf } from '../../src/host/report.ts';
import { frameKey, type StillWanted } from '../../src/report/stills.ts';
import type { ReviewDocument } from '../../src/review/document.ts';
import { clocksOf } from '../../src/review/readDocument.ts';
import { cliWords } from '../../src/words/cli.ts';
import { footageBeside } from './footageBeside.ts';
import type { Output } from './output.ts';

type Clock = ReturnType<typeof clocksOf> extends Map<string, infer C> ? C : never;

/**
 * Stills from the footage that lies beside a review file; footage that is not found is said. The frames of a clip
 * are read together, since those near each other then cost one pass; where one of them cannot be had, each is
 * asked for by itself, so that it costs only its own picture.
 */
export async function stillsBeside(
  reviewPath: string,
  document: ReviewDocument,
  wanted: readonly StillWanted[],
  out: Output,
  signal: AbortSignal,
): Promise<StillOf> {
  const clocks = clocksOf(document);
  const made = new Map<string, Promise<ReadonlyMap<string, Uint8Array>>>();
  for (const beside of await footageBeside(reviewPath, document.footage, signal)) {
    const { id, name } = beside.footage;
    const clock = clocks.get(id);
    if (beside.path === null || !clock) {
      if (beside.other !== null) out.remark(cliWords.otherFootage(name, beside.other));
      out.remark(cliWords.noFootage(name));
      continue;
    }
    const mine = wanted.filter((w) => w.footageId === id);
    const making = together(beside.path, clock, mine, signal);
    // Whoever waits for it is told; until then a failure is not to end the program.
    making.catch(() => undefined);
    made.set(id, making);
  }
  return async ({ footageId, pts: at }) => (await made.get(footageId))?.get(frameKey(footageId, at)) ?? null;
}

async function together(
  path: string,
  clock: Clock,
  wanted: readonly StillWanted[],
  signal: AbortSignal,
): Promise<Map<string, Uint8Array>> {
  const frames = wanted.map((w) => frameAt(clock.table, pts(w.pts)));
  const options = { maxWidth: stillWidth, signal };
  const found = new Map<string, Uint8Array>();
  const keep = (w: StillWanted | undefined, jpeg: Uint8Array | undefined): void => {
    if (w && jpeg) found.set(frameKey(w.footageId, w.pts), jpeg);
  };
  try {
    (await stills(path, clock.table, frames, options)).forEach((jpeg, i) => keep(wanted[i], jpeg));
  } catch {
    for (const [i, frame] of frames.entries()) {
      signal.throwIfAborted();
      const alone = await stills(path, clock.table, [frame], options).catch(() => []);
      keep(wanted[i], alone[0]);
    }
  }
  return found;
}
