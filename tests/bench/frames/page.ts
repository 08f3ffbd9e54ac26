import { ALL_FORMATS, EncodedPacketSink, Input, UrlSource, VideoSampleSink } from 'mediabunny';
import { readPaintedNumber } from '../../../scripts/clips/painted.ts';
import { openFrameWindow, type FrameSource, type FrameWindow } from '../../../src/frames/open.ts';
import { paceOf } from '../../../src/frames/pace.ts';
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
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
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

interface Held {
  readonly rate: number;
  readonly overall: number;
  readonly pictures: number;
  /** Pictures painted. */
  readonly count: number;
  readonly wrong: number;
}

export const page = {
  until: pause,

  /** Milliseconds of an empty double animation frame, from a random moment on. */
  async empty(count: number): Promise<number[]> {
    const list: number[] = [];
    for (let i = 0; i < count; i++) {
      await pause(Math.random() * 30);
      const from = performance.now();
      await doubleFrame();
      list.push(performance.now() - from);
    }
    return list;
  },

  /** Refreshes of the screen in a second, as the page is given them. */
  async screenRate(): Promise<number> {
    await nextFrame();
    const from = performance.now();
    let count = 0;
    while (performance.now() - from < 1000) {
      await nextFrame();
      count++;
    }
    return (count * 1000) / (performance.now() - from);
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

  /** Single steps of the browser's own player on the same clip: asked to painted, milliseconds. */
  async videoSteps(plain: PlainSource, from: number, count: number, by: number): Promise<number[]> {
    const video = document.createElement('video');
    video.muted = true;
    video.preload = 'auto';
    Object.assign(video.style, { width: '960px', height: '540px' });
    document.body.append(video);
    const tick = plain.timeBase[0] / plain.timeBase[1];
    const middle = (index: number): number =>
      (((plain.pts[index] ?? 0) + (plain.pts[index + 1] ?? (plain.pts[index] ?? 0) + 1)) / 2) * tick;
    const go = (time: number): Promise<void> =>
      new Promise((resolve) => {
        video.requestVideoFrameCallback(() => {
          resolve();
        });
        video.currentTime = time;
      });
    await new Promise<void>((resolve, reject) => {
      video.onloadeddata = () => {
        resolve();
      };
      video.onerror = () => {
        reject(new Error(video.error?.message ?? 'no picture'));
      };
      video.src = plain.url;
    });
    await go(middle(from));
    await pause(400);
    const list: number[] = [];
    for (let i = 1; i <= count; i++) {
      await pause(Math.random() * 30);
      const pressed = performance.now();
      await go(middle(from + i * by));
      await nextFrame();
      list.push(performance.now() - pressed);
    }
    video.removeAttribute('src');
    video.load();
    video.remove();
    return list;
  },

  /** Random seeks with a run of steps after each; every number painted must be the one asked for. */
  async walk(
    jumps: number[],
    steps: number,
    { pts: { length: below }, numbers }: PlainSource,
    modulo: number,
  ): Promise<number[]> {
    const { window: w, canvas: c } = open();
    const wrong: number[] = [];
    let asks = 0;
    const look = (): void => {
      asks++;
      if (number(c) !== (numbers?.[w.asked()] ?? w.asked()) % modulo) wrong.push(w.asked());
    };
    for (const jump of jumps) {
      await w.seek(frameIndex(jump));
      look();
      const by = jump % 2 === 0 ? 1 : -1;
      for (let i = 0; i < steps; i++) {
        if (w.asked() + by < 0 || w.asked() + by >= below) break;
        await w.step(by);
        look();
      }
    }
    return [asks, ...wrong];
  },

  async seek(index: number): Promise<void> {
    await open().window.seek(frameIndex(index));
  },

  /** Single steps from a random moment: press to painted picture, milliseconds. */
  async steps(from: number, count: number, by: number, gap: number): Promise<number[]> {
    const { window: w } = open();
    await w.seek(frameIndex(from));
    await pause(1500);
    const list: number[] = [];
    for (let i = 0; i < count; i++) {
      await pause(gap + Math.random() * 3 * gap);
      const pressed = performance.now();
      await w.step(by);
      await doubleFrame();
      list.push(performance.now() - pressed);
    }
    return list;
  },

  /**
   * The key held down from one frame to another: frames of the clip travelled a second, once the pace has outgrown the
   * bare decoder and in all, pictures painted, and wrong ones.
   */
  async hold(from: number, until: number, bare: number, check = false): Promise<Held> {
    const { window: w, canvas: c } = open();
    await w.seek(frameIndex(from));
    await pause(1500);
    const start = performance.now();
    let wrong = 0;
    let pictures = 0;
    let grown: { at: number; index: number } | null = null;
    let end = start;
    const stopListening = w.onShown((index) => {
      pictures++;
      if (check && number(c) !== index) wrong++;
      end = performance.now();
      if (!grown && paceOf(end - start) > bare * 1.25) grown = { at: end, index };
    });
    const journey = w.travel(until > from ? 1 : -1, frameIndex(until));
    await journey.done;
    stopListening();
    const seconds = (performance.now() - start) / 1000;
    const steady = grown as { at: number; index: number } | null;
    return {
      rate: steady ? (Math.abs(until - steady.index) * 1000) / (performance.now() - steady.at) : 0,
      overall: Math.abs(until - from) / seconds,
      pictures: pictures / seconds,
      count: pictures,
      wrong,
    };
  },

  /** A held key let go after some time, both ways in turn: how long until the full picture stands, and which. */
  async halts(count: number, last: number): Promise<{ full: number; right: boolean }[]> {
    const { window: w, canvas: c } = open();
    const list: { full: number; right: boolean }[] = [];
    for (let i = 0; i < count; i++) {
      const forward = i % 2 === 0;
      await w.seek(frameIndex(forward ? 0 : last));
      await pause(300);
      const journey = w.travel(forward ? 1 : -1, frameIndex(forward ? last : 0));
      await pause(300 + (i % 6) * 400);
      const seen = w.shown();
      const pressed = performance.now();
      await journey.stop();
      await nextFrame();
      const full = performance.now() - pressed;
      // Whole clips are shorter than the longest of these journeys: those end by themselves.
      list.push({ full, right: c.width === 1920 && number(c) === w.shown() && w.shown() === seen });
    }
    return list;
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

  /** Wanders at random for so long: jumps, and steps both ways. The most frames held open at one time. */
  async roam(ms: number, frameCount: number, seed: number): Promise<{ most: number; asks: number }> {
    const { window: w } = open();
    const end = performance.now() + ms;
    let x = seed;
    let most = 0;
    let asks = 0;
    while (performance.now() < end) {
      x = (x * 16807) % 2147483647;
      await w.seek(frameIndex(x % frameCount));
      const by = x % 3 === 0 ? -1 : 1;
      for (let i = x % 40; i > 0; i--) {
        await w.step(by);
        most = Math.max(most, w.openFrames());
        asks++;
      }
      asks++;
    }
    return { most, asks };
  },

  openFrames: (): number => open().window.openFrames(),
};

declare global {
  interface Window {
    bench: typeof page;
  }
}
window.bench = page;
