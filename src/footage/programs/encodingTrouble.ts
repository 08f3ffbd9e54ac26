import { footageWords } from '../../words/footage.ts';
import { cancelled, FootageError, lastLine, systemCode } from '../trouble.ts';
import { EncodingFailed } from './ffmpeg.ts';
import { Stopped } from './ffprobe.ts';

/** How an error of an encoding is told for the reader. */
interface Told {
  readonly noSpace: string;
  failed(reason: string): string;
}

/** Turns an error that came up while something was made of `file` into one for the reader. */
export function encodingTrouble(error: unknown, file: string, told: Told): FootageError {
  if (error instanceof FootageError) return error;
  if (error instanceof Stopped) return cancelled(file);
  const complaint = error instanceof EncodingFailed ? `${error.complaint}\n${error.message}` : '';
  const full = /No space left on device|File too large|Disk quota exceeded|SIGXFSZ/;
  if (full.test(complaint) || /^(?:ENOSPC|EFBIG|EDQUOT)$/.test(systemCode(error))) {
    return new FootageError('noSpace', told.noSpace, error);
  }
  if (error instanceof EncodingFailed) {
    if (error.killed) {
      return new FootageError('internal', told.failed(footageWords.programEnded(error.message)), error);
    }
    const reason = lastLine(error.complaint) || lastLine(error.message);
    return new FootageError('damaged', told.failed(reason), error);
  }
  const reason = error instanceof Error ? error.message : String(error);
  return new FootageError('internal', told.failed(reason), error);
}
