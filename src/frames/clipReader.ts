import {
  EncodedPacketSink,
  Input,
  MATROSKA,
  MP4,
  MPEG_TS,
  QTFF,
  UrlSource,
  WEBM,
  type EncodedPacket,
  type InputVideoTrack,
} from 'mediabunny';
import { FrameTrouble } from './trouble.ts';
import type { PacketFacts } from './packetOrder.ts';

// Play lists are left out on purpose: a hostile one would send requests elsewhere.
const formats = [MP4, QTFF, MATROSKA, WEBM, MPEG_TS];

const retryDelays = [0.1, 0.4, 1];

/** A clip read over byte ranges: its list of packets, and their data in decode order. */
export class ClipReader {
  readonly facts: PacketFacts;
  /** Seconds of one tick of the demuxer's clock. */
  readonly tick: number;
  readonly config: VideoDecoderConfig;
  readonly #input: Input;
  readonly #track: InputVideoTrack;
  readonly #sink: EncodedPacketSink;
  readonly #sequence: Float64Array;

  private constructor(
    input: Input,
    track: InputVideoTrack,
    sink: EncodedPacketSink,
    config: VideoDecoderConfig,
    tick: number,
    facts: PacketFacts,
    sequence: Float64Array,
  ) {
    this.#input = input;
    this.#track = track;
    this.#sink = sink;
    this.config = config;
    this.tick = tick;
    this.facts = facts;
    this.#sequence = sequence;
  }

  /** Opens a clip. Rejects with a FrameTrouble: `unreachable`, or `cannotDecode` where no such video is in it. */
  static async open(url: string): Promise<ClipReader> {
    const source = new UrlSource(url, {
      requestInit: { credentials: 'same-origin' },
      getRetryDelay: (attempts) => retryDelays[attempts - 1] ?? null,
      handleUnhandledError: () => undefined,
    });
    const input = new Input({ source, formats });
    try {
      await reachable(url);
      const track = (await input.canRead()) ? await input.getPrimaryVideoTrack() : null;
      const config = await track?.getDecoderConfig();
      if (!track || !config) throw new FrameTrouble('cannotDecode', 'no video that the demuxer knows');
      const supported = await choose(config);
      if (!supported) throw new FrameTrouble('cannotDecode', `no decoder for ${config.codec}`);
      const tick = 1 / (await track.getTimeResolution());
      const sink = new EncodedPacketSink(track);
      const { facts, sequence } = await list(sink);
      return new ClipReader(input, track, sink, supported, tick, facts, sequence);
    } catch (error) {
      input.dispose();
      if (error instanceof FrameTrouble) throw error;
      throw new FrameTrouble('cannotDecode', String(error));
    }
  }

  /** The packet at a place in decode order at which decoding can begin; null where the bitstream says it cannot. */
  async keyAt(place: number): Promise<EncodedPacket | null> {
    const time = this.facts.times[place] ?? 0;
    const wanted = this.#sequence[place];
    for (const later of [0, 1e-6]) {
      const packet = await this.#sink.getKeyPacket(time + later);
      if (packet && packet.sequenceNumber === wanted) {
        const type = await this.#track.determinePacketType(packet);
        return type === 'delta' ? null : packet;
      }
    }
    const first = await this.#sink.getFirstPacket();
    return first && first.sequenceNumber === wanted ? first : null;
  }

  /** The packet after this one in decode order; null at the end. */
  async after(packet: EncodedPacket): Promise<EncodedPacket | null> {
    return this.#sink.getNextPacket(packet);
  }

  close(): void {
    this.#input.dispose();
  }
}

async function reachable(url: string): Promise<void> {
  try {
    const answer = await fetch(url, { credentials: 'same-origin', headers: { Range: 'bytes=0-0' } });
    await answer.body?.cancel();
    if (answer.status !== 206 && answer.status !== 200)
      throw new FrameTrouble('unreachable', `status ${answer.status}`);
  } catch (error) {
    if (error instanceof FrameTrouble) throw error;
    throw new FrameTrouble('unreachable', String(error));
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

async function list(sink: EncodedPacketSink): Promise<{ facts: PacketFacts; sequence: Float64Array }> {
  const times: number[] = [];
  const keys: number[] = [];
  const sequence: number[] = [];
  let packet = await sink.getFirstPacket({ metadataOnly: true });
  while (packet) {
    times.push(packet.timestamp);
    keys.push(packet.type === 'key' ? 1 : 0);
    sequence.push(packet.sequenceNumber);
    packet = await sink.getNextPacket(packet, { metadataOnly: true });
  }
  return {
    facts: { times: Float64Array.from(times), keys: Uint8Array.from(keys) },
    sequence: Float64Array.from(sequence),
  };
}
