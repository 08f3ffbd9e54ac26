import { openLibrary } from '../../../src/library/library.ts';

/** Tries to open the library that it is given and tells its parent how that went. */
const tell = (message: object): void => void process.send?.(message, () => process.disconnect());
try {
  openLibrary(process.argv[2] ?? '').close();
  tell({ code: 'opened' });
} catch (error) {
  const { code, message } = error as Error & { code: string };
  tell({ code, message });
}
