import { createStore, type StoreApi } from 'zustand/vanilla';
import type { JobReport } from '../../../src/host/contract/calls.ts';
import type { Link } from '../../../src/host/contract/link.ts';
import type { ClipSummary, ReviewSummary } from '../../../src/host/contract/shapes.ts';

/** What the library holds, as the host last told. */
export interface LibraryView {
  /** False until the host has answered the first time. */
  readonly known: boolean;
  readonly reviews: readonly ReviewSummary[];
  readonly clips: ReadonlyMap<string, ClipSummary>;
}

export type LibraryStore = StoreApi<LibraryView>;

/** Follows the library for as long as the window lives. */
export function createLibrary(host: Link): LibraryStore {
  const store = createStore<LibraryView>()(() => ({ known: false, reviews: [], clips: new Map() }));
  host.subscribe('library', {}, ({ reviews, clips }) => {
    store.setState({ known: true, reviews, clips: new Map(clips.map((clip) => [clip.id, clip])) });
  });
  return store;
}

/** Jobs at work and just ended. */
export interface JobsView {
  readonly jobs: readonly JobReport[];
}

export type JobsStore = StoreApi<JobsView>;

/** Follows the host's jobs for as long as the window lives. */
export function createJobs(host: Link): JobsStore {
  const store = createStore<JobsView>()(() => ({ jobs: [] }));
  host.subscribe('jobs', {}, ({ jobs }) => {
    store.setState({ jobs });
  });
  return store;
}

/** The job that makes the working copy of a clip now, or will, if any. */
export function copyJob(clip: ClipSummary | undefined, jobs: readonly JobReport[]): JobReport | undefined {
  return jobs.find(
    (job) =>
      job.name === 'clip.workingCopy' &&
      (job.state === 'running' || job.state === 'waiting') &&
      job.subject !== null &&
      job.subject === clip?.id,
  );
}
