import {
  EncodedPacketSink,
  Input,
  IsobmffInputFormat,
  MATROSKA,
  MP4,
  MPEG_TS,
  QTFF,
  UrlSource,
  WEBM,
  type EncodedPacket,
  type InputVideoTrack,
} from 'mediabunny';
import type { FrameTable } from '../time/frameTable.ts';
import { align, alignHead, coarserTick, frameOfTime, secondsOf, type Alignment } from './alignment.ts';
import { editPieces } from './editPieces.ts';
import { FrameTrouble } from './trouble.ts';

// Play lists are left out on purpose: a hostile one would send requests elsewhere.
const formats = [MP4, QTFF, MATROSKA, WEBM, MPEG_TS];
const retryDelays = [0.1, 0.4, 1];
/** Packets listed at the beginning, and those of them at the end that a later one may still be shown before. */
const headPackets = 96;
const reordered = 17;
/** Frames spread over the clip whose times are compared once the first picture is there. */
const samples = 12;

/** A packet and the frame it holds; frame -1 is hidden by the table. */
export interface FramePacket {
  readonly packet: EncodedPacket;
  readonly frame: number;
}

/** A clip read over byte ranges and tied to its frame table: its packets in decode order, each with its frame. */
export class ClipReader {
  readonly config: VideoDecoderConfig;
  readonly tied: Alignment;
  readonly #url: string;
  readonly #input: Input;
  readonly #sink: EncodedPacketSink;
  readonly #starts: Float64Array;

  private constructor(
    url: string,
    input: Input,
    sink: EncodedPacketSink,
    config: VideoDecoderConfig,
    starts: Float64Array,
    tied: Alignment,
  ) {
    this.#url = url;
    this.#input = input;
    this.#sink = sink;
    this.config = config;
    this.#starts = starts;
    this.tied = tied;
  }

  /**
   * Opens a clip. Rejects with a FrameTrouble: `unreachable`; `cannotDecode` where no video is in it that can be
   * decoded here; `misaligned` where its packets cannot be tied to the table.
   */
  static async open(url: string, table: FrameTable): Promise<ClipReader> {
    const source = new UrlSource(url, {
      requestInit: { credentials: 'same-origin' },
      getRetryDelay: (attempts) => retryDelays[attempts - 1] ?? null,
      handleUnhandledError: () => undefined,
    });
    const input = new Input({ source, formats });
    try {
      const track = (await input.canRead()) ? await input.getPrimaryVideoTrack() : null;
      const config = await track?.getDecoderConfig();
      if (!track || !config) throw new FrameTrouble('cannotDecode', 'no video that the demuxer knows');
      const chosen = await choose(config);
      if (!chosen) throw new FrameTrouble('cannotDecode', `no decoder for ${config.codec}`);
      const starts = secondsOf(table);
      const sink = new EncodedPacketSink(track);
      const tied = await tieTo(table, starts, track, sink);
      if (!tied) throw new FrameTrouble('misaligned', 'packets and frame table do not agree');
      if (
        (await input.getFormat()) instanceof IsobmffInputFormat &&
        !(await oneStretch(url, sink, starts, tied))
      )
        throw new FrameTrouble('misaligned', 'an edit list of several pieces');
      return new ClipReader(url, input, sink, chosen, starts, tied);
    } catch (error) {
      input.dispose();
      if (error instanceof FrameTrouble) throw error;
      throw (await unreachable(url, error)) ?? new FrameTrouble('cannotDecode', String(error));
    }
  }

  /** The packet at which decoding must begin to reach a frame, as its bitstream says; null where there is none. */
  async keyFor(frame: number): Promise<FramePacket | null> {
    const time = (this.#starts[frame] ?? 0) + this.tied.offset + this.tied.reach;
    const options = { verifyKeyPackets: true };
    const packet =
      (await this.#sink.getKeyPacket(time, options)) ?? (await this.#sink.getFirstKeyPacket(options));
    return packet && this.#withFrame(packet);
  }

  /** The key frame before a frame by the clip's table of contents alone, which may err; -1 where it names none. */
  async likelyKey(frame: number): Promise<number> {
    const time = (this.#starts[frame] ?? 0) + this.tied.offset + this.tied.reach;
    const packet = await this.#sink.getKeyPacket(time, { metadataOnly: true });
    return packet ? this.#withFrame(packet).frame : -1;
  }

  /** The packet after this one in decode order; null at the end. */
  async after(packet: EncodedPacket): Promise<FramePacket | null> {
    const next = await this.#sink.getNextPacket(packet);
    return next && this.#withFrame(next);
  }

  /** Fetches what decoding two frames and all between them needs, so that it is there when its turn comes. */
  async fetchAhead(from: number, to: number): Promise<void> {
    let at = await this.keyFor(from);
    const end = (this.#starts[to] ?? 0) + this.tied.offset;
    while (at && at.packet.timestamp < end) at = await this.after(at.packet);
  }

  /** The first frame that is not shown before this packet, for packets that hold no frame of the table. */
  firstShownFrom(packet: EncodedPacket): number {
    const seconds = packet.timestamp - this.tied.offset;
    const next = this.#starts.findIndex((t) => t >= seconds - this.tied.reach);
    return next < 0 ? this.#starts.length - 1 : next;
  }

  /** Compares frames all over the clip with their packets. False where one does not agree. */
  async agrees(): Promise<boolean> {
    const last = this.#starts.length - 1;
    for (let i = 0; i <= samples; i++) {
      const frame = Math.round((last * i) / samples);
      const time = (this.#starts[frame] ?? 0) + this.tied.offset;
      const packet = await this.#sink.getPacket(time + this.tied.reach, { metadataOnly: true });
      if (!packet || frameOfTime(this.#starts, this.tied, packet.timestamp) !== frame) return false;
    }
    return true;
  }

  /** Why reading failed: the file cannot be reached any more, or null where it can and its content is at fault. */
  async lostFile(error: unknown): Promise<FrameTrouble | null> {
    return unreachable(this.#url, error);
  }

  close(): void {
    this.#input.dispose();
  }

  #withFrame(packet: EncodedPacket): FramePacket {
    return { packet, frame: frameOfTime(this.#starts, this.tied, packet.timestamp) };
  }
}

async function unreachable(url: string, error: unknown): Promise<FrameTrouble | null> {
  try {
    const answer = await fetch(url, { credentials: 'same-origin', headers: { Range: 'bytes=0-0' } });
    await answer.body?.cancel();
    return answer.ok ? null : new FrameTrouble('unreachable', `status ${answer.status}; ${String(error)}`);
  } catch (again) {
    return new FrameTrouble('unreachable', `${String(again)}; ${String(error)}`);
  }
}

/**
 * Decoders of graphics cards own few picture buffers and stall while a window of frames is held; the software
 * decoder does not, hence it is asked for first.
 */
async function choose(config: VideoDecoderConfig): Promise<VideoDecoderConfig | null> {
  for (const hardwareAcceleration of ['prefer-software', 'no-preference'] as const) {
    const wish: VideoDecoderConfig = { ...config, hardwareAcceleration };
    try {
      const answer = await VideoDecoder.isConfigSupported(wish);
      if (answer.supported) return wish;
    } catch {
      // A configuration that is not even valid is one that cannot be decoded.
    }
  }
  return null;
}

/**
 * True unless an edit list plays several pieces of the media, which no time of a packet would tell. Only asked where
 * packets are hidden at an end: without that there is nothing to skip.
 */
async function oneStretch(
  url: string,
  sink: EncodedPacketSink,
  starts: Float64Array,
  tied: Alignment,
): Promise<boolean> {
  const options = { metadataOnly: true };
  const first = await sink.getFirstPacket(options);
  const last = await sink.getPacket(Infinity, options);
  const frameOf = (p: EncodedPacket | null): number => (p ? frameOfTime(starts, tied, p.timestamp) : -1);
  if (frameOf(first) >= 0 && frameOf(last) === starts.length - 1) return true;
  const pieces = await editPieces(async (from, length) => {
    const answer = await fetch(url, {
      credentials: 'same-origin',
      headers: { Range: `bytes=${from}-${from + length - 1}` },
    });
    return new Uint8Array(answer.status === 206 ? await answer.arrayBuffer() : new ArrayBuffer(0));
  });
  return pieces === 1;
}

/** Ties by the beginning of the clip where that leaves no doubt, else by listing all of it. */
async function tieTo(
  table: FrameTable,
  starts: Float64Array,
  track: InputVideoTrack,
  sink: EncodedPacketSink,
): Promise<Alignment | null> {
  const coarser = coarserTick(table, 1 / (await track.getTimeResolution()));
  const { times, last } = await list(sink, headPackets, []);
  if (last) {
    const head = times
      .slice()
      .sort()
      .subarray(0, times.length - reordered);
    const tied = alignHead(starts, head, coarser);
    if (tied?.asIs) return tied;
    if (tied) {
      const end = await sink.getPacket(Infinity, { metadataOnly: true });
      if (end && frameOfTime(starts, tied, end.timestamp) === starts.length - 1) return tied;
    }
  }
  const whole = last ? await list(sink, Infinity, [...times], last) : { times };
  return align(starts, whole.times.sort(), coarser);
}

/** Lists packet times in decode order; `last` is the packet to go on from where the list was cut short. */
async function list(
  sink: EncodedPacketSink,
  most: number,
  times: number[],
  from: EncodedPacket | null = null,
): Promise<{ times: Float64Array; last: EncodedPacket | null }> {
  const options = { metadataOnly: true };
  let packet = from ? await sink.getNextPacket(from, options) : await sink.getFirstPacket(options);
  let last = packet;
  while (packet && times.length < most) {
    times.push(packet.timestamp);
    last = packet;
    packet = await sink.getNextPacket(packet, options);
  }
  return { times: Float64Array.from(times), last: packet ? last : null };
}
