import { createStore, type StoreApi } from 'zustand/vanilla';
import { HostTrouble, runJob, type Link } from '../../../src/host/contract/link.ts';
import type { FilePurpose, PickedFile, Shell } from '../../../src/host/contract/shell.ts';
import type { FileSource, JobReport } from '../../../src/host/contract/calls.ts';
import { whyOf, type NoticesStore } from '../stores/notices.ts';

/** A file on its way into the library. */
export interface IntakeItem {
  readonly id: number;
  readonly name: string;
  readonly kind: 'video' | 'review';
  /** `handing over`: its bytes travel to the host. `reading`: the host reads frames and content. */
  readonly stage: 'handingOver' | 'reading' | 'in' | 'failed' | 'stopped';
  readonly done: number;
  /** Null where the length is not known. */
  readonly total: number | null;
  readonly clipId: string | null;
  readonly reviewId: string | null;
  /** Why it failed, for the reader. */
  readonly trouble: string | null;
}

/** What the form for a new review is about, or null while it is shut. */
export interface NewReviewForm {
  /** Videos on their way in, by item id; empty for a review without a video. */
  readonly itemIds: readonly number[];
  /** Clips that are in the library already. */
  readonly clipIds: readonly string[];
  /** Where the clips are meant to go: into the open review; unsaid where the coach has yet to say. */
  readonly into?: 'open' | undefined;
}

export interface IntakeView {
  readonly items: readonly IntakeItem[];
  readonly form: NewReviewForm | null;
}

/** What a screen takes into its own work; all else goes into the library. */
export type Offered = 'picture' | 'course' | 'rules';

export interface IntakeStore extends StoreApi<IntakeView> {
  /** Takes files in at once and opens the form where there are videos among them. */
  take(files: readonly PickedFile[], into?: NewReviewForm['into']): void;
  stop(itemId: number): void;
  openForm(clipIds: readonly string[]): void;
  closeForm(): void;
  /** Resolves when the items are in, failed or stopped. */
  settled(itemIds: readonly number[]): Promise<readonly IntakeItem[]>;
  /** Told when a review file has been taken in. */
  onReview(on: (reviewId: string) => void): () => void;
  /** Says who takes a dropped picture of the judge's map, a course or a rule book now. Returns the way to stop. */
  onDropped(purpose: Offered, on: (file: PickedFile) => void): () => void;
  /** Hands a dropped picture, course or rule book over. False where no screen takes one. */
  offer(purpose: Offered, file: PickedFile): boolean;
}

const endings: Readonly<Record<FilePurpose, RegExp>> = {
  course: /(\.svg|\.course\.json)$/i,
  rules: /\.rules\.json$/i,
  dog: /\.dog\.json$/i,
  review: /\.json$/i,
  picture: /\.(png|jpe?g|webp|pdf|hei[cf]|avif)$/i,
  video: /\.(mp4|mov|mkv|webm|m4v|avi|mts|m2ts|ts|3gp|mpe?g|wmv)$/i,
};

/** What a file is likely to be, by its name. What it is, the host finds out; unknown endings are tried as videos. */
export function likelyPurpose(name: string): FilePurpose {
  if (endings.course.test(name)) return 'course';
  if (endings.rules.test(name)) return 'rules';
  if (endings.dog.test(name)) return 'dog';
  if (endings.review.test(name)) return 'review';
  return endings.picture.test(name) ? 'picture' : 'video';
}

/** Files dropped on the window, as if they had been chosen. */
export function picked(shell: Shell<File>, files: readonly File[]): readonly PickedFile[] {
  return files.map((file) => ({
    name: file.name,
    bytes: file.size,
    source: (onProgress, signal) => shell.sourceOf(file, onProgress, signal),
  }));
}

const ended = (item: IntakeItem): boolean =>
  item.stage === 'in' || item.stage === 'failed' || item.stage === 'stopped';

/** Follows files from the moment they are chosen until the host has them. */
export function createIntake(host: Link, notices: NoticesStore): IntakeStore {
  const store = createStore<IntakeView>()(() => ({ items: [], form: null }));
  const stops = new Map<number, () => void>();
  const listeners = new Set<(reviewId: string) => void>();
  const takers = new Map<Offered, (file: PickedFile) => void>();
  let next = 1;

  const change = (id: number, part: Partial<IntakeItem>): void => {
    store.setState(({ items }) => ({
      items: items.map((item) => (item.id === id ? { ...item, ...part } : item)),
    }));
  };

  const read = async (item: IntakeItem, source: FileSource): Promise<void> => {
    let jobId: string | undefined;
    const progress = (report: JobReport): void => {
      jobId = report.id;
      change(item.id, { done: report.done, total: report.total });
    };
    let stopped = false;
    stops.set(item.id, () => {
      stopped = true;
      if (jobId !== undefined) {
        host.call('job.cancel', { jobId }).catch((error: unknown) => {
          notices.getState().trouble(error);
        });
      }
    });
    if (item.kind === 'review') {
      const { reviewId } = await runJob(host, 'review.import', { source }, progress);
      change(item.id, { stage: 'in', reviewId });
      if (!stopped) for (const on of listeners) on(reviewId);
    } else {
      const { clip } = await runJob(host, 'clip.import', { source }, progress);
      change(item.id, { stage: stopped ? 'stopped' : 'in', clipId: clip.id });
    }
  };

  const bringIn = async (item: IntakeItem, file: PickedFile): Promise<void> => {
    const aborter = new AbortController();
    stops.set(item.id, () => {
      aborter.abort();
    });
    try {
      const source = await file.source((done, total) => {
        change(item.id, { done, total });
      }, aborter.signal);
      change(item.id, { stage: 'reading', done: 0, total: null });
      await read(item, source);
    } catch (error) {
      const stopped = error instanceof HostTrouble && error.code === 'cancelled';
      change(item.id, { stage: stopped ? 'stopped' : 'failed', trouble: stopped ? null : whyOf(error).why });
      if (item.kind === 'review') notices.getState().trouble(error, (why) => `${item.name}: ${why}`);
    } finally {
      stops.delete(item.id);
    }
  };

  return Object.assign(store, {
    take(files: readonly PickedFile[], into?: NewReviewForm['into']) {
      const items = files.map((file): IntakeItem => ({
        id: next++,
        name: file.name,
        kind: likelyPurpose(file.name) === 'review' ? 'review' : 'video',
        stage: 'handingOver',
        done: 0,
        total: file.bytes,
        clipId: null,
        reviewId: null,
        trouble: null,
      }));
      const videos = items.filter((item) => item.kind === 'video').map((item) => item.id);
      store.setState(({ items: before, form }) => ({
        items: [...before.filter((item) => !ended(item) || form?.itemIds.includes(item.id)), ...items],
        form:
          videos.length === 0
            ? form
            : {
                itemIds: [...(form?.itemIds ?? []), ...videos],
                clipIds: form?.clipIds ?? [],
                into: into ?? form?.into,
              },
      }));
      items.forEach((item, i) => {
        const file = files[i];
        if (file) void bringIn(item, file);
      });
    },
    stop(itemId: number) {
      stops.get(itemId)?.();
    },
    openForm(clipIds: readonly string[]) {
      store.setState({ form: { itemIds: [], clipIds } });
    },
    closeForm() {
      store.setState(({ items }) => ({ form: null, items: items.filter((item) => !ended(item)) }));
    },
    settled(itemIds: readonly number[]) {
      return new Promise<readonly IntakeItem[]>((resolve) => {
        const look = (): boolean => {
          const mine = store.getState().items.filter((item) => itemIds.includes(item.id));
          if (!mine.every(ended)) return false;
          resolve(mine);
          return true;
        };
        if (look()) return;
        const stop = store.subscribe(() => {
          if (look()) stop();
        });
      });
    },
    onReview(on: (reviewId: string) => void) {
      listeners.add(on);
      return () => listeners.delete(on);
    },
    onDropped(purpose: Offered, on: (file: PickedFile) => void) {
      takers.set(purpose, on);
      return () => {
        if (takers.get(purpose) === on) takers.delete(purpose);
      };
    },
    offer(purpose: Offered, file: PickedFile) {
      const on = takers.get(purpose);
      on?.(file);
      return on !== undefined;
    },
  });
}
