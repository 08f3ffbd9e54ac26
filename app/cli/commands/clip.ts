import { sweepUnfinished } from '../../../src/footage/unfinished.ts';
import { encodeClip } from '../../../src/host/clipOut/encode.ts';
import { clipFileName, writeClip, type RunAsked } from '../../../src/host/clipOut/write.ts';
import { makeFolder } from '../../../src/host/makeFolder.ts';
import { freePath } from '../../../src/host/reportPlace.ts';
import {
  crossClip,
  shortClip,
  stretchClip,
  type ClipIdea,
  type IdeasFrom,
} from '../../../src/report/clip/ideas.ts';
import type { ClipKind, ClipWish } from '../../../src/report/clip/wish.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { withAngles } from '../../../src/review/angles.ts';
import type { ReviewDocument } from '../../../src/review/document.ts';
import { clocksOf, stateOf } from '../../../src/review/readDocument.ts';
import { ptsOf } from '../../../src/time/frameTable.ts';
import { frameIndex } from '../../../src/time/units.ts';
import { cliWords } from '../../../src/words/cli.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { bookInFile } from '../bookInFile.ts';
import { footageBeside } from '../footageBeside.ts';
import type { Output } from '../output.ts';
import { readReviewFile } from '../reviewFile.ts';
import { BadInput } from '../trouble.ts';

/** What of a run is to be cut out, as it was typed. */
export interface ClipTyped {
  readonly cross?: number;
  readonly stretch?: number;
  /** Frames counted from 0, both ends included. */
  readonly frames?: readonly [number, number];
  readonly clip: number;
  readonly slow?: number;
  readonly hold?: readonly [frame: number, seconds: number];
  readonly caption: string;
  readonly bare: boolean;
  readonly sound: boolean;
}

/** Makes a clip of a review file whose footage lies beside it, and prints where it is. */
export async function makeClipOf(
  path: string,
  folder: string,
  typed: ClipTyped,
  out: Output,
  signal: AbortSignal,
): Promise<void> {
  const document = await readReviewFile(path);
  const { wish, kind } = wishOf(document, typed);
  const review = stateOf(document);
  const run: RunAsked = {
    review,
    clocks: clocksOf(document),
    pictures: new Map(document.footage.map(({ id, clip: { width, height } }) => [id, { width, height }])),
    book: bookInFile(review.course),
  };
  await makeFolder(folder);
  await sweepUnfinished(folder);
  const to = await freePath(folder, clipFileName(review, kind), review.id);
  const bytes = await writeClip(
    {
      wish,
      run,
      beside: null,
      fileOf: async (_, footageId) => {
        const footage = document.footage.filter((f) => f.id === footageId);
        const [found] = await footageBeside(path, footage, signal);
        const table = run.clocks.get(footageId)?.table;
        return found?.path && table ? { path: found.path, table } : null;
      },
      makeClip: encodeClip,
      signal,
      progress: () => undefined,
    },
    to,
  );
  out.text(cliWords.wrote(to, bytes));
}

function wishOf(document: ReviewDocument, typed: ClipTyped): { wish: ClipWish; kind: ClipKind } {
  const review = stateOf(document);
  const given = clocksOf(document);
  const from: IdeasFrom = {
    review,
    analysis: analyse(review, given),
    clocks: withAngles(given, review.footage),
  };
  const { idea, kind } = typed.frames ? rangeOf(document, typed.frames, typed.clip) : ideaOf(from, typed);
  const clock = from.clocks.get(idea.footageId);
  const first = idea.parts[0];
  const last = idea.parts.at(-1);
  if (!clock || !first || !last) throw new BadInput(clipWords.refused.noFootage);
  const { slow: speed, hold } = typed;
  const at = (frame: number): number => {
    if (frame >= clock.table.pts.length) throw new BadInput(clipWords.refused.badRange);
    return ptsOf(clock.table, frameIndex(frame));
  };
  const wish: ClipWish = {
    reviewId: review.id,
    footageId: idea.footageId,
    parts: [...idea.parts],
    slow:
      speed === undefined
        ? [...idea.slow]
        : speed === 1
          ? []
          : [{ from: first.from, to: last.to, speed: speed }],
    freezes: hold ? [{ pts: at(hold[0]), seconds: hold[1], caption: typed.caption }] : [...idea.freezes],
    overlays: drawn(!typed.bare),
    sound: typed.sound,
  };
  return { wish, kind };
}

interface Chosen {
  readonly idea: Pick<ClipIdea, 'footageId' | 'parts' | 'slow' | 'freezes'>;
  readonly kind: ClipKind;
}

function ideaOf(from: IdeasFrom, { cross: place, stretch }: ClipTyped): Chosen {
  if (place !== undefined) {
    const cross = from.analysis.crosses.find((c) => c.place === place);
    const idea = cross && crossClip(from, cross);
    if (!idea) throw new BadInput(cliWords.noSuchCross(place));
    return { idea, kind: { cross: place } };
  }
  if (stretch !== undefined) {
    const split = from.analysis.splits.find((s) => s.to === stretch);
    const idea = split && stretchClip(from, split);
    if (!idea) throw new BadInput(cliWords.noSuchStretch(stretch));
    return { idea, kind: { stretch } };
  }
  const idea = shortClip(from);
  if (!idea) throw new BadInput(clipWords.nothingMarked);
  return { idea, kind: 'short' };
}

function rangeOf(document: ReviewDocument, [first, last]: readonly [number, number], clip: number): Chosen {
  const footage = document.footage[clip - 1];
  const [from, to] = [footage?.clip.pts[first], footage?.clip.pts[last]];
  if (!footage || from === undefined || to === undefined) throw new BadInput(clipWords.refused.badRange);
  return { idea: { footageId: footage.id, parts: [{ from, to }], slow: [], freezes: [] }, kind: 'range' };
}

const drawn = (on: boolean): ClipWish['overlays'] => ({
  numbers: on,
  wanted: on,
  // A range of what might have been says little beside what was.
  likely: false,
  real: on,
  captions: on,
  drawings: on,
});
