import { exerciseFor, type Exercise } from '../review/exercise.ts';
import type { Analysis } from '../review/analysis.ts';
import type { Header } from '../review/document.ts';
import { workOn, type WorkItem } from '../review/workOn.ts';
import type { Quantity } from '../time/quantity.ts';
import { workThemeWords } from '../words/exercises.ts';
import { reportWords } from '../words/report.ts';

/** One thing that the run says to train. */
export interface TrainItem {
  readonly what: string;
  /** Where it was seen; empty where that is no place of the course. */
  readonly where: string;
  /** Seconds that it took longer than the wanted line, as far as that is sure; nothing where that was not measured. */
  readonly lost: number;
  readonly exercise: Pick<Exercise, 'title' | 'how'> | null;
}

/** What the run says to train, and what was only seen. */
export interface ToTrain {
  readonly first: readonly TrainItem[];
  readonly also: readonly TrainItem[];
}

/** By what was marked, the dog's stage, the coach's word on what comes first, and what was lost after each number. */
export function toTrain(
  analysis: Analysis,
  header: Header,
  exercises: readonly Exercise[],
  lost: ReadonlyMap<number, Quantity>,
): ToTrain {
  const { first, also } = workOn(analysis, header.stage, lost, header.work);
  const itemOf = (item: WorkItem): TrainItem => ({
    what: workThemeWords[item.theme],
    where: whereSeen(item),
    lost: item.surelyLost,
    exercise: exerciseFor(item.theme, exercises),
  });
  return { first: first.map(itemOf), also: also.map(itemOf) };
}

/** Where something to work on was seen, in words. */
export function whereSeen(item: WorkItem): string {
  const tries = item.instances.flatMap(({ of }) => (of.what === 'try' ? [of.try.try] : []));
  if (tries.length > 0) return reportWords.workOn.tries(tries);
  return reportWords.workOn.at([...new Set(item.instances.flatMap(({ place }) => place ?? []))]);
}
