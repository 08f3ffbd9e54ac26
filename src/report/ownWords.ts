import type { Header } from '../review/document.ts';
import type { OwnWords } from '../review/coachSays.ts';
import type { Mask } from './names.ts';
import { lineText, written, type Line } from './pieces.ts';

/** A sentence of the report that the coach may put in her own words. */
export interface OpenSentence {
  /** What it says, by the name under which her words for it are kept. */
  readonly of: string;
  /** What it stands under in the report. */
  readonly title: string;
  /** As the report has it by itself. */
  readonly ours: string;
  readonly own: OwnWords | null;
}

/** The sentences of one report, each in the coach's words where she has some for it. */
export interface Sentences {
  /** The line to print; a line without anything in it is left out. */
  say(of: string, title: string, ours: Line): Line;
  readonly all: readonly OpenSentence[];
}

/** Begins the sentences of a report. Names are left out of the coach's words where they are left out of ours. */
export function sentencesOf(header: Header, mask: Mask): Sentences {
  const own = new Map((header.report?.own ?? []).map((o) => [o.of, o]));
  const all: OpenSentence[] = [];
  return {
    all,
    say(of, title, ours) {
      const hers = own.get(of) ?? null;
      all.push({ of, title, ours: lineText(ours), own: hers });
      if (!hers) return ours;
      return hers.text.trim() === '' ? [] : [written(mask(hers.text.trim()))];
    },
  };
}
