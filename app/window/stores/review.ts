import { createStore, type StoreApi } from 'zustand/vanilla';
import type { CallResult } from '../../../src/host/contract/calls.ts';
import { HostTrouble, type Link } from '../../../src/host/contract/link.ts';
import { analyse } from '../../../src/review/analyse.ts';
import type { Analysis } from '../../../src/review/analysis.ts';
import type { FootageUse } from '../../../src/review/document.ts';
import { applyChanges, type Change, type ReviewState } from '../../../src/review/entities.ts';
import type { ClipClock } from '../../../src/time/bracket.ts';
import { windowWords } from '../../../src/words/window.ts';
import { clockOf, type FrameTables } from './clocks.ts';
import type { NoticesStore } from './notices.ts';

/** The open review as the window shows it. */
export interface ReviewView {
  readonly id: string | null;
  readonly stage: 'none' | 'opening' | 'open' | 'failed';
  /** Why it could not be opened, for the reader. */
  readonly failure: string | null;
  /** The host's word, with the acts on top that are still under way. */
  readonly state: ReviewState | null;
  /** Label of the act that undo (redo) would take back (do again), or null. */
  readonly canUndo: string | null;
  readonly canRedo: string | null;
  /** Acts that the host has not confirmed yet. */
  readonly underWay: number;
  /** Clocks of the footage whose frame times are there, by footage id. */
  readonly clocks: ReadonlyMap<string, ClipClock>;
}

export interface ReviewStore extends StoreApi<ReviewView> {
  openReview(id: string): void;
  closeReview(): void;
  /**
   * One act: shown at once, sent in its turn, taken back with a notice where the host refuses it. Resolves to
   * whether it was kept; never rejects.
   */
  apply(label: string, changes: readonly Change[]): Promise<boolean>;
  /** Takes the last act back. Resolves to its label, or null where there was none or it failed. Never rejects. */
  undo(): Promise<string | null>;
  redo(): Promise<string | null>;
  /** Resolves when every act made so far has been kept or taken back. */
  settled(): Promise<void>;
  /** Asks for frame times that are not known, or no longer. */
  refreshFrames(): void;
  /** The analysis of what is shown now; null while nothing is open or where it cannot be made. Memoised. */
  analysis(): Analysis | null;
}

interface Act {
  readonly reviewId: string;
  readonly actId: string;
  readonly changes: readonly Change[];
  /** Number in the log, once the host has answered. */
  number: number | null;
}

/** How often an act is sent again (with its own id, so it is done once) after a lost answer, and the wait between. */
const attempts = 4;
const waitBetween = 400;

const nothing: ReviewView = {
  id: null,
  stage: 'none',
  failure: null,
  state: null,
  canUndo: null,
  canRedo: null,
  underWay: 0,
  clocks: new Map(),
};

/** The one open review of a window. `newId` makes ids of acts. */
export function createReview(
  host: Link,
  notices: NoticesStore,
  tables: FrameTables,
  newId: () => string = () => crypto.randomUUID(),
): ReviewStore {
  const store = createStore<ReviewView>()(() => nothing);
  let confirmed: ReviewState | null = null;
  let log = { act: 0, canUndo: null as string | null, canRedo: null as string | null };
  let pending: Act[] = [];
  let queue: Promise<unknown> = Promise.resolve();
  let stopListening: (() => void) | undefined;
  /** Footage whose clock cannot be had, so that it is told of once and not at every act. */
  let told = new Set<unknown>();

  const show = (): void => {
    if (!confirmed) return;
    const state = pending.reduce((shown, act) => applyChanges(shown, act.changes), confirmed);
    store.setState((before) => ({
      stage: 'open',
      failure: null,
      state,
      underWay: pending.length,
      canUndo: log.canUndo,
      canRedo: log.canRedo,
      clocks: clocksOf(state, before),
    }));
  };

  const clocksOf = (state: ReviewState, before: ReviewView): ReadonlyMap<string, ClipClock> => {
    const current = (use: FootageUse): boolean =>
      before.clocks.get(use.id)?.table === tables.known(use.clipId);
    const all = state.footage.every((use) => before.clocks.has(use.id) && current(use));
    if (before.state?.footage === state.footage && all) {
      return before.clocks;
    }
    const clocks = new Map<string, ClipClock>();
    for (const use of state.footage) {
      const table = tables.known(use.clipId);
      const there = before.clocks.get(use.id);
      const unchanged = before.state?.footage.includes(use) === true;
      if (table && there && unchanged && there.table === table) clocks.set(use.id, there);
      else if (table) {
        try {
          clocks.set(use.id, clockOf(use, table));
        } catch (error) {
          if (!told.has(use)) frameTrouble(use.name, error);
          told.add(use);
        }
      }
    }
    const same =
      clocks.size === before.clocks.size && [...clocks].every(([id, c]) => before.clocks.get(id) === c);
    return same ? before.clocks : clocks;
  };

  const frameTrouble = (clip: string, error: unknown): void => {
    const why =
      error instanceof RangeError ? new HostTrouble({ code: 'damaged', message: error.message }) : error;
    notices.getState().trouble(why, (text) => windowWords.noFrames(clip, text));
  };

  const fetchTables = (): void => {
    for (const use of confirmed?.footage ?? []) {
      if (tables.known(use.clipId) || told.has(use.clipId)) continue;
      tables.of(use.clipId).then(show, (error: unknown) => {
        if (!told.has(use.clipId)) frameTrouble(use.name, error);
        told.add(use.clipId);
      });
    }
  };

  /** Acts that the host has told of are part of its word now. */
  const settle = (): void => {
    pending = pending.filter((act) => act.number === null || act.number > log.act);
  };

  /** The answer to an act may come before the event that tells of it; what can be undone is known from either. */
  const answered = (reviewId: string, answer: CallResult<'review.apply'>): void => {
    if (store.getState().id !== reviewId) return;
    if (answer.act >= log.act) log = { ...log, canUndo: answer.canUndo, canRedo: answer.canRedo };
    settle();
    show();
  };

  const open = (id: string): void => {
    stopListening?.();
    confirmed = null;
    pending = [];
    told = new Set();
    store.setState({ ...nothing, id, stage: 'opening' }, true);
    stopListening = host.subscribe(
      'review',
      { reviewId: id },
      (event) => {
        if (event.type === 'whole') confirmed = event.state;
        else if (confirmed) {
          confirmed = applyChanges(confirmed, event.changes);
          pending = pending.filter((act) => act.actId !== event.actId);
        }
        log = { act: event.act, canUndo: event.canUndo, canRedo: event.canRedo };
        settle();
        show();
        fetchTables();
      },
      (trouble) => {
        store.setState({ ...nothing, id, stage: 'failed', failure: trouble.message }, true);
      },
    );
  };

  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const turn = queue.then(work);
    queue = turn.catch(() => undefined);
    return turn;
  };

  const send = async (act: Act, label: string): Promise<boolean> => {
    try {
      const { reviewId, actId, changes } = act;
      const answer = await again(() =>
        host.call('review.apply', { reviewId, actId, label, changes: [...changes] }),
      );
      act.number = answer.act;
      answered(reviewId, answer);
      return true;
    } catch (error) {
      pending = pending.filter((a) => a !== act);
      show();
      notices.getState().trouble(error, (why) => windowWords.notKept(label, why));
      return false;
    }
  };

  const step = (call: 'review.undo' | 'review.redo', labelNow: () => string | null): Promise<string | null> =>
    inTurn(async () => {
      const { id } = store.getState();
      const label = labelNow();
      if (id === null || label === null) return null;
      try {
        answered(id, await host.call(call, { reviewId: id }));
        return label;
      } catch (error) {
        notices.getState().trouble(error, (why) => windowWords.notUndone(why));
        return null;
      }
    });

  const analysis = memoAnalysis(notices);

  return Object.assign(store, {
    openReview(id: string) {
      const { id: here, stage } = store.getState();
      if (here !== id || stage === 'failed') open(id);
    },
    closeReview() {
      stopListening?.();
      stopListening = undefined;
      confirmed = null;
      pending = [];
      store.setState(nothing, true);
    },
    apply(label: string, changes: readonly Change[]) {
      const { id } = store.getState();
      if (id === null || !confirmed || changes.length === 0) return Promise.resolve(false);
      const act: Act = { reviewId: id, actId: newId(), changes, number: null };
      pending = [...pending, act];
      show();
      return inTurn(() => send(act, label));
    },
    settled: () => queue.then(() => undefined),
    refreshFrames: fetchTables,
    undo: () => step('review.undo', () => log.canUndo),
    redo: () => step('review.redo', () => log.canRedo),
    analysis() {
      const { state, clocks } = store.getState();
      return state ? analysis(state, clocks) : null;
    },
  });
}

/** Asks again after a lost answer; every other refusal is final. */
async function again<T>(ask: () => Promise<T>): Promise<T> {
  for (let attempt = 1; ; attempt++) {
    try {
      return await ask();
    } catch (error) {
      const lost = error instanceof HostTrouble && error.code === 'internal';
      if (!lost || attempt >= attempts) throw error;
      await new Promise((resolve) => setTimeout(resolve, waitBetween));
    }
  }
}

function memoAnalysis(
  notices: NoticesStore,
): (state: ReviewState, clocks: ReadonlyMap<string, ClipClock>) => Analysis | null {
  let last: { state: ReviewState; clocks: unknown; result: Analysis | null } | undefined;
  return (state, clocks) => {
    if (last?.state === state && last.clocks === clocks) return last.result;
    let result: Analysis | null = null;
    try {
      result = analyse(state, clocks);
    } catch (error) {
      // Telling must not happen while a screen is being drawn.
      queueMicrotask(() => {
        notices.getState().trouble(error);
      });
    }
    last = { state, clocks, result };
    return result;
  };
}
