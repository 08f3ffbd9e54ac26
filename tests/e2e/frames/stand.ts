import { execFileSync } from 'node:child_process';
import { createReadStream, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type Page } from 'playwright';
import { build } from 'vite';

const here = path.dirname(fileURLToPath(import.meta.url));

/** The content policy of the window, word for word what both shells send. */
const policy =
  "default-src 'self'; script-src 'self'; worker-src 'self'; style-src 'self'; " +
  "img-src 'self' blob: data:; media-src 'self' blob:; connect-src 'self' ws:";

const kinds: Record<string, string> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css' };

/** A page that holds the frame window, in a real browser, with clips served by byte range. */
export interface Stand {
  readonly page: Page;
  /** Opens the page once more, beside the first. */
  newPage(): Promise<Page>;
  /** What the page complained of: console errors, broken policies, unhandled rejections. */
  readonly complaints: string[];
  /** Gives a file an address. */
  serve(file: string): string;
  /** Takes its address away again. */
  withdraw(file: string): void;
  close(): Promise<void>;
}

/** Builds the page in `folder` as the window is built, in memory, serves it and opens it. */
export async function openStand(folder = here): Promise<Stand> {
  const built = await builtPage(folder);
  const files = new Map<string, string>();
  let given = 0;
  const server = createServer((request, answer) => {
    const url = new URL(request.url ?? '/', 'http://127.0.0.1');
    const clip = files.get(url.pathname);
    if (clip) {
      const size = statSync(clip).size;
      const range = /^bytes=(\d+)-(\d*)$/.exec(request.headers.range ?? '');
      const from = range ? Number(range[1]) : 0;
      const to = range && range[2] ? Math.min(Number(range[2]), size - 1) : size - 1;
      if (from >= size) {
        answer.writeHead(416, { 'Content-Range': `bytes */${size}` }).end();
        return;
      }
      answer.writeHead(range ? 206 : 200, {
        'Content-Type': 'video/mp4',
        'Accept-Ranges': 'bytes',
        'Content-Length': to - from + 1,
        ...(range ? { 'Content-Range': `bytes ${from}-${to}/${size}` } : {}),
      });
      createReadStream(clip, { start: from, end: to })
        .on('error', () => answer.destroy())
        .pipe(answer);
      return;
    }
    if (url.pathname === '/favicon.ico') {
      answer.writeHead(204).end();
      return;
    }
    const name = url.pathname === '/' ? '/index.html' : url.pathname;
    const body = built.get(name);
    if (body === undefined) {
      answer.writeHead(404).end();
      return;
    }
    const type = kinds[path.extname(name)] ?? 'application/octet-stream';
    answer.writeHead(200, { 'Content-Type': type, 'Content-Security-Policy': policy }).end(body);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const browser = await launch();
  const complaints: string[] = [];
  const address = server.address();
  if (!address || typeof address === 'string') throw new Error('The test server has no port');
  const newPage = async (): Promise<Page> => {
    const page = await browser.newPage();
    page.on('console', (m) => {
      if (m.type() === 'error' || m.type() === 'warning') complaints.push(m.text());
    });
    page.on('pageerror', (e) => complaints.push(String(e)));
    await page.goto(`http://127.0.0.1:${address.port}/`);
    await page.waitForFunction('window.page !== undefined || window.bench !== undefined');
    return page;
  };
  return {
    page: await newPage(),
    newPage,
    complaints,
    serve(file) {
      const name = `/media/${++given}`;
      files.set(name, file);
      return name;
    },
    withdraw(file) {
      for (const [name, known] of files) if (known === file) files.delete(name);
    },
    async close() {
      await browser.close();
      await shut(server);
    },
  };
}

/** The files of the page by their address, as the window's own build makes them. */
async function builtPage(folder: string): Promise<ReadonlyMap<string, string | Uint8Array>> {
  const made = await build({
    configFile: false,
    root: folder,
    logLevel: 'error',
    worker: { format: 'es' },
    build: { write: false, minify: false, assetsInlineLimit: 0, modulePreload: { polyfill: false } },
  });
  if (!('output' in made)) throw new Error('The page was not built in one piece');
  return new Map(
    made.output.map((part) => [`/${part.fileName}`, part.type === 'chunk' ? part.code : part.source]),
  );
}

async function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env['WALKBACK_CHROMIUM'] ?? '/usr/bin/chromium',
    args: [
      ...[
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--autoplay-policy=no-user-gesture-required',
      ],
      ...['--disable-background-networking', '--disable-component-update', '--disable-sync'],
    ],
  });
}

function shut(server: Server): Promise<void> {
  server.closeAllConnections();
  return new Promise((resolve) => server.close(() => resolve()));
}

/** The times of all frames that ffprobe decodes, in presentation order, apart from our own way of reading them. */
export function probeTimes(file: string): {
  timeBase: [number, number];
  pts: number[];
  rotation: 0 | 90 | 180 | 270;
} {
  const json = execFileSync(
    'ffprobe',
    [
      ...['-v', 'error', '-select_streams', 'v:0', '-show_frames', '-show_streams', '-of', 'json'],
      ...[
        '-show_entries',
        'frame=pts,best_effort_timestamp:stream=time_base:stream_side_data=rotation',
        file,
      ],
    ],
    { maxBuffer: 1 << 28 },
  );
  const read = JSON.parse(json.toString()) as {
    frames: { pts?: number; best_effort_timestamp?: number }[];
    streams: { time_base: string; side_data_list?: { rotation?: number }[] }[];
  };
  const stream = read.streams[0];
  const [num, den] = (stream?.time_base ?? '0/0').split('/').map(Number);
  const turned = stream?.side_data_list?.find((s) => s.rotation !== undefined)?.rotation ?? 0;
  const pts = read.frames.map((f) => f.pts ?? f.best_effort_timestamp ?? NaN);
  return {
    timeBase: [num ?? 0, den ?? 0],
    pts,
    rotation: (((-turned % 360) + 360) % 360) as 0 | 90 | 180 | 270,
  };
}
