import { ALL_FORMATS, EncodedPacketSink, Input, UrlSource, VideoSampleSink } from 'mediabunny';
import { readPaintedNumber } from '../../../scripts/clips/painted.ts';
import { openFrameWindow, type FrameSource, type FrameWindow } from '../../../src/frames/open.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { frameIndex } from '../../../src/time/units.ts';
import type { PlainSource } from '../../e2e/frames/page.ts';

const sourceOf = (plain: PlainSource): FrameSource => ({
  url: plain.url,
  table: frameTable({ num: plain.timeBase[0], den: plain.timeBase[1] }, plain.pts),
  width: plain.width,
  height: plain.height,
  rotation: plain.rotation,
});

const nextFrame = (): Promise<number> => new Promise((resolve) => requestAnimationFrame(resolve));
const until = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
const doubleFrame = async (): Promise<void> => {
  await nextFrame();
  await nextFrame();
};

let canvas: HTMLCanvasElement | null = null;
let frames: FrameWindow | null = null;

function open(): { window: FrameWindow; canvas: HTMLCanvasElement } {
  if (!frames || !canvas) throw new Error('no clip is open');
  return { window: frames, canvas };
}

function number(c: HTMLCanvasElement): number | null {
  const copy = new OffscreenCanvas(640, 360);
  const surface = copy.getContext('2d', { willReadFrequently: true });
  if (!surface) throw new Error('no canvas');
  surface.drawImage(c, 0, 0, 640, 360);
  return readPaintedNumber(surface.getImageData(0, 0, 640, 360).data, 640, 360);
}

/** A bare decoder on the same clip: the demuxer's own sample sink, nothing of ours. */
async function bare(
  url: string,
): Promise<{ sink: VideoSampleSink; packets: EncodedPacketSink; done(): void }> {
  const input = new Input({ source: new UrlSource(new URL(url, location.href)), formats: ALL_FORMATS });
  const track = await input.getPrimaryVideoTrack();
  if (!track) throw new Error('no video');
  return {
    sink: new VideoSampleSink(track),
    packets: new EncodedPacketSink(track),
    done: () => input.dispose(),
  };
}

export const page = {
  until,

  /** Milliseconds of an empty double animation frame, from a random moment on. */
  async empty(count: number): Promise<number[]> {
    const list: number[] = [];
    for (let i = 0; i < count; i++) {
      await until(Math.random() * 30);
      const from = performance.now();
      await doubleFrame();
      list.push(performance.now() - from);
    }
    return list;
  },

  /** Milliseconds from opening to the first picture. */
  async open(plain: PlainSource, budget?: number): Promise<number> {
    canvas = document.createElement('canvas');
    canvas.style.width = '960px';
    canvas.style.height = '540px';
    document.body.append(canvas);
    const from = performance.now();
    frames = await openFrameWindow(sourceOf(plain), canvas, budget === undefined ? {} : { budget });
    await frames.seek(frameIndex(0));
    return performance.now() - from;
  },

  async close(): Promise<number> {
    const { window: w, canvas: c } = open();
    await w.close();
    c.remove();
    return w.openFrames();
  },

  async seek(index: number): Promise<void> {
    await open().window.seek(frameIndex(index));
  },

  /** Single steps from a random moment: press to painted picture, milliseconds. */
  async steps(from: number, count: number, by: number, pause: number): Promise<number[]> {
    const { window: w } = open();
    await w.seek(frameIndex(from));
    await until(400);
    const list: number[] = [];
    for (let i = 0; i < count; i++) {
      await until(pause + Math.random() * 30);
      const pressed = performance.now();
      await w.step(by);
      await doubleFrame();
      list.push(performance.now() - pressed);
    }
    return list;
  },

  /** The key held down: the next step as soon as the last one is painted. Frames a second, and wrong pictures. */
  async hold(
    from: number,
    count: number,
    by: number,
    check = false,
  ): Promise<{ rate: number; wrong: number; gaps: number[] }> {
    const { window: w, canvas: c } = open();
    await w.seek(frameIndex(from));
    let wrong = 0;
    const gaps: number[] = [];
    const start = performance.now();
    let before = start;
    for (let i = 0; i < count; i++) {
      await w.step(by);
      if (check && number(c) !== w.asked()) wrong++;
      const now = performance.now();
      gaps.push(now - before);
      before = now;
    }
    return { rate: (count * 1000) / (performance.now() - start), wrong, gaps };
  },

  async jumps(indexes: number[]): Promise<number[]> {
    const { window: w } = open();
    const list: number[] = [];
    for (const index of indexes) {
      const from = performance.now();
      await w.seek(frameIndex(index));
      await doubleFrame();
      list.push(performance.now() - from);
    }
    return list;
  },

  async bareJumps(url: string, seconds: number[]): Promise<number[]> {
    const decoder = await bare(url);
    const list: number[] = [];
    for (const time of seconds) {
      const from = performance.now();
      const sample = await decoder.sink.getSample(time);
      list.push(performance.now() - from);
      sample?.close();
    }
    decoder.done();
    return list;
  },

  /** The first picture of a clip by the bare decoder, drawn. */
  async bareOpen(url: string): Promise<number> {
    const c = document.createElement('canvas');
    document.body.append(c);
    const from = performance.now();
    const decoder = await bare(url);
    const sample = await decoder.sink.getSample(
      await decoder.packets.getFirstPacket().then((p) => p?.timestamp ?? 0),
    );
    const surface = c.getContext('2d');
    c.width = sample?.displayWidth ?? 1;
    c.height = sample?.displayHeight ?? 1;
    if (sample && surface) sample.draw(surface, 0, 0);
    const took = performance.now() - from;
    sample?.close();
    decoder.done();
    c.remove();
    return took;
  },

  /** Frames a second of the bare decoder from the start on. */
  async bareRate(url: string, count: number): Promise<number> {
    const decoder = await bare(url);
    const from = performance.now();
    let got = 0;
    for await (const sample of decoder.sink.samples(0)) {
      sample.close();
      if (++got >= count) break;
    }
    const rate = (got * 1000) / (performance.now() - from);
    decoder.done();
    return rate;
  },

  openFrames: (): number => open().window.openFrames(),
};

declare global {
  interface Window {
    bench: typeof page;
  }
}
window.bench = page;
