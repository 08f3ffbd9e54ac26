import { parseArgs } from 'node:util';

/** What the desktop heeds of the command line; the rest was seen to before it was started. */
export interface DesktopOptions {
  readonly library: string | null;
  readonly demo: boolean;
}

/** Reads the arguments after the program's own. Electron adds some of its own, which are passed over. */
export function readDesktopOptions(args: readonly string[]): DesktopOptions {
  const { values } = parseArgs({
    args: [...args],
    strict: false,
    options: { library: { type: 'string' }, demo: { type: 'boolean' } },
  });
  return {
    library: typeof values.library === 'string' && values.library !== '' ? values.library : null,
    demo: values.demo === true,
  };
}
