import { createServer, type Server } from 'node:http';
import { readFile } from 'node:fs/promises';
import { extname, join, resolve } from 'node:path';
import type { AddressInfo } from 'node:net';
import type { Browser, BrowserContextOptions, Page } from 'playwright';
import { windowHeaders } from '../../src/host/serving/policy.ts';
import type { WindowMessage } from '../../src/host/contract/messages.ts';
import type { MemoryHost } from '../unit/app-window/memoryHost.ts';
import { buildWindow } from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';

/** The built window on loopback with the real content policy, for pages whose host is in memory. */
export interface WindowStand {
  readonly browser: Browser;
  /** Opens a window on a host. `path` starts with "#". */
  open(host: MemoryHost, path?: string, options?: BrowserContextOptions): Promise<Page>;
  close(): Promise<void>;
}

const root = resolve(import.meta.dirname, '../..');
const mimes: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.woff2': 'font/woff2',
  '.svg': 'image/svg+xml',
};

/** A drawn picture that stands for the photo of a judge's map. */
const mapPicture = `<svg xmlns="http://www.w3.org/2000/svg" width="900" height="1200">
<rect width="900" height="1200" fill="#f4f0e4"/><path d="M80 1100 C 300 900 100 500 450 400 S 800 300 820 80"
fill="none" stroke="#777" stroke-width="6"/></svg>`;

/** Builds the window where its sources have changed, and starts Chromium. */
export async function windowStand(): Promise<WindowStand> {
  await buildWindow();
  const outDir = join(root, '.build/window');
  const server: Server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://127.0.0.1').pathname;
    if (path.startsWith('/media/')) {
      response.writeHead(200, { 'content-type': 'image/svg+xml' }).end(mapPicture);
      return;
    }
    const file = join(outDir, path === '/' ? 'index.html' : path);
    readFile(file).then(
      (bytes) => {
        const mime = mimes[extname(file)] ?? 'application/octet-stream';
        response.writeHead(200, { ...windowHeaders(), 'content-type': mime }).end(bytes);
      },
      () => response.writeHead(404).end(),
    );
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  const browser = await startChromium();

  return {
    browser,
    async open(host, path = '#/library', options = {}) {
      const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
      const page = await context.newPage();
      let ready: Promise<unknown> = Promise.resolve();
      await page.exposeFunction('toHost', (message: WindowMessage) => {
        host.wire.send(message);
      });
      host.wire.listen((message) => {
        ready = ready.then(() =>
          page
            .evaluate((m) => (window as unknown as { fromHost(m: unknown): void }).fromHost(m), message)
            .catch(() => undefined),
        );
      });
      await page.addInitScript(() => {
        const w = window as unknown as Record<string, unknown>;
        const asked: string[] = [];
        w['asked'] = asked;
        w['walkbackShell'] = {
          wire: {
            send: (m: unknown) => (w['toHost'] as (m: unknown) => void)(m),
            listen: (on: unknown) => (w['fromHost'] = on),
          },
          openFiles: () => Promise.resolve(w['filesToChoose'] ?? []),
          pathOf: (file: File) => `/home/coach/Videos/${file.name}`,
          openReport: (id: string) => Promise.resolve(void asked.push(`open ${id}`)),
          saveReport: (id: string) => {
            asked.push(`save ${id}`);
            return Promise.resolve(true);
          },
          saveFile: (id: string) => {
            asked.push(`save ${id}`);
            return Promise.resolve(true);
          },
          onHostEnded: (on: unknown) => (w['endHost'] = on),
        };
      });
      await page.goto(`http://127.0.0.1:${port}/${path}`);
      await page.waitForSelector('h1');
      return page;
    },
    async close() {
      await browser.close();
      await new Promise((done) => server.close(done));
    },
  };
}
