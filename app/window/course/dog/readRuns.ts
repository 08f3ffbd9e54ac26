import { builtBy } from '../../../../src/course/builtBy.ts';
import type { MeasuredRun } from '../../../../src/line/runnerFit.ts';
import { withAngles } from '../../../../src/review/angles.ts';
import { measuredLine } from '../../../../src/review/compare/measuredLine.ts';
import { measuredRun } from '../../../../src/review/measuredRun.ts';
import { createReview, type ReviewView } from '../../stores/review.ts';
import { ruleBookIn } from '../../stores/ruleBooks.ts';
import type { Workbench } from '../../stores/workbench.ts';

/** What was found in a dog's reviews. */
export interface RunsRead {
  /** Of those that were opened, the runs in which something was measured. */
  readonly runs: readonly MeasuredRun[];
  readonly opened: number;
  /** Of these with her line on the ground. */
  readonly withLine: number;
  /** Reviews that could not be opened. */
  readonly failed: number;
}

type Bench = Pick<Workbench, 'host' | 'notices' | 'frameTables' | 'ruleBooks' | 'library'>;

/** So long the frame times of a review are waited for, milliseconds: a long clip on a slow disk. */
const patience = 20_000;

/**
 * Opens reviews one after another, beside the window's own, and measures each.
 * @param onOne told after each how many are done
 */
export async function readRuns(
  bench: Bench,
  ids: readonly string[],
  onOne: (done: number) => void,
  stopped: () => boolean,
): Promise<RunsRead> {
  const runs: MeasuredRun[] = [];
  let [opened, withLine, failed] = [0, 0, 0];
  for (const [i, id] of ids.entries()) {
    if (stopped()) break;
    const found = await measuredIn(bench, id);
    if (found) opened += 1;
    else failed += 1;
    if (found && tells(found.run)) runs.push(found.run);
    if (found?.hasLine) withLine += 1;
    onOne(i + 1);
  }
  return { runs, opened, withLine, failed };
}

const tells = ({ stretches, taken }: MeasuredRun): boolean =>
  stretches.length > 0 || taken.some((t) => (t.metres && t.seconds) ?? t.takeOff ?? t.landing);

async function measuredIn(
  bench: Bench,
  id: string,
): Promise<{ readonly run: MeasuredRun; readonly hasLine: boolean } | null> {
  const store = createReview(bench.host, bench.notices, bench.frameTables);
  const whole = ({ stage, state, clocks }: ReviewView): boolean =>
    stage === 'failed' || (stage === 'open' && state?.footage.every((f) => clocks.has(f.id)) === true);
  // Frame times that never come leave what was marked on their clip unmeasured, and no more than that.
  const opened = new Promise<void>((resolve) => {
    const timer = setTimeout(resolve, patience);
    store.subscribe((view) => {
      if (!whole(view)) return;
      clearTimeout(timer);
      resolve();
    });
  });
  store.openReview(id);
  try {
    await opened;
    const { state } = store.getState();
    const analysis = store.analysis();
    if (!state || !analysis) return null;
    const { clips } = bench.library.getState();
    const pictures = new Map(
      state.footage.flatMap((use) => {
        const clip = clips.get(use.clipId);
        return clip ? [[use.id, { width: clip.width, height: clip.height }] as const] : [];
      }),
    );
    const course = builtBy(state.course, ruleBookIn(bench.ruleBooks.getState(), state.course.ruleBook).book);
    const clocks = withAngles(store.getState().clocks, state.footage);
    const line = measuredLine(state, clocks, analysis, { course, pictures, seed: 1 })?.line ?? null;
    return { run: measuredRun(analysis, course, line), hasLine: line !== null };
  } finally {
    store.closeReview();
  }
}
