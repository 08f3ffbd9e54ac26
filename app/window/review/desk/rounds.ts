import type { ClipClock } from '../../../../src/time/bracket.ts';
import { lookWords } from '../../../../src/words/look.ts';
import { cellOf, frameShownAt } from '../../../../src/review/cells.ts';
import type { Span } from '../line/scale.ts';
import type { DeskView } from './view.ts';

const words = lookWords.said;

/** What a press sets, and what is said of it. */
export interface Press {
  readonly loop: Span | null;
  readonly loopFrom: number | null;
  readonly said: string;
}

/**
 * A press on a frame for playing a stretch round and round: the first lets it begin at this frame, the second end
 * here (or begin, where the frames were pressed in the other order), the third takes it off.
 */
export function roundsPress(clock: ClipClock, { frame, loop, loopFrom }: DeskView): Press {
  const here = cellOf(clock, frame);
  if (loop) return { loop: null, loopFrom: null, said: words.loopOff };
  if (loopFrom === null) return { loop, loopFrom: here.from, said: words.loopFrom };
  if (here.from === loopFrom) return { loop, loopFrom, said: words.loopSame };
  const began = cellOf(clock, frameShownAt(clock, loopFrom));
  const [first, last] = began.from < here.from ? [began, here] : [here, began];
  // The middle of the last frame: the frame after it begins at its end.
  return { loop: { from: first.from, to: (last.from + last.to) / 2 }, loopFrom: null, said: words.loopOn };
}
