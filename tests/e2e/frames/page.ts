import { readPaintedNumber } from '../../../scripts/clips/painted.ts';
import { openFrameWindow, type FrameSource, type FrameWindow } from '../../../src/frames/open.ts';
import { openStage, type Stage } from '../../../src/frames/stage.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { frameIndex } from '../../../src/time/units.ts';

/** A clip as the test hands it over: everything survives JSON. */
export interface PlainSource {
  url: string;
  timeBase: [number, number];
  pts: number[];
  width: number;
  height: number;
  rotation: 0 | 90 | 180 | 270;
  /** The number painted on each frame, where it is not the frame's index. */
  numbers?: number[];
}

/** What stood on the stage after a pause. */
export interface Paused {
  played: string;
  frame: number | null;
  canvas: number | null;
  player: number | null;
  canvasSeen: string;
  rising: boolean;
  told: number;
}

/** What a run of asks showed: each wrong picture with the frame asked for and the number that was read. */
export interface Seen {
  asks: number;
  wrong: { asked: number; read: number | null }[];
  troubles: string[];
}

const sourceOf = (plain: PlainSource): FrameSource => ({
  url: plain.url,
  table: frameTable({ num: plain.timeBase[0], den: plain.timeBase[1] }, plain.pts),
  width: plain.width,
  height: plain.height,
  rotation: plain.rotation,
});

const paper = new OffscreenCanvas(1, 1);
const surface = paper.getContext('2d', { willReadFrequently: true });

/** The number painted into a picture. */
function read(picture: CanvasImageSource, width: number, height: number): number | null {
  if (!surface) throw new Error('no canvas');
  // What was read before must not show through where nothing can be drawn.
  if (paper.width === width && paper.height === height) surface.clearRect(0, 0, width, height);
  else Object.assign(paper, { width, height });
  surface.drawImage(picture, 0, 0, width, height);
  // The number stands in the upper half.
  return readPaintedNumber(surface.getImageData(0, 0, width, Math.ceil(height / 2)).data, width, height);
}

let canvas: HTMLCanvasElement | null = null;
let frames: FrameWindow | null = null;
let stage: Stage | null = null;
let last = 0;
let numbers: number[] | undefined;

function here(): { window: FrameWindow; canvas: HTMLCanvasElement } {
  if (!frames || !canvas) throw new Error('no clip is open');
  return { window: frames, canvas };
}

function onStage(): Stage {
  if (!stage) throw new Error('no stage is open');
  return stage;
}

function look(seen: Seen, index: number): void {
  const { canvas: c } = here();
  const number = read(c, c.width, c.height);
  seen.asks++;
  if (number !== (numbers?.[index] ?? index)) seen.wrong.push({ asked: index, read: number });
}

const until = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

export const page = {
  async open(
    plain: PlainSource,
    options: { budget?: number; by?: 'decoding' | 'video' } = {},
  ): Promise<string> {
    canvas = document.createElement('canvas');
    document.body.append(canvas);
    last = plain.pts.length - 1;
    numbers = plain.numbers;
    try {
      frames = await openFrameWindow(sourceOf(plain), canvas, options);
      return 'opened';
    } catch (error) {
      canvas.remove();
      return (error as { code?: string }).code ?? String(error);
    }
  },

  async close(): Promise<number> {
    const { window: w, canvas: c } = here();
    await w.close();
    c.remove();
    return w.openFrames();
  },

  /** Seeks to each index in turn, waiting for the picture, and reads its number. */
  async seeks(indexes: number[]): Promise<Seen> {
    const seen: Seen = { asks: 0, wrong: [], troubles: [] };
    for (const index of indexes) {
      try {
        const outcome = await here().window.seek(frameIndex(index));
        if (outcome !== 'shown') seen.troubles.push(`${index}: ${outcome}`);
      } catch (error) {
        seen.troubles.push(`${index}: ${String(error)} ${(error as { detail?: string }).detail ?? ''}`);
        continue;
      }
      look(seen, index);
    }
    return seen;
  },

  /** Steps one frame at a time, waiting for each picture. */
  async steps(from: number, count: number, by: number): Promise<Seen> {
    await here().window.seek(frameIndex(from));
    const seen: Seen = { asks: 0, wrong: [], troubles: [] };
    let expected = from;
    for (let i = 0; i < count; i++) {
      expected = Math.max(0, Math.min(last, expected + by));
      await here().window.step(by);
      look(seen, expected);
    }
    return seen;
  },

  /** Seeks and never waits; at the end the last one must be on the canvas. */
  async scrub(indexes: number[]): Promise<Seen> {
    const { window: w } = here();
    const seen: Seen = { asks: 0, wrong: [], troubles: [] };
    const stop = w.onShown((index) => look(seen, index));
    const ended = await Promise.allSettled(indexes.map((i) => w.seek(frameIndex(i))));
    for (const end of ended) if (end.status === 'rejected') seen.troubles.push(String(end.reason));
    stop();
    if (w.shown() !== indexes.at(-1)) seen.troubles.push(`ended on ${w.shown()}`);
    return seen;
  },

  /** Presses steps without waiting, at a pace; every picture painted is read, and the last must be the right one. */
  async hurry(
    from: number,
    count: number,
    by: number,
    pace: number,
  ): Promise<Seen & { painted: number; at: number }> {
    const { window: w } = here();
    const seen: Seen = { asks: 0, wrong: [], troubles: [] };
    let painted = 0;
    const stop = w.onShown((index) => {
      painted++;
      look(seen, index);
    });
    const asks = [w.seek(frameIndex(from))];
    for (let i = 0; i < count; i++) {
      asks.push(w.step(by));
      if (pace > 0) await until(pace);
    }
    const ended = await Promise.allSettled(asks);
    for (const end of ended) if (end.status === 'rejected') seen.troubles.push(String(end.reason));
    stop();
    return { ...seen, painted, at: w.shown() ?? -1 };
  },

  async picture(
    index: number,
    maxWidth: number,
  ): Promise<{ read: number | null; width: number; height: number }> {
    const bitmap = await here().window.picture(frameIndex(index), maxWidth);
    const { width, height } = bitmap;
    const number = read(bitmap, width, height);
    bitmap.close();
    return { read: number, width, height };
  },

  openFrames: (): number => here().window.openFrames(),

  async openStage(plain: PlainSource): Promise<string> {
    const container = document.createElement('div');
    Object.assign(container.style, { position: 'relative', width: '640px', height: '360px' });
    document.body.append(container);
    last = plain.pts.length - 1;
    stage = openStage(container);
    stage.muted = true;
    try {
      await stage.open(sourceOf(plain));
      return 'opened';
    } catch (error) {
      return (error as { code?: string }).code ?? String(error);
    }
  },

  /** Plays from a frame for a while, pauses, and reads what stands there: in the canvas and in the player. */
  async playAndPause(from: number, rate: number, ms: number): Promise<Paused> {
    const s = onStage();
    s.rate = rate;
    await s.seek(frameIndex(from));
    const told: number[] = [];
    const stop = s.onFrame((index) => told.push(index));
    await s.play();
    const mode = s.mode;
    await until(ms);
    await s.pause();
    stop();
    const video = document.querySelector('video');
    const { width, height } = s.canvas;
    return {
      played: mode,
      frame: s.frame(),
      canvas: read(s.canvas, width, height),
      player: video && read(video, width, height),
      canvasSeen: getComputedStyle(s.canvas).visibility,
      rising: told.every((t, i) => i === 0 || t >= (told[i - 1] ?? 0)),
      told: told.length,
    };
  },

  /** Plays a loop and lists the frames that came on screen. */
  async playLoop(from: number, to: number, rate: number, ms: number): Promise<number[]> {
    const s = onStage();
    s.loop = { from: frameIndex(from), to: frameIndex(to) };
    s.rate = rate;
    await s.seek(frameIndex(from));
    const told: number[] = [];
    const stop = s.onFrame((index) => told.push(index));
    await s.play();
    await until(ms);
    stop();
    await s.pause();
    s.loop = null;
    return told;
  },

  stage: onStage,

  async closeStage(): Promise<{ open: number; left: number }> {
    const s = onStage();
    const w = s.window;
    await s.close();
    s.canvas.parentElement?.remove();
    stage = null;
    return { open: w?.openFrames() ?? 0, left: document.querySelectorAll('video').length };
  },

  read,
  until,
};

declare global {
  interface Window {
    page: typeof page;
  }
}
window.page = page;
