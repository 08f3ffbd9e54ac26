import path from 'node:path';
import { footageWords } from '../words/footage.ts';

/** The kinds of trouble that footage can give; each is a code of the host's contract. */
export type FootageCode =
  'unreadable' | 'noVideo' | 'damaged' | 'badInput' | 'noSpace' | 'cancelled' | 'notFound' | 'internal';

/** Something about a video file, or about the programs that read it, in a sentence for the reader. */
export class FootageError extends Error {
  readonly code: FootageCode;
  constructor(code: FootageCode, message: string, cause?: unknown) {
    super(message, cause === undefined ? undefined : { cause });
    this.name = 'FootageError';
    this.code = code;
  }
}

/** A file's name as it is shown: without its folder, line breaks made visible as spaces. */
export function shownName(file: string): string {
  return path.basename(file).replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ');
}

export function cancelled(file: string): FootageError {
  return new FootageError('cancelled', footageWords.stopped(shownName(file)));
}

/** The code of an error of the operating system ("ENOENT"), or '' where it has none. */
export function systemCode(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

/** Turns an error of the file system into one for the reader. */
export function fileTrouble(file: string, error: unknown): FootageError {
  if (error instanceof FootageError) return error;
  const name = shownName(file);
  const code = systemCode(error);
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    return new FootageError('notFound', footageWords.notThere(name), error);
  }
  if (code === 'EISDIR') return new FootageError('badInput', footageWords.folder(name), error);
  const reason = code || (error instanceof Error ? error.message : String(error));
  return new FootageError('unreadable', footageWords.unreadable(name, reason), error);
}

/** The last line of what a program said that is not empty: the reason, as a rule. */
export function lastLine(text: string): string {
  return text.trim().split('\n').at(-1)?.trim() ?? '';
}
