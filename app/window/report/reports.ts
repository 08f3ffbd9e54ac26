import { createStore, type StoreApi } from 'zustand/vanilla';
import type { JobReport } from '../../../src/host/contract/calls.ts';
import { runJob, type Link } from '../../../src/host/contract/link.ts';
import type { ReportFile } from '../../../src/host/contract/shapes.ts';
import type { ReportCopy } from '../../../src/report/copies.ts';
import type { ReviewState } from '../../../src/review/entities.ts';
import { reportWords } from '../../../src/words/report.ts';
import type { NoticesStore } from '../stores/notices.ts';
import type { ReviewStore } from '../stores/review.ts';

/** How much of a report is written, and for whom. */
export interface ReportKind {
  readonly short: boolean;
  readonly copy: ReportCopy;
}

/** The report of one review: being written, or written, and from what. */
export interface ReportStand {
  readonly writing: JobReport | 'starting' | null;
  readonly file: ReportFile | null;
  /** The review as it was when the file was written, to tell whether it has changed since. */
  readonly of: ReviewState | null;
  /** What the file was written as. */
  readonly as: ReportKind | null;
}

export interface ReportsView {
  readonly byReview: ReadonlyMap<string, ReportStand>;
  /** What is written next. */
  readonly kind: ReportKind;
}

export interface ReportsStore extends StoreApi<ReportsView> {
  /** Writes the report of the open review once all its acts are kept. Never rejects. */
  write(): Promise<void>;
  /** The same as a PDF. @returns the file; null where none was written */
  writePdf(): Promise<ReportFile | null>;
  choose(part: Partial<ReportKind>): void;
}

/** Reports of this sitting; they stay in the library's folder afterwards. */
export function createReports(host: Link, notices: NoticesStore, review: ReviewStore): ReportsStore {
  const store = createStore<ReportsView>()(() => ({
    byReview: new Map(),
    kind: { short: false, copy: 'student' },
  }));
  const put = (id: string, part: Partial<ReportStand>): void => {
    store.setState(({ byReview, ...rest }) => {
      const before = byReview.get(id) ?? { writing: null, file: null, of: null, as: null };
      return { ...rest, byReview: new Map(byReview).set(id, { ...before, ...part }) };
    });
  };
  const made = async (form: 'html' | 'pdf'): Promise<ReportFile | null> => {
    const { id } = review.getState();
    if (id === null || store.getState().byReview.get(id)?.writing) return null;
    put(id, { writing: 'starting' });
    try {
      await review.settled();
      const of = review.getState().state;
      const as = store.getState().kind;
      const file = await runJob(host, 'report.write', { reviewId: id, form, ...as }, (writing) => {
        put(id, { writing });
      });
      put(id, form === 'html' ? { writing: null, file, of, as } : { writing: null });
      notices.getState().say(reportWords.written(file.name));
      return file;
    } catch (error) {
      put(id, { writing: null });
      notices.getState().trouble(error, reportWords.notWritten);
      return null;
    }
  };
  return Object.assign(store, {
    async write() {
      await made('html');
    },
    writePdf: () => made('pdf'),
    choose(part: Partial<ReportKind>) {
      store.setState(({ kind }) => ({ kind: { ...kind, ...part } }));
    },
  });
}
