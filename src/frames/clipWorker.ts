import { frameTable } from '../time/frameTable.ts';
import { align } from './alignment.ts';
import { ClipReader } from './clipReader.ts';
import { Decoding } from './decoding.ts';
import { FrameStore } from './frameStore.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import { decodeOrder, ranksOf, type DecodeOrder } from './packetOrder.ts';
import { PictureQueue } from './pictureQueue.ts';
import { nextToDecode, reachOf, travel, type Travel } from './plan.ts';
import { FrameTrouble, type FrameTroubleCode } from './trouble.ts';

export type Opening = Extract<ToWorker, { type: 'open' }>;
export type Post = (message: FromWorker, transfer?: Transferable[]) => void;

/** Asks kept while a later one is on its way: those met on the path are shown too. */
const mostAsks = 64;

/** One clip in the worker: reads, decodes ahead of the coach, keeps frames, hands out the ones asked for. */
export class ClipWorker {
  /** Seconds from the table's clock to the demuxer's. */
  readonly offset: number;
  readonly #post: Post;
  readonly #reader: ClipReader;
  readonly #order: DecodeOrder;
  readonly #last: number;
  readonly #store: FrameStore;
  readonly #decoding: Decoding;
  readonly #pictures: PictureQueue;
  /** Frames that did not come out of a sound run, or broke it. */
  readonly #lost = new Set<number>();
  /** Frames not worth fetching ahead since a run broke before them. */
  readonly #avoid = new Set<number>();
  readonly #triedTwice = new Set<number>();
  #asks: number[] = [];
  #asked = -1;
  #travel: Travel = { direction: 1, against: 0 };
  #wake: (() => void) | null = null;
  #stirred = false;
  #told = 0;
  #closed = false;

  private constructor(post: Post, reader: ClipReader, opening: Opening) {
    this.#post = post;
    this.#reader = reader;
    const table = frameTable({ num: opening.timeBase[0], den: opening.timeBase[1] }, [...opening.pts]);
    const { rankOf, sorted } = ranksOf(reader.facts.times);
    const tie = align(table, sorted, reader.tick);
    if (!tie)
      throw new FrameTrouble('misaligned', `${sorted.length} packets against ${table.pts.length} frames`);
    this.offset = tie.offset;
    this.#order = decodeOrder(reader.facts, rankOf, tie);
    this.#last = table.pts.length - 1;
    this.#store = new FrameStore(opening.budget, opening.width * opening.height * 1.5);
    const stirred = (): void => this.#stir();
    this.#decoding = new Decoding(reader, this.#order, rankOf, tie.frameOfRank, {
      frame: (index, frame) => this.#came(index, frame),
      missed: (goal) => this.#missed(goal),
      broke: (goal, detail) => void this.#broke(goal, detail),
      stirred,
    });
    this.#pictures = new PictureQueue(
      (listener) => new Decoding(reader, this.#order, rankOf, tie.frameOfRank, listener),
      { post, firstFrom: (f) => this.#order.firstFrom(f), upright: opening, stirred },
    );
  }

  /** Opens a clip and begins to work. Rejects with a FrameTrouble. */
  static async open(opening: Opening, post: Post): Promise<ClipWorker> {
    const reader = await ClipReader.open(opening.url);
    try {
      const clip = new ClipWorker(post, reader, opening);
      void clip.#work();
      return clip;
    } catch (error) {
      reader.close();
      throw error;
    }
  }

  show(index: number): void {
    if (this.#asked >= 0) this.#travel = travel(this.#travel, this.#asked, index);
    this.#asked = index;
    this.#asks.push(index);
    if (this.#asks.length > mostAsks) this.#asks.shift();
    // Asked for once more, a frame that was lost gets another chance.
    if (this.#lost.delete(index)) this.#triedTwice.delete(index);
    const kept = this.#store.get(index);
    if (kept) this.#handOut(index, kept);
    this.#stir();
  }

  picture(n: number, index: number, maxWidth: number): void {
    this.#pictures.add({ n, index, maxWidth });
    this.#stir();
  }

  close(): void {
    this.#closed = true;
    this.#decoding.close();
    this.#pictures.close();
    this.#store.clear();
    this.#reader.close();
    this.#stir();
    this.#post({ type: 'closed', open: this.#store.size });
  }

  async #work(): Promise<void> {
    while (!this.#closed) {
      try {
        const turn = await this.#turn();
        if (turn === 'again') continue;
        if (turn === 'rest') this.#tell();
        if (!this.#stirred) await new Promise<void>((resolve) => (this.#wake = resolve));
        this.#wake = null;
        this.#stirred = false;
      } catch (error) {
        const goal = this.#decoding.underway?.goal ?? this.#asked;
        this.#decoding.stop();
        await this.#broke(goal, String(error));
      }
    }
  }

  /** One step of work. `wait`: the decoder has its hands full; `rest`: there is nothing to do. */
  async #turn(): Promise<'again' | 'wait' | 'rest'> {
    const kept = (index: number): VideoFrame | undefined => this.#store.get(index);
    if (this.#asked < 0) return this.#pictures.turn(kept);
    const next = nextToDecode({
      asked: this.#asked,
      direction: this.#travel.direction,
      last: this.#last,
      reach: reachOf(this.#store.capacity),
      has: (f) => this.#store.has(f) || this.#lost.has(f) || (f !== this.#asked && this.#avoid.has(f)),
      firstFrom: (f) => this.#order.firstFrom(f),
      underway: this.#decoding.underway,
    });
    if (next.act === 'rest') return this.#pictures.turn(kept);
    if (next.act === 'start') {
      await this.#decoding.start(next.from, next.goal);
      return 'again';
    }
    if (this.#decoding.full) return 'wait';
    await this.#decoding.feed(next.goal, next.drain || this.#triedTwice.has(next.goal));
    return 'again';
  }

  #came(index: number, frame: VideoFrame): void {
    if (this.#closed) {
      frame.close();
      return;
    }
    this.#handOut(index, frame);
    this.#store.put(index, frame, this.#asked, this.#travel.direction);
    this.#stir();
  }

  /** Hands a frame out if it was asked for; asks made before that one are settled by it. */
  #handOut(index: number, frame: VideoFrame): void {
    const place = this.#asks.lastIndexOf(index);
    if (place < 0) return;
    this.#asks = this.#asks.slice(place + 1);
    const copy = frame.clone();
    this.#post({ type: 'frame', index, frame: copy }, [copy]);
  }

  #missed(goal: number): void {
    if (this.#closed || this.#store.has(goal)) return;
    if (goal === this.#asked) this.#giveUp(goal, 'damaged', 'it did not come out of the decoder');
    else this.#avoid.add(goal);
    this.#stir();
  }

  async #broke(goal: number | null, detail: string): Promise<void> {
    // Between runs a browser may take an idle decoder away; the next run makes another.
    if (this.#closed || goal === null) return;
    if (goal !== this.#asked) {
      const group = this.#order.firstFrom(goal);
      for (let f = goal; f <= this.#last && this.#order.firstFrom(f) === group; f++) this.#avoid.add(f);
    } else if (!this.#triedTwice.has(goal)) {
      this.#triedTwice.add(goal);
    } else {
      this.#giveUp(goal, 'damaged', detail);
    }
    this.#stir();
  }

  #giveUp(index: number, code: FrameTroubleCode, detail: string): void {
    this.#lost.add(index);
    this.#asks = this.#asks.slice(this.#asks.lastIndexOf(index) + 1);
    this.#post({ type: 'lost', index, code, detail });
  }

  #stir(): void {
    this.#stirred = true;
    this.#wake?.();
  }

  #tell(): void {
    if (this.#told === this.#store.size) return;
    this.#told = this.#store.size;
    this.#post({ type: 'count', open: this.#store.size, bytes: this.#store.bytes });
  }
}
