// The declarations of a module path have no import of their own; only a reference brings them in.
// eslint-disable-next-line @typescript-eslint/triple-slash-reference -- see above
/// <reference path="./videojsCore.d.ts" />
import type { FrameIndex } from '../time/units.ts';
import { clampFrame, type FrameSource } from './frameWindow.ts';
import { likelyOffsets, mediaClock } from './mediaClock.ts';
import { FrameTrouble } from './trouble.ts';
import { firstPicture, shownTime } from './videoElement.ts';

/** Slowest and fastest playback; browsers refuse to go slower or faster. */
export const slowest = 1 / 16;
export const fastest = 16;

/** A stretch of frames to play over and over, both ends included. */
export interface Loop {
  readonly from: FrameIndex;
  readonly to: FrameIndex;
}

/** Plays a clip. It knows which frame is on screen, by the frame table, never by a rate. */
export interface Player {
  /** Starts at this frame, or where it stands. Resolves once the picture moves. */
  play(from?: FrameIndex): Promise<void>;
  /** Stops and tells which frame is on screen. */
  pause(): Promise<FrameIndex>;
  /** The frame that the player has on screen now: on a busy machine one may come after it was told to stop. */
  onScreen(): FrameIndex;
  /** Moves to a frame while still, so that playing starts from there at once. */
  prepare(index: FrameIndex): Promise<void>;
  readonly playing: boolean;
  /** Sets the pace, within 1/16 to 16: slow motion eight times stretched can be seen as fast as it was. */
  setRate(rate: number): void;
  setLoop(loop: Loop | null): void;
  setMuted(muted: boolean): void;
  /** 0 to 1. */
  setVolume(volume: number): void;
  /** Called with each frame that comes on screen while playing. */
  onFrame(listener: (index: FrameIndex) => void): () => void;
  /** Called when the clip has played to its end. */
  onEnded(listener: () => void): () => void;
  onTrouble(listener: (trouble: FrameTrouble) => void): () => void;
  close(): void;
}

/** Longest wait for a picture after a seek, milliseconds. */
const patience = 3000;

/**
 * Opens a player inside `container`, filling it. No controls and no style of its own: it is worked from outside.
 * @param offset seconds from the table's clock to the file's, where the frame window found it
 * Rejects with a FrameTrouble `cannotPlay` where the browser shows no picture.
 */
export async function openPlayer(
  container: HTMLElement,
  source: FrameSource,
  offset: number | null,
): Promise<Player> {
  // Read by video.js when it loads; without it, it writes style elements that the content policy forbids.
  Object.assign(window, { VIDEOJS_NO_DYNAMIC_STYLE: true });
  const { default: videojs } = await import('video.js/core.es.js');
  const video = document.createElement('video');
  video.playsInline = true;
  container.append(video);
  const player = videojs(video, {
    controls: false,
    controlBar: false,
    preload: 'auto',
    bigPlayButton: false,
    loadingSpinner: false,
    posterImage: false,
    errorDisplay: false,
    textTrackDisplay: false,
    textTrackSettings: false,
    titleBar: false,
    liveTracker: false,
    resizeManager: false,
    userActions: { click: false, doubleClick: false, hotkeys: false },
    playbackRates: [],
  });
  for (const part of [player.el(), video]) {
    if (!(part instanceof HTMLElement)) continue;
    Object.assign(part.style, { position: 'absolute', left: '0', top: '0', width: '100%', height: '100%' });
  }
  video.style.objectFit = 'contain';
  video.tabIndex = -1;
  try {
    const ready = firstPicture(video);
    // video.js asks for a type before it hands an address on; what the file is, the browser finds out by itself.
    player.src({ src: source.url, type: 'video/mp4' });
    await ready;
  } catch (error) {
    player.dispose();
    throw error;
  }

  const { table } = source;
  const clock = mediaClock(table, likelyOffsets(table, offset));
  const frameListeners = new Set<(index: FrameIndex) => void>();
  const endListeners = new Set<() => void>();
  const troubleListeners = new Set<(trouble: FrameTrouble) => void>();
  let loop: Loop | null = null;
  let current: FrameIndex | null = null;
  let playing = false;
  let closed = false;
  let turn = 0;

  /** The frame on screen: by the picture's own time; failing that, by the player's clock. */
  const onScreen = (): FrameIndex => {
    const time = shownTime(video);
    const exact = time === null ? null : clock.frameAt(time);
    return exact ?? current ?? clock.frameNear(video.currentTime);
  };

  const seekTo = (index: FrameIndex): Promise<void> =>
    new Promise((resolve) => {
      const done = (): void => {
        clearTimeout(timer);
        video.removeEventListener('seeked', done);
        resolve();
      };
      const timer = setTimeout(done, patience);
      video.addEventListener('seeked', done);
      video.currentTime = clock.middleOf(index);
    });

  const restart = (from: FrameIndex): void => {
    video.currentTime = clock.middleOf(from);
    if (video.paused) void video.play().catch(() => undefined);
  };

  const presented: VideoFrameRequestCallback = (_, metadata) => {
    if (closed) return;
    video.requestVideoFrameCallback(presented);
    const index = clock.frameAt(metadata.mediaTime);
    if (index === null) return;
    current = index;
    if (!playing) return;
    for (const listener of frameListeners) listener(index);
    if (loop && !video.seeking && (index >= loop.to || index < loop.from)) restart(loop.from);
  };
  video.requestVideoFrameCallback(presented);

  const ended = (): void => {
    if (!playing) return;
    if (loop) {
      restart(loop.from);
      return;
    }
    for (const listener of endListeners) listener();
  };
  const failed = (): void => {
    playing = false;
    const trouble = new FrameTrouble('cannotPlay', video.error?.message ?? '');
    for (const listener of troubleListeners) listener(trouble);
  };
  video.addEventListener('ended', ended);
  video.addEventListener('error', failed);

  const listen = <T>(set: Set<T>, listener: T): (() => void) => {
    set.add(listener);
    return () => set.delete(listener);
  };

  return {
    async play(from) {
      const mine = ++turn;
      const start = from ?? (loop ? Math.max(loop.from, Math.min(loop.to, onScreen())) : onScreen());
      const index = clampFrame(table, loop && start >= loop.to ? loop.from : start);
      if (onScreen() !== index || video.ended) await seekTo(index);
      if (mine !== turn || closed) return;
      playing = true;
      current = index;
      try {
        await video.play();
      } catch (error) {
        // Pausing again before the first picture is no trouble.
        if (mine !== turn || closed) return;
        playing = false;
        throw new FrameTrouble('cannotPlay', String(error));
      }
    },
    async pause() {
      turn++;
      playing = false;
      video.pause();
      let index = onScreen();
      // A picture on its way when the pause came is still put on screen; the last word is a picture that stays.
      for (let calm = 0, looks = 0; calm < 2 && looks < 20; looks++) {
        await nextPicture();
        const now = onScreen();
        calm = now === index ? calm + 1 : 0;
        index = now;
      }
      current = index;
      return index;
    },
    onScreen,
    async prepare(index) {
      if (playing || closed || onScreen() === index) return;
      await seekTo(index);
    },
    get playing() {
      return playing;
    },
    setRate(rate) {
      const wanted = Number.isFinite(rate) ? rate : 1;
      const within = Math.max(slowest, Math.min(fastest, wanted));
      player.defaultPlaybackRate(within);
      player.playbackRate(within);
    },
    setLoop(next) {
      loop = next && { from: clampFrame(table, next.from), to: clampFrame(table, next.to) };
      if (loop && loop.from >= loop.to) loop = null;
    },
    setMuted: (muted) => void player.muted(muted),
    setVolume: (volume) => void player.volume(Math.max(0, Math.min(1, Number.isFinite(volume) ? volume : 1))),
    onFrame: (listener) => listen(frameListeners, listener),
    onEnded: (listener) => listen(endListeners, listener),
    onTrouble: (listener) => listen(troubleListeners, listener),
    close() {
      closed = true;
      playing = false;
      turn++;
      video.removeEventListener('ended', ended);
      video.removeEventListener('error', failed);
      player.dispose();
    },
  };
}

/** The next time the screen is drawn; a hidden page draws none, so a clock stands in. */
function nextPicture(): Promise<void> {
  return new Promise((resolve) => {
    const timer = setTimeout(done, 60);
    const frame = requestAnimationFrame(done);
    function done(): void {
      clearTimeout(timer);
      cancelAnimationFrame(frame);
      resolve();
    }
  });
}
