import type { Decoding, DecodingListener } from './decoding.ts';
import type { Rotation } from './frameWindow.ts';
import type { FromWorker } from './messages.ts';
import type { FrameTrouble, FrameTroubleCode } from './trouble.ts';
import { paintUpright } from './upright.ts';

interface Job {
  readonly n: number;
  readonly index: number;
  readonly maxWidth: number;
}

interface Surroundings {
  post(message: FromWorker, transfer?: Transferable[]): void;
  /** First frame of the group that a frame belongs to; asked for once more when it is known. */
  firstFrom(frame: number): number | undefined;
  learn(frame: number): Promise<void>;
  readonly upright: { readonly width: number; readonly height: number; readonly rotation: Rotation };
  stirred(): void;
}

/** Frames worth running on for, instead of starting anew. */
const patience = 8;

/** Pictures of single frames, made when the frame window has nothing better to do, by a decoder of their own. */
export class PictureQueue {
  readonly #make: (listener: DecodingListener) => Decoding;
  readonly #around: Surroundings;
  #decoding: Decoding | null = null;
  #jobs: Job[] = [];

  constructor(make: (listener: DecodingListener) => Decoding, around: Surroundings) {
    this.#make = make;
    this.#around = around;
  }

  add(job: Job): void {
    this.#jobs.push(job);
  }

  /** One step of work. Frames that are kept already are used as they are. */
  async turn(kept: (index: number) => VideoFrame | undefined): Promise<'again' | 'wait' | 'rest'> {
    for (const index of new Set(this.#jobs.map((j) => j.index))) {
      const frame = kept(index);
      if (frame) this.#fulfil(index, frame);
    }
    if (this.#jobs.length === 0) {
      this.#decoding?.close();
      this.#decoding = null;
      return 'rest';
    }
    const decoding = (this.#decoding ??= this.#make({
      frame: (index, frame) => {
        this.#fulfil(index, frame);
        frame.close();
        this.#around.stirred();
      },
      missed: (goal) => this.#fail(goal, 'it did not come out of the decoder'),
      broke: (goal, detail) => goal !== null && this.#fail(goal, detail),
      stirred: this.#around.stirred,
    }));
    const underway = decoding.underway;
    const goals = this.#jobs.map((j) => j.index).sort((a, b) => a - b);
    const goal = goals.find((g) => g > (underway?.out ?? -1)) ?? goals[0] ?? 0;
    const next = goals.find((g) => g > goal);
    for (const frame of [goal, ...(next === undefined ? [] : [next])]) {
      if (this.#around.firstFrom(frame) === undefined) {
        await this.#around.learn(frame);
        return 'again';
      }
    }
    const first = this.#around.firstFrom(goal) ?? goal;
    const runsOn = underway !== null && underway.out < goal && goal - underway.out <= goal - first + patience;
    if (!runsOn) {
      await decoding.start(goal, goal);
      return 'again';
    }
    if (decoding.full()) return 'wait';
    await decoding.feed(goal, next === undefined || (this.#around.firstFrom(next) ?? next) > goal);
    return 'again';
  }

  /** Gives up everything that waits. */
  fail(trouble: FrameTrouble): void {
    for (const { index } of this.#jobs) this.#fail(index, trouble.detail, trouble.code);
  }

  close(): void {
    this.#decoding?.close();
    this.#decoding = null;
    this.#jobs = [];
  }

  #fulfil(index: number, frame: VideoFrame): void {
    const mine = this.#jobs.filter((j) => j.index === index);
    this.#jobs = this.#jobs.filter((j) => j.index !== index);
    for (const job of mine) {
      const { width, height, rotation } = this.#around.upright;
      const scale = Math.min(1, Math.max(1, job.maxWidth) / width);
      const w = Math.max(1, Math.round(width * scale));
      const h = Math.max(1, Math.round(height * scale));
      const canvas = new OffscreenCanvas(w, h);
      const surface = canvas.getContext('2d', { alpha: false });
      if (!surface) {
        this.#around.post({ type: 'noPicture', n: job.n, index, code: 'unsure', detail: 'no canvas' });
        continue;
      }
      paintUpright(surface, frame, w, h, rotation, { width, height });
      const picture = canvas.transferToImageBitmap();
      this.#around.post({ type: 'picture', n: job.n, picture }, [picture]);
    }
  }

  #fail(index: number, detail: string, code: FrameTroubleCode = 'damaged'): void {
    const mine = this.#jobs.filter((j) => j.index === index);
    this.#jobs = this.#jobs.filter((j) => j.index !== index);
    for (const job of mine) this.#around.post({ type: 'noPicture', n: job.n, index, code, detail });
    this.#around.stirred();
  }
}
