import type { ClipReader, FramePacket } from './clipReader.ts';
import type { KeyMap } from './keyMap.ts';
import type { Underway } from './plan.ts';

/** Packets a decoder may have in hand: enough to keep its threads busy, few enough to turn round fast. */
export const deepest = 12;
/** Times given to packets that hold no frame of the table begin here, microseconds: beyond any frame index. */
const hiddenFrom = 2 ** 40;

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
 * One decoder that runs forward through the packets of a clip from a key packet on. Every packet carries the index
 * of its frame as its time, so that a picture that comes out says for itself which one it is.
 */
export class Decoding {
  readonly #reader: ClipReader;
  readonly #keys: KeyMap;
  readonly #listener: DecodingListener;
  #decoder: VideoDecoder | null = null;
  #clean = false;
  #next: FramePacket | null = null;
  #key = 0;
  #hidden = hiddenFrom;
  /** Frames that went into the decoder and have not come out. */
  readonly #inside = new Set<number>();
  #underway: { first: number; out: number; goal: number; met: boolean } | null = null;
  #draining = false;
  #run = 0;

  constructor(reader: ClipReader, keys: KeyMap, listener: DecodingListener) {
    this.#reader = reader;
    this.#keys = keys;
    this.#listener = listener;
  }

  get underway(): Underway | null {
    return this.#underway;
  }

  /** True while nothing should be fed: the decoder has so many packets in hand, or is being emptied. */
  full(depth = deepest): boolean {
    return this.#draining || (this.#decoder?.decodeQueueSize ?? 0) >= depth;
  }

  /** Begins a run at the key packet for `from`, giving up the one under way. */
  async start(from: number, goal: number): Promise<void> {
    this.stop();
    const run = this.#run;
    const key = await this.#reader.keyFor(from);
    if (run !== this.#run) return;
    if (!key) {
      this.#listener.broke(goal, `no key packet for frame ${from}`);
      return;
    }
    this.#ready();
    this.#next = key;
    this.#key = key.frame >= 0 ? key.frame : this.#reader.firstShownFrom(key.packet);
    this.#keys.learn(Math.max(from, this.#key), this.#key);
    this.#underway = { first: this.#key, out: this.#key - 1, goal, met: false };
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
    const next = this.#next;
    if (!next || (drain && this.#inside.has(goal))) {
      this.#drain(decoder);
      return;
    }
    const run = this.#run;
    this.#clean = false;
    if (next.frame >= 0) this.#inside.add(next.frame);
    decoder.decode(
      new EncodedVideoChunk({
        type: next.packet.type,
        timestamp: next.frame >= 0 ? next.frame : this.#hidden++,
        data: next.packet.data,
      }),
    );
    const after = await this.#reader.after(next.packet);
    if (run !== this.#run) return;
    this.#next = after;
    if (after && after.packet.type === 'key' && after.frame > this.#key) {
      this.#keys.learn(after.frame - 1, this.#key);
      this.#keys.learn(after.frame, after.frame);
      this.#key = after.frame;
    }
  }

  /** Gives up the run under way. */
  stop(): void {
    this.#run++;
    this.#underway = null;
    this.#draining = false;
    this.#next = null;
    this.#inside.clear();
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
    const index = frame.timestamp;
    const underway = this.#underway;
    if (!underway || !this.#inside.delete(index)) {
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
