import type { FootageUse, RunInClip } from '../../../../src/review/document.ts';
import { clipCutWords } from '../../../../src/words/clipCut.ts';

const words = clipCutWords;

/** As many runs as footage holds. */
const mostRuns = 200;

/** Footage after a press, with the label of the act; or why the press can do nothing. */
export type CutEdit = { readonly use: FootageUse; readonly label: string } | { readonly refused: string };

/** The number of a run: its place by where it begins. */
export function numberOf(runs: readonly RunInClip[], id: string): number {
  return inOrder(runs).findIndex((run) => run.id === id) + 1;
}

export function inOrder(runs: readonly RunInClip[]): RunInClip[] {
  return [...runs].sort((a, b) => a.from - b.from);
}

/** A run begins at `at`; where one is begun and not ended, it begins here instead. In a cut review the cut does. */
export function begins(use: FootageUse, at: number, id: string): CutEdit {
  if (use.cut) {
    if (at > use.cut.to) return { refused: words.said.beginsAfter };
    return { use: { ...use, cut: { ...use.cut, from: at } }, label: words.acts.cut };
  }
  const { runs = [] } = use;
  const open = runs.find((run) => run.to === null);
  if (!open && runs.length >= mostRuns) return { refused: words.said.full };
  const begun: RunInClip = open ? { ...open, from: at } : { id, from: at, to: null, dog: '', handler: '' };
  const next = [...runs.filter((run) => run.id !== begun.id), begun];
  return { use: { ...use, runs: next }, label: words.acts.begins(numberOf(next, begun.id)) };
}

/** The run that is begun ends at `at`; where none is, the last one that begins before. In a cut review the cut does. */
export function ends(use: FootageUse, at: number): CutEdit {
  if (use.cut) {
    if (at < use.cut.from) return { refused: words.said.endsBefore };
    return { use: { ...use, cut: { ...use.cut, to: at } }, label: words.acts.cut };
  }
  const { runs = [] } = use;
  const open = runs.find((run) => run.to === null);
  if (open && at < open.from) return { refused: words.said.endsBefore };
  const run = open ?? inOrder(runs).findLast((r) => r.from <= at && r.reviewId === undefined);
  if (!run) return { refused: words.said.beginFirst };
  const next = runs.map((r) => (r.id === run.id ? { ...r, to: at } : r));
  return { use: { ...use, runs: next }, label: words.acts.ends(numberOf(next, run.id)) };
}

/** The run in which `at` lies, else the one before it. */
export function runAt(runs: readonly RunInClip[], at: number): RunInClip | null {
  const sorted = inOrder(runs);
  return sorted.findLast((run) => run.from <= at) ?? sorted[0] ?? null;
}

/** Runs of which a review can be made. */
export function ready(runs: readonly RunInClip[]): (RunInClip & { readonly to: number })[] {
  return inOrder(runs).flatMap((run) =>
    run.to !== null && run.reviewId === undefined ? [{ ...run, to: run.to }] : [],
  );
}

export function named(
  use: FootageUse,
  id: string,
  names: Partial<Pick<RunInClip, 'dog' | 'handler'>>,
): CutEdit {
  const { runs = [] } = use;
  const next = runs.map((run) => (run.id === id ? { ...run, ...names } : run));
  return { use: { ...use, runs: next }, label: words.acts.named(numberOf(runs, id)) };
}

export function removed(use: FootageUse, id: string): CutEdit {
  const { runs = [] } = use;
  const next = runs.filter((run) => run.id !== id);
  return { use: { ...use, runs: next }, label: words.acts.removed(numberOf(runs, id)) };
}
