// Contract tests of main and preload, run against a stand-in for Electron's module (see electronStandIn.ts).
import { existsSync } from 'node:fs';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { link, type Link } from '../../../src/host/contract/link.ts';
import * as electron from './electronStandIn.ts';

vi.mock('electron', () => import('./electronStandIn.ts'));

const root = fileURLToPath(new URL('../../../', import.meta.url));
const wireChannel = 'walkback:wire';
let folder = '';
let window: electron.BrowserWindow;
let host: Link;
const argv = process.argv;

const own = (): electron.StandInEvent => ({
  sender: window.webContents,
  senderFrame: window.webContents.mainFrame,
});
const invoke = (channel: string, args: unknown[], event = own()): Promise<unknown> => {
  const handler = electron.ipcMain.handlers.get(`walkback:${channel}`);
  if (!handler) throw new Error(`no handler for ${channel}`);
  return handler(event, ...args);
};
const fetchApp = (url: string, init: RequestInit = {}): Promise<Response> => {
  const handler = electron.protocol.handlers.get('app');
  if (!handler) throw new Error('no handler for app:');
  return handler(new Request(url, init));
};

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'walkback-desktop-'));
  process.argv = [process.execPath, root, `--library=${join(folder, 'library')}`];
  const built = join(root, '.build/node/desktop.js');
  if (!existsSync(built)) throw new Error('The desktop is not built. Run: npm run build');
  await import(built);
  await vi.waitFor(() => {
    expect(electron.ipcMain.handlers.size).toBe(4);
  }, 60_000);
  const first = electron.BrowserWindow.all[0];
  if (!first) throw new Error('no window');
  window = first;
  host = link({
    send: (message) => {
      electron.ipcMain.emit(wireChannel, own(), message);
    },
    listen: (on) => {
      window.webContents.on('stand-in:sent', (channel: string, args: unknown[]) => {
        if (channel === wireChannel) on(args[0]);
      });
    },
  });
});
afterAll(async () => {
  process.argv = argv;
  electron.app.quit();
  await electron.app.exited;
  await rm(folder, { recursive: true, force: true });
});

describe('the window is kept to itself', () => {
  it('by its preferences', () => {
    const preferences = window.options['webPreferences'];
    expect(preferences).toMatchObject({
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      spellcheck: false,
      devTools: false,
    });
    expect(electron.app.sandboxed).toBe(true);
    expect((preferences as { preload: string }).preload).toBe(join(root, '.build/preload/desktop.cjs'));
    expect(existsSync((preferences as { preload: string }).preload)).toBe(true);
  });

  it('by a scheme of its own that may do no more than it needs', () => {
    expect(electron.protocol.schemes).toEqual([
      {
        scheme: 'app',
        privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true },
      },
    ]);
    expect(window.webContents.mainFrame.url).toBe('app://walkback/#/start');
  });

  it('by denying every permission', () => {
    const { permissionRequest, permissionCheck, devicePermission } = electron.session.defaultSession;
    for (const permission of [
      'media',
      'geolocation',
      'notifications',
      'clipboard-read',
      'openExternal',
      'hid',
    ]) {
      const answer = vi.fn();
      permissionRequest?.(window.webContents, permission, answer);
      expect(answer).toHaveBeenCalledExactlyOnceWith(false);
      expect(permissionCheck?.(window.webContents, permission)).toBe(false);
    }
    expect(devicePermission?.({})).toBe(false);
  });

  it.each([
    'http://127.0.0.1/',
    'https://example.org/a.js',
    'file:///etc/passwd',
    'ws://127.0.0.1/',
    'ftp://x/',
    'xapp://walkback/',
  ])('by letting no request out: %s', (url) => {
    const answer = vi.fn();
    electron.session.defaultSession.beforeRequest?.({ url }, answer);
    expect(answer).toHaveBeenCalledExactlyOnceWith({ cancel: true });
  });

  it.each(['app://walkback/assets/a.js', 'blob:app://walkback/1', 'data:image/png;base64,AA'])(
    'but its own: %s',
    (url) => {
      const answer = vi.fn();
      electron.session.defaultSession.beforeRequest?.({ url }, answer);
      expect(answer).toHaveBeenCalledExactlyOnceWith({ cancel: false });
    },
  );

  it('by going nowhere, opening nothing and embedding nothing', () => {
    for (const event of ['will-navigate', 'will-frame-navigate', 'will-redirect', 'will-attach-webview'])
      for (const url of [
        'https://example.org/',
        'app://report/x',
        'file:///etc/passwd',
        'app://walkback@evil/',
      ]) {
        const preventDefault = vi.fn();
        window.webContents.emit(event, { url, preventDefault });
        expect(preventDefault, `${event} ${url}`).toHaveBeenCalledOnce();
      }
    expect(window.webContents.openHandler({ url: 'app://walkback/' })).toEqual({ action: 'deny' });
    const reload = vi.fn();
    window.webContents.emit('will-navigate', { url: 'app://walkback/', preventDefault: reload });
    expect(reload).not.toHaveBeenCalled();
    const download = vi.fn();
    electron.session.defaultSession.emit('will-download', { preventDefault: download });
    expect(download).toHaveBeenCalledOnce();
  });
});

describe('who may ask', () => {
  const strangers = (): [string, electron.StandInEvent][] => {
    const { webContents } = window;
    const at = (url: string): electron.StandInEvent => {
      const contents = new electron.StandInContents();
      contents.mainFrame.url = url;
      return { sender: contents, senderFrame: contents.mainFrame };
    };
    return [
      ['a frame inside the window', { sender: webContents, senderFrame: { url: 'app://walkback/' } }],
      ['a frame that is gone', { sender: webContents, senderFrame: null }],
      ['another window with our address', at('app://walkback/')],
      ['a report', at('app://report/x')],
      ['a page elsewhere', at('https://walkback/')],
    ];
  };

  it('nobody but the window’s own page', async () => {
    for (const [who, event] of strangers()) {
      const seen = electron.answers.asked.length;
      await expect(invoke('openFiles', ['video', true], event), who).rejects.toThrow('Refused.');
      await expect(invoke('saveReport', ['x', 'x.html'], event), who).rejects.toThrow('Refused.');
      await expect(invoke('saveFile', ['x', 'x.svg'], event), who).rejects.toThrow('Refused.');
      await expect(invoke('openReport', ['x'], event), who).rejects.toThrow('Refused.');
      expect(electron.answers.asked.length).toBe(seen);
    }
  });

  it.each([
    'https://walkback/',
    'app://report/',
    'app://walkback.evil/',
    'app://x@walkback/',
    'about:blank',
    '',
    'app:walkback',
  ])('not even the window once it shows %s', async (url) => {
    const { mainFrame } = window.webContents;
    const before = mainFrame.url;
    mainFrame.url = url;
    try {
      await expect(invoke('openFiles', ['video', true])).rejects.toThrow('Refused.');
    } finally {
      mainFrame.url = before;
    }
  });

  it('and messages of strangers on the wire are dropped', async () => {
    const sent = window.webContents.sent.length;
    for (const [, event] of strangers())
      electron.ipcMain.emit(wireChannel, event, {
        type: 'call',
        n: 990_000,
        name: 'library.about',
        args: {},
      });
    await host.call('library.about', {});
    const answered = window.webContents.sent.slice(sent).map((m) => (m.args[0] as { n: number }).n);
    expect(answered).not.toContain(990_000);
  });
});

describe('what may be asked', () => {
  it('the host, over the wire', async () => {
    const about = await host.call('library.about', {});
    expect(about).toMatchObject({ shell: 'desktop', demo: false });
    expect(about.folder).toContain('walkback-desktop-');
  });

  it('files by the dialog', async () => {
    const path = join(folder, 'clip one.mp4');
    await writeFile(path, 'four');
    electron.answers.open = { canceled: false, filePaths: [path, join(folder, 'gone.mp4')] };
    expect(await invoke('openFiles', ['video', true])).toEqual([
      { path, name: 'clip one.mp4', bytes: 4 },
      { path: join(folder, 'gone.mp4'), name: 'gone.mp4', bytes: null },
    ]);
    expect(electron.answers.asked.at(-1)).toMatchObject({ properties: ['openFile', 'multiSelections'] });
    electron.answers.open = { canceled: true, filePaths: [path] };
    expect(await invoke('openFiles', ['picture', false])).toEqual([]);
    expect(electron.answers.asked.at(-1)).toMatchObject({ properties: ['openFile'] });
  });

  it.each([
    ['openFiles', ['anything', true]],
    ['openFiles', ['video', 'yes']],
    ['openFiles', []],
    ['openReport', ['../../etc/passwd']],
    ['openReport', ['']],
    ['openReport', [{}]],
    ['saveReport', ['x', '']],
    ['saveReport', ['x', 'a'.repeat(256)]],
    ['saveReport', ['x/y', 'a.html']],
    ['saveFile', ['../../etc/passwd', 'a.svg']],
    ['saveFile', ['x', '']],
  ])('not %s with %j', async (channel, args) => {
    const seen = electron.answers.asked.length;
    await expect(invoke(channel, args)).rejects.toThrow();
    expect(electron.answers.asked.length).toBe(seen);
  });

  it('no report that is none', async () => {
    const windows = electron.BrowserWindow.all.length;
    await expect(invoke('openReport', ['unknown'])).rejects.toThrow(/report/);
    await expect(invoke('saveReport', ['unknown', 'a.html'])).rejects.toThrow(/report/);
    await expect(invoke('saveFile', ['unknown', 'a.svg'])).rejects.toThrow(/could not be found/);
    expect(electron.BrowserWindow.all.length).toBe(windows);
  });
});

describe('a written report', () => {
  let mediaId = '';
  beforeAll(async () => {
    const { reviewId } = await host.call('review.create', { title: 'A run', obstacles: 3 });
    const { runJob } = await import('../../../src/host/contract/link.ts');
    mediaId = (await runJob(host, 'report.write', { reviewId })).mediaId;
  });

  it('opens in a window of its own, without scripts, preload or a way out', async () => {
    await invoke('openReport', [mediaId]);
    const report = electron.BrowserWindow.all.at(-1);
    expect(report).not.toBe(window);
    expect(report?.webContents.mainFrame.url).toBe(`app://report/${mediaId}`);
    expect(report?.options['webPreferences']).toMatchObject({
      javascript: false,
      sandbox: true,
      contextIsolation: true,
    });
    expect(report?.options['webPreferences']).not.toHaveProperty('preload');
    expect(report?.webContents.openHandler({ url: 'https://example.org/' })).toEqual({ action: 'deny' });
    const preventDefault = vi.fn();
    report?.webContents.emit('will-navigate', { url: 'app://walkback/', preventDefault });
    expect(preventDefault).toHaveBeenCalledOnce();
  });

  it('is served at an origin of its own with a policy of its own', async () => {
    const answer = await fetchApp(`app://report/${mediaId}`);
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-security-policy')).toMatch(/^default-src 'none'.*sandbox$/);
    expect(await answer.text()).toMatch(/^<!doctype html>/i);
    expect((await fetchApp(`app://walkback/report/${mediaId}`)).status).toBe(404);
    const asMedia = await fetchApp(`app://walkback/media/${mediaId}`);
    expect(asMedia.headers.get('content-type')).toBe('application/octet-stream');
    await asMedia.body?.cancel();
  });

  it('is saved whole where the user says, and not where the dialog was closed', async () => {
    const filePath = join(folder, 'saved.html');
    electron.answers.save = { canceled: true, filePath };
    expect(await invoke('saveReport', [mediaId, 'run.html'])).toBe(false);
    expect(existsSync(filePath)).toBe(false);
    electron.answers.save = { canceled: false, filePath };
    expect(await invoke('saveReport', [mediaId, '../../run.html'])).toBe(true);
    expect(electron.answers.asked.at(-1)).toMatchObject({ defaultPath: 'run.html' });
    expect(await readFile(filePath, 'utf8')).toBe(await (await fetchApp(`app://report/${mediaId}`)).text());
    electron.answers.save = { canceled: false, filePath: join(folder, 'no such folder', 'saved.html') };
    await expect(invoke('saveReport', [mediaId, 'run.html'])).rejects.toThrow(/could not be saved/);
    expect((await readdir(folder)).filter((name) => name.endsWith('.part'))).toEqual([]);
  });
});

describe('an exported course', () => {
  it('is saved whole where the user says, under its own ending', async () => {
    const { reviewId } = await host.call('review.create', { title: 'A run', obstacles: 3 });
    const { mediaId, path } = await host.call('course.export', { reviewId, form: 'json' });
    const filePath = join(folder, 'saved.course.json');
    electron.answers.save = { canceled: false, filePath };
    expect(await invoke('saveFile', [mediaId, '../course.course.json'])).toBe(true);
    expect(electron.answers.asked.at(-1)).toMatchObject({
      defaultPath: 'course.course.json',
      filters: [{ extensions: ['json'] }],
    });
    expect(await readFile(filePath, 'utf8')).toBe(await readFile(path, 'utf8'));
  });
  it('is painted, and a page of a PDF drawn, by the parts as they are built', async () => {
    const { reviewId } = await host.call('review.create', { title: 'A run', obstacles: 3 });
    const sheet = await host.call('course.export', { reviewId, form: 'sheet', paper: 'a5' });
    expect((await readFile(sheet.path)).subarray(0, 5).toString()).toBe('%PDF-');
    const picture = await host.call('picture.keep', { source: { path: sheet.path } });
    expect(picture).toMatchObject({ pages: 1, height: 3000 });
  });
});

describe('the scheme', () => {
  it('serves the window with its policy', async () => {
    const answer = await fetchApp('app://walkback/');
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-type')).toBe('text/html; charset=utf-8');
    const policy = answer.headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'none'; script-src 'self';");
    expect(policy).toContain("connect-src 'self';");
    expect(policy).not.toContain('unsafe');
    expect(answer.headers.get('cross-origin-embedder-policy')).toBe('require-corp');
  });

  it('gives media by byte range', async () => {
    const picture = Buffer.from(
      'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
      'base64',
    );
    const path = join(folder, 'map.png');
    await writeFile(path, picture);
    const { mediaId } = await host.call('picture.keep', { source: { path } });
    const part = await fetchApp(`app://walkback/media/${mediaId}`, { headers: { range: 'bytes=1-3' } });
    expect(part.status).toBe(206);
    expect(part.headers.get('content-range')).toBe(`bytes 1-3/${picture.length}`);
    expect(await part.text()).toBe('PNG');
    const beyond = await fetchApp(`app://walkback/media/${mediaId}`, { headers: { range: 'bytes=5000-' } });
    expect(beyond.status).toBe(416);
    const head = await fetchApp(`app://walkback/media/${mediaId}`, { method: 'HEAD' });
    expect(head.headers.get('content-length')).toBe(String(picture.length));
    expect(await head.text()).toBe('');
  });

  it.each([
    'app://walkback/../package.json',
    'app://walkback/%2e%2e/package.json',
    'app://walkback/media/..%2f..%2fpackage.json',
    'app://walkback/media/unknown',
    'app://walkback/index.html',
    'app://other/',
    'app://report/',
    'app://report/unknown',
  ])('%s leads nowhere', async (url) => {
    expect((await fetchApp(url)).status).toBe(404);
  });

  it('takes nothing in', async () => {
    for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS'])
      expect((await fetchApp('app://walkback/', { method })).status).toBe(405);
  });
});

describe('the end', () => {
  it('the window is told when the host has gone', async () => {
    electron.utilityChildren[0]?.kill('SIGKILL');
    await vi.waitFor(() => {
      expect(window.webContents.sent.map((m) => m.channel)).toContain('walkback:hostEnded');
    });
    await expect(host.call('library.about', {})).rejects.toThrow();
  });

  it('quits once every window is closed, with a code that tells of the host’s end', async () => {
    for (const each of electron.BrowserWindow.all) each.close();
    expect(await electron.app.exited).toBe(1);
    process.exitCode = 0;
  });
});
