import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { WebSocket } from 'ws';
import { serveLoopback, type Loopback } from '../../../app/local/server.ts';
import { hostEndedCode, keyProtocolPrefix, wireProtocol } from '../../../src/host/contract/loopback.ts';
import { largestMessage } from '../../../src/host/contract/messages.ts';
import { visitor, type Visitor } from './browserLike.ts';
import { standInHost, type StandInHost } from './standInHost.ts';

let host: StandInHost;
let server: Loopback;
let me: Visitor;

beforeAll(async () => {
  host = await standInHost();
  const front = { bytes: Buffer.from('x'), mime: 'text/html', lasting: false };
  server = await serveLoopback({ host: host.port, files: new Map([['/', front]]), port: 0 });
  me = await visitor(server);
});
afterAll(async () => {
  await server.close();
  await host.remove();
});

/** The server's own seat, for uploads. */
const noWindow = 1;

afterEach(async () => {
  await vi.waitFor(() => {
    expect(host.seats()).toBe(noWindow);
  });
});

interface Dial {
  readonly path?: string;
  readonly protocols?: readonly string[];
  readonly headers?: Readonly<Record<string, string | undefined>>;
}

const own = (): string[] => [wireProtocol, `${keyProtocolPrefix}${me.key}`];

/** Opens a socket; resolves to it, or to the status it was turned away with. */
function dial({ path = '/wire', protocols = own(), headers = {} }: Dial = {}): Promise<WebSocket | number> {
  const all = { cookie: me.cookie, origin: `http://${server.place}`, ...headers };
  const given = Object.fromEntries(Object.entries(all).filter(([, v]) => v !== undefined)) as Record<
    string,
    string
  >;
  const socket = new WebSocket(`ws://${server.place}${path}`, [...protocols], { headers: given });
  return new Promise((resolve) => {
    socket.on('open', () => {
      resolve(socket);
    });
    socket.on('unexpected-response', (_request, response) => {
      resolve(response.statusCode ?? 0);
    });
    socket.on('error', () => undefined);
  });
}

async function opened(how: Dial = {}): Promise<WebSocket> {
  const socket = await dial(how);
  if (typeof socket === 'number') throw new Error(`turned away with ${String(socket)}`);
  return socket;
}

const closed = (socket: WebSocket): Promise<number> =>
  new Promise((resolve) => {
    socket.on('close', resolve);
  });

const nextMessage = (socket: WebSocket): Promise<unknown> =>
  new Promise((resolve) => {
    socket.once('message', (data: Buffer) => {
      resolve(JSON.parse(data.toString('utf8')));
    });
  });

describe('opening the wire', () => {
  it('lets the window in, and picks the protocol without the key', async () => {
    const socket = await opened();
    expect(socket.protocol).toBe(wireProtocol);
    const said = nextMessage(socket);
    socket.send(JSON.stringify({ type: 'call', n: 7, name: 'library.about', args: { a: [1, 'é'] } }));
    expect(await said).toEqual({ type: 'answer', n: 7, result: { echo: { a: [1, 'é'] } } });
    socket.close();
  });

  it.each([
    ['no Origin', { headers: { origin: undefined } }, 403],
    ['Origin null', { headers: { origin: 'null' } }, 403],
    ['a page on another loopback port', { headers: { origin: 'http://127.0.0.1:1' } }, 403],
    ['a page elsewhere', { headers: { origin: 'http://attacker.example' } }, 403],
    ['localhost', { headers: { origin: 'http://localhost' } }, 403],
    ['our Origin, but the browser says same-site', { headers: { 'sec-fetch-site': 'same-site' } }, 403],
    ['another Host', { headers: { host: 'attacker.example' } }, 421],
    ['no cookie', { headers: { cookie: undefined } }, 401],
    ['a wrong cookie', { headers: { cookie: 'walkback-1=x' } }, 401],
    ['no key', { protocols: [wireProtocol] }, 401],
    ['a wrong key', { protocols: [wireProtocol, `${keyProtocolPrefix}${'a'.repeat(43)}`] }, 401],
    ['another protocol', { protocols: ['other'] }, 400],
    ['another path', { path: '/other' }, 404],
  ] satisfies [string, Dial, number][])('%s is turned away', async (_what, how, status) => {
    expect(await dial(how)).toBe(status);
    expect(host.seats()).toBe(noWindow);
  });

  it('a key of another visit is turned away', async () => {
    const other = await visitor(server);
    expect(await dial({ protocols: [wireProtocol, `${keyProtocolPrefix}${other.key}`] })).toBe(401);
  });

  it('sixteen windows, not more', async () => {
    const sockets = await Promise.all(Array.from({ length: 16 }, () => opened()));
    expect(await dial()).toBe(503);
    for (const socket of sockets) socket.close();
    await vi.waitFor(() => {
      expect(host.seats()).toBe(noWindow);
    });
    (await opened()).close();
  });
});

describe('on the wire', () => {
  it('a seat is left when its window goes', async () => {
    const socket = await opened();
    expect(host.seats()).toBe(noWindow + 1);
    socket.terminate();
    await vi.waitFor(() => {
      expect(host.seats()).toBe(noWindow);
    });
  });

  it.each([
    ['what is no JSON', '{', 1007],
    ['bytes', Buffer.from('{}'), 1007],
    ['a message above the cap', `"${'a'.repeat(largestMessage)}"`, 1009],
  ])('%s ends the connection', async (_what, message, code) => {
    const socket = await opened();
    const heard = host.heard.length;
    const end = closed(socket);
    socket.send(message, { binary: Buffer.isBuffer(message) });
    expect(await end).toBe(code);
    expect(host.heard.length).toBe(heard);
  });

  it('a window that does not read is not read from, and gets everything once it does', async () => {
    const socket = await opened();
    socket.pause();
    const text = 'x'.repeat(1_000_000);
    for (let seq = 1; seq <= 40; seq++) host.tell({ type: 'event', n: 1, seq, event: text });
    const before = host.heard.length;
    for (let n = 0; n < 100; n++) socket.send(JSON.stringify({ type: 'unsubscribe', n }));
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect(host.heard.length).toBe(before);
    let got = 0;
    socket.on('message', () => (got += 1));
    socket.resume();
    await vi.waitFor(
      () => {
        expect(got).toBe(40);
        expect(host.heard.length).toBe(before + 100);
      },
      { timeout: 20_000 },
    );
    socket.close();
  });

  it('the end of the host is told', async () => {
    const socket = await opened();
    const end = closed(socket);
    server.hostEnded();
    expect(await end).toBe(hostEndedCode);
  });
});
