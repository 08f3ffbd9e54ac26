import { fork, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { hostTroubles } from '../words/hostTroubles.ts';
import { FromHost, type FramePort, type HostSettings, type ToHost } from './border.ts';
import { HostTrouble } from './contract/link.ts';
import type { HostMessage } from './contract/messages.ts';
import type { Trouble } from './contract/shapes.ts';
import type { HostPort, MediaFile } from './port.ts';

/** A host in another process. */
export interface RemoteHost extends HostPort {
  /** Resolves when the host's process has ended without being asked to; never after `close`. */
  readonly gone: Promise<Trouble>;
}

/** The shell's end of the border. */
export interface RemotePort extends FramePort<ToHost> {
  /** Called once; tells how the process ended, for the reader. */
  onEnd(ended: (detail: string) => void): void;
  /** Ends the process where it does not end by itself. */
  kill(): void;
}

/** How long a host may take to close, milliseconds, before its process is ended. The store stands that. */
const patience = 10_000;

/** Starts the host's process with Node and opens the library there. Rejects with HostTrouble where that fails. */
export function forkHost(
  settings: HostSettings,
  entry = fileURLToPath(new URL('./process.ts', import.meta.url)),
): Promise<RemoteHost> {
  const child = fork(entry, [], {
    serialization: 'advanced',
    execArgv: [],
    stdio: ['ignore', 2, 'inherit', 'ipc'],
  });
  return openRemote(childPort(child), settings);
}

/** The line to a process that child_process.fork started. */
export function childPort(child: ChildProcess): RemotePort {
  return {
    post: (frame) => void (child.connected && child.send(frame, () => undefined)),
    listen: (on) => void child.on('message', on),
    onEnd(ended) {
      child.once('error', (error) => ended(error.message));
      child.once('exit', (code, signal) => ended(signal ?? `exit code ${code ?? 'unknown'}`));
    },
    kill: () => void child.kill('SIGKILL'),
  };
}

/** What is used of Electron's UtilityProcess. */
export interface UtilityChild {
  postMessage(message: unknown): void;
  on(event: 'message', listener: (message: unknown) => void): unknown;
  once(event: 'exit', listener: (code: number) => void): unknown;
  kill(): boolean;
}

/** The line to a process that Electron's utilityProcess.fork started. */
export function utilityPort(child: UtilityChild): RemotePort {
  return {
    post: (frame) => child.postMessage(frame),
    listen: (on) => void child.on('message', on),
    onEnd: (ended) => void child.once('exit', (code) => ended(`exit code ${code}`)),
    kill: () => void child.kill(),
  };
}

interface Asking {
  resolve(value: unknown): void;
  reject(error: Error): void;
}

interface RemoteSeat {
  send(message: HostMessage): void;
  /** Numbers of what this window waits for. */
  readonly waiting: Set<number>;
}

/** Opens a library in a host process. Everything that waits when the process ends is refused with a clear message. */
export function openRemote(port: RemotePort, settings: HostSettings): Promise<RemoteHost> {
  const asking = new Map<number, Asking>();
  const seats = new Map<number, RemoteSeat>();
  let next = 1;
  let ended: Trouble | null = null;
  let closing = false;
  const opening = deferred<RemoteHost>();
  const gone = deferred<Trouble>();
  const exited = deferred<void>();

  const ask = <T>(frame: (n: number) => ToHost): Promise<T> => {
    if (ended) return Promise.reject(new HostTrouble(ended));
    const n = next++;
    return new Promise<T>((resolve, reject) => {
      asking.set(n, { resolve, reject });
      port.post(frame(n));
    });
  };
  const refuse = (seat: RemoteSeat, n: number, trouble: Trouble): void => {
    seat.waiting.delete(n);
    seat.send({ type: 'trouble', n, trouble });
  };

  port.onEnd((detail) => {
    if (ended) return;
    ended = { code: 'internal', message: closing ? hostTroubles.closed : hostTroubles.gone(detail) };
    for (const { reject } of asking.values()) reject(new HostTrouble(ended));
    asking.clear();
    for (const seat of seats.values()) for (const n of seat.waiting) refuse(seat, n, ended);
    opening.reject(new HostTrouble(ended));
    if (!closing) gone.resolve(ended);
    exited.resolve();
  });

  port.listen((raw) => {
    const parsed = FromHost.safeParse(raw);
    if (!parsed.success) return;
    const frame = parsed.data;
    switch (frame.frame) {
      case 'awake':
        port.post({ frame: 'open', settings });
        break;
      case 'opened':
        opening.resolve(remote);
        break;
      case 'refused':
        closing = true;
        opening.reject(new HostTrouble(frame.trouble));
        break;
      case 'send': {
        const seat = seats.get(frame.seat);
        if (frame.message.type !== 'event') seat?.waiting.delete(frame.message.n);
        seat?.send(frame.message);
        break;
      }
      case 'reply':
        asking.get(frame.ask)?.resolve(frame.value);
        asking.delete(frame.ask);
        break;
      case 'trouble':
        asking.get(frame.ask)?.reject(new HostTrouble(frame.trouble));
        asking.delete(frame.ask);
        break;
    }
  });

  const close = async (): Promise<void> => {
    if (ended) return;
    closing = true;
    const late = setTimeout(() => port.kill(), patience);
    // Ends with a reply or with the process; either way it is over.
    await ask((n) => ({ frame: 'close', ask: n })).catch(() => undefined);
    await exited.promise;
    clearTimeout(late);
  };

  const remote: RemoteHost = {
    gone: gone.promise,
    seat(send) {
      const number = next++;
      const seat: RemoteSeat = { send, waiting: new Set() };
      seats.set(number, seat);
      port.post({ frame: 'seat', seat: number });
      return {
        receive(message) {
          const n = waitsFor(message);
          if (ended) {
            if (n !== null) refuse(seat, n, ended);
            return;
          }
          if (n !== null) seat.waiting.add(n);
          port.post({ frame: 'receive', seat: number, message });
        },
        leave() {
          seats.delete(number);
          if (!ended) port.post({ frame: 'leave', seat: number });
        },
      };
    },
    media: (mediaId) => ask<MediaFile | null>((n) => ({ frame: 'media', ask: n, mediaId })),
    uploadTarget: (uploadId) => ask((n) => ({ frame: 'uploadTarget', ask: n, uploadId })),
    uploadEnded: (uploadId, complete) => ask((n) => ({ frame: 'uploadEnded', ask: n, uploadId, complete })),
    close,
  };
  return opening.promise;
}

/** The number of a message that will be answered, or null: subscriptions are asked again by the window itself. */
function waitsFor(message: unknown): number | null {
  if (typeof message !== 'object' || message === null || !('type' in message) || !('n' in message))
    return null;
  const { type, n } = message;
  return (type === 'call' || type === 'start') && typeof n === 'number' ? n : null;
}

interface Deferred<T> {
  readonly promise: Promise<T>;
  resolve(value: T): void;
  reject(error: Error): void;
}

function deferred<T>(): Deferred<T> {
  let resolve: (value: T) => void = () => undefined;
  let reject: (error: Error) => void = () => undefined;
  const promise = new Promise<T>((yes, no) => {
    resolve = yes;
    reject = no;
  });
  return { promise, resolve, reject };
}
