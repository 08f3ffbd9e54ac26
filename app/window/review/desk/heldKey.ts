import type { Player } from './desk.ts';

/** What a held key needs to know of the desk. */
interface Road {
  player(): Player | null;
  /** Settles when the frame asked for last is on screen. */
  shown(): Promise<void>;
  /** The farthest frame a way. */
  end(by: 1 | -1): number;
}

/** A key that is held: the picture travels on until it is let go, and not a frame further. */
export interface HeldKey {
  hold(by: 1 | -1): void;
  release(): void;
}

/** Makes one for a desk. */
export function heldKey(road: Road): HeldKey {
  let held: 1 | -1 | null = null;

  const travel = async (): Promise<void> => {
    for (let by: 1 | -1 | null = held; by !== null; by = held) {
      await road.shown();
      const player = road.player();
      if (held === by && player) await player.travel(by, road.end(by));
      // At the end, or on the way to another frame: pressing on changes nothing.
      if (held === by) held = null;
    }
  };

  return {
    hold(by) {
      if (held === by) return;
      const idle = held === null;
      held = by;
      if (idle) void travel();
      else road.player()?.halt();
    },
    release() {
      if (held === null) return;
      held = null;
      road.player()?.halt();
    },
  };
}
