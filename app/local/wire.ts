import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { WebSocket, WebSocketServer, type RawData } from 'ws';
import { hostEndedCode, wireProtocol } from '../../src/host/contract/loopback.ts';
import { largestMessage } from '../../src/host/contract/messages.ts';
import type { HostPort } from '../../src/host/port.ts';

/** Windows at the same time. */
const mostWindows = 16;
/** Bytes waiting to go out at which nothing more is read from that window, and at which it is given up. */
const pauseAt = 4 * 1024 * 1024;
const giveUpAt = 256 * 1024 * 1024;
const heartbeat = 20_000;

/** Carries the contract's messages between windows and host, one web socket a window. */
export class WireServer {
  readonly #host: HostPort;
  readonly #server = new WebSocketServer({
    noServer: true,
    maxPayload: largestMessage,
    perMessageDeflate: false,
    handleProtocols: () => wireProtocol,
  });
  readonly #beat: NodeJS.Timeout;
  readonly #quiet = new WeakSet<WebSocket>();

  constructor(host: HostPort) {
    this.#host = host;
    this.#beat = setInterval(() => {
      this.#listenForLife();
    }, heartbeat);
    this.#beat.unref();
  }

  /** Whether one more window may come. */
  get full(): boolean {
    return this.#server.clients.size >= mostWindows;
  }

  /** Takes a connection whose request has passed the guard. */
  accept(request: IncomingMessage, socket: Duplex, head: Buffer): void {
    this.#server.handleUpgrade(request, socket, head, (window) => {
      this.#seat(window);
    });
  }

  /** Tells every window that the host has ended. */
  hostEnded(): void {
    for (const window of this.#server.clients) window.close(hostEndedCode);
  }

  close(): void {
    clearInterval(this.#beat);
    for (const window of this.#server.clients) {
      window.close(1001);
      setTimeout(() => {
        window.terminate();
      }, 500).unref();
    }
    this.#server.close();
  }

  #seat(window: WebSocket): void {
    const seat = this.#host.seat((message) => {
      if (window.readyState !== WebSocket.OPEN) return;
      if (window.bufferedAmount > giveUpAt) {
        // A window that stopped reading; it comes back and asks for the whole again.
        window.terminate();
        return;
      }
      window.send(JSON.stringify(message), () => {
        if (window.isPaused && window.bufferedAmount < pauseAt) window.resume();
      });
      if (window.bufferedAmount > pauseAt) window.pause();
    });
    window.on('message', (data, binary) => {
      const message = binary ? undefined : read(data);
      if (message === undefined) window.close(1007);
      else seat.receive(message);
    });
    window.on('pong', () => {
      this.#quiet.delete(window);
    });
    // ws closes the connection itself after an error (too large a message, a broken frame).
    window.on('error', () => undefined);
    window.on('close', () => {
      seat.leave();
    });
  }

  #listenForLife(): void {
    for (const window of this.#server.clients) {
      if (window.isPaused) continue;
      if (this.#quiet.has(window)) {
        window.terminate();
        continue;
      }
      this.#quiet.add(window);
      window.ping();
    }
  }
}

function read(data: RawData): unknown {
  const bytes = Array.isArray(data) ? Buffer.concat(data) : Buffer.from(data as Buffer);
  try {
    return JSON.parse(bytes.toString('utf8'));
  } catch {
    return undefined;
  }
}
