import { remoteness, type Direction, type Gait } from './plan.ts';

/** More frames than this are not worth keeping, however small they are. */
const mostFrames = 2000;
/** Frames in the decoder's own hands, for which room is left. */
const inDecoder = 8;

/** Decoded frames kept by index within a budget of bytes; owns them and counts them. */
export class FrameStore {
  readonly #budget: number;
  readonly #frames = new Map<number, VideoFrame>();
  #bytesEach = 0;

  constructor(budget: number, guess: number) {
    this.#budget = budget;
    this.#bytesEach = Math.max(1, guess);
  }

  /** Frames that fit. At least four, or stepping could not work at all. */
  get capacity(): number {
    return Math.max(4, Math.min(mostFrames, Math.floor(this.#budget / this.#bytesEach) - inDecoder));
  }

  get size(): number {
    return this.#frames.size;
  }

  get bytes(): number {
    return this.#frames.size * this.#bytesEach;
  }

  has(index: number): boolean {
    return this.#frames.has(index);
  }

  get(index: number): VideoFrame | undefined {
    return this.#frames.get(index);
  }

  /** Takes a frame in, closing the ones farthest from use. Returns false where the frame itself was closed. */
  put(
    index: number,
    frame: VideoFrame,
    asked: number,
    direction: Direction,
    gait: Gait = 'stepping',
  ): boolean {
    const bytes = sizeOf(frame);
    if (bytes > this.#bytesEach || this.#frames.size === 0) this.#bytesEach = bytes;
    if (this.#frames.has(index)) {
      frame.close();
      return false;
    }
    this.#frames.set(index, frame);
    while (this.#frames.size > this.capacity) {
      const farthest = this.#farthest(asked, direction, gait);
      this.#frames.get(farthest)?.close();
      this.#frames.delete(farthest);
      if (farthest === index) return false;
    }
    return true;
  }

  clear(): void {
    for (const frame of this.#frames.values()) frame.close();
    this.#frames.clear();
  }

  #farthest(asked: number, direction: Direction, gait: Gait): number {
    let worst = -1;
    let distance = -1;
    for (const index of this.#frames.keys()) {
      const here = remoteness(index, asked, direction, gait);
      if (here > distance) {
        distance = here;
        worst = index;
      }
    }
    return worst;
  }
}

/** Bytes of a decoded frame's picture. */
export function sizeOf(frame: VideoFrame): number {
  const guess = frame.codedWidth * frame.codedHeight * 1.5;
  try {
    return frame.format === null ? guess : frame.allocationSize();
  } catch {
    return guess;
  }
}
