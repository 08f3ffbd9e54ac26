import type { Analysis } from '../../review/analysis.ts';
import type { ReviewState } from '../../review/entities.ts';
import type { ClipClock } from '../../time/bracket.ts';
import { coachingReport } from '../../words/coachingReport.ts';
import { dataOutWords as words } from '../../words/dataOut.ts';
import { analysisDocument } from '../analysisDocument.ts';
import { fileStem } from '../fileName.ts';
import { maskFor } from '../names.ts';
import type { Dialect } from '../places.ts';
import { captionsOf } from './captions.ts';
import { csvOf } from './csv.ts';
import { noFacts, type RunFacts } from '../runFacts.ts';
import { lineTables } from './lineTables.ts';
import { dataTables } from './tables.ts';
import { webVtt } from './webVtt.ts';

/** A file of data with the name it goes by. */
export interface DataFile {
  readonly name: string;
  readonly text: string;
}

export interface DataWith {
  readonly clocks: ReadonlyMap<string, ClipClock>;
  readonly facts?: RunFacts;
  readonly dialect?: Dialect | undefined;
}

/**
 * Everything a review says, for other programs: its tables as CSV, chapters and remarks of each of its clips as WebVTT, and
 * the whole analysis as JSON. The analysis holds names, so it is left out where the header leaves them out.
 */
export function dataFiles(
  review: ReviewState,
  analysis: Analysis,
  { clocks, facts = noFacts, dialect }: DataWith,
): readonly DataFile[] {
  const { leaveNamesOut } = review.header.words;
  const tables = [...dataTables(review, analysis, dialect), ...lineTables(facts)].map((t) => ({
    name: `${t.name}.csv`,
    text: csvOf(t),
  }));
  const captions = review.footage.flatMap((use, i): DataFile[] => {
    const clock = clocks.get(use.id);
    if (!clock) return [];
    const { chapters, remarks } = captionsOf(review, analysis, use.id, clock.table, dialect);
    const stem = leaveNamesOut ? '' : fileStem(use.name.replace(/\.[^.]{1,5}$/, ''));
    const clip = stem === '' ? fileStem(coachingReport.clipNumbered(i + 1)) : `${i + 1}-${stem}`;
    return [
      { name: `${clip}.${words.chapters}.vtt`, text: webVtt(chapters) },
      { name: `${clip}.${words.remarks}.vtt`, text: webVtt(remarks) },
    ];
  });
  const whole = {
    name: `${words.analysis}.json`,
    text: `${JSON.stringify(analysisDocument(review, analysis, facts), null, 2)}\n`,
  };
  return [...tables, ...captions, ...(leaveNamesOut ? [] : [whole])];
}

/** The folder that the files of a review go into: the name of its title. */
export const dataFolder = (review: ReviewState): string => {
  const stem = fileStem(maskFor(review.header)(review.header.title));
  return `${stem === '' ? '' : `${stem}-`}${words.folder}`;
};
