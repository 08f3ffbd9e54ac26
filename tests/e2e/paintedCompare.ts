import { mkdtemp, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { clip, type ClipKind } from '../../scripts/clips/make.ts';
import { readPaintedNumber } from '../../scripts/clips/painted.ts';
import { contentHash } from '../../src/footage/contentHash.ts';
import { indexFrames } from '../../src/footage/frameIndex.ts';
import type { FrameTable } from '../../src/time/frameTable.ts';
import { courseOf, exampleDocument, took } from '../unit/review/example.ts';
import { commandLine, openWindow, startShell } from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';

/** Take-off and landing of each jump, frames. */
type Jumps = readonly (readonly [number, number])[];

const kinds = ['h264', 'vfr'] as const satisfies readonly ClipKind[];
/** Two runs of one course: one film at an even rate, the other at an uneven one with a hole in it. */
const jumps: readonly [Jumps, Jumps] = [
  [
    [40, 55],
    [90, 110],
    [140, 160],
    [190, 215],
    [240, 260],
  ],
  [
    [30, 50],
    [70, 85],
    [140, 165],
    [180, 190],
    [230, 255],
  ],
];

/** The numbers on both pictures at one moment; null where a picture shows none. */
export type Pair = readonly [number | null, number | null];

/** Two runs side by side in the real window, every picture of them carrying its own number. */
export interface PaintedCompare {
  readonly page: Page;
  readonly errors: string[];
  /** What stands on the screen now. */
  pair(): Promise<Pair>;
  /** What stands on the screen at each of so many refreshes of it. */
  pairs(refreshes: number): Promise<readonly Pair[]>;
  /** The frame of the second film that shows the place of the course which the first shows on this frame. */
  samePlace(frame: number): number;
  /** The frames of the first film. */
  readonly table: FrameTable;
  close(): Promise<void>;
}

export async function paintedCompare(): Promise<PaintedCompare> {
  const folder = await mkdtemp(join(tmpdir(), 'walkback-compare-'));
  const library = join(folder, 'library');
  const tables: FrameTable[] = [];
  const files: string[] = [];
  for (const [i, kind] of kinds.entries()) {
    const made = await clip(kind);
    const { table } = await indexFrames(made.path);
    tables.push(table);
    const marks = (jumps[i] ?? []).flatMap(([off, on], n) => [
      took(n + 1, 'in', table.pts[off] ?? 0),
      took(n + 1, 'out', table.pts[on] ?? 0),
    ]);
    const course = courseOf('barJump', 'barJump', 'barJump', 'barJump', 'barJump');
    const example = exampleDocument(course, marks);
    const facts = {
      sha256: await contentHash(made.path),
      bytes: (await stat(made.path)).size,
      path: made.path,
      width: made.width,
      height: made.height,
      timeBase: [table.timeBase.num, table.timeBase.den],
      pts: table.pts,
    };
    const document = {
      ...example,
      id: `run-${i}`,
      header: { ...example.header, title: `Run ${i + 1}` },
      footage: example.footage.map((f) => ({ ...f, clip: { ...f.clip, ...facts } })),
    };
    files.push(join(folder, `${i}.walkback.json`));
    await writeFile(files[i] ?? '', JSON.stringify(document));
  }
  await commandLine('import', ...files, '--library', library);
  const shell = await startShell('--library', library);
  const browser: Browser = await startChromium();
  const { page, errors } = await openWindow(browser, shell);
  page.setDefaultTimeout(120_000);
  await page.getByRole('link', { name: 'Run 1' }).waitFor();
  await page.evaluate(() => (location.hash = '#/compare/run-0/run-1'));
  await page.waitForFunction(() => document.querySelectorAll('canvas[data-shown="true"]').length === 2);

  const pairs = async (refreshes: number): Promise<readonly Pair[]> => {
    const [width, height] = [64, 48];
    const read = await page.evaluate(
      async ([count, w, h]) => {
        const canvases = [...document.querySelectorAll<HTMLCanvasElement>('canvas[data-lane]')];
        const pen = new OffscreenCanvas(w, h).getContext('2d', { willReadFrequently: true });
        const seen: string[][] = [];
        for (let i = 0; i < count; i++) {
          if (count > 1) await new Promise(requestAnimationFrame);
          // Both in one task: what is read is what one refresh of the screen shows.
          seen.push(
            canvases.map((canvas) => {
              pen?.drawImage(canvas, 0, 0, w, h);
              const data = pen?.getImageData(0, 0, w, h).data ?? [];
              return btoa(String.fromCharCode(...data));
            }),
          );
        }
        return seen;
      },
      [refreshes, width, height] as const,
    );
    const numberOf = (text: string | undefined): number | null =>
      text === undefined ? null : readPaintedNumber(Buffer.from(text, 'base64'), width, height);
    return read.map(([a, b]) => [numberOf(a), numberOf(b)]);
  };

  const [table] = tables;
  if (!table) throw new Error('there is no first film');
  return {
    page,
    errors,
    table,
    pairs,
    async pair() {
      return (await pairs(1))[0] ?? [null, null];
    },
    samePlace: (frame) => matching(frame, tables, jumps),
    async close() {
      await browser.close();
      await shell.stop();
      await rm(folder, { recursive: true, force: true, maxRetries: 3 });
    },
  };
}

/** Worked out from the frame times alone: between two edges in proportion, outside of them at life's pace. */
function matching(
  frame: number,
  [a, b]: readonly FrameTable[],
  [jumpsA, jumpsB]: readonly [Jumps, Jumps],
): number {
  if (!a || !b) return NaN;
  const at = (table: FrameTable, index: number): number =>
    ((table.pts[index] ?? NaN) * table.timeBase.num) / table.timeBase.den;
  // A take-off lies between its frame and the next, a landing between the one before and its frame.
  const edges = (table: FrameTable, list: Jumps): number[] =>
    list.flatMap(([off, on]) => [
      (at(table, off) + at(table, off + 1)) / 2,
      (at(table, on - 1) + at(table, on)) / 2,
    ]);
  const [from, to] = [edges(a, jumpsA), edges(b, jumpsB)];
  const now = (at(a, frame) + at(a, frame + 1)) / 2;
  const next = from.findIndex((edge) => edge > now);
  const i = next < 0 ? from.length : next;
  const [p, q] = [from[i - 1], from[i]];
  const [r, s] = [to[i - 1], to[i]];
  let there = NaN;
  if (p !== undefined && q !== undefined && r !== undefined && s !== undefined)
    there = r + ((now - p) * (s - r)) / (q - p);
  else if (q !== undefined && s !== undefined) there = s + (now - q);
  else if (p !== undefined && r !== undefined) there = r + (now - p);
  const shown = b.pts.findLastIndex((_, k) => at(b, k) <= there + 1e-9);
  return Math.max(0, shown);
}
