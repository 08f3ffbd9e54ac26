import { HostTrouble } from '../../src/host/contract/link.ts';
import { LibraryTrouble } from '../../src/library/trouble.ts';
import { cliWords } from '../../src/words/cli.ts';

/** Bad input: told on one line, exit code 1. The message names the file and says what to do. */
export class BadInput extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'BadInput';
  }
}

/** What went wrong, on one line for the reader. Never a stack trace. */
export function troubleLine(error: unknown): string {
  return printable(sentence(error))
    .replace(/\s*[\r\n]+\s*/g, ' ')
    .trim();
}

function sentence(error: unknown): string {
  if (error instanceof BadInput || error instanceof HostTrouble || error instanceof LibraryTrouble)
    return error.message;
  if (error instanceof Error && error.name === 'AbortError') return cliWords.stopped;
  // The rooms' own errors carry a code of small letters and a sentence for the reader; the system's are in capitals.
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  if (error instanceof Error && typeof code === 'string' && /^[a-z]\w*$/.test(code)) return error.message;
  return cliWords.internal(error instanceof Error ? error.message : String(error));
}

/**
 * Text from files and names as it may reach a terminal: control characters, which could act there, become the
 * replacement character. Line breaks and tabs stay.
 */
export function printable(text: string): string {
  // eslint-disable-next-line no-control-regex -- control characters are what is looked for
  return text.replace(/[\u0000-\u0008\u000B-\u001F\u007F-\u009F\u202A-\u202E\u2066-\u2069]/g, '\uFFFD');
}
