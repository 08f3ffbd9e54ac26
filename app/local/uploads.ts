import { createWriteStream } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { calls } from '../../src/host/contract/calls.ts';
import { HostTrouble, link, type Link } from '../../src/host/contract/link.ts';
import type { Trouble } from '../../src/host/contract/shapes.ts';
import type { HostPort } from '../../src/host/port.ts';
import { shellWords } from '../../src/words/shells.ts';
import { answerJson, answerText, answerTrouble } from './answers.ts';

/** Largest JSON body, in bytes: a name and a size are wanted. */
const largestAsk = 16 * 1024;
/** Uploads at the same time. */
const mostAtOnce = 4;
/** How long an upload may stand still, in milliseconds. */
const longestPause = 60_000;

class TooMuch extends Error {}

/** Takes files in: `POST /uploads` opens one, `POST /uploads/ID` carries its bytes. */
export class Uploads {
  readonly #host: HostPort;
  readonly #link: Link;
  readonly #running = new Set<string>();

  constructor(host: HostPort) {
    this.#host = host;
    this.#link = ownLink(host);
  }

  /** Opens an upload: JSON with the file's name and size, answered with the upload's id. */
  async begin(request: IncomingMessage, response: ServerResponse): Promise<void> {
    if (request.headers['content-type'] !== 'application/json') {
      answerText(response, 415, 'JSON is wanted here.', { connection: 'close' });
      return;
    }
    const text = await wholeText(request, largestAsk);
    if (text === null) {
      answerText(response, 413, 'Too much.', { connection: 'close' });
      return;
    }
    const args = calls['upload.begin'].args.safeParse(json(text));
    if (!args.success) {
      answerTrouble(response, { code: 'badInput', message: shellWords.uploadUnclear });
      return;
    }
    try {
      answerJson(response, 200, await this.#link.call('upload.begin', args.data));
    } catch (error) {
      answerTrouble(response, troubleOf(error));
    }
  }

  /** Takes the bytes of an upload that was opened: neither more nor fewer than it said, or it is thrown away. */
  async take(request: IncomingMessage, response: ServerResponse, uploadId: string): Promise<void> {
    const refuse = (status: number, code: Trouble['code'], message: string): void => {
      response.setHeader('connection', 'close');
      answerJson(response, status, { trouble: { code, message } });
    };
    if (request.headers['content-type'] !== 'application/octet-stream') {
      refuse(415, 'usage', shellWords.uploadUnclear);
      return;
    }
    if (this.#running.has(uploadId) || this.#running.size >= mostAtOnce) {
      refuse(429, 'conflict', shellWords.uploadsTooMany);
      return;
    }
    this.#running.add(uploadId);
    try {
      const target = await this.#host.uploadTarget(uploadId);
      if (!target) {
        refuse(404, 'notFound', shellWords.uploadUnknown);
        return;
      }
      const trouble = await this.#write(request, target);
      await this.#host.uploadEnded(uploadId, trouble === null);
      if (trouble === null) answerText(response, 204, '');
      else refuse(trouble.code === 'noSpace' ? 507 : 413, trouble.code, trouble.message);
    } catch (error) {
      const { code, message } = troubleOf(error);
      refuse(500, code, message);
    } finally {
      this.#running.delete(uploadId);
    }
  }

  /** Null where all bytes came and were written. */
  async #write(
    request: IncomingMessage,
    target: { readonly path: string; readonly bytes: number },
  ): Promise<Trouble | null> {
    const wrongLength: Trouble = { code: 'badInput', message: shellWords.uploadWrongLength };
    const said = request.headers['content-length'];
    if (said !== undefined && Number(said) !== target.bytes) return wrongLength;
    let count = 0;
    const cap = new Transform({
      transform(chunk: Buffer, _encoding, done) {
        count += chunk.length;
        if (count > target.bytes) done(new TooMuch());
        else done(null, chunk);
      },
    });
    request.setTimeout(longestPause, () => request.destroy());
    try {
      await pipeline(request, cap, createWriteStream(target.path, { mode: 0o600 }));
    } catch (error) {
      if (error instanceof TooMuch) return wrongLength;
      if (isFull(error)) return { code: 'noSpace', message: shellWords.uploadNoSpace };
      return { code: 'unreadable', message: shellWords.uploadBroken };
    }
    return count === target.bytes ? null : wrongLength;
  }
}

/** The shell's own seat at the host, for opening uploads. */
function ownLink(host: HostPort): Link {
  let hear: (message: unknown) => void = () => undefined;
  const seat = host.seat((message) => {
    hear(message);
  });
  return link({
    send: (message) => {
      seat.receive(message);
    },
    listen: (onMessage) => {
      hear = onMessage;
    },
  });
}

/** The body as text; null where it is longer than `most` bytes. */
async function wholeText(request: IncomingMessage, most: number): Promise<string | null> {
  request.setTimeout(longestPause, () => request.destroy());
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    size += chunk.length;
    if (size > most) return null;
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString('utf8');
}

function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function troubleOf(error: unknown): Trouble {
  if (error instanceof HostTrouble) return { code: error.code, message: error.message };
  return { code: 'internal', message: shellWords.uploadBroken };
}

function isFull(error: unknown): boolean {
  const code = error instanceof Error && 'code' in error ? error.code : null;
  return code === 'ENOSPC' || code === 'EDQUOT';
}
