import type { FrameIndex } from '../time/units.ts';
import {
  clampFrame,
  type FrameSource,
  type FrameWindow,
  type Outcome,
  type Travelling,
} from './frameWindow.ts';
import { likelyOffsets, mediaClock } from './mediaClock.ts';
import { FrameTrouble } from './trouble.ts';
import { paintUpright } from './upright.ts';
import { frameNow, loadVideo } from './videoElement.ts';

interface Ask {
  readonly index: FrameIndex;
  readonly maxWidth: number | null;
  shown(picture: ImageBitmap | null): void;
  overtaken(): void;
  failed(error: unknown): void;
}

/** Looks at the picture this often after a seek, and seeks anew this often, before giving up on a frame. */
const looks = 12;
const tries = 4;

/**
 * Opens a frame window on the browser's own player, for clips that cannot be decoded frame by frame. It goes to the
 * middle of the frame and believes the picture only when its media time is that frame's; slow, but never wrong.
 * Rejects with a FrameTrouble `cannotPlay` where the browser shows no picture.
 */
export async function openVideoWindow(source: FrameSource, canvas: HTMLCanvasElement): Promise<FrameWindow> {
  const surface = canvas.getContext('2d', { alpha: false });
  if (!surface) throw new FrameTrouble('cannotDecode', 'no canvas to paint on');
  const video = document.createElement('video');
  video.muted = true;
  await loadVideo(video, source.url);
  const { table } = source;
  const clock = mediaClock(table, likelyOffsets(table, null));
  const listeners = new Set<(index: FrameIndex) => void>();
  let seeks: Ask[] = [];
  let pictures: Ask[] = [];
  let asked = clampFrame(table, 0);
  let shown: FrameIndex | null = null;
  let open = 0;
  let closed = false;
  let working = false;

  /** Brings the player to a frame; the caller closes it. Null where a later seek came between. */
  const fetchFrame = async (ask: Ask): Promise<VideoFrame | null> => {
    const middle = clock.middleOf(ask.index);
    for (let t = 0; t < tries; t++) {
      // A player that believes it is there already does nothing: the last tries come from elsewhere.
      video.currentTime = middle + (t % 2 === 1 ? 1e-4 : 0);
      for (let look = 0; look < looks; look++) {
        await settled(video);
        if (closed || (ask.maxWidth === null && seeks.at(-1) !== ask)) return null;
        const frame = frameNow(video);
        if (frame && clock.frameAt(frame.timestamp / 1e6) === ask.index) {
          open++;
          return frame;
        }
        frame?.close();
      }
    }
    throw new FrameTrouble('unsure', `not found at ${middle} s`, ask.index);
  };

  const serve = async (ask: Ask): Promise<void> => {
    try {
      const frame = await fetchFrame(ask);
      if (!frame) {
        ask.overtaken();
        return;
      }
      try {
        if (ask.maxWidth === null) {
          if (canvas.width !== source.width) canvas.width = source.width;
          if (canvas.height !== source.height) canvas.height = source.height;
          // The browser's player has turned the picture already.
          paintUpright(surface, frame, source.width, source.height, 0);
          shown = ask.index;
          ask.shown(null);
          for (const listener of listeners) listener(ask.index);
        } else {
          const width = Math.max(1, Math.min(source.width, Math.round(ask.maxWidth)));
          const height = Math.max(1, Math.round((source.height * width) / source.width));
          const options = { resizeWidth: width, resizeHeight: height, resizeQuality: 'medium' } as const;
          ask.shown(await createImageBitmap(frame, options));
        }
      } finally {
        frame.close();
        open--;
      }
    } catch (error) {
      ask.failed(error);
    }
  };

  const work = async (): Promise<void> => {
    if (working) return;
    working = true;
    while (!closed) {
      const newest = seeks.at(-1);
      if (newest) {
        for (const older of seeks.slice(0, -1)) older.overtaken();
        seeks = [newest];
        await serve(newest);
        seeks = seeks.filter((a) => a !== newest);
        continue;
      }
      const picture = pictures.shift();
      if (!picture) break;
      await serve(picture);
    }
    working = false;
  };

  const seek = (wish: number): Promise<Outcome> => {
    if (closed) return Promise.reject(new FrameTrouble('closed'));
    asked = clampFrame(table, wish);
    const index = asked;
    return new Promise((resolve, reject) => {
      seeks.push({
        index,
        maxWidth: null,
        shown: () => resolve('shown'),
        overtaken: () => (closed ? reject(new FrameTrouble('closed')) : resolve('overtaken')),
        failed: reject,
      });
      void work();
    });
  };

  return {
    seek,
    step: (by) => seek(asked + by),
    travel(by, until): Travelling {
      let on = true;
      const go = async (): Promise<void> => {
        while (on && !closed && asked !== until) {
          const index = asked + by;
          if ((await seek(index)) === 'overtaken' || asked !== index) on = false;
        }
      };
      const done = go();
      return {
        done,
        stop() {
          on = false;
          return done;
        },
      };
    },
    asked: () => asked,
    shown: () => shown,
    offset: null,
    keys: [],
    onShown(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    picture(wish, maxWidth) {
      if (closed) return Promise.reject(new FrameTrouble('closed'));
      return new Promise((resolve, reject) => {
        pictures.push({
          index: clampFrame(table, wish),
          maxWidth,
          shown: (picture) => (picture ? resolve(picture) : reject(new FrameTrouble('unsure'))),
          overtaken: () => reject(new FrameTrouble('closed')),
          failed: reject,
        });
        void work();
      });
    },
    openFrames: () => open,
    async close() {
      closed = true;
      listeners.clear();
      for (const ask of [...seeks, ...pictures]) ask.failed(new FrameTrouble('closed'));
      seeks = [];
      pictures = [];
      video.removeAttribute('src');
      video.load();
      while (open > 0) await new Promise((resolve) => setTimeout(resolve, 5));
    },
  };
}

/** Waits until a seek has ended, or for a moment where none is under way. */
function settled(video: HTMLVideoElement): Promise<void> {
  return new Promise((resolve) => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const done = (): void => {
      video.removeEventListener('seeked', done);
      clearTimeout(timer);
      resolve();
    };
    if (video.seeking) {
      video.addEventListener('seeked', done);
      timer = setTimeout(done, 1500);
    } else {
      timer = setTimeout(done, 30);
    }
  });
}
