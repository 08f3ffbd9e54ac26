import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';
import { windowFiles, type WindowFile } from '../../../src/host/serving/windowFiles.ts';

/** Builds a page that holds the window's shell and nothing else. */
export async function builtPage(): Promise<ReadonlyMap<string, WindowFile>> {
  const folder = await mkdtemp(join(tmpdir(), 'walkback-page-'));
  try {
    await build({
      root: join(import.meta.dirname, 'page'),
      configFile: false,
      logLevel: 'error',
      build: { outDir: folder, emptyOutDir: true, modulePreload: { polyfill: false } },
    });
    return await windowFiles(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
