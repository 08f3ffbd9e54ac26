import { printable } from './trouble.ts';

/** Where the command line writes; tests put their own in place. */
export interface Output {
  /** Text for the reader: what could act on a terminal is made harmless. */
  text(text: string): void;
  /** A value as JSON, two spaces deep or on one line. */
  json(value: unknown, compact?: boolean): void;
  /** A remark on the error stream, one line. */
  remark(text: string): void;
}

/**
 * Standard output and error. A reader that goes away early (`… | head`) ends the program quietly: EPIPE is no
 * error of ours.
 */
export function standardOutput(): Output {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EPIPE') process.exit();
      throw error;
    });
  }
  const line = (text: string): string => (text.endsWith('\n') ? text : `${text}\n`);
  return {
    text: (text) => void process.stdout.write(line(printable(text))),
    json: (value, compact = false) => void process.stdout.write(line(jsonText(value, compact))),
    remark: (text) => void process.stderr.write(line(printable(text))),
  };
}

/** JSON with the control characters that JSON lets stand (DEL and C1, RFC 8259 section 7) escaped as well. */
export function jsonText(value: unknown, compact: boolean): string {
  return JSON.stringify(value, null, compact ? undefined : 2).replace(
    /[\u007F-\u009F]/g,
    (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
