import type { FrameIndex } from '../time/units.ts';
import {
  clampFrame,
  type FrameSource,
  type FrameWindow,
  type FrameWindowOptions,
  type Outcome,
  type Travelling,
} from './frameWindow.ts';
import { openFrameWindow } from './open.ts';
import { openPlayer, type Loop, type Player } from './player.ts';
import { FrameTrouble } from './trouble.ts';
import { readyWorker } from './workers.ts';

export type { FrameSource } from './frameWindow.ts';
export type { Loop } from './player.ts';

/** `playing`: the player's picture is seen; `still`: one exact frame is. */
export type StageMode = 'playing' | 'still';

/**
 * Where a clip is watched: one picture that either plays or stands still on an exact frame. It fills its container
 * (which must have a size and a position of its own) and switches without a flash.
 */
export interface Stage {
  /** Opens a clip on its first frame, closing the one before. Rejects with a FrameTrouble. */
  open(source: FrameSource, options?: FrameWindowOptions): Promise<void>;
  close(): Promise<void>;
  play(): Promise<void>;
  /** Stops on the frame on screen and shows exactly that one. */
  pause(): Promise<void>;
  toggle(): Promise<void>;
  /** Shows exactly this frame; while playing, goes on playing from it. */
  seek(index: FrameIndex): Promise<Outcome>;
  /** Steps from the frame asked for last, pausing first. */
  step(by: number): Promise<Outcome>;
  /** A key is held: travels to this frame at most, pausing first; resolves when it has stopped. */
  travel(by: 1 | -1, until: FrameIndex): Promise<void>;
  /** Ends travelling on the frame on screen. */
  halt(): Promise<void>;
  /** The frame on screen; null before the first. */
  frame(): FrameIndex | null;
  readonly mode: StageMode;
  /** Pace of playing, 1/16 to 2. */
  rate: number;
  loop: Loop | null;
  muted: boolean;
  /** 0 to 1. */
  volume: number;
  /** The frame window of the open clip, for pictures of single frames; null while none is open. */
  readonly window: FrameWindow | null;
  /** The canvas with the still picture, to be looked at closely. */
  readonly canvas: HTMLCanvasElement;
  onFrame(listener: (index: FrameIndex) => void): () => void;
  onMode(listener: (mode: StageMode) => void): () => void;
  onTrouble(listener: (trouble: FrameTrouble) => void): () => void;
}

/** After this long on one frame the player is brought there too, so that playing starts at once. Milliseconds. */
const readyAfter = 300;

/** Makes an empty stage in a container. */
export function openStage(container: HTMLElement): Stage {
  // The clip itself is asked for a moment later.
  readyWorker();
  const playerBox = document.createElement('div');
  const canvas = document.createElement('canvas');
  for (const part of [playerBox, canvas]) {
    Object.assign(part.style, { position: 'absolute', left: '0', top: '0', width: '100%', height: '100%' });
  }
  canvas.style.objectFit = 'contain';
  canvas.style.visibility = 'hidden';
  playerBox.style.visibility = 'hidden';
  container.append(playerBox, canvas);

  const frameListeners = new Set<(index: FrameIndex) => void>();
  const modeListeners = new Set<(mode: StageMode) => void>();
  const troubleListeners = new Set<(trouble: FrameTrouble) => void>();
  let frames: FrameWindow | null = null;
  let player: Player | null = null;
  let source: FrameSource | null = null;
  let mode: StageMode = 'still';
  let current: FrameIndex | null = null;
  let rate = 1;
  let loop: Loop | null = null;
  let muted = false;
  let volume = 1;
  let generation = 0;
  let pausing: Promise<void> | null = null;
  let starting: Promise<void> | null = null;
  let calledOff = false;
  let loading: Promise<void> = Promise.resolve();
  let journey: Travelling | null = null;
  let halted = false;
  let readying: ReturnType<typeof setTimeout> | undefined;

  const tell = <T>(set: Set<(value: T) => void>, value: T): void => {
    for (const listener of set) listener(value);
  };
  const trouble = (error: unknown): void => {
    if (error instanceof FrameTrouble && error.code === 'closed') return;
    tell(troubleListeners, error instanceof FrameTrouble ? error : new FrameTrouble('unsure', String(error)));
  };
  const setMode = (next: StageMode): void => {
    canvas.style.visibility = next === 'still' ? 'visible' : 'hidden';
    playerBox.style.visibility = next === 'playing' ? 'visible' : 'hidden';
    if (mode === next) return;
    mode = next;
    tell(modeListeners, next);
  };
  const setFrame = (index: FrameIndex): void => {
    current = index;
    tell(frameListeners, index);
  };
  const readySoon = (): void => {
    clearTimeout(readying);
    readying = setTimeout(() => {
      if (mode === 'still' && frames && player) void player.prepare(frames.asked()).catch(trouble);
    }, readyAfter);
  };
  const must = (): { frames: FrameWindow; source: FrameSource } => {
    if (!frames || !source) throw new FrameTrouble('closed');
    return { frames, source };
  };

  const still = async (index: FrameIndex): Promise<Outcome> => {
    const outcome = await must().frames.seek(index);
    if (outcome === 'shown') setMode('still');
    return outcome;
  };

  /** From the player to the still of the frame that it stopped on; a picture that comes late is followed. */
  const handOver = async (stopped: FrameIndex): Promise<void> => {
    for (let index = stopped, looks = 1; ; looks++) {
      const outcome = await must().frames.seek(index);
      if (outcome !== 'shown') return;
      const now = player?.onScreen() ?? index;
      if (now === index || looks === 3) break;
      index = now;
    }
    setMode('still');
  };

  const pause = async (): Promise<void> => {
    // A start that is under way is called off; what has started by then is stopped.
    if (starting) calledOff = true;
    if (starting) void player?.pause();
    await starting?.catch(() => undefined);
    if (mode === 'still' || !player) return;
    pausing ??= player
      .pause()
      .then(handOver)
      .finally(() => (pausing = null));
    await pausing;
  };

  const start = async (): Promise<void> => {
    calledOff = false;
    await loading;
    if (calledOff) return;
    const { frames: window, source: clip } = must();
    if (!player) throw new FrameTrouble('cannotPlay');
    clearTimeout(readying);
    const last = clip.table.pts.length - 1;
    const here = window.asked();
    await player.play(here >= last && !loop ? clampFrame(clip.table, 0) : here);
    if (player.playing) setMode('playing');
  };

  const play = (): Promise<void> => {
    if (mode === 'playing') return pausing ? pausing.then(play) : Promise.resolve();
    starting ??= start().finally(() => (starting = null));
    return starting;
  };

  /** Playing broke off: what was on screen last stands still. */
  const stranded = (error: FrameTrouble): void => {
    trouble(error);
    if (mode === 'playing' && current !== null) void still(current).catch(trouble);
  };

  const load = async (clip: FrameSource, offset: number | null, mine: number): Promise<void> => {
    const made = await openPlayer(playerBox, clip, offset);
    if (mine !== generation) {
      made.close();
      return;
    }
    made.setRate(rate);
    made.setLoop(loop);
    made.setMuted(muted);
    made.setVolume(volume);
    made.onFrame((index) => mode === 'playing' && !pausing && setFrame(index));
    made.onEnded(() => void pause().catch(trouble));
    made.onTrouble(stranded);
    player = made;
  };

  const close = async (): Promise<void> => {
    generation++;
    clearTimeout(readying);
    const old = { frames, player };
    frames = null;
    player = null;
    source = null;
    current = null;
    canvas.style.visibility = 'hidden';
    playerBox.style.visibility = 'hidden';
    if (mode !== 'still') {
      mode = 'still';
      tell(modeListeners, mode);
    }
    old.player?.close();
    await old.frames?.close();
  };

  return {
    async open(next, options = {}) {
      await close();
      const mine = generation;
      const opened = await openFrameWindow(next, canvas, options);
      if (mine !== generation) {
        await opened.close();
        throw new FrameTrouble('closed');
      }
      frames = opened;
      source = next;
      opened.onShown((index) => {
        if (mode === 'still' || pausing) setFrame(index);
        readySoon();
      });
      await still(clampFrame(next.table, 0)).catch((error: unknown) => {
        // One bad frame at the beginning does not make the rest unfit to look at.
        if (!(error instanceof FrameTrouble) || error.code !== 'damaged') throw error;
        trouble(error);
        setMode('still');
      });
      // The first picture does not wait for the player, and a clip that cannot be played can still be stepped through.
      loading = load(next, opened.offset, mine).catch(trouble);
    },
    close,
    play,
    pause,
    toggle: () => (mode === 'playing' || starting ? pause() : play()),
    async seek(wish) {
      const { source: clip } = must();
      const index = clampFrame(clip.table, wish);
      await pausing;
      if (mode === 'still' || !player) return still(index);
      await player.play(index);
      return 'shown';
    },
    async step(by) {
      await pause();
      const outcome = await must().frames.step(by);
      if (outcome === 'shown') setMode('still');
      return outcome;
    },
    async travel(by, until) {
      halted = false;
      await pause();
      if (halted) return;
      journey = must().frames.travel(by, until);
      await journey.done;
    },
    async halt() {
      halted = true;
      await journey?.stop();
    },
    frame: () => current,
    get mode() {
      return mode;
    },
    get rate() {
      return rate;
    },
    set rate(next) {
      rate = next;
      player?.setRate(next);
    },
    get loop() {
      return loop;
    },
    set loop(next) {
      loop = next;
      player?.setLoop(next);
    },
    get muted() {
      return muted;
    },
    set muted(next) {
      muted = next;
      player?.setMuted(next);
    },
    get volume() {
      return volume;
    },
    set volume(next) {
      volume = next;
      player?.setVolume(next);
    },
    get window() {
      return frames;
    },
    canvas,
    onFrame(listener) {
      frameListeners.add(listener);
      return () => frameListeners.delete(listener);
    },
    onMode(listener) {
      modeListeners.add(listener);
      return () => modeListeners.delete(listener);
    },
    onTrouble(listener) {
      troubleListeners.add(listener);
      return () => troubleListeners.delete(listener);
    },
  };
}
