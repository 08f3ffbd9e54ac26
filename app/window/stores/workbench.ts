import { HostTrouble, link, type Link } from '../../../src/host/contract/link.ts';
import { windowWords } from '../../../src/words/window.ts';
import { allActs } from '../keys/allActs.ts';
import { createKeyboard, type Keyboard } from '../keys/keyboard.ts';
import { createIntake, type IntakeStore } from '../library/intake.ts';
import { createReports, type ReportsStore } from '../report/reports.ts';
import type { WindowShell } from '../shell/index.ts';
import { createLookAt, type LookAt } from './lookAt.ts';
import { createDogs, type DogsStore } from './dogs.ts';
import { createFrameTables, type FrameTables } from './clocks.ts';
import { createJobs, createLibrary, type JobsStore, type LibraryStore } from './library.ts';
import { createNotices, type NoticesStore } from './notices.ts';
import { createPreferences, type PreferencesStore } from './preferences.ts';
import { createReview, type ReviewStore } from './review.ts';
import { createRuleBooks, type RuleBooksStore } from './ruleBooks.ts';
import { createRoute, type AddressBar, type RouteStore } from './route.ts';

/** Everything the screens of one window share. */
export interface Workbench {
  readonly shell: WindowShell;
  readonly host: Link;
  readonly notices: NoticesStore;
  readonly preferences: PreferencesStore;
  readonly library: LibraryStore;
  readonly jobs: JobsStore;
  readonly ruleBooks: RuleBooksStore;
  readonly dogs: DogsStore;
  readonly frameTables: FrameTables;
  readonly review: ReviewStore;
  readonly intake: IntakeStore;
  readonly reports: ReportsStore;
  readonly route: RouteStore;
  readonly lookAt: LookAt;
  readonly keyboard: Keyboard;
}

/** Joins the stores over a shell. Knows no React; runs in plain Node in tests. */
export function createWorkbench(shell: WindowShell, bar: AddressBar): Workbench {
  const host = link(shell.wire);
  const notices = createNotices();
  const preferences = createPreferences(host, notices);
  const frameTables = createFrameTables(host);
  const review = createReview(host, notices, frameTables);
  const workbench: Workbench = {
    shell,
    host,
    notices,
    preferences,
    library: createLibrary(host),
    jobs: createJobs(host),
    ruleBooks: createRuleBooks(host, notices),
    dogs: createDogs(host, notices),
    frameTables,
    review,
    reports: createReports(host, notices, review),
    intake: createIntake(host, notices),
    route: createRoute(bar),
    lookAt: createLookAt(),
    keyboard: createKeyboard(allActs, () => preferences.getState().keys),
  };
  workbench.library.subscribe(({ clips }) => {
    let any = false;
    for (const { id, frames } of clips.values()) {
      const table = frameTables.known(id);
      if (!table || table.pts.length === frames) continue;
      // Half-pictures were chosen, or given up: the clip has other frames now.
      frameTables.forget(id);
      any = true;
    }
    if (any) review.refreshFrames();
  });
  let lost: number | undefined;
  shell.onLost((loss) => {
    const message = loss === 'ended' ? windowWords.ended : windowWords.lost;
    lost = notices.getState().trouble(new HostTrouble({ code: 'internal', message }));
  });
  shell.onBack(() => {
    host.resume();
    if (lost === undefined) return;
    notices.getState().dismiss(lost);
    notices.getState().say(windowWords.back);
    lost = undefined;
  });
  return workbench;
}
