import type { Player } from './desk.ts';

/** The parts of the stage that the desk plays on; `src/frames/stage.ts` has them all. */
export interface PlayedStage {
  readonly mode: 'playing' | 'still';
  rate: number;
  muted: boolean;
  play(): Promise<void>;
  pause(): Promise<void>;
  seek(index: number): Promise<unknown>;
  setLoop(loop: { readonly from: number; readonly to: number } | null): void;
  onFrame(listener: (index: number) => void): () => void;
  onMode(listener: (mode: 'playing' | 'still') => void): () => void;
}

/** What the player tells. */
export interface Told {
  frame(index: number): void;
  playing(playing: boolean): void;
  trouble(error: unknown): void;
}

/**
 * Plays the desk's wishes on a stage. A stage takes a moment to stop and to show a frame; wishes that come meanwhile
 * are kept, the newest wins, and frames that are reported on the way do not move the desk back.
 */
export function stagePlayer(stage: PlayedStage, told: Told): Player & { leave(): void } {
  let wish: number | null = null;
  let pausing: Promise<void> | null = null;
  let left = false;

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

  return {
    show(frame) {
      wish = frame;
      return pausing ? pausing.then(seek) : seek();
    },
    play() {
      stage.play().catch(trouble);
    },
    pause() {
      if (pausing) return;
      told.playing(false);
      pausing = stage
        .pause()
        .catch(trouble)
        .then(() => {
          pausing = null;
        });
      void pausing.then(seek);
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
