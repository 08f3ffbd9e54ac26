import { frameTable, type FrameTable } from '../time/frameTable.ts';
import { footageWords } from '../words/footage.ts';
import type { ClipProbe } from './clipProbe.ts';
import { orderTimes } from './decodedTimes.ts';
import { ask, mostHours, probe } from './probe.ts';
import { FootageError, lastLine, shownName } from './trouble.ts';

/** Most frames that a clip may have: five and a half hours at 240 frames a second. */
const mostFrames = 5_000_000;

/** Every frame of a clip, as decoded. */
export interface FrameIndexing {
  readonly table: FrameTable;
  /** Frames whose time neither container nor decoder knew (see `orderTimes`); 0 for any sound file. */
  readonly guessed: number;
  /** Frames decoded but left out, because their time did not come after the one before. */
  readonly leftOut: number;
  /** Lines that the decoder complained about; above 0 the clip is damaged somewhere. */
  readonly complaints: number;
  /** Most frames from one key frame to the next, or to the end: how far a step back may have to decode. */
  readonly keyDistance: number;
}

export interface IndexOptions {
  readonly signal?: AbortSignal;
  /** Told the frames read so far and, where it can be made out, how much of the clip that is (0 to 1). */
  readonly onProgress?: (frames: number, share: number | null) => void;
  /** Facts already at hand, so that the file is not asked twice. */
  readonly facts?: ClipProbe;
}

/**
 * The time of every frame that the decoder gives out, in presentation order: what `ffprobe -show_frames` lists, so that
 * pictures hidden by an edit list, lacking their key frame or never meant to be shown are not counted. Packets would be
 * listed far faster, but cannot tell any of that. The decoder uses all cores and leaves out the smoothing of block
 * edges, which changes no time.
 * Throws a FootageError as `probe` does, and: damaged where no frame can be decoded or the decoder breaks down,
 * badInput where the frames are too many or lie too far apart.
 */
export async function indexFrames(file: string, options: IndexOptions = {}): Promise<FrameIndexing> {
  const name = shownName(file);
  const facts = options.facts ?? (await probe(file, options.signal ? { signal: options.signal } : {}));
  const { picture } = facts;
  const [num, den] = picture.timeBase;
  const length = facts.seconds === null ? null : (facts.seconds * den) / num;
  const stated: (number | null)[] = [];
  const made: (number | null)[] = [];
  let usual = 0;
  let told = 0;
  let lastKey = 0;
  let keyDistance = 0;

  const end = await ask(
    file,
    [
      ...['-threads', '0', '-skip_loop_filter', 'all', '-select_streams', String(picture.stream)],
      // Names before and after version 5 of what is one thing each.
      ...['-show_entries', 'frame=pts,pkt_pts,best_effort_timestamp,pkt_duration,duration,key_frame'],
      ...['-of', 'compact'],
    ],
    (line) => {
      if (!line.startsWith('frame|')) return;
      const frame = fields(line);
      const pts = frame.get('pts') ?? frame.get('pkt_pts') ?? null;
      stated.push(pts);
      made.push(frame.get('best_effort_timestamp') ?? null);
      if (frame.get('key_frame') === 1) {
        keyDistance = Math.max(keyDistance, stated.length - 1 - lastKey);
        lastKey = stated.length - 1;
      }
      if (usual <= 0) usual = frame.get('duration') ?? frame.get('pkt_duration') ?? 0;
      if (stated.length > mostFrames) {
        throw new FootageError('badInput', footageWords.tooManyFrames(name, mostFrames));
      }
      if (stated.length - told >= 50) {
        told = stated.length;
        const into = (pts ?? 0) - (stated[0] ?? 0);
        options.onProgress?.(told, length ? Math.max(0, Math.min(1, into / length)) : null);
      }
    },
    options.signal,
  );
  if (end.killed !== null || end.exit !== 0) {
    const reason = end.killed ?? lastLine(end.complaint);
    throw new FootageError('damaged', footageWords.readingStopped(name, reason));
  }
  if (stated.length === 0) {
    throw new FootageError('damaged', footageWords.nothingDecoded(name, picture.codec));
  }
  const { ticks, guessed, leftOut } = orderTimes({ stated, made, usual: usual > 0 ? usual : null });
  const hours = (((ticks.at(-1) ?? 0) - (ticks[0] ?? 0)) * num) / den / 3600;
  if (hours > mostHours) throw new FootageError('badInput', footageWords.tooLong(name, hours, mostHours));
  options.onProgress?.(ticks.length, 1);
  keyDistance = Math.max(keyDistance, stated.length - lastKey);
  const table = frameTable({ num, den }, ticks);
  return { table, guessed, leftOut, complaints: end.complaints, keyDistance };
}

/** Whole numbers of a line of ffprobe's compact form, "frame|pts=1|...". What is no safe whole number is left out. */
function fields(line: string): Map<string, number> {
  const found = new Map<string, number>();
  for (const part of line.split('|')) {
    const equals = part.indexOf('=');
    if (equals < 0) continue;
    const value = Number(part.slice(equals + 1));
    if (Number.isSafeInteger(value)) found.set(part.slice(0, equals), value);
  }
  return found;
}
