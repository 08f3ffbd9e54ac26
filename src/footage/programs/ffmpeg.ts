import { Writable, type Readable } from 'node:stream';
import { once } from 'node:events';
import fluent from 'fluent-ffmpeg';
import { findPrograms } from './find.ts';
import { Stopped } from './ffprobe.ts';
import { onlyFiles, plainPath, safeReading } from './reading.ts';

/** A file that ffmpeg reads, and the options before it. */
interface Reading {
  readonly from: string;
  readonly reading?: readonly string[];
}

/** Bytes that ffmpeg is handed as it takes them, and the options that say what they are. */
interface Handing {
  readonly from: Readable;
  readonly reading: readonly string[];
}

/** One run of ffmpeg: files in, one file or a stream of bytes out. */
export interface Encoding extends Reading {
  /** Further files. */
  readonly more?: readonly Reading[];
  /** What is read last, from us. */
  readonly handed?: Handing | undefined;
  /** Options before the output. */
  readonly writing: readonly string[];
  /** A path, or what takes the bytes. */
  readonly to: string | ((bytes: Buffer) => void);
  readonly signal?: AbortSignal | undefined;
  /** Told how many frames were written so far. */
  readonly onFrames?: ((frames: number) => void) | undefined;
  /** Told at the end what it printed, and what it complained about all the same; only where the output is a file. */
  readonly onPrinted?: (text: string, complaint: string) => void;
  /** Gives way to other programs where the system can. */
  readonly background?: boolean;
}

/** ffmpeg did not do what was asked. */
export class EncodingFailed extends Error {
  /** Its own words. */
  readonly complaint: string;
  /** It was ended from outside, so that a second try makes no sense. */
  readonly killed: boolean;
  constructor(message: string, complaint: string, killed: boolean) {
    super(message);
    this.complaint = complaint;
    this.killed = killed;
  }
}

/**
 * Runs ffmpeg through fluent-ffmpeg. Rejects with Stopped where `signal` fired (the child is killed), else with
 * EncodingFailed. Options of inputs must not contain a single blank: fluent-ffmpeg splits there.
 */
export async function runFfmpeg(job: Encoding): Promise<void> {
  const programs = await findPrograms();
  if (job.signal?.aborted) throw new Stopped();
  const command = fluent({
    niceness: job.background ? 10 : 0,
    // 0 keeps all of it.
    stdoutLines: job.onPrinted ? 0 : 200,
  }).setFfmpegPath(programs.ffmpeg);
  command
    .input(plainPath(job.from))
    .inputOptions([
      '-hide_banner',
      '-nostdin',
      ...['-loglevel', 'error', '-stats'],
      ...safeReading,
      ...(job.reading ?? []),
    ]);
  for (const { from, reading = [] } of job.more ?? []) {
    command.input(plainPath(from)).inputOptions([...safeReading, ...reading]);
  }
  if (job.handed) command.input(job.handed.from).inputOptions([...onlyFiles, ...job.handed.reading]);
  const { to } = job;
  let taken: Promise<unknown> | undefined;
  if (typeof to === 'string') {
    command.output(plainPath(to));
  } else {
    // No close event on finishing: fluent-ffmpeg takes one for a broken pipe.
    const sink = new Writable({
      autoDestroy: false,
      write(chunk: Buffer, _encoding, done) {
        to(chunk);
        done();
      },
    });
    taken = once(sink, 'finish');
    command.output(sink);
  }
  // As arguments of their own: of a list fluent-ffmpeg splits what has a blank in it, as a path may have.
  command.outputOptions(...job.writing);

  await new Promise<void>((resolve, reject) => {
    const stop = (): void => {
      command.kill('SIGKILL');
    };
    const ended = (): void => job.signal?.removeEventListener('abort', stop);
    job.signal?.addEventListener('abort', stop, { once: true });
    let lines: string[] = [];
    command
      // Where the signal fired while fluent-ffmpeg still asked the program for its abilities, there was no child yet.
      .on('start', () => {
        if (job.signal?.aborted) stop();
      })
      .on('stderr', (line: string) => {
        const frames = /^frame=\s*(\d+)/.exec(line)?.[1];
        if (frames !== undefined) job.onFrames?.(Number(frames));
        else lines = [...lines.slice(-40), line];
      })
      .on('error', (error: Error) => {
        ended();
        if (job.signal?.aborted) reject(new Stopped());
        // What was to be handed over could not be made: that tells more than what ffmpeg says of its end.
        else if (job.handed?.from.errored) reject(job.handed.from.errored);
        else
          reject(
            new EncodingFailed(
              error.message,
              lines.join('\n'),
              /killed with signal SIG(?:KILL|TERM|INT|HUP|QUIT)/.test(error.message),
            ),
          );
      })
      .on('end', (printed: string | null) => {
        ended();
        if (job.signal?.aborted) return reject(new Stopped());
        job.onPrinted?.(printed ?? '', lines.join('\n'));
        resolve();
      })
      .run();
  });
  await taken;
}
