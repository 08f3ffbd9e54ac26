import { createReadStream } from 'node:fs';
import { Readable } from 'node:stream';
import type { ReadableStream } from 'node:stream/web';
import type { HostPort, MediaFile } from '../../src/host/port.ts';
import {
  mediaAnswer,
  mediaIdShape,
  reportAnswer,
  type FileAnswer,
} from '../../src/host/serving/mediaAnswer.ts';
import { plainHeaders, windowHeaders } from '../../src/host/serving/policy.ts';
import type { WindowFile } from '../../src/host/serving/windowFiles.ts';
import { scheme } from './addresses.ts';

/** What the scheme may do. To be registered before the program is ready. */
export const schemePrivileges = {
  scheme,
  privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true },
} as const;

/**
 * Answers every request of the scheme: the window's files and media at app://walkback, written reports at
 * app://report. Nothing else can be asked for.
 */
export function appProtocol(
  host: Pick<HostPort, 'media'>,
  files: ReadonlyMap<string, WindowFile>,
): (request: Request) => Promise<Response> {
  return async (request) => {
    const { host: room, pathname } = new URL(request.url);
    if (request.method !== 'GET' && request.method !== 'HEAD') return plain(405);
    if (room === 'report') {
      const id = pathname.slice(1);
      const found = mediaIdShape.test(id) ? await host.media(id) : null;
      return fileResponse(found, reportAnswer(found, request.method));
    }
    if (room !== 'walkback') return plain(404);
    const file = files.get(pathname);
    if (file) return windowResponse(file, request.method);
    const id = pathname.startsWith('/media/') ? pathname.slice('/media/'.length) : '';
    const found = mediaIdShape.test(id) ? await host.media(id) : null;
    if (!found) return plain(404);
    return fileResponse(found, mediaAnswer(found, request.method, request.headers.get('range')));
  };
}

function plain(status: number): Response {
  return new Response(null, { status, headers: plainHeaders });
}

function windowResponse(file: WindowFile, method: string): Response {
  return new Response(method === 'HEAD' ? null : new Uint8Array(file.bytes), {
    headers: {
      ...windowHeaders(),
      'content-type': file.mime,
      'content-length': String(file.bytes.length),
      'cache-control': file.lasting ? 'private, max-age=31536000, immutable' : 'no-store',
    },
  });
}

function fileResponse(file: MediaFile | null, answer: FileAnswer): Response {
  if (!file || !answer.range) return new Response(null, { status: answer.status, headers: answer.headers });
  const { first, last } = answer.range;
  const stream = Readable.toWeb(createReadStream(file.path, { start: first, end: last }));
  // Node's and the web's stream types differ in name only.
  const body = stream as ReadableStream<Uint8Array> as unknown as ConstructorParameters<typeof Response>[0];
  return new Response(body, { status: answer.status, headers: answer.headers });
}
