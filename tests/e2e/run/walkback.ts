import { spawn, type ChildProcess } from 'node:child_process';
import { resolve } from 'node:path';
import { chromium, type Browser, type Page } from 'playwright';

const root = resolve(import.meta.dirname, '../../..');

/** The real program: loopback shell, host process, library, and Chromium on its window. */
export interface Walkback {
  readonly browser: Browser;
  readonly page: Page;
  close(): Promise<void>;
}

/** Serves Walkback with these options and opens its window. The window must have been built (`npm run build`). */
export async function openWalkback(options: readonly string[]): Promise<Walkback> {
  const server = spawn(process.execPath, ['app/local/main.ts', '--no-open', ...options], {
    cwd: root,
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const address = await addressOf(server);
  const browser = await chromium.launch({
    executablePath: process.env['WALKBACK_CHROMIUM'] ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  page.setDefaultTimeout(60_000);
  await page.goto(address);
  await page.waitForSelector('h1');
  return {
    browser,
    page,
    async close() {
      await browser.close();
      const gone = new Promise((done) => server.once('exit', done));
      server.kill('SIGINT');
      await gone;
    },
  };
}

function addressOf(server: ChildProcess): Promise<string> {
  return new Promise((found, failed) => {
    let said = '';
    server.stdout?.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const address = /http:\/\/127\.0\.0\.1:\d+\/\S+/.exec(said)?.[0];
      if (address) found(address);
    });
    server.once('exit', (code) => failed(new Error(`the server ended with ${code}: ${said}`)));
  });
}
