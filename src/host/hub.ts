import type { TopicEvent } from './contract/calls.ts';

/** Whoever listens to a topic. */
type Listener<E> = (event: E) => void;

export type ReviewAct = Extract<TopicEvent<'review'>, { type: 'act' }>;

/** Where handlers tell what has changed, and seats hear it. */
export interface Hub {
  /** The list of reviews or clips changed. Told at most once in `quiet` milliseconds; the last change is never lost. */
  libraryChanged(): void;
  acted(reviewId: string, act: ReviewAct): void;
  jobsChanged(): void;
  ruleBooksChanged(): void;
  dogsChanged(): void;
  preferencesChanged(): void;
  onLibrary(listener: Listener<void>): () => void;
  onAct(reviewId: string, listener: Listener<ReviewAct>): () => void;
  onJobs(listener: Listener<void>): () => void;
  onRuleBooks(listener: Listener<void>): () => void;
  onDogs(listener: Listener<void>): () => void;
  onPreferences(listener: Listener<void>): () => void;
  /** Reviews that some window has open. */
  openReviews(): string[];
  close(): void;
}

export function makeHub(quiet: number): Hub {
  const library = new Set<Listener<void>>();
  const jobs = new Set<Listener<void>>();
  const ruleBooks = new Set<Listener<void>>();
  const dogs = new Set<Listener<void>>();
  const preferences = new Set<Listener<void>>();
  const acts = new Map<string, Set<Listener<ReviewAct>>>();
  const libraryTold = calm(quiet, () => library.forEach((l) => l()));
  const jobsTold = calm(quiet, () => jobs.forEach((l) => l()));

  return {
    libraryChanged: libraryTold.call,
    jobsChanged: jobsTold.call,
    ruleBooksChanged: () => ruleBooks.forEach((l) => l()),
    dogsChanged: () => dogs.forEach((l) => l()),
    preferencesChanged: () => preferences.forEach((l) => l()),
    acted: (reviewId, act) => acts.get(reviewId)?.forEach((l) => l(act)),
    onLibrary: (l) => listen(library, l),
    onJobs: (l) => listen(jobs, l),
    onRuleBooks: (l) => listen(ruleBooks, l),
    onDogs: (l) => listen(dogs, l),
    onPreferences: (l) => listen(preferences, l),
    openReviews: () => [...acts.keys()],
    onAct(reviewId, l) {
      const set = acts.get(reviewId) ?? new Set();
      acts.set(reviewId, set);
      const stop = listen(set, l);
      return () => {
        stop();
        if (set.size === 0) acts.delete(reviewId);
      };
    },
    close() {
      libraryTold.stop();
      jobsTold.stop();
    },
  };
}

function listen<E>(set: Set<Listener<E>>, listener: Listener<E>): () => void {
  set.add(listener);
  return () => void set.delete(listener);
}

/** Calls `work` at once, then not again before `quiet` ms have gone by; what comes meanwhile is done at their end. */
function calm(quiet: number, work: () => void): { call(): void; stop(): void } {
  let timer: NodeJS.Timeout | null = null;
  let again = false;
  const call = (): void => {
    if (timer) {
      again = true;
      return;
    }
    work();
    timer = setTimeout(() => {
      timer = null;
      if (!again) return;
      again = false;
      call();
    }, quiet);
  };
  return {
    call,
    stop: () => {
      if (timer) clearTimeout(timer);
      timer = null;
    },
  };
}
