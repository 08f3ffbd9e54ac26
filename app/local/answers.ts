import { createReadStream } from 'node:fs';
import type { ServerResponse } from 'node:http';
import { pipeline } from 'node:stream/promises';
import type { Trouble } from '../../src/host/contract/shapes.ts';
import type { FileAnswer } from '../../src/host/serving/mediaAnswer.ts';
import { plainHeaders, type Headers } from '../../src/host/serving/policy.ts';

/** Answers with a line of plain text. */
export function answerText(response: ServerResponse, status: number, text: string, more: Headers = {}): void {
  answerBytes(response, status, Buffer.from(text === '' ? '' : `${text}\n`), {
    ...plainHeaders,
    'content-type': 'text/plain; charset=utf-8',
    ...more,
  });
}

/** Answers with JSON. */
export function answerJson(response: ServerResponse, status: number, value: unknown): void {
  answerBytes(response, status, Buffer.from(JSON.stringify(value)), {
    ...plainHeaders,
    'content-type': 'application/json',
  });
}

const statusOf: Partial<Record<Trouble['code'], number>> = {
  notFound: 404,
  noSpace: 507,
  conflict: 409,
  internal: 500,
};

/** Answers with what the host said went wrong, in the contract's own shape. */
export function answerTrouble(response: ServerResponse, trouble: Trouble): void {
  answerJson(response, statusOf[trouble.code] ?? 400, { trouble });
}

/** Answers with bytes at hand. HEAD gets the headers alone. */
export function answerBytes(response: ServerResponse, status: number, bytes: Buffer, headers: Headers): void {
  response.writeHead(status, { ...headers, 'content-length': String(bytes.length) });
  if (response.req.method === 'HEAD' || status === 204) response.end();
  else response.end(bytes);
}

/**
 * Answers with a stretch of a file, at the pace the browser reads it. A reader that goes away ends the reading; a
 * file that goes away half-way ends the connection, so that no cut answer looks whole.
 */
export async function answerFile(response: ServerResponse, path: string, answer: FileAnswer): Promise<void> {
  if (answer.range === null) {
    response.writeHead(answer.status, answer.headers);
    response.end();
    return;
  }
  const { first, last } = answer.range;
  const stream = createReadStream(path, { start: first, end: last });
  const opened = await new Promise<boolean>((resolve) => {
    stream.once('ready', () => {
      resolve(true);
    });
    stream.once('error', () => {
      resolve(false);
    });
  });
  if (!opened) {
    answerText(response, 404, 'The file is not there any more.');
    return;
  }
  response.writeHead(answer.status, answer.headers);
  await pipeline(stream, response).catch(() => {
    response.destroy();
  });
}
