import type { Course } from '../../course/course.ts';
import type { Analysis, RunClock } from '../analysis.ts';
import { otherCourse, type OtherCourse } from './sameCourse.ts';

/** A run as far as the remarks look at it. */
export interface RemarkedRun {
  readonly course: Course;
  readonly footage: readonly unknown[];
  readonly analysis: Pick<Analysis, 'taken' | 'countedTry' | 'clock' | 'warnings' | 'events'>;
}

/** What keeps two runs from being compared in full, so that the coach is not left to wonder. Runs by their order. */
export type CompareRemark =
  | { readonly remark: 'otherCourse'; readonly run: number; readonly other: OtherCourse }
  | { readonly remark: 'noFootage' | 'nothingMarked'; readonly run: number }
  | { readonly remark: 'missing'; readonly run: number; readonly places: readonly number[] }
  | { readonly remark: 'cutShort'; readonly run: number; readonly after: number; readonly of: number }
  | { readonly remark: 'takenTwice'; readonly run: number; readonly places: readonly number[] }
  | { readonly remark: 'offCourse'; readonly run: number; readonly places: readonly (number | null)[] }
  | { readonly remark: 'clocks'; readonly startedBy: readonly (RunClock['startedBy'] | null)[] };

/** The first number that tells a run's course from that of the first run, by run; null for the same course. */
export function coursesApart(courses: readonly Course[]): readonly (OtherCourse | null)[] {
  const [first] = courses;
  return courses.map((c, i) => (i === 0 || !first ? null : otherCourse(first, c)));
}

/** Everything that is to be said about the runs before their figures are read. */
export function compareRemarks(runs: readonly RemarkedRun[]): readonly CompareRemark[] {
  const other = coursesApart(runs.map((r) => r.course));
  const each = runs.flatMap((run, i) => remarksOf(run, i, other[i] ?? null));
  const started = runs.map((r) => r.analysis.clock?.startedBy ?? null);
  const marked = runs.every((r) => r.analysis.taken.length > 0);
  const apart = marked && new Set(started).size > 1 && other.every((o) => o === null);
  return apart ? [...each, { remark: 'clocks', startedBy: started }] : each;
}

function remarksOf(run: RemarkedRun, i: number, other: OtherCourse | null): CompareRemark[] {
  const { course, footage, analysis } = run;
  const remarks: CompareRemark[] = [];
  if (other) remarks.push({ remark: 'otherCourse', run: i, other });
  if (footage.length === 0) remarks.push({ remark: 'noFootage', run: i });
  const taken = analysis.taken.filter((t) => t.try === analysis.countedTry);
  if (taken.length === 0) return [...remarks, { remark: 'nothingMarked', run: i }];
  const got = new Set(taken.filter((t) => t.out).map((t) => t.place));
  const after = Math.max(...taken.map((t) => t.place));
  const numbers = course.steps.map((s) => s.number);
  const missing = numbers.filter((n) => n <= after && !got.has(n));
  if (missing.length > 0) remarks.push({ remark: 'missing', run: i, places: missing });
  const last = Math.max(0, ...numbers);
  if (after < last) remarks.push({ remark: 'cutShort', run: i, after, of: last });
  const twice = analysis.warnings.flatMap((w) =>
    w.warning === 'repeatedEdge' && w.try === analysis.countedTry ? [w.place] : [],
  );
  if (twice.length > 0)
    remarks.push({ remark: 'takenTwice', run: i, places: [...new Set(twice)].sort((a, b) => a - b) });
  const off = analysis.events.filter((e) => e.mark.event === 'offCourse').map((e) => e.place);
  if (off.length > 0) remarks.push({ remark: 'offCourse', run: i, places: off });
  return remarks;
}
