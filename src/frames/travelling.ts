import type { Travelling } from './frameWindow.ts';
import { paceOf } from './pace.ts';

interface Road {
  /** Asks for the frame farthest on towards a target that is at hand. */
  ask(target: number): void;
  /** Calls `next` again at the next refresh of the screen. */
  later(): void;
  /** Paints the frame that travelling ended on, in full. */
  settle(): Promise<unknown>;
}

/** Longest time between two pictures that counts: a page that was asleep does not leap. Milliseconds. */
const longestLeap = 100;

/** Up to this pace each frame is to be seen. Frames a second. */
const everyFrame = 60;

/** A journey under way: asks for a picture once a refresh of the screen, never farther on than the pace allows. */
export class Journey implements Travelling {
  readonly done: Promise<void>;
  readonly #by: 1 | -1;
  readonly #until: number;
  readonly #road: Road;
  readonly #from = performance.now();
  #resolve: () => void = () => undefined;
  #reject: (error: unknown) => void = () => undefined;
  #at: number;
  #before = performance.now();
  /** Frames that the pace allows on from here; what the decoder did not deliver in time is not owed for long. */
  #credit = 1;
  #over = false;

  constructor(by: 1 | -1, at: number, until: number, road: Road) {
    this.#by = by;
    this.#at = at;
    this.#until = until;
    this.#road = road;
    this.done = new Promise((resolve, reject) => {
      this.#resolve = resolve;
      this.#reject = reject;
    });
  }

  get over(): boolean {
    return this.#over;
  }

  /** True once no screen could show every frame: then fewer pictures serve, and the decoder needs the cores. */
  get hurries(): boolean {
    return paceOf(performance.now() - this.#from) > everyFrame;
  }

  /** Asks for the next picture. */
  next(): void {
    if (this.#over) return;
    const left = (this.#until - this.#at) * this.#by;
    if (left <= 0) {
      void this.stop();
      return;
    }
    const now = performance.now();
    const pace = paceOf(now - this.#from) / 1000;
    this.#credit += pace * Math.min(longestLeap, now - this.#before);
    this.#credit = Math.min(this.#credit, Math.max(1, pace * longestLeap));
    this.#before = now;
    if (this.#credit < 1) this.#road.later();
    else this.#road.ask(this.#at + Math.min(left, Math.floor(this.#credit)) * this.#by);
  }

  /** The picture of this frame is on the canvas. */
  reached(index: number): void {
    this.#credit -= Math.abs(index - this.#at);
    this.#at = index;
  }

  /** Ends it where it is, without a last picture. */
  breakOff(): void {
    if (this.#over) return;
    this.#over = true;
    this.#resolve();
  }

  stop(): Promise<void> {
    if (!this.#over) {
      this.#over = true;
      this.#road.settle().then(this.#resolve, this.#reject);
    }
    return this.done;
  }
}
