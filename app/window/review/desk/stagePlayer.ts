import type { Player } from './desk.ts';

/** The parts of the stage that the desk plays on; `src/frames/stage.ts` has them all. */
export interface PlayedStage {
  readonly mode: 'playing' | 'still';
  rate: number;
  muted: boolean;
  play(): Promise<void>;
  pause(): Promise<void>;
  seek(index: number): Promise<unknown>;
  /** Travels to this frame at most; resolves when it has stopped. */
  travel(by: 1 | -1, until: number): Promise<void>;
  halt(): Promise<void>;
  /** The frame on the screen; null before the first. */
  frame(): number | null;
  setLoop(loop: { readonly from: number; readonly to: number } | null): void;
  onFrame(listener: (index: number) => void): () => void;
  onMode(listener: (mode: 'playing' | 'still') => void): () => void;
}

/** What the player tells. */
export interface Told {
  frame(index: number): void;
  playing(playing: boolean): void;
  /** A step was owed when the run stopped: this is the frame it leads to. */
  stepped(index: number): void;
  trouble(error: unknown): void;
}

/**
 * Plays the desk's wishes on a stage. A stage takes a moment to stop and to show a frame; wishes that come meanwhile
 * are kept, the newest wins, and frames that are reported on the way do not move the desk back.
 */
export function stagePlayer(stage: PlayedStage, told: Told): Player & { leave(): void } {
  let wish: number | null = null;
  let pausing: Promise<void> | null = null;
  /** Frames to step on from wherever the run stops. */
  let owed: number | null = null;
  /** Settles when the frame asked for last is on screen. */
  let shown: Promise<void> = Promise.resolve();
  let left = false;
  /** The key was let go, perhaps before the journey began. */
  let halted = false;

  const trouble = (error: unknown): void => {
    if (!left) told.trouble(error);
  };

  const seek = async (): Promise<void> => {
    const wanted = wish;
    if (wanted === null || left) return;
    await stage.seek(wanted).catch(trouble);
    if (wish === wanted) wish = null;
  };

  const stops = [
    stage.onFrame((index) => {
      if (wish === null) told.frame(index);
    }),
    stage.onMode((mode) => {
      told.playing(mode === 'playing');
    }),
  ];

  /** After the stop: to the frame asked for meanwhile, or on by the steps that are owed. */
  const goOn = async (): Promise<void> => {
    const stopped = stage.frame();
    const by = owed;
    owed = null;
    if (by === null || stopped === null || left) return seek();
    told.stepped(stopped + by);
    await shown;
  };

  const pause = (): Promise<void> => {
    if (!pausing) {
      told.playing(false);
      pausing = stage
        .pause()
        .catch(trouble)
        .then(() => {
          pausing = null;
          return goOn();
        });
    }
    return pausing;
  };

  return {
    show(frame) {
      owed = null;
      wish = frame;
      shown = pausing ?? seek();
      return shown;
    },
    stepOff(by) {
      if (!pausing && stage.mode !== 'playing') return null;
      // A frame asked for while it stops is where the step starts from.
      if (pausing && wish !== null) return null;
      owed = (owed ?? 0) + by;
      return pause();
    },
    play() {
      stage.play().catch(trouble);
    },
    pause() {
      void pause();
    },
    async travel(by, until) {
      halted = false;
      await (pausing ?? shown);
      if (!left && !halted) await stage.travel(by, until).catch(trouble);
    },
    halt() {
      halted = true;
      stage.halt().catch(trouble);
    },
    setSpeed(speed) {
      stage.rate = speed;
    },
    setMuted(muted) {
      stage.muted = muted;
    },
    setLoop(loop) {
      stage.setLoop(loop);
    },
    leave() {
      left = true;
      for (const stop of stops) stop();
    },
  };
}
