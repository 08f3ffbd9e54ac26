import { frameTable } from '../time/frameTable.ts';
import { ClipReader } from './clipReader.ts';
import { Decoding, deepest } from './decoding.ts';
import { FrameStore } from './frameStore.ts';
import { KeyMap } from './keyMap.ts';
import type { FrameSpan } from './frameWindow.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import { PictureQueue } from './pictureQueue.ts';
import {
  nextToDecode,
  reachOf,
  travel,
  type Direction,
  type Gait,
  type Next,
  type Reach,
  type Travel,
} from './plan.ts';
import { FrameTrouble, type FrameTroubleCode } from './trouble.ts';

export type Opening = Extract<ToWorker, { type: 'open' }>;
export type Post = (message: FromWorker, transfer?: Transferable[]) => void;

/** Asks kept while a later one is on its way: those met on the path are shown too. */
const mostAsks = 64;
/** After handing a frame out the decoder holds still this long, so that the window can paint. Milliseconds. */
const courtesy = 20;
/** Packets in the decoder's hands while there is no hurry: a step that comes meanwhile finds the cores free soon. */
const calmDepth = 2;
/** It does not hold still while fewer than this share of the frames ahead are there. */
const urgentBelow = 0.25;
/** A coach who has not stepped for so long is looking: until the next step everything can be fetched. Milliseconds. */
const lookingAfter = 250;
/** Travelling backward, packets are fetched so many times as far back at once as frames fit into the store. */
const blocksBack = 2;
/** Where key frames lie closer together than that none need be sought: any frame is there soon. */
const mostKeys = 16;
/** Fewest packets fed between two steps. */
const leastRation = 2;

/** One clip in the worker: reads, decodes ahead of the coach, keeps frames, hands out the ones asked for. */
export class ClipWorker {
  /** Seconds from the table's clock to the demuxer's. */
  readonly offset: number;
  /** Key frames of the span that was asked about on opening, rising. */
  readonly keys: number[] = [];
  readonly #post: Post;
  readonly #reader: ClipReader;
  readonly #keys = new KeyMap();
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
  #handedAt = 0;
  /** Packets fed since a frame was handed out last. */
  #fed = 0;
  #compared = false;
  #told = 0;
  #outage = false;
  /** While a key is held nothing is spared. */
  #gait: Gait = 'stepping';
  /** Travelling backward: packets are there from this frame on. */
  #fetchedFrom: number | null = null;
  #closed = false;
  readonly #quietUntil: number;

  private constructor(post: Post, reader: ClipReader, opening: Opening) {
    this.#post = post;
    this.#reader = reader;
    this.offset = reader.tied.offset;
    this.#last = opening.pts.length - 1;
    this.#quietUntil = performance.now() + opening.quiet;
    this.#store = new FrameStore(opening.budget, opening.width * opening.height * 1.5);
    const stirred = (): void => this.#stir();
    this.#decoding = new Decoding(reader, this.#keys, {
      frame: (index, frame) => this.#came(index, frame),
      missed: (goal) => this.#missed(goal),
      broke: (goal, detail) => this.#broke(goal, detail),
      stirred,
    });
    this.#pictures = new PictureQueue((listener) => new Decoding(reader, this.#keys, listener), {
      post,
      firstFrom: (f) => this.#keys.firstFrom(f),
      learn: (f) => this.#learn(f),
      upright: opening,
      stirred,
    });
  }

  /** Opens a clip and begins to work. Rejects with a FrameTrouble. */
  static async open(opening: Opening, post: Post): Promise<ClipWorker> {
    const table = frameTable({ num: opening.timeBase[0], den: opening.timeBase[1] }, [...opening.pts]);
    const reader = await ClipReader.open(opening.url, table);
    const clip = new ClipWorker(post, reader, opening);
    if (opening.keysIn) await clip.#findKeys(opening.keysIn);
    void clip.#work();
    return clip;
  }

  /** Key frames from the last before the end of a span back to the one before its beginning. */
  async #findKeys({ from, to }: FrameSpan): Promise<void> {
    let at = Math.min(to, this.#last);
    while (at >= 0 && this.keys.length < mostKeys) {
      const key = await this.#reader.likelyKey(at);
      if (key < 0 || key > at) return;
      this.keys.unshift(key);
      if (key <= from) return;
      at = key - 1;
    }
  }

  show(index: number): void {
    this.#gait = 'stepping';
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

  /** Moves on towards a frame as far as frames are there without a gap, and hands out the last of them. */
  travel(n: number, by: Direction, target: number): void {
    this.#gait = 'travelling';
    this.#travel = { direction: by, against: 0 };
    let reached: number | null = null;
    if (this.#store.has(this.#asked) || this.#lost.has(this.#asked)) {
      for (let f = this.#asked + by; (target - f) * by >= 0; f += by) {
        if (this.#store.has(f)) reached = f;
        else if (this.#avoid.has(f) && reached === null) {
          // Not worth fetching ahead, but on the way now: it comes out after all, or is given up for good.
          this.#asked = f;
          break;
        } else if (!this.#lost.has(f)) break;
      }
    }
    if (reached !== null) this.#asked = reached;
    const frame = reached === null ? null : (this.#store.get(reached)?.clone() ?? null);
    this.#post({ type: 'travelled', n, index: this.#asked, frame }, frame ? [frame] : []);
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
        this.#stirred = false;
        const turn = await this.#turn();
        if (turn === 'again') continue;
        if (turn === 'rest') this.#tell();
        await this.#sleep(turn === 'yield' ? courtesy : turn === 'rationed' ? lookingAfter : null);
      } catch (error) {
        if (this.#closed) return;
        await this.#failed(error);
      }
    }
  }

  /**
   * One step of work. `wait`: the decoder has its hands full; `yield`: the window is to paint first; `rationed`: enough
   * is done until the next step; `rest`: there is nothing to do.
   */
  async #turn(): Promise<'again' | 'wait' | 'yield' | 'rationed' | 'rest'> {
    const kept = (index: number): VideoFrame | undefined => this.#store.get(index);
    if (this.#asked < 0) return this.#pictures.turn(kept);
    if (this.#store.has(this.#asked) && performance.now() < this.#quietUntil) return 'yield';
    const next = await this.#next();
    if (!next) return 'again';
    if (next.act === 'rest') {
      if (!this.#compared) return this.#compare();
      return this.#pictures.turn(kept);
    }
    if (this.#mayYield(next.goal)) return 'yield';
    if (this.#isRationed(next.goal)) return 'rationed';
    if (next.act === 'start') {
      await this.#decoding.start(next.from, next.goal);
      if (this.#gait === 'travelling' && this.#travel.direction < 0) this.#fetchBefore(next.from);
      return 'again';
    }
    if (this.#decoding.full(this.#isCalm(next.goal) ? calmDepth : deepest)) return 'wait';
    this.#fed++;
    await this.#decoding.feed(next.goal, next.drain || this.#triedTwice.has(next.goal));
    return 'again';
  }

  /** What to decode next; null where something had to be learnt about the clip first. */
  async #next(): Promise<Next | null> {
    let unknown: number | null = null;
    const next = nextToDecode({
      asked: this.#asked,
      direction: this.#travel.direction,
      last: this.#last,
      reach: this.#reach(),
      has: (f) => this.#store.has(f) || this.#lost.has(f) || (f !== this.#asked && this.#avoid.has(f)),
      firstFrom: (f) => {
        const first = this.#keys.firstFrom(f);
        if (first === undefined) unknown = f;
        return first ?? f;
      },
      underway: this.#decoding.underway,
    });
    if (unknown === null) return next;
    await this.#learn(unknown);
    return null;
  }

  #reach(): Reach {
    return reachOf(this.#store.capacity, this.#gait);
  }

  /**
   * Travelling backward, what lies before is fetched while this piece is decoded: in blocks, since a file is read
   * forward and each turn back costs a request.
   */
  #fetchBefore(from: number): void {
    const block = this.#store.capacity * blocksBack;
    if (this.#fetchedFrom !== null && from > this.#fetchedFrom && from - this.#fetchedFrom <= 2 * block) {
      if (from - this.#fetchedFrom > block / 2) return;
    } else this.#fetchedFrom = from;
    const to = this.#fetchedFrom;
    if (to === 0) return;
    this.#fetchedFrom = Math.max(0, to - block);
    // A file out of reach is told of when it is decoded.
    this.#reader.fetchAhead(this.#fetchedFrom, to - 1).catch(() => undefined);
  }

  async #learn(frame: number): Promise<void> {
    const key = await this.#reader.keyFor(frame);
    const first = key ? (key.frame >= 0 ? key.frame : this.#reader.firstShownFrom(key.packet)) : 0;
    this.#keys.learn(Math.max(frame, first), Math.min(frame, first));
  }

  /** True while fetching ahead can wait for the window to paint what it was just given. */
  #mayYield(goal: number): boolean {
    return performance.now() - this.#handedAt < courtesy && this.#isCalm(goal);
  }

  /**
   * True once this step's share of a run is fed. A run backward through a whole group would keep every core busy for
   * a second; spread over the steps for which the kept frames last, none of them feels it.
   */
  #isRationed(goal: number): boolean {
    if (!this.#isCalm(goal) || performance.now() - this.#handedAt >= lookingAfter) return false;
    const from = this.#decoding.underway?.out ?? this.#keys.firstFrom(goal) ?? goal;
    const reserve = this.#reach().ahead * urgentBelow;
    const steps = Math.max(1, Math.abs(goal - this.#asked) - reserve);
    return this.#fed >= Math.max(leastRation, Math.ceil((goal - from + 1) / steps));
  }

  /** True while what is kept lasts for a good while of travel. */
  #isCalm(goal: number): boolean {
    if (this.#gait === 'travelling' || !this.#store.has(this.#asked)) return false;
    const distance = (goal - this.#asked) * this.#travel.direction;
    return distance < 0 || distance > this.#reach().ahead * urgentBelow;
  }

  #came(index: number, frame: VideoFrame): void {
    if (this.#closed) {
      frame.close();
      return;
    }
    if (this.#outage) this.#avoid.clear();
    this.#outage = false;
    this.#handOut(index, frame);
    this.#store.put(index, frame, this.#asked, this.#travel.direction, this.#gait);
    this.#stir();
  }

  /** Hands a frame out if it was asked for; asks made before that one are settled by it. */
  #handOut(index: number, frame: VideoFrame): void {
    const place = this.#asks.lastIndexOf(index);
    if (place < 0) return;
    this.#asks = this.#asks.slice(place + 1);
    const copy = frame.clone();
    this.#handedAt = performance.now();
    this.#fed = 0;
    this.#post({ type: 'frame', index, frame: copy }, [copy]);
  }

  #missed(goal: number): void {
    if (this.#closed || this.#store.has(goal)) return;
    if (goal === this.#asked) this.#giveUp(goal, 'damaged', 'it did not come out of the decoder');
    else this.#avoid.add(goal);
    this.#stir();
  }

  #broke(goal: number | null, detail: string): void {
    // Between runs a browser may take an idle decoder away; the next run makes another.
    if (this.#closed || goal === null) return;
    if (goal !== this.#asked) {
      const { ahead } = this.#reach();
      for (let f = goal; f <= Math.min(this.#last, goal + ahead); f++) this.#avoid.add(f);
    } else if (!this.#triedTwice.has(goal)) {
      this.#triedTwice.add(goal);
    } else {
      this.#giveUp(goal, 'damaged', detail);
    }
    this.#stir();
  }

  /** Reading failed: the file is out of reach, or its content is at fault. */
  async #failed(error: unknown): Promise<void> {
    const goal = this.#decoding.underway?.goal ?? this.#asked;
    this.#decoding.stop();
    const lostFile = await this.#reader.lostFile(error);
    if (this.#closed) return;
    if (!lostFile) {
      this.#broke(goal, String(error));
      return;
    }
    this.#outage = true;
    this.#pictures.fail(lostFile);
    if (this.#asked >= 0 && !this.#store.has(this.#asked))
      this.#giveUp(this.#asked, lostFile.code, lostFile.detail);
    for (let f = 0; f <= this.#last; f++) if (!this.#store.has(f)) this.#avoid.add(f);
  }

  #giveUp(index: number, code: FrameTroubleCode, detail: string): void {
    this.#lost.add(index);
    this.#asks = this.#asks.slice(this.#asks.lastIndexOf(index) + 1);
    this.#post({ type: 'lost', index, code, detail });
  }

  /** Compares times all over the clip with the table, once, when there is nothing better to do. */
  async #compare(): Promise<'again'> {
    this.#compared = true;
    if (!(await this.#reader.agrees()) && !this.#closed) {
      const trouble = new FrameTrouble('misaligned', 'packets and frame table part further on');
      this.#post({ type: 'refused', code: trouble.code, detail: trouble.detail });
    }
    return 'again';
  }

  #stir(): void {
    this.#stirred = true;
    this.#wake?.();
  }

  /** Waits until something stirs, or for so long. What stirred during the last turn counts. */
  async #sleep(longest: number | null): Promise<void> {
    if (this.#stirred) return;
    let timer: ReturnType<typeof setTimeout> | undefined;
    await new Promise<void>((resolve) => {
      this.#wake = resolve;
      if (longest !== null) timer = setTimeout(resolve, longest);
    });
    clearTimeout(timer);
    this.#wake = null;
  }

  #tell(): void {
    if (this.#told === this.#store.size) return;
    this.#told = this.#store.size;
    this.#post({ type: 'count', open: this.#store.size, bytes: this.#store.bytes });
  }
}
