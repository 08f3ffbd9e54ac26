import type { Link } from '../../../src/host/contract/link.ts';
import type { FootageUse } from '../../../src/review/document.ts';
import type { ClipClock } from '../../../src/time/bracket.ts';
import { checkSpeedMap } from '../../../src/time/captureClock.ts';
import { frameTable, type FrameTable } from '../../../src/time/frameTable.ts';
import { timeBase } from '../../../src/time/timeBase.ts';

/** Frame tables of clips, each asked for once and then held. */
export interface FrameTables {
  /** The table of a clip. Rejects with HostTrouble, or a RangeError for times that no video can have. */
  of(clipId: string): Promise<FrameTable>;
  /** The table where it is there already. */
  known(clipId: string): FrameTable | undefined;
  /** The clip's frames are others now: the table is asked for anew. */
  forget(clipId: string): void;
}

/** Asks the host for frame times and keeps them; a failed ask may be repeated. */
export function createFrameTables(host: Link): FrameTables {
  const asked = new Map<string, Promise<FrameTable>>();
  const tables = new Map<string, FrameTable>();
  const ask = async (clipId: string): Promise<FrameTable> => {
    try {
      const frames = await host.call('clip.frames', { clipId });
      const table = frameTable(timeBase(...frames.timeBase), frames.pts);
      tables.set(clipId, table);
      return table;
    } catch (error) {
      asked.delete(clipId);
      throw error;
    }
  };
  return {
    of(clipId) {
      const there = asked.get(clipId);
      if (there) return there;
      const promise = ask(clipId);
      asked.set(clipId, promise);
      return promise;
    },
    known: (clipId) => tables.get(clipId),
    forget(clipId) {
      asked.delete(clipId);
      tables.delete(clipId);
    },
  };
}

/** The clock of a clip as a review uses it. Throws a RangeError where the speed pieces are not usable. */
export function clockOf(use: FootageUse, table: FrameTable): ClipClock {
  return { table, speed: checkSpeedMap(use.speed), offset: use.offset, rate: use.rate };
}
