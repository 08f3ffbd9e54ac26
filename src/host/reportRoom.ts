import type { RuleBook } from '../course/rules/book.ts';
import type { ReportCopy } from '../report/copies.ts';
import type { FrameTable } from '../time/frameTable.ts';
import type { ReviewState } from '../review/entities.ts';

/** What the host asks of the report room (src/report), and what tests put in its place. */
export interface ReportRoom {
  /** The coaching report as one file that stands on its own, HTML or PDF, and a name for it. */
  write(asked: ReportAsked): Promise<{ readonly name: string; readonly content: string | Uint8Array }>;
  /** What the review says as data: tables, captions and the analysis, in one archive (ZIP), and a file name for it. */
  figures(asked: Pick<ReportAsked, 'review' | 'frames' | 'book' | 'clips' | 'preferences'>): {
    readonly name: string;
    readonly bytes: Uint8Array;
  };
}

export interface ReportAsked {
  readonly review: ReviewState;
  readonly form: 'html' | 'pdf';
  /** One page. */
  readonly short: boolean;
  readonly copy: ReportCopy;
  /** The rule book of its course, where this library has it. */
  readonly book: RuleBook | undefined;
  /** Frame tables by clip id, of the clips that are known. */
  readonly frames: ReadonlyMap<string, FrameTable>;
  /** What the clips are, by clip id. */
  readonly clips: ReadonlyMap<
    string,
    { readonly width: number; readonly height: number; readonly codec: string }
  >;
  readonly preferences: import('./contract/shapes.ts').Preferences;
  /** One frame of a clip as a JPEG, or null where its file is missing. */
  still(clipId: string, frame: number, width: number): Promise<Uint8Array | null>;
  /** A kept picture with its kind, or null. */
  picture(pictureId: string): Promise<{ readonly mime: string; readonly bytes: Uint8Array } | null>;
  readonly signal: AbortSignal;
  progress(done: number, total: number | null): void;
}
