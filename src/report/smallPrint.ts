import type { Analysis } from '../review/analysis.ts';
import type { ReviewState } from '../review/entities.ts';
import { clipSpeedTold } from '../words/captureSpeed.ts';
import { coachingReport as words } from '../words/coachingReport.ts';
import { clockReading, supportedDigits } from '../words/figures.ts';
import { figureAt, written, type Line } from './pieces.ts';
import type { RunFacts } from './runFacts.ts';
import { mostStills, stillsWanted, type Still } from './stills.ts';

/** What the small print says about a clip. Its path is never part of a report. */
export interface ClipUsed {
  readonly footageId: string;
  readonly frames: number;
  readonly width?: number;
  readonly height?: number;
  readonly codec?: string;
}

/** What stands under a report. */
export interface SmallPrint {
  readonly plusMinus: Line | null;
  readonly lines: readonly string[];
  readonly clips: readonly {
    readonly name: Line;
    readonly frames: number;
    readonly picture: string;
    readonly marks: number;
  }[];
  readonly doubts: readonly string[];
}

interface PrintedFrom {
  readonly review: ReviewState;
  readonly analysis: Analysis;
  readonly clips: readonly ClipUsed[];
  readonly stills: ReadonlyMap<string, Still>;
}

/** Rule book and practice, plus or minus, the clips and what does not fit together. */
export function smallPrint(input: PrintedFrom, { score, stretches }: RunFacts): SmallPrint {
  const { review, analysis } = input;
  const wanted = stillsWanted(review, analysis);
  const missing = wanted.filter((w) => !input.stills.has(w.id)).length;
  const stillLines =
    wanted.length === 0 || missing === 0
      ? []
      : [missing === wanted.length ? words.stillsMissing : words.someStillsMissing(missing)];
  const capped = wanted.length === mostStills ? [words.stillsCapped(mostStills)] : [];
  const book = score ? [words.ruleBook(score.book)] : [];
  const way = stretches.length > 0 ? [words.wayMeasured] : [];
  const facts = new Map(input.clips.map((c) => [c.footageId, c]));
  return {
    plusMinus: plusMinusExample(analysis),
    lines: [
      words.unofficial,
      ...book,
      words.practice,
      words.wide,
      ...way,
      ...stillLines,
      ...capped,
      words.private,
    ],
    clips: review.footage.map((use, i) => {
      const clip = facts.get(use.id);
      const size = clip?.width && clip.height ? words.pictureSize(clip.width, clip.height) : '';
      return {
        name: clipName(review, i),
        frames: clip?.frames ?? 0,
        picture: [
          size,
          clip?.codec ?? '',
          use.speed.some((piece) => piece.speed !== 1) ? words.slowMotion(clipSpeedTold(use.speed)) : '',
        ]
          .filter((t) => t !== '')
          .join(', '),
        marks: review.marks.filter((m) => m.footageId === use.id).length,
      };
    }),
    doubts: doubts(analysis),
  };
}

function plusMinusExample(analysis: Analysis): Line | null {
  const split = analysis.splits.findIndex((s) => s.time.plusMinus > 0);
  const q = analysis.splits[split]?.time;
  if (!q) return null;
  const digits = supportedDigits(q.plusMinus);
  return words.plusMinus(
    figureAt(`splits[${split}].time`, q),
    `${clockReading(q.value - q.plusMinus, digits)} s`,
    `${clockReading(q.value + q.plusMinus, digits)} s`,
  );
}

/** The same sentence once, and at most a dozen of them. */
function doubts(analysis: Analysis): string[] {
  const most = 12;
  const all = [...new Set(analysis.warnings.map((w) => words.warning(w)))];
  return all.length <= most ? all : [...all.slice(0, most), words.more(all.length - most)];
}

/** The name of a clip in the report: a number where names are left out, since file names carry them, too. */
function clipName(review: ReviewState, index: number): Line {
  const use = review.footage[index];
  if (!use || review.header.words.leaveNamesOut) return [words.clipNumbered(index + 1)];
  return [written(use.name)];
}
