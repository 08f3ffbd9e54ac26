import { strToU8, zipSync } from 'fflate';
import type { RuleBook } from '../course/rules/book.ts';
import { bareJpeg } from '../report/bareJpeg.ts';
import type { Exercise } from '../review/exercise.ts';
import { dataFiles, dataFolder } from '../report/data/files.ts';
import { reportFileStem } from '../report/fileName.ts';
import { reportHtml } from '../report/html.ts';
import { shortReportHtml } from '../report/htmlShort.ts';
import type { ReportCopy } from '../report/copies.ts';
import { buildReport, type ReportModel } from '../report/model.ts';
import type { ClipUsed } from '../report/smallPrint.ts';
import { runFacts, type RunFacts } from '../report/runFacts.ts';
import type { Dialect } from '../report/places.ts';
import { frameKey, stillsWanted, type Still, type StillWanted } from '../report/stills.ts';
import { analyse } from '../review/analyse.ts';
import type { Analysis } from '../review/analysis.ts';
import type { ReviewState } from '../review/entities.ts';
import type { ClipClock } from '../time/bracket.ts';
import { frameAt, type FrameTable } from '../time/frameTable.ts';
import { pts } from '../time/units.ts';
import { reportPdf } from './reportPdf/report.ts';
import { shortReportPdf } from './reportPdf/short.ts';
import { freePath } from './reportPlace.ts';
import type { ReportAsked as AskedOfRoom, ReportRoom } from './reportRoom.ts';
import { writeWhole } from './wholeFile.ts';

/** Widest a still is made, pixels: sharp on a phone and in print, small enough to mail. */
export const stillWidth = 960;
/** Stills made at the same time. */
const atOnce = 2;

/** The frame of a clip as a JPEG; null where its footage is not at hand. */
export type StillOf = (still: Pick<StillWanted, 'footageId' | 'pts'>) => Promise<Uint8Array | null>;

export interface ReportAsked {
  readonly state: ReviewState;
  readonly analysis: Analysis;
  readonly clips: readonly ClipUsed[];
  readonly stillOf: StillOf;
  readonly dialect?: Dialect;
  readonly book?: RuleBook | undefined;
  readonly facts?: RunFacts;
  readonly exercises?: readonly Exercise[];
  /** Whom it is for; the student where that is not said. */
  readonly copy?: ReportCopy;
  /** One page; without stills. */
  readonly short?: boolean;
  readonly signal?: AbortSignal;
  /** Told after each still. */
  readonly progress?: (done: number, total: number) => void;
}

/** What a report file can be. */
export type ReportForm = 'html' | 'pdf';

/**
 * Makes the report of a review: file name and content. A still that cannot be made does not end the report: it is
 * left out, and the small print says how many are missing. Rejects where `signal` is aborted.
 */
export async function composeReport(
  asked: ReportAsked,
  forms: readonly ReportForm[],
): Promise<readonly { readonly name: string; readonly content: string | Uint8Array }[]> {
  const { state, analysis, clips, dialect = 'british', book, short = false, copy = 'student' } = asked;
  const stills = short ? new Map<string, Still>() : await makeStills(asked);
  const { facts, exercises } = asked;
  const report = buildReport({
    ...{ review: state, analysis, clips, stills, dialect, book, copy },
    ...(facts ? { facts } : {}),
    ...(exercises ? { exercises } : {}),
  });
  const files: { name: string; content: string | Uint8Array }[] = [];
  for (const form of forms) {
    asked.signal?.throwIfAborted();
    const content = await contentOf(report, form, short);
    files.push({ name: `${reportFileStem(state.header, { short, copy })}.${form}`, content });
  }
  return files;
}

function contentOf(report: ReportModel, form: ReportForm, short: boolean): string | Promise<Uint8Array> {
  if (form === 'html') return short ? shortReportHtml(report) : reportHtml(report);
  return short ? shortReportPdf(report) : reportPdf(report);
}

/**
 * Writes the report into a folder, which is made where it is missing. A report of the same review is replaced;
 * a file of the same name that is anything else is left alone and the report gets a number.
 * @throws HostTrouble where it cannot be written; then nothing is left behind
 */
export async function writeReport(
  asked: ReportAsked & { readonly folder: string },
  forms: readonly ReportForm[] = ['html'],
): Promise<readonly { path: string; bytes: number }[]> {
  const files = await composeReport(asked, forms);
  const written: { path: string; bytes: number }[] = [];
  for (const { name, content } of files) {
    asked.signal?.throwIfAborted();
    const path = await freePath(asked.folder, name, asked.state.id);
    written.push({ path, bytes: await writeWhole(path, content) });
  }
  return written;
}

/** The report room as the host uses it. */
export const reportRoom: ReportRoom = {
  async write({ review, form, short, copy, book, frames, clips, preferences, still, signal, progress }) {
    const clocks = clocksIn(review, frames);
    const analysis = analyse(review, clocks);
    const clipIds = new Map(review.footage.map((use) => [use.id, use.clipId]));
    const asked: ReportAsked = {
      state: review,
      analysis,
      book,
      short,
      copy,
      facts: factsIn({ review, clips, book, preferences }, analysis, clocks),
      ...(preferences.exercises ? { exercises: preferences.exercises } : {}),
      clips: [...clocks].map(([footageId, clock]) => {
        const facts = clips.get(clipIds.get(footageId) ?? '');
        const frames = clock.table.pts.length;
        return facts
          ? { footageId, frames, width: facts.width, height: facts.height, codec: facts.codec }
          : { footageId, frames };
      }),
      dialect: preferences.dialect,
      signal,
      progress,
      stillOf: async (wanted) => {
        const clock = clocks.get(wanted.footageId);
        const clipId = clipIds.get(wanted.footageId);
        if (!clock || clipId === undefined) return null;
        return still(clipId, frameAt(clock.table, pts(wanted.pts)), stillWidth);
      },
    };
    const [file] = await composeReport(asked, [form]);
    if (!file) throw new Error('no report was made');
    return file;
  },
  figures({ review, frames, book, clips, preferences }) {
    const clocks = clocksIn(review, frames);
    const folder = dataFolder(review);
    const analysis = analyse(review, clocks);
    const facts = factsIn({ review, clips, book, preferences }, analysis, clocks);
    const files = dataFiles(review, analysis, { clocks, facts, dialect: preferences.dialect });
    const inside = files.map(({ name, text }) => [`${folder}/${name}`, strToU8(text)] as const);
    return { name: `${folder}.zip`, bytes: zipSync(Object.fromEntries(inside)) };
  },
};

/** Score, line and paws of a review, by the coach's own criterion. */
function factsIn(
  { review, clips, book, preferences }: Pick<AskedOfRoom, 'review' | 'clips' | 'book' | 'preferences'>,
  analysis: Analysis,
  clocks: ReadonlyMap<string, ClipClock>,
): RunFacts {
  const pictures = new Map(
    review.footage.flatMap((use) => {
      const clip = clips.get(use.clipId);
      return clip ? [[use.id, { width: clip.width, height: clip.height }] as const] : [];
    }),
  );
  return runFacts(review, analysis, { clocks, book, pictures, stepCounts: preferences.realLine.stepCounts });
}

/** The clocks of those clips of a review whose frames are known, by footage. */
function clocksIn(
  review: ReviewState,
  frames: ReadonlyMap<string, FrameTable>,
): ReadonlyMap<string, ClipClock> {
  return new Map(
    review.footage.flatMap((use) => {
      const table = frames.get(use.clipId);
      return table ? [[use.id, { table, speed: use.speed, offset: use.offset, rate: use.rate }]] : [];
    }),
  );
}

/** Makes each frame once, a few at a time, and hands it to every mark that lies on it. */
async function makeStills(asked: ReportAsked): Promise<Map<string, Still>> {
  const wanted = stillsWanted(asked.state, asked.analysis);
  const frames = new Map<string, StillWanted[]>();
  for (const w of wanted) {
    const key = frameKey(w.footageId, w.pts);
    frames.set(key, [...(frames.get(key) ?? []), w]);
  }
  const stills = new Map<string, Still>();
  const queue = [...frames.values()];
  let done = 0;
  const work = async (): Promise<void> => {
    for (let next = queue.shift(); next; next = queue.shift()) {
      asked.signal?.throwIfAborted();
      const first = next[0];
      const still = first ? await oneStill(asked, first) : null;
      if (still) for (const w of next) stills.set(w.id, still);
      asked.progress?.(++done, frames.size);
    }
  };
  await Promise.all(Array.from({ length: atOnce }, work));
  return stills;
}

async function oneStill({ stillOf, signal }: ReportAsked, wanted: StillWanted): Promise<Still | null> {
  let jpeg: Uint8Array | null;
  try {
    jpeg = await stillOf(wanted);
  } catch (error) {
    // A frame that cannot be decoded costs its picture, not the report; the small print counts it.
    if (signal?.aborted) throw error;
    return null;
  }
  const bare = jpeg && bareJpeg(jpeg);
  if (!bare) return null;
  return { base64: Buffer.from(bare.bytes).toString('base64'), width: bare.width, height: bare.height };
}
