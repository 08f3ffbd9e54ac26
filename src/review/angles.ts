import { runTimeAt, type Angle, type ClipClock } from '../time/bracket.ts';
import { lastFrame, ptsOf } from '../time/frameTable.ts';
import { frameIndex } from '../time/units.ts';
import type { Warning } from './analysis.ts';
import type { FootageUse } from './document.ts';
import type { ReviewState } from './entities.ts';
import type { Clocks } from './moments.ts';

/** The clip whose clock a clip was brought onto in the end, and the plus or minus of all line-ups on the way. */
export interface Root {
  readonly id: string;
  readonly plusMinus: number;
}

/**
 * Follows a clip's line-ups to their root: the clip itself where it was never lined up, where the clip it was lined up
 * to has gone, or where the line-ups run in a circle (a hand-edited file).
 */
export function rootOf(footage: readonly FootageUse[], id: string): Root {
  const seen = new Set([id]);
  let here = footage.find((f) => f.id === id);
  let plusMinus = 0;
  while (here?.lineUp) {
    const { to, plusMinus: more } = here.lineUp;
    const next = footage.find((f) => f.id === to);
    if (!next || seen.has(to)) return { id, plusMinus: 0 };
    seen.add(to);
    plusMinus += more;
    here = next;
  }
  return { id: here?.id ?? id, plusMinus };
}

/** The clocks of a review with several clips, each with how it lies on the common clock; else as they are. */
export function withAngles(clocks: Clocks, footage: readonly FootageUse[]): Clocks {
  if (footage.length < 2) return clocks;
  return new Map([...clocks].map(([id, clock]) => [id, { ...clock, angle: angleOf(footage, id, clock) }]));
}

function angleOf(footage: readonly FootageUse[], id: string, clock: ClipClock): Angle {
  const root = rootOf(footage, id);
  const { table } = clock;
  const first = runTimeAt(clock, ptsOf(table, frameIndex(0)));
  const length = runTimeAt(clock, ptsOf(table, lastFrame(table))) - first;
  return { id, root: root.id, plusMinus: root.plusMinus, length };
}

/** Clips with marks that were never lined up with the first clip that has some. */
export function angleWarnings({ footage, marks }: Pick<ReviewState, 'footage' | 'marks'>): Warning[] {
  const marked = new Set(marks.map((m) => m.footageId));
  const used = footage.filter((f) => marked.has(f.id));
  const [first] = used;
  if (!first) return [];
  const root = rootOf(footage, first.id).id;
  return used
    .filter((f) => rootOf(footage, f.id).id !== root)
    .map((f) => ({ warning: 'notLinedUp', footageId: f.id, name: f.name }));
}
