import { parseArgs } from 'node:util';

/** What was asked for on the command line. */
export interface LocalOptions {
  /** Open the browser once the window is served. */
  readonly open: boolean;
  /** Folder of the library; null for the user's own. */
  readonly library: string | null;
  /** 0 lets the system choose. */
  readonly port: number;
  /** A throwaway library with the demo run. */
  readonly demo: boolean;
  /** Folders whose files the window may list. */
  readonly allow: readonly string[];
}

/** A command line that cannot be carried out. Its message is written for the reader. */
export class BadOptions extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'BadOptions';
  }
}

export const usage = `Usage: npm start -- [options]
  --no-open      do not open the browser; print the address only
  --library DIR  keep the library in DIR instead of the user's own folder
  --port N       serve on port N (1024 to 65535) instead of a free one
  --demo         a throwaway library with the demo run, removed at the end
  --allow DIR    let the window list the files in DIR (may be given several times)
  --local        serve to the browser without trying the desktop window
  --desktop      insist on the desktop window
  --help         show this text`;

/**
 * Reads the command line.
 * @returns the options, or `help` where the usage was asked for
 * @throws BadOptions
 */
export function readOptions(args: readonly string[]): LocalOptions | 'help' {
  const { values, positionals } = parsed(args);
  if (values.help) return 'help';
  if (positionals[0] !== undefined) throw new BadOptions(`“${positionals[0]}” is not an option.`);
  if (values.demo && values.library !== undefined)
    throw new BadOptions('--demo makes a library of its own, so it cannot stand beside --library.');
  if (values.library === '') throw new BadOptions('--library needs a folder.');
  const allow = values.allow ?? [];
  if (allow.includes('')) throw new BadOptions('--allow needs a folder.');
  return {
    open: !values['no-open'],
    library: values.library ?? null,
    port: port(values.port),
    demo: values.demo ?? false,
    allow,
  };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        'no-open': { type: 'boolean' },
        library: { type: 'string' },
        port: { type: 'string' },
        demo: { type: 'boolean' },
        allow: { type: 'string', multiple: true },
        local: { type: 'boolean' },
        desktop: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
      },
    });
  } catch (error) {
    // Node's sentence names the option; what follows its first full stop is advice about positional arguments.
    const said = error instanceof Error ? error.message : String(error);
    throw new BadOptions(`${said.split('. ')[0] ?? said}.`);
  }
}

function port(text: string | undefined): number {
  if (text === undefined) return 0;
  const n = Number(text);
  if (/^\d{1,5}$/.test(text) && n >= 1024 && n <= 65535) return n;
  throw new BadOptions(`--port needs a number from 1024 to 65535, not “${text}”.`);
}
