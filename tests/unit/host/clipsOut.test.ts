import { createCanvas } from '@napi-rs/canvas';
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { layerPainter } from '../../../src/host/clipOut/paint.ts';
import { lettersOf, linesIn } from '../../../src/host/clipOut/lettering.ts';
import { clipFileName, writeClip } from '../../../src/host/clipOut/write.ts';
import type { ClipOrder } from '../../../src/host/footageRoom.ts';
import { callHandlers } from '../../../src/host/handlers/calls.ts';
import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import type { ClipWish } from '../../../src/report/clip/wish.ts';
import { clocksOf, stateOf } from '../../../src/review/readDocument.ts';
import { sample } from '../report/sample.ts';
import { testHosts } from './desks.ts';

const overlays = { numbers: true, wanted: true, likely: true, real: true, captions: true, drawings: true };
const hostile = `<b>x</b> %{pts} ':drawtext=textfile=/etc/passwd \u202Egnp.exe\u0007 שלום 🐕 =1+1`;
const hosts = testHosts();

test('a clip lands in the folder of things to hand over, under a name of its own; a second one gets a number', async () => {
  const t = await hosts.fresh();
  const path = await t.video('run.mp4', { frames: 90 });
  const { result } = await t.run('clip.import', { source: { path } });
  const clip = (result as { clip: ClipSummary }).clip;
  const { reviewId } = await callHandlers['review.create'](t.desk, {
    title: '../../etc/“run” \u202E 5',
    dog: '',
    handler: '',
    obstacles: 0,
    clipIds: [clip.id],
  });
  const footageId = t.desk.library.reviews.whole(reviewId).state.footage[0]?.id ?? '';
  const wish: ClipWish = {
    reviewId,
    footageId,
    parts: [{ from: 10, to: 39 }],
    slow: [],
    freezes: [{ pts: 20, seconds: 1, caption: hostile }],
    overlays,
    sound: true,
  };
  const made = await t.run('clip.write', { wish, kind: 'range' });
  expect(made).toMatchObject({
    state: 'done',
    about: 'etc-run-5-clip.mp4',
    done: 60,
    total: 60,
    result: { name: 'etc-run-5-clip.mp4', path: join(t.folder, 'reports', 'etc-run-5-clip.mp4') },
  });
  const again = await t.run('clip.write', { wish, kind: 'range' });
  expect(again.result).toMatchObject({ name: 'etc-run-5-clip-2.mp4' });
  expect((await readdir(join(t.folder, 'reports'))).sort()).toEqual([
    'etc-run-5-clip-2.mp4',
    'etc-run-5-clip.mp4',
  ]);
  const none = await t.run('clip.write', {
    wish: { ...wish, parts: [{ from: 900, to: 950 }] },
    kind: 'range',
  });
  expect(none).toMatchObject({ state: 'failed', trouble: { code: 'badInput', message: /no such frames/ } });
  expect(t.faults).toEqual([]);
});

test('words that people wrote go into the picture and nowhere else', async () => {
  const { document } = sample();
  const review = stateOf(document);
  const clocks = clocksOf(document);
  const footageId = document.footage[0]?.id ?? '';
  const table = clocks.get(footageId)?.table;
  if (!table) throw new Error('the sample has no footage');
  const [from = 0, to = 0] = [table.pts[0], table.pts[30]];
  const orders: ClipOrder[] = [];
  await writeClip(
    {
      wish: {
        reviewId: review.id,
        footageId,
        parts: [{ from, to }],
        slow: [],
        freezes: [{ pts: from, seconds: 1, caption: hostile }],
        overlays,
        sound: false,
      },
      run: {
        review: { ...review, header: { ...review.header, title: hostile, dog: hostile } },
        clocks,
        pictures: new Map(document.footage.map(({ id }) => [id, { width: 640, height: 360 }])),
        book: undefined,
      },
      beside: null,
      fileOf: async () => ({ path: '/run.mp4', table }),
      makeClip: async (order) => {
        orders.push(order);
        return 1;
      },
      signal: new AbortController().signal,
      progress: () => undefined,
    },
    '/tmp/out.mp4',
  );
  const [order] = orders;
  const { layers, ...rest } = order ?? {};
  const over = layers?.();
  const pictures = [...(over?.pictures ?? [])];
  expect(JSON.stringify(rest)).not.toMatch(/passwd|drawtext|<b>|gnp/);
  expect(over?.at[0]).toBe(0);
  expect(pictures).toHaveLength(over?.at.length ?? NaN);
  // The words are seen under the picture, and only while the frame is held.
  const ink = (rgba: Uint8Array | undefined): number =>
    rgba?.filter((v, i) => i >= 260 * 640 * 4 && i % 4 === 0 && v > 200).length ?? NaN;
  expect(pictures[0]).toHaveLength(640 * 360 * 4);
  expect(ink(pictures[0])).toBeGreaterThan(400);
  expect(ink(pictures.at(-1))).toBe(0);
});

test('letters stay as they were written; what is not seen but acts is left out', () => {
  expect(lettersOf(hostile)).toBe(`<b>x</b> %{pts} ':drawtext=textfile=/etc/passwd gnp.exe שלום 🐕 =1+1`);
  expect(clipFileName(stateOf(sample().document), { cross: 3 })).toMatch(/^[\p{L}\p{N}-]+-cross-3\.mp4$/u);
});

test('long words are broken, and too many lines end in an ellipsis', async () => {
  const to = createCanvas(10, 10).getContext('2d');
  layerPainter({ width: 64, height: 64 })({ at: 0, lanes: [], speed: null, caption: null });
  expect(linesIn(to, 'one two three', 20, 80, 4)).toEqual(['one two', 'three']);
  const broken = linesIn(to, 'W'.repeat(40), 20, 100, 3);
  expect(broken).toHaveLength(3);
  expect(broken[2]).toMatch(/…$/);
  expect(linesIn(to, ' \n ', 20, 100, 3)).toEqual([]);
});
