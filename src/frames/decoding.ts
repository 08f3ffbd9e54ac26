import type { EncodedPacket } from 'mediabunny';
import type { ClipReader } from './clipReader.ts';
import type { DecodeOrder } from './packetOrder.ts';
import type { Underway } from './plan.ts';

/** Packets a decoder may have in hand; enough to keep its threads busy, few enough to turn round fast. */
const deepest = 12;

export interface DecodingListener {
  /** A frame came out. It changes hands. */
  frame(index: number, frame: VideoFrame): void;
  /** Later frames came out, or all did, but not the one the run was sent for. */
  missed(goal: number): void;
  /** The run broke off. `goal` is the frame it was sent for; null where it was between runs. */
  broke(goal: number | null, detail: string): void;
  /** Something changed: there may be room for more packets. */
  stirred(): void;
}

/**
 * One decoder that runs forward through the packets of a clip from a key packet on. Every packet carries its place
 * in presentation order as its time, so that a frame that comes out says for itself which one it is.
 */
export class Decoding {
  readonly #reader: ClipReader;
  readonly #order: DecodeOrder;
  readonly #rankOf: Int32Array;
  readonly #frameOfRank: Int32Array;
  readonly #listener: DecodingListener;
  #decoder: VideoDecoder | null = null;
  #clean = false;
  #packet: EncodedPacket | null = null;
  #place = -1;
  #underway: { out: number; goal: number; met: boolean } | null = null;
  #draining = false;
  #run = 0;

  constructor(
    reader: ClipReader,
    order: DecodeOrder,
    rankOf: Int32Array,
    frameOfRank: Int32Array,
    listener: DecodingListener,
  ) {
    this.#reader = reader;
    this.#order = order;
    this.#rankOf = rankOf;
    this.#frameOfRank = frameOfRank;
    this.#listener = listener;
  }

  get underway(): Underway | null {
    return this.#underway;
  }

  /** True while nothing should be fed: the decoder has its hands full, or is being emptied. */
  get full(): boolean {
    return this.#draining || (this.#decoder?.decodeQueueSize ?? 0) >= deepest;
  }

  /** Begins a run at the key packet for `from`, giving up the one under way. */
  async start(from: number, goal: number): Promise<void> {
    const run = ++this.#run;
    this.#underway = null;
    this.#draining = false;
    let place = this.#order.startFor(from);
    let packet = await this.#reader.keyAt(place);
    while (!packet && place > 0 && run === this.#run) {
      this.#order.notAKey(place);
      const earlier = this.#order.startFor(from);
      if (earlier === place) break;
      place = earlier;
      packet = await this.#reader.keyAt(place);
    }
    if (run !== this.#run) return;
    if (!packet) {
      this.#listener.broke(goal, `no key packet for frame ${from}`);
      return;
    }
    this.#ready();
    this.#place = place;
    this.#packet = packet;
    this.#underway = { out: this.#order.firstFrom(from) - 1, goal, met: false };
  }

  /** Feeds one packet; at the end of the clip, or past the goal of a run to be drained, empties the decoder. */
  async feed(goal: number, drain: boolean): Promise<void> {
    const underway = this.#underway;
    const decoder = this.#decoder;
    if (!underway || !decoder || this.#draining) return;
    if (underway.goal !== goal) {
      underway.goal = goal;
      underway.met = false;
    }
    const packet = this.#packet;
    if (!packet || (drain && this.#place > this.#order.placeOf(goal))) {
      this.#drain(decoder);
      return;
    }
    const run = this.#run;
    this.#clean = false;
    decoder.decode(
      new EncodedVideoChunk({
        type: packet.type,
        timestamp: (this.#rankOf[this.#place] ?? 0) * 1000,
        data: packet.data,
      }),
    );
    const next = await this.#reader.after(packet);
    if (run !== this.#run) return;
    this.#packet = next;
    this.#place++;
  }

  /** Gives up the run under way. */
  stop(): void {
    this.#run++;
    this.#underway = null;
    this.#draining = false;
    this.#packet = null;
  }

  close(): void {
    this.stop();
    if (this.#decoder && this.#decoder.state !== 'closed') this.#decoder.close();
    this.#decoder = null;
  }

  #ready(): void {
    if (this.#decoder && this.#decoder.state === 'configured') {
      if (this.#clean) return;
      this.#decoder.reset();
    } else {
      this.#decoder = new VideoDecoder({
        output: (frame) => this.#came(frame),
        error: (error) => this.#broke(String(error)),
      });
      this.#decoder.ondequeue = () => this.#listener.stirred();
    }
    this.#decoder.configure(this.#reader.config);
    this.#clean = true;
  }

  #came(frame: VideoFrame): void {
    const index = this.#frameOfRank[frame.timestamp / 1000] ?? -1;
    const underway = this.#underway;
    if (index < 0 || !underway) {
      frame.close();
      return;
    }
    underway.out = Math.max(underway.out, index);
    this.#listener.frame(index, frame);
    if (index === underway.goal) underway.met = true;
    else if (index > underway.goal) this.#miss(underway);
  }

  #miss(underway: { goal: number; met: boolean }): void {
    if (underway.met) return;
    underway.met = true;
    this.#listener.missed(underway.goal);
  }

  #broke(detail: string): void {
    const goal = this.#underway?.goal ?? null;
    this.#decoder = null;
    this.stop();
    this.#listener.broke(goal, detail);
  }

  #drain(decoder: VideoDecoder): void {
    this.#draining = true;
    const run = this.#run;
    decoder.flush().then(
      () => {
        if (run !== this.#run) return;
        const underway = this.#underway;
        this.#clean = true;
        this.stop();
        if (underway) this.#miss(underway);
        this.#listener.stirred();
      },
      // A flush ends early when a new run resets the decoder, or the error callback has told already.
      () => this.#listener.stirred(),
    );
  }
}
