import { resolve } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'electron-vite';

const at = (path: string): string => resolve(import.meta.dirname, path);

/**
 * Three builds into .build/: the desktop's main process and the host process (ES modules that share chunks), the
 * preload (CommonJS, since a sandboxed preload can load nothing else), and the window (served by both shells).
 * Packages stay outside the first; the window carries all it needs, since nothing is ever fetched from elsewhere.
 */
export default defineConfig({
  main: {
    build: {
      outDir: at('.build/node'),
      emptyOutDir: true,
      minify: true,
      rolldownOptions: {
        input: {
          desktop: at('app/desktop/main.ts'),
          host: at('src/host/process.ts'),
          pdfWorker: at('src/host/pdfPage/worker.ts'),
        },
        output: { format: 'es', entryFileNames: '[name].js', chunkFileNames: 'part-[name]-[hash].js' },
      },
    },
  },
  preload: {
    build: {
      outDir: at('.build/preload'),
      emptyOutDir: true,
      minify: true,
      externalizeDeps: false,
      rolldownOptions: {
        input: { desktop: at('app/desktop/preload.ts') },
        output: { format: 'cjs', entryFileNames: '[name].cjs' },
      },
    },
  },
  renderer: {
    root: at('app/window'),
    base: '/',
    plugins: [react()],
    worker: { format: 'es' },
    build: {
      outDir: at('.build/window'),
      emptyOutDir: true,
      minify: true,
      // A data: address is kept out of scripts and fonts by the window's content policy.
      assetsInlineLimit: 0,
      modulePreload: { polyfill: false },
      rolldownOptions: { input: { index: at('app/window/index.html') } },
    },
  },
});
