import { frameSeconds, type FrameTable } from '../time/frameTable.ts';
import type { SoundTrack } from '../time/lineUp/soundTrack.ts';
import { frameIndex } from '../time/units.ts';
import { footageWords } from '../words/footage.ts';
import { EncodingFailed, runFfmpeg } from './programs/ffmpeg.ts';
import { Stopped } from './programs/ffprobe.ts';
import { cancelled, FootageError, lastLine, shownName } from './trouble.ts';

/** Samples a second that a line-up works with: voices, barks and claps lie below half of it. */
export const soundRate = 8000;
/** Longest stretch of sound that is read, seconds. */
export const mostSound = 20 * 60;

export interface SoundOptions {
  readonly signal?: AbortSignal;
  /** Media time from which sound is wanted, seconds: the first frame's where it is not given. */
  readonly from?: number;
  /** Seconds wanted, at most `mostSound`. */
  readonly seconds?: number;
}

/**
 * The sound of a clip as one channel, `soundRate` samples a second, on the clock of its frames: the first sample lies
 * at media time `from`. Sound that begins later than the picture, gaps in it, and edit lists keep their place; what is
 * not there is silence. Empty where the clip has no sound at all.
 * Throws a FootageError: unreadable where the sound cannot be decoded, cancelled, notFound.
 */
export async function readSound(
  file: string,
  frames: FrameTable,
  options: SoundOptions = {},
): Promise<SoundTrack> {
  const from = options.from ?? frameSeconds(frames, frameIndex(0));
  const most = Math.ceil(Math.min(options.seconds ?? mostSound, mostSound) * soundRate);
  const pieces: Buffer[] = [];
  let bytes = 0;
  try {
    await runFfmpeg({
      from: file,
      // The container's own times are kept, so that they are those of the frame table.
      reading: ['-copyts', ...seek(from - frameSeconds(frames, frameIndex(0)), from)],
      writing: [
        ...['-map', '0:a:0?', '-vn', '-sn', '-dn', '-ac', '1'],
        ...['-af', onTheClock(from), '-frames:a', String(Math.ceil(most / soundRate)), '-f', 'f32le'],
      ],
      to(chunk) {
        if (bytes >= most * 4) return;
        pieces.push(chunk);
        bytes += chunk.length;
      },
      signal: options.signal,
    });
  } catch (error) {
    if (error instanceof Stopped) throw cancelled(file);
    if (!(error instanceof EncodingFailed)) throw error;
    // A clip without sound leaves ffmpeg nothing to write, which it calls a failure.
    if (!/does not contain any stream|matches no streams/i.test(`${error.complaint} ${error.message}`)) {
      const reason = lastLine(error.complaint) || error.message;
      throw new FootageError('unreadable', footageWords.noSoundRead(shownName(file), reason), error);
    }
  }
  return { rate: soundRate, samples: samplesOf(pieces, most), from };
}

/** Far into a long clip the way there is not decoded; what is read too early is cut off by its times. */
function seek(into: number, from: number): string[] {
  return into > 60 ? ['-seek_timestamp', '1', '-ss', String(from - 10)] : [];
}

/**
 * Puts samples where their times say, silence in gaps and before a late beginning. The time of the first sample is
 * counted in samples of the filter's input, hence one step to a known rate before it and one to ours after.
 */
function onTheClock(from: number): string {
  const between = 48_000;
  const first = Math.round(from * between);
  const placed = `aresample=${between}:async=1:min_comp=0.0001:min_hard_comp=0.02:first_pts=${first}`;
  return `aresample=${between},${placed},aresample=${soundRate},asetnsamples=${soundRate}:p=0`;
}

function samplesOf(pieces: readonly Buffer[], most: number): Float32Array {
  const all = Buffer.concat(pieces);
  const samples = new Float32Array(Math.min(most, Math.floor(all.length / 4)));
  // Floats as the format says, whatever this machine's own order of bytes.
  for (let i = 0; i < samples.length; i++) samples[i] = all.readFloatLE(4 * i);
  return samples;
}
