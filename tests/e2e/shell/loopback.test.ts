import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { serveLoopback, type Loopback } from '../../../app/local/server.ts';
import { largestMessage } from '../../../src/host/contract/messages.ts';
import type { WindowFile } from '../../../src/host/serving/windowFiles.ts';
import { ask } from '../../unit/app-local/browserLike.ts';
import { standInHost, type StandInHost } from '../../unit/app-local/standInHost.ts';
import { builtPage } from './builtPage.ts';
import { startChromium } from './chromium.ts';

let browser: Browser;
let files: ReadonlyMap<string, WindowFile>;
let host: StandInHost;
let server: Loopback;
let context: BrowserContext;
let page: Page;

beforeAll(async () => {
  files = await builtPage();
  browser = await startChromium();
});
afterAll(async () => {
  await browser.close();
});
beforeEach(async () => {
  host = await standInHost();
  server = await serveLoopback({ host: host.port, files, port: 0 });
  context = await browser.newContext();
  page = await context.newPage();
  await page.goto(server.address());
});
afterEach(async () => {
  await context.close();
  await server.close();
  await host.remove();
});

const callHost = (on: Page): Promise<string> =>
  on.evaluate(() =>
    window.host.call('library.about', {}).then(
      () => 'answered',
      // The stand-in's answer does not fit the contract: that it was refused here shows that it came.
      (error: unknown) => (error as Error).name,
    ),
  );

describe('the window in Chromium', () => {
  it('comes in by the address, which then holds neither token nor key', async () => {
    expect(page.url()).toBe(`http://${server.place}/`);
    expect(await page.evaluate(() => location.hash)).toBe('');
    expect(await callHost(page)).toBe('ZodError');
    expect(host.heard).toContainEqual({ type: 'call', n: 1, name: 'library.about', args: {} });
  });

  it('is cut off from other pages, and runs only its own scripts', async () => {
    expect(await page.evaluate(() => crossOriginIsolated)).toBe(true);
    expect(await page.evaluate(() => 'inlineRan' in window)).toBe(false);
    expect(await page.evaluate(() => window.textRan)).toBe(false);
    expect(await page.evaluate(() => document.cookie)).toBe('');
    const refused = await page.evaluate(async () => {
      const broken: string[] = [];
      document.addEventListener('securitypolicyviolation', (e) => broken.push(e.effectiveDirective));
      await fetch('http://127.0.0.1:9/').catch(() => undefined);
      document.body.innerHTML =
        '<img src="http://127.0.0.1:9/a.png"><iframe src="/"></iframe><p style="color:red">';
      for (let waited = 0; waited < 50 && broken.length < 4; waited++)
        await new Promise((resolve) => setTimeout(resolve, 100));
      return broken;
    });
    expect(refused).toEqual(
      expect.arrayContaining(['connect-src', 'img-src', 'frame-src', 'style-src-attr']),
    );
  });

  it('comes in again on a reload and in a second tab', async () => {
    await page.reload();
    expect(await callHost(page)).toBe('ZodError');
    const second = await context.newPage();
    await second.goto(`http://${server.place}/`);
    expect(await callHost(second)).toBe('ZodError');
  });

  it('is refused with an address that was used, and in another browser without one', async () => {
    const address = server.address();
    const other = await browser.newContext();
    const first = await other.newPage();
    expect((await first.goto(`http://${server.place}/`))?.status()).toBe(401);
    expect((await first.goto(address))?.status()).toBe(200);
    const third = await browser.newContext();
    expect((await (await third.newPage()).goto(address))?.status()).toBe(403);
    await other.close();
    await third.close();
  });

  it('makes its wire again when it was lost, and says when the host has ended', async () => {
    expect(await callHost(page)).toBe('ZodError');
    // Larger than any message may be, so that the server closes the connection.
    await page.evaluate((length) => {
      window.shell.wire.send({ type: 'unsubscribe', n: 1, filler: 'x'.repeat(length) } as never);
    }, largestMessage);
    await page.waitForFunction(() => window.news.includes('back'));
    expect(await callHost(page)).toBe('ZodError');
    server.hostEnded();
    await page.waitForFunction(() => window.news.includes('ended'));
    expect(await page.evaluate(() => window.news)).toEqual(['interrupted', 'back', 'ended']);
  });

  it('sends a file in and reads it back by ranges', async () => {
    const sent = await page.evaluate(async () => {
      const bytes = new Uint8Array(3_000_000).map((_, i) => i % 253);
      const told: number[] = [];
      const source = await window.shell.sourceOf(new File([bytes], 'clip.mp4'), (done) => told.push(done));
      return { source, last: told.at(-1) };
    });
    expect(sent.last).toBe(3_000_000);
    const uploadId = (sent.source as { uploadId: string }).uploadId;
    const kept = await readFile(join(host.folder, uploadId));
    expect(kept.length).toBe(3_000_000);
    expect(kept[2_999_999]).toBe(2_999_999 % 253);
    expect(host.ended).toEqual([{ uploadId, complete: true }]);

    const mediaId = await host.media(kept, 'video/mp4');
    const read = await page.evaluate(async (id) => {
      const answer = await fetch(window.shell.mediaUrl(id), { headers: { range: 'bytes=253-255' } });
      return { status: answer.status, bytes: [...new Uint8Array(await answer.arrayBuffer())] };
    }, mediaId);
    expect(read).toEqual({ status: 206, bytes: [0, 1, 2] });
  });

  it('stops sending when told to, and passes on why the host refused', async () => {
    const said = await page.evaluate(async () => {
      const stop = new AbortController();
      const file = new File([new Uint8Array(50_000_000)], 'long.mp4');
      const sending = window.shell.sourceOf(
        file,
        () => {
          stop.abort();
        },
        stop.signal,
      );
      const stopped = await sending.catch((error: unknown) => (error as { code: string }).code);
      const refused = await window.shell
        .sourceOf(new File(['x'], 'refused.mp4'))
        .catch((error: unknown) => (error as Error).message);
      return { stopped, refused };
    });
    expect(said).toEqual({ stopped: 'cancelled', refused: 'No room for refused.mp4.' });
    await expect.poll(() => host.ended.map((e) => e.complete)).toEqual([false]);
  });

  it('asks for files with the browser’s own dialog', async () => {
    const dialog = page.waitForEvent('filechooser');
    const chosen = page.evaluate(async () => {
      const files = await window.shell.chooseFiles('video', true);
      return Promise.all(
        files.map(async (f) => ({ name: f.name, bytes: f.bytes, source: await f.source() })),
      );
    });
    await (await dialog).setFiles([{ name: 'a.mp4', mimeType: 'video/mp4', buffer: Buffer.from('abc') }]);
    expect(await chosen).toMatchObject([
      { name: 'a.mp4', bytes: 3, source: { uploadId: host.ended[0]?.uploadId } },
    ]);
  });

  it('opens a report in a place where its styles show and no script runs, and saves it', async () => {
    const html =
      '<!doctype html><style>p { color: rgb(1, 2, 3) }</style><p>Well done</p>' +
      '<script>document.title = "ran"</script><img src="x" onerror="document.title = \'ran\'">';
    const id = await host.media(Buffer.from(html), 'text/html; charset=utf-8');
    const opened = context.waitForEvent('page');
    await page.evaluate((report) => window.shell.openReport(report), id);
    const report = await opened;
    await report.waitForLoadState();
    expect(await report.locator('p').evaluate((p) => getComputedStyle(p).color)).toBe('rgb(1, 2, 3)');
    expect(await report.title()).not.toBe('ran');
    const download = page.waitForEvent('download');
    expect(await page.evaluate((r) => window.shell.saveReport(r, 'run.html'), id)).toBe(true);
    const saved = await download;
    expect(saved.suggestedFilename()).toBe('run.html');
    expect(await readFile(await saved.path(), 'utf8')).toBe(html);
  });
});

describe('a page on another loopback port', () => {
  let evil: Server;
  let evilOrigin = '';
  let cookieSeen = '';
  let mediaId = '';
  let reportId = '';

  beforeEach(async () => {
    mediaId = await host.media(Buffer.from('secret footage'), 'video/mp4');
    reportId = await host.media(Buffer.from('<p>secret report'), 'text/html');
    evil = createServer((request, response) => {
      cookieSeen = request.headers.cookie ?? cookieSeen;
      response.setHeader('content-type', 'text/html');
      response.end('<!doctype html><title>evil</title>');
    });
    await new Promise<void>((resolve) => evil.listen(0, '127.0.0.1', resolve));
    evilOrigin = `http://127.0.0.1:${String((evil.address() as AddressInfo).port)}`;
    await callHost(page);
  });
  afterEach(async () => {
    await new Promise((resolve) => evil.close(resolve));
  });

  it('gets nothing from the shell', async () => {
    const heardBefore = host.heard.length;
    const seatsBefore = host.seats();
    const attacker = await context.newPage();
    await attacker.goto(evilOrigin);
    const statuses: Record<string, number[]> = {};
    attacker.on('response', (response) => {
      const { pathname, host: at } = new URL(response.url());
      if (at === server.place) (statuses[pathname] ??= []).push(response.status());
    });
    const got = await attacker.evaluate(
      async ({ place, media, report }) => {
        const at = `http://${place}`;
        const paths = ['/', '/alive', `/media/${media}`, `/report/${report}`];
        const read: string[] = [];
        const note = (what: string) => read.push(what);
        const loaded = (tag: 'img' | 'video' | 'script' | 'iframe', src: string): Promise<string> =>
          new Promise((resolve) => {
            const element = document.createElement(tag);
            element.addEventListener('error', () => {
              resolve('error');
            });
            element.addEventListener(tag === 'video' ? 'loadedmetadata' : 'load', () => {
              let inside = '';
              try {
                if (element instanceof HTMLIFrameElement)
                  inside = element.contentDocument?.body.textContent ?? '';
              } catch {
                inside = '';
              }
              resolve(tag === 'iframe' && inside === '' ? 'error' : `loaded ${inside}`);
            });
            element.setAttribute('src', src);
            document.body.append(element);
            setTimeout(() => {
              resolve('error');
            }, 3000);
          });
        for (const path of paths) {
          for (const mode of ['no-cors', 'cors'] as const) {
            const answer = await fetch(at + path, { mode, credentials: 'include' }).catch(() => null);
            if (answer && (await answer.text()) !== '') note(`fetch ${mode} ${path}`);
          }
          for (const tag of ['img', 'video', 'script', 'iframe'] as const)
            if ((await loaded(tag, at + path)) !== 'error') note(`${tag} ${path}`);
        }
        for (const [body, type] of [
          ['{"name":"evil.mp4","bytes":4}', 'text/plain'],
          ['{"name":"evil.mp4","bytes":4}', 'application/json'],
        ] as const)
          for (const mode of ['no-cors', 'cors'] as const)
            await fetch(`${at}/uploads`, {
              method: 'POST',
              mode,
              credentials: 'include',
              headers: { 'content-type': type },
              body,
            }).catch(() => null);
        navigator.sendBeacon(`${at}/uploads`, '{"name":"evil.mp4","bytes":4}');
        for (const protocols of [[], ['walkback.1'], ['walkback.1', `key.${'a'.repeat(43)}`]]) {
          const socket = new WebSocket(`ws://${place}/wire`, protocols);
          const end = await new Promise<string>((resolve) => {
            socket.onopen = () => {
              resolve('open');
            };
            socket.onclose = () => {
              resolve('closed');
            };
          });
          if (end === 'open') note('socket');
        }
        const opened = window.open(at);
        await new Promise((resolve) => setTimeout(resolve, 500));
        try {
          if (opened && opened.document.body.textContent !== '' && opened.location.href !== 'about:blank')
            note('window');
        } catch {
          // Another origin: unreadable, as it should be.
        }
        return read;
      },
      { place: server.place, media: mediaId, report: reportId },
    );
    expect(got).toEqual([]);
    expect(host.heard.length).toBe(heardBefore);
    expect(host.seats()).toBe(seatsBefore);
    // The attempts did arrive, and every one was refused.
    expect(Object.keys(statuses)).toEqual(
      expect.arrayContaining(['/', `/media/${mediaId}`, `/report/${reportId}`]),
    );
    expect(
      Object.values(statuses)
        .flat()
        .filter((status) => status < 400),
    ).toEqual([]);
  });

  it('whose server saw the cookie cannot use it without the window’s key', async () => {
    const attacker = await context.newPage();
    await attacker.goto(evilOrigin);
    // Cookies are shared between ports. Should this ever fail, browsers have closed that door themselves.
    expect(cookieSeen).toMatch(/^walkback-\d+=/);
    const forged = { cookie: cookieSeen, origin: `http://${server.place}`, 'sec-fetch-site': 'same-origin' };
    const upload = await ask(server.place, '/uploads', {
      method: 'POST',
      headers: { ...forged, 'content-type': 'application/json' },
      body: '{"name":"evil.mp4","bytes":4}',
    });
    expect(upload.status).toBe(401);
    const socket = await ask(server.place, '/wire', {
      headers: {
        ...forged,
        connection: 'Upgrade',
        upgrade: 'websocket',
        'sec-websocket-version': '13',
        'sec-websocket-key': 'dGhlIHNhbXBsZSBub25jZQ==',
        'sec-websocket-protocol': 'walkback.1',
      },
    });
    expect(socket.status).toBe(401);
  });

  it('cannot be reached by a name that was made to point here', async () => {
    const rebound = await startChromiumWith('attacker.example');
    try {
      const victim = await rebound.newPage();
      const answer = await victim.goto(`http://attacker.example:${server.place.split(':')[1] ?? ''}/`);
      expect(answer?.status()).toBe(421);
    } finally {
      await rebound.close();
    }
  });
});

/** Chromium for which a name leads to this machine, as after DNS rebinding. */
async function startChromiumWith(name: string): Promise<Browser> {
  const { chromium } = await import('playwright');
  return chromium.launch({
    executablePath: process.env['WALKBACK_CHROMIUM'] ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', `--host-resolver-rules=MAP ${name} 127.0.0.1`],
  });
}
