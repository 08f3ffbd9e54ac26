import { readdir, readFile } from 'node:fs/promises';
import { extname, join, relative, sep } from 'node:path';

/** One file of the built window. */
export interface WindowFile {
  readonly bytes: Buffer;
  readonly mime: string;
  /** Its name carries a hash of its content, so it may be kept for good. */
  readonly lasting: boolean;
}

const mimes: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webp': 'image/webp',
  '.woff2': 'font/woff2',
  '.json': 'application/json',
  '.wasm': 'application/wasm',
};

/**
 * Reads the built window into memory, by path ("/", "/assets/index-….js"). What is not in the list cannot be asked
 * for, so no path from outside ever reaches the file system. Files of unknown kinds are left out.
 * @throws where the window has not been built
 */
export async function windowFiles(folder: string): Promise<ReadonlyMap<string, WindowFile>> {
  const files = new Map<string, WindowFile>();
  const entries = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  for (const entry of entries) {
    const mime = mimes[extname(entry.name).toLowerCase()];
    if (!entry.isFile() || mime === undefined) continue;
    const full = join(entry.parentPath, entry.name);
    const path = `/${relative(folder, full).split(sep).join('/')}`;
    files.set(path === '/index.html' ? '/' : path, {
      bytes: await readFile(full),
      mime,
      lasting: path.startsWith('/assets/'),
    });
  }
  if (!files.has('/'))
    throw new Error(`The window is not built: ${join(folder, 'index.html')} is missing. Run: npm run build`);
  return files;
}
