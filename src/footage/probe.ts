import { open, stat } from 'node:fs/promises';
import { footageWords } from '../words/footage.ts';
import { captureFacts } from './captureFacts.ts';
import type { ClipProbe } from './clipProbe.ts';
import { wholeness, type Wholeness } from './container/wholeness.ts';
import { runFfprobe, Stopped, type ProbeEnd } from './programs/ffprobe.ts';
import {
  containerOf,
  pictureFacts,
  pictureStream,
  probeOutput,
  soundFacts,
  statedSeconds,
  type ProbeOutput,
} from './statedFacts.ts';
import { cancelled, fileTrouble, FootageError, shownName } from './trouble.ts';

/** Longest clip that is taken. No class runs longer; a header that says more is damaged. */
export const mostHours = 24;
const largestSide = 16_384;

/**
 * What a video file says of itself, without decoding it.
 * Throws a FootageError: notFound, badInput (a folder, an absurd length or size), unreadable (the disk or the codec),
 * noVideo (empty, no video at all, only sound), damaged (cut off), cancelled.
 */
export async function probe(file: string, options: { signal?: AbortSignal } = {}): Promise<ClipProbe> {
  const name = shownName(file);
  const { bytes, outside } = await outermost(file);
  if (outside.movie === false) throw new FootageError('damaged', footageWords.unfinished(name));
  if (outside.missing > 0) throw new FootageError('damaged', footageWords.cutShort(name, outside.missing));

  const output = await stated(file, options.signal);
  const stream = pictureStream(output);
  if (!stream) throw new FootageError('noVideo', footageWords.noPicture(name));
  const codec = stream.codec_name;
  if (codec === undefined || codec === 'unknown') {
    throw new FootageError(
      'unreadable',
      footageWords.unknownCodec(name, stream.tags?.['encoder'] ?? 'unknown'),
    );
  }
  const picture = pictureFacts(stream, await interlacedAtStart(file, stream.index, options.signal));
  const { width, height } = picture.coded;
  if (width === 0 && height === 0) {
    // Not even the stream's own header was found in what there is of the file.
    throw new FootageError('damaged', footageWords.nothingDecoded(name, codec));
  }
  if (!(width > 0 && height > 0 && width <= largestSide && height <= largestSide)) {
    throw new FootageError('badInput', footageWords.badSize(name, width, height));
  }
  const lengths = statedSeconds(output, stream);
  const hours = Math.max(0, ...lengths) / 3600;
  if (hours > mostHours) throw new FootageError('badInput', footageWords.tooLong(name, hours, mostHours));
  const [num, den] = picture.timeBase;
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den) || num <= 0 || den <= 0) {
    throw new FootageError('damaged', footageWords.readingStopped(name, `time base ${num}/${den}`));
  }
  return {
    path: file,
    bytes,
    container: containerOf(output, file),
    seconds: lengths.find((seconds) => seconds >= 0) ?? null,
    picture,
    sound: soundFacts(output),
    editPieces: outside.editPieces,
    capture: captureFacts(output, outside),
  };
}

/** Looks at the file itself: is it there, is it a file, can it be opened, is it whole? */
async function outermost(file: string): Promise<{ bytes: number; outside: Wholeness }> {
  const name = shownName(file);
  if (file.includes('\0')) throw new FootageError('badInput', footageWords.badName);
  try {
    const found = await stat(file);
    if (found.isDirectory()) throw new FootageError('badInput', footageWords.folder(name));
    if (!found.isFile()) throw new FootageError('badInput', footageWords.notAFile(name));
    if (found.size === 0) throw new FootageError('noVideo', footageWords.empty(name));
    const handle = await open(file, 'r');
    try {
      return { bytes: found.size, outside: await wholeness(handle, found.size) };
    } finally {
      await handle.close();
    }
  } catch (error) {
    throw fileTrouble(file, error);
  }
}

async function stated(file: string, signal: AbortSignal | undefined): Promise<ProbeOutput> {
  const name = shownName(file);
  const lines: string[] = [];
  const end = await ask(file, ['-of', 'json', '-show_format', '-show_streams'], (l) => lines.push(l), signal);
  if (end.killed !== null) throw new FootageError('damaged', footageWords.readingStopped(name, end.killed));
  if (end.exit !== 0) {
    throw new FootageError('noVideo', footageWords.notAVideo(name));
  }
  try {
    return probeOutput(lines.join('\n'));
  } catch (error) {
    throw new FootageError('damaged', footageWords.readingStopped(name, 'its header makes no sense'), error);
  }
}

/** Streams do not always say that they are interlaced; their frames do. A handful is decoded. */
async function interlacedAtStart(
  file: string,
  stream: number,
  signal: AbortSignal | undefined,
): Promise<boolean> {
  let interlaced = false;
  await ask(
    file,
    [
      ...['-select_streams', String(stream), '-read_intervals', '%+#12'],
      ...['-show_entries', 'frame=interlaced_frame', '-of', 'compact'],
    ],
    (line) => (interlaced ||= line.includes('interlaced_frame=1')),
    signal,
  );
  return interlaced;
}

/** ffprobe, with its own failures turned into errors for the reader. */
export async function ask(
  file: string,
  options: readonly string[],
  onLine: (line: string) => void,
  signal: AbortSignal | undefined,
): Promise<ProbeEnd> {
  try {
    return await runFfprobe(file, options, onLine, signal);
  } catch (error) {
    if (error instanceof Stopped) throw cancelled(file);
    if (error instanceof FootageError || error instanceof RangeError) throw error;
    const reason = error instanceof Error ? error.message : String(error);
    throw new FootageError('notFound', footageWords.noFfmpeg(reason), error);
  }
}
