import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { createCanvas } from '@napi-rs/canvas';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { findPrograms } from '../../../src/footage/programs/find.ts';
import { encodeClip } from '../../../src/host/clipOut/encode.ts';
import { writeClip, type ClipAsked } from '../../../src/host/clipOut/write.ts';
import type { ClipLayers, ClipOrder } from '../../../src/host/footageRoom.ts';
import { crossClip } from '../../../src/report/clip/ideas.ts';
import type { ClipWish } from '../../../src/report/clip/wish.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { clocksOf, stateOf } from '../../../src/review/readDocument.ts';
import { demo, fittedDemo } from '../../unit/report/clip/fittedDemo.ts';
import { atLeast, median } from '../frames/measure.ts';
import type { BenchLine } from '../run.ts';

const run = promisify(execFile);
const rounds = 5;
const least = 0.7;

/**
 * A clip to hand over, from the wish to the file in its place (planned, painted, encoded, held against the table), over
 * what ffmpeg alone takes for the same frames with one picture laid over, painted beforehand. Turn by turn.
 */
export async function clipLines(): Promise<BenchLine[]> {
  const document = await fittedDemo();
  const review = stateOf(document);
  const clocks = clocksOf(document);
  const [film] = document.footage;
  const path = join(demo, film?.name ?? '');
  const { table } = await indexFrames(path);
  const cross = analyse(review, clocks).crosses.find((c) => c.place === 3);
  const idea = cross && crossClip({ review, analysis: analyse(review, clocks), clocks }, cross);
  if (!film || !idea) throw new Error('the demo has no cross at 3');
  const overlays = { numbers: true, wanted: true, likely: false, real: true, captions: true, drawings: true };
  const wish: ClipWish = {
    reviewId: review.id,
    footageId: film.id,
    parts: [{ from: table.pts[390] ?? 0, to: table.pts[749] ?? 0 }],
    slow: [],
    freezes: [],
    overlays,
    sound: false,
  };
  const pictures = new Map([[film.id, { width: film.clip.width, height: film.clip.height }]]);
  const asked = (one: ClipWish, makeClip: ClipAsked['makeClip']): ClipAsked => ({
    wish: one,
    run: { review, clocks, pictures, book: undefined },
    beside: null,
    fileOf: async () => ({ path, table }),
    makeClip,
    signal: new AbortController().signal,
    progress: () => undefined,
  });
  const lines: BenchLine[] = [];
  const wishes = [
    ['12 s at real speed', wish],
    [
      'a cross, a quarter of its speed, held for 3 s',
      { ...wish, ...idea, reviewId: review.id, overlays, sound: false },
    ],
  ] as const;
  const folder = await mkdtemp(join(tmpdir(), 'walkback-bench-clips-'));
  try {
    for (const [what, { parts, slow, freezes, ...rest }] of wishes) {
      const one: ClipWish = { ...wish, ...rest, parts: [...parts], slow: [...slow], freezes: [...freezes] };
      let order: ClipOrder | undefined;
      await writeClip(
        asked(one, async (made) => {
          order = made;
          return 0;
        }),
        join(folder, 'none.mp4'),
      );
      if (!order) throw new Error('no clip was planned');
      const over = order.layers() ?? { at: [], pictures: [] };
      const bare = await bareEncoding(order, over, path, folder);
      const times: { ours: number[]; bare: number[] } = { ours: [], bare: [] };
      for (let i = 0; i < rounds; i++) {
        times.bare.push(await seconds(bare));
        times.ours.push(await seconds(() => writeClip(asked(one, encodeClip), join(folder, 'ours.mp4'))));
      }
      const [a, b] = [median(times.bare), median(times.ours)];
      lines.push(
        atLeast(
          `speed of a clip over that of a bare encode: ${what}`,
          a / b,
          least,
          `${a.toFixed(2)} s over ${b.toFixed(2)} s, ${order.ticks} pictures, ${over.at.length} laid over`,
        ),
      );
    }
    return lines;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function seconds(work: () => Promise<unknown>): Promise<number> {
  const begun = performance.now();
  await work();
  return (performance.now() - begun) / 1000;
}

/** ffmpeg with nothing but what it needs: a seek, the number of pictures, one picture laid over all of them. */
async function bareEncoding(
  order: ClipOrder,
  over: ClipLayers,
  path: string,
  folder: string,
): Promise<() => Promise<unknown>> {
  const { ffmpeg } = await findPrograms();
  const [lane] = order.lanes;
  const first = lane?.parts[0]?.from ?? 0;
  const frames = (lane?.parts[0]?.to ?? 0) - first + 1;
  const start =
    ((lane?.table.pts[first] ?? 0) * (lane?.table.timeBase.num ?? 1)) / (lane?.table.timeBase.den ?? 1);
  const png = join(folder, 'over.png');
  const { width, height } = order.size;
  const pixels = [...over.pictures][Math.floor(over.at.length / 2)] ?? new Uint8Array(width * height * 4);
  const canvas = createCanvas(width, height);
  const picture = canvas.getContext('2d').createImageData(width, height);
  picture.data.set(pixels);
  canvas.getContext('2d').putImageData(picture, 0, 0);
  await writeFile(png, canvas.toBuffer('image/png'));
  const slower = order.ticks / frames;
  const filters = `[0:v]setpts=${slower}*(PTS-STARTPTS)[a];[a][1:v]overlay,fps=${order.rate.num}/${order.rate.den},format=yuv420p[v]`;
  // As much behind other programs as ours is.
  const args = [
    ...['-n', '10', ffmpeg, '-v', 'error', '-y', '-nostdin', '-ss', start.toFixed(6), '-i', path, '-i', png],
    ...['-filter_complex', filters, '-map', '[v]', '-c:v', 'libx264', '-preset', 'veryfast', '-crf', '21'],
    ...['-profile:v', 'high', '-g', String(Math.round((2 * order.rate.num) / order.rate.den))],
    ...['-frames:v', String(order.ticks), '-movflags', '+faststart', join(folder, 'bare.mp4')],
  ];
  return () => run('nice', args);
}
