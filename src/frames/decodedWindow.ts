import type { FrameIndex } from '../time/units.ts';
import {
  clampFrame,
  defaultBudget,
  type FrameSource,
  type FrameWindow,
  type FrameWindowOptions,
  type Outcome,
} from './frameWindow.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import { Journey } from './travelling.ts';
import { FrameTrouble } from './trouble.ts';
import { paintUpright } from './upright.ts';
import { readyWorker, takeWorker } from './workers.ts';

interface Ask {
  readonly index: FrameIndex;
  resolve(outcome: Outcome): void;
  reject(error: FrameTrouble): void;
}

type Opened = Extract<FromWorker, { type: 'opened' }>;

interface Arrived {
  readonly index: FrameIndex;
  readonly frame: VideoFrame;
}

interface PictureAsk {
  resolve(picture: ImageBitmap): void;
  reject(error: FrameTrouble): void;
}

/** A hurried journey leaves the cores to the decoder for so long between two pictures. Milliseconds. */
const breath = 48;

/**
 * Opens a frame window that decodes in a worker. Rejects with a FrameTrouble: `cannotDecode` and `misaligned` ask
 * for a working copy, `unreachable` for the file. The canvas takes the size of the upright picture.
 */
export async function openDecodedWindow(
  source: FrameSource,
  canvas: HTMLCanvasElement,
  options: FrameWindowOptions = {},
): Promise<FrameWindow> {
  const surface = canvas.getContext('2d', { alpha: false });
  if (!surface) throw new FrameTrouble('cannotDecode', 'no canvas to paint on');
  if (typeof VideoDecoder === 'undefined') throw new FrameTrouble('cannotDecode', 'no WebCodecs here');
  const worker = takeWorker();
  const send = (message: ToWorker): void => worker.postMessage(message);
  const { table } = source;

  let asks: Ask[] = [];
  const pictures = new Map<number, PictureAsk>();
  const listeners = new Set<(index: FrameIndex) => void>();
  let asked = clampFrame(table, 0);
  let shown: FrameIndex | null = null;
  let inHand = 0;
  let inWorker = 0;
  let nextPicture = 1;
  let waiting: Arrived | null = null;
  let refreshing = false;
  let broken: FrameTrouble | null = null;
  let opened: { resolve(found: Opened): void; reject(error: FrameTrouble): void } | null = null;
  let journey: Journey | null = null;
  let journeys = 0;
  let closing: { done: Promise<void>; resolve(): void } | null = null;

  const settle = (index: number, how: 'shown' | FrameTrouble): void => {
    const place = asks.findLastIndex((a) => a.index === index);
    const settled = asks.slice(0, place + 1);
    asks = asks.slice(place + 1);
    for (const ask of settled) {
      if (ask.index !== index) ask.resolve('overtaken');
      else if (how === 'shown') ask.resolve('shown');
      else ask.reject(how);
    }
  };

  const draw = (frame: VideoFrame, width: number, height: number): void => {
    if (canvas.width !== width) canvas.width = width;
    if (canvas.height !== height) canvas.height = height;
    paintUpright(surface, frame, width, height, source.rotation, source);
  };

  const paint = ({ index, frame }: Arrived): void => {
    const wanted = !closing && asks.some((a) => a.index === index);
    if (wanted) {
      draw(frame, source.width, source.height);
      shown = index;
    }
    frame.close();
    inHand--;
    if (!wanted) return;
    settle(index, 'shown');
    readyWorker();
    for (const listener of listeners) listener(index);
  };

  /** Paints at once, but no more than once a screen refresh: what comes in between waits, the newest of it wins. */
  const arrive = (arrived: Arrived): void => {
    inHand++;
    if (waiting) {
      waiting.frame.close();
      inHand--;
    }
    waiting = arrived;
    if (!refreshing) refresh();
  };
  const refresh = (): void => {
    const next = waiting;
    waiting = null;
    refreshing = next !== null;
    if (!next) return;
    paint(next);
    soon(refresh);
  };

  /** A picture on the way of a held key, no larger than it is seen. */
  const pass = (n: number, index: FrameIndex, frame: VideoFrame | null): void => {
    const going = journey !== null && !journey.over && n === journeys ? journey : null;
    if (going && frame) {
      const seen = Math.ceil(canvas.clientWidth * devicePixelRatio) || source.width;
      const share = Math.min(1, seen / source.width);
      draw(frame, Math.round(source.width * share), Math.round(source.height * share));
      shown = index;
      asked = index;
      going.reached(index);
    }
    frame?.close();
    if (!going) return;
    if (frame && going.hurries) setTimeout(() => soon(() => going.next()), breath);
    else soon(() => going.next());
    if (frame) for (const listener of listeners) listener(index);
  };

  const fail = (trouble: FrameTrouble): void => {
    opened?.reject(trouble);
    journey?.breakOff();
    for (const ask of asks) ask.reject(trouble);
    asks = [];
    for (const ask of pictures.values()) ask.reject(trouble);
    pictures.clear();
  };

  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    switch (data.type) {
      case 'opened':
        opened?.resolve(data);
        break;
      case 'refused':
        broken = new FrameTrouble(data.code, data.detail);
        fail(broken);
        break;
      case 'frame':
        arrive({ index: clampFrame(table, data.index), frame: data.frame });
        break;
      case 'travelled':
        pass(data.n, clampFrame(table, data.index), data.frame);
        break;
      case 'lost':
        settle(data.index, new FrameTrouble(data.code, data.detail, data.index));
        break;
      case 'picture': {
        const ask = pictures.get(data.n);
        pictures.delete(data.n);
        if (ask) ask.resolve(data.picture);
        else data.picture.close();
        break;
      }
      case 'noPicture':
        pictures.get(data.n)?.reject(new FrameTrouble(data.code, data.detail, data.index));
        pictures.delete(data.n);
        break;
      case 'count':
        inWorker = data.open;
        break;
      case 'closed':
        if (waiting) paint(waiting);
        waiting = null;
        inWorker = data.open;
        worker.terminate();
        closing?.resolve();
        break;
    }
  };
  worker.onerror = (event) => {
    event.preventDefault();
    broken = new FrameTrouble('cannotDecode', event.message);
    fail(broken);
    closing?.resolve();
  };

  const close = (): Promise<void> => {
    if (closing) return closing.done;
    let resolve = (): void => undefined;
    const done = new Promise<void>((r) => (resolve = r));
    closing = { done, resolve };
    listeners.clear();
    fail(new FrameTrouble('closed'));
    send({ type: 'close' });
    return done;
  };

  let found: Opened;
  try {
    found = await new Promise<Opened>((resolve, reject) => {
      opened = { resolve, reject };
      const pts = Float64Array.from(table.pts);
      worker.postMessage(
        {
          type: 'open',
          url: new URL(source.url, document.baseURI).href,
          timeBase: [table.timeBase.num, table.timeBase.den],
          pts,
          width: source.width,
          height: source.height,
          rotation: source.rotation,
          budget: options.budget ?? defaultBudget,
          keysIn: options.keysIn ?? null,
          quiet: options.quiet ?? 0,
        } satisfies ToWorker,
        [pts.buffer],
      );
    });
  } catch (error) {
    worker.terminate();
    throw error;
  }

  const seek = (wish: number): Promise<Outcome> => {
    if (closing || broken) return Promise.reject(broken ?? new FrameTrouble('closed'));
    journey?.breakOff();
    asked = clampFrame(table, wish);
    const index = asked;
    return new Promise((resolve, reject) => {
      asks.push({ index, resolve, reject });
      send({ type: 'show', index });
    });
  };

  return {
    seek,
    step: (by) => seek(asked + by),
    travel(by, until) {
      journey?.breakOff();
      const n = ++journeys;
      const going = new Journey(by, asked, until, {
        ask: (target) => send({ type: 'travel', n, by, target }),
        later: () => soon(() => going.next()),
        settle: () => seek(asked),
      });
      journey = going;
      if (closing || broken) going.breakOff();
      else going.next();
      return going;
    },
    asked: () => asked,
    shown: () => shown,
    offset: found.offset,
    keys: found.keys,
    onShown(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    picture(wish, maxWidth) {
      if (closing || broken) return Promise.reject(broken ?? new FrameTrouble('closed'));
      const n = nextPicture++;
      const index = clampFrame(table, wish);
      return new Promise((resolve, reject) => {
        pictures.set(n, { resolve, reject });
        send({ type: 'picture', n, index, maxWidth });
      });
    },
    openFrames: () => inHand + inWorker,
    close,
  };
}

/** Runs a task at the next screen refresh; a hidden page has none, so a clock stands in. */
function soon(task: () => void): void {
  const run = (): void => {
    clearTimeout(timer);
    cancelAnimationFrame(frame);
    task();
  };
  const timer = setTimeout(run, 100);
  const frame = requestAnimationFrame(run);
}
