import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Duplex } from 'node:stream';
import {
  keyHeader,
  keyInFragment,
  startInAddress,
  keyProtocolPrefix,
  wireProtocol,
} from '../../src/host/contract/loopback.ts';
import type { HostPort } from '../../src/host/port.ts';
import { mediaAnswer, mediaIdShape, reportAnswer } from '../../src/host/serving/mediaAnswer.ts';
import { plainHeaders, windowHeaders } from '../../src/host/serving/policy.ts';
import type { WindowFile } from '../../src/host/serving/windowFiles.ts';
import { shellWords } from '../../src/words/shells.ts';
import { answerBytes, answerFile, answerText } from './answers.ts';
import { cookieOf, refusal, socketRefusal, type Asked } from './guard.ts';
import { Uploads } from './uploads.ts';
import { Visits } from './visits.ts';
import { WireServer } from './wire.ts';

export interface Loopback {
  /** "127.0.0.1:PORT" */
  readonly place: string;
  /**
   * An address with a token of its own, good once and for a minute.
   * @param start leads to a demo run where the library was just set up, instead of to the Library
   */
  address(start?: 'start'): string;
  /** Tells every window that the host has ended. */
  hostEnded(): void;
  /** Stops listening and ends all connections. */
  close(): Promise<void>;
}

export interface LoopbackParts {
  readonly host: HostPort;
  /** The built window, by path. */
  readonly files: ReadonlyMap<string, WindowFile>;
  /** 0 for any free port. */
  readonly port: number;
  /** For tests: visits on a clock of their own. */
  readonly visits?: Visits;
}

/**
 * Serves the window on 127.0.0.1.
 * @throws NodeJS.ErrnoException with code EADDRINUSE where the port is taken
 */
export async function serveLoopback(parts: LoopbackParts): Promise<Loopback> {
  const server = createServer({ maxHeaderSize: 16 * 1024, headersTimeout: 10_000, requestTimeout: 0 });
  server.maxConnections = 256;
  await listening(server, parts.port);
  const place = `127.0.0.1:${String((server.address() as AddressInfo).port)}`;
  const rooms = new Rooms(parts, place);
  server.on('request', (request, response) => {
    void rooms.answer(request, response);
  });
  server.on('upgrade', (request, socket, head) => {
    rooms.upgrade(request, socket, head);
  });
  return {
    place,
    address: (start) =>
      `http://${place}/?token=${rooms.visits.token()}${start ? `&${startInAddress}=1` : ''}`,
    hostEnded: () => {
      rooms.wire.hostEnded();
    },
    close: () =>
      new Promise((resolve) => {
        rooms.wire.close();
        server.close(() => {
          resolve();
        });
        server.closeIdleConnections();
        setTimeout(() => {
          server.closeAllConnections();
        }, 600).unref();
      }),
  };
}

function listening(server: Server, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host: '127.0.0.1', port, exclusive: true }, () => {
      server.off('error', reject);
      resolve();
    });
  });
}

/** What is answered where. */
class Rooms {
  readonly visits: Visits;
  readonly wire: WireServer;
  readonly #host: HostPort;
  readonly #files: ReadonlyMap<string, WindowFile>;
  readonly #uploads: Uploads;
  readonly #place: string;
  readonly #cookieName: string;
  readonly #windowHeaders: Readonly<Record<string, string>>;

  constructor(parts: LoopbackParts, place: string) {
    this.visits = parts.visits ?? new Visits();
    this.wire = new WireServer(parts.host);
    this.#host = parts.host;
    this.#files = parts.files;
    this.#uploads = new Uploads(parts.host);
    this.#place = place;
    // Cookies are shared by all ports, so that two Walkbacks at once need names of their own.
    this.#cookieName = `walkback-${place.split(':')[1] ?? ''}`;
    this.#windowHeaders = windowHeaders(`ws://${place}`);
  }

  async answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    try {
      await this.#answer(request, response);
    } catch (error) {
      console.error(error);
      if (response.headersSent) response.destroy();
      else answerText(response, 500, shellWords.serverTrouble, { connection: 'close' });
    }
  }

  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): void {
    const { asked } = askedOf(request);
    const refused = socketRefusal(asked, this.#place);
    const offered = (request.headers['sec-websocket-protocol'] ?? '').split(',').map((p) => p.trim());
    const key = offered.find((p) => p.startsWith(keyProtocolPrefix))?.slice(keyProtocolPrefix.length) ?? null;
    if (refused) turnAway(socket, refused.status);
    else if (asked.path !== '/wire') turnAway(socket, 404);
    else if (!offered.includes(wireProtocol)) turnAway(socket, 400);
    else if (!this.visits.has(this.#cookie(request), key)) turnAway(socket, 401);
    else if (this.wire.full) turnAway(socket, 503);
    else this.wire.accept(request, socket, head);
  }

  async #answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const { asked, token, start } = askedOf(request);
    const refused = refusal(asked, this.#place);
    if (refused) {
      answerText(response, refused.status, refused.why, { connection: 'close' });
      return;
    }
    if (asked.path === '/' && token !== null) {
      this.#enter(asked, response, token, start);
      return;
    }
    const cookie = this.#cookie(request);
    if (!this.visits.hasCookie(cookie)) {
      answerText(response, 401, shellWords.noVisit, { connection: 'close' });
      return;
    }
    if (asked.method === 'POST' || asked.path === '/alive') {
      const key = request.headers[keyHeader];
      if (!this.visits.has(cookie, typeof key === 'string' ? key : null))
        answerText(response, 401, shellWords.noVisit, { connection: 'close' });
      else if (asked.path === '/alive') answerText(response, 204, '');
      else await this.#take(request, response, asked.path);
      return;
    }
    await this.#give(request, response, asked.path);
  }

  /** Exchanges the token in the address for a visit, and leads on to an address without it. */
  #enter(asked: Asked, response: ServerResponse, token: string, start: boolean): void {
    const visit = asked.method === 'GET' ? this.visits.exchange(token) : null;
    if (!visit) {
      answerText(response, 403, shellWords.tokenSpent, { connection: 'close' });
      return;
    }
    answerBytes(response, 303, Buffer.alloc(0), {
      ...plainHeaders,
      location: `/#${keyInFragment}=${visit.key}${start ? `&${startInAddress}=1` : ''}`,
      'set-cookie': `${this.#cookieName}=${visit.cookie}; Path=/; HttpOnly; SameSite=Strict`,
    });
  }

  async #take(request: IncomingMessage, response: ServerResponse, path: string): Promise<void> {
    const upload = idAfter('/uploads/', path);
    if (path === '/uploads') await this.#uploads.begin(request, response);
    else if (upload !== null) await this.#uploads.take(request, response, upload);
    else answerText(response, 404, shellWords.nothingHere, { connection: 'close' });
  }

  async #give(request: IncomingMessage, response: ServerResponse, path: string): Promise<void> {
    const method = request.method ?? 'GET';
    const file = this.#files.get(path);
    const media = idAfter('/media/', path);
    const report = idAfter('/report/', path);
    if (file) {
      answerBytes(response, 200, file.bytes, {
        ...this.#windowHeaders,
        'content-type': file.mime,
        'cache-control': file.lasting ? 'private, max-age=31536000, immutable' : 'no-store',
      });
    } else if (media !== null) {
      const found = await this.#host.media(media);
      if (!found) answerText(response, 404, shellWords.nothingHere);
      else await answerFile(response, found.path, mediaAnswer(found, method, request.headers.range));
    } else if (report !== null) {
      const found = await this.#host.media(report);
      await answerFile(response, found?.path ?? '', reportAnswer(found, method));
    } else answerText(response, 404, shellWords.nothingHere);
  }

  #cookie(request: IncomingMessage): string | null {
    return cookieOf(request.headers.cookie, this.#cookieName);
  }
}

function askedOf(request: IncomingMessage): { asked: Asked; token: string | null; start: boolean } {
  const [path = '/', query = ''] = (request.url ?? '/').split(/\?(.*)/s);
  const said = new URLSearchParams(query);
  return {
    asked: {
      method: request.method ?? 'GET',
      path,
      headers: request.headers,
      hosts: request.rawHeaders.filter((name, i) => i % 2 === 0 && name.toLowerCase() === 'host').length,
    },
    token: said.get('token'),
    start: said.has(startInAddress),
  };
}

/** The id after a prefix; null where the path is another, or the id is none. */
function idAfter(prefix: string, path: string): string | null {
  const id = path.startsWith(prefix) ? path.slice(prefix.length) : '';
  return mediaIdShape.test(id) ? id : null;
}

function turnAway(socket: Duplex, status: number): void {
  socket.on('error', () => undefined);
  socket.end(`HTTP/1.1 ${String(status)} Refused\r\nconnection: close\r\ncontent-length: 0\r\n\r\n`);
}
