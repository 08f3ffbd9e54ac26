import type { Wire } from '../../../src/host/contract/link.ts';
import {
  hostEndedCode,
  keyHeader,
  keyProtocolPrefix,
  wireProtocol,
} from '../../../src/host/contract/loopback.ts';
import type { WireLoss } from '../../../src/host/contract/shell.ts';
import { listeners } from './listeners.ts';

const firstWait = 250;
const longestWait = 4000;
/** Tries against a server that does not answer at all before it is taken to be gone (about 15 s in all). */
const triesWithoutServer = 7;

export interface ReconnectingWire {
  readonly wire: Wire;
  onLost(on: (loss: WireLoss) => void): () => void;
  onBack(on: () => void): () => void;
}

/**
 * A wire over a web socket that makes itself again when it is lost. Messages sent before the first opening wait;
 * messages sent while it is lost are dropped, since the link asks anew on `onBack`.
 * @param address of the socket
 * @param alive address that answers 204 while this window's visit is good, 401 when it is over
 * @param key the window's key, shown beside the cookie
 */
export function reconnectingWire(address: string, alive: string, key: string): ReconnectingWire {
  const lost = listeners<WireLoss>();
  const back = listeners<void>();
  let hear: (message: unknown) => void = () => undefined;
  let early: string[] | null = [];
  let socket: WebSocket | null = null;
  let state: 'first' | 'open' | 'interrupted' | 'ended' = 'first';
  let tries = 0;

  const end = (): void => {
    if (state === 'ended') return;
    state = 'ended';
    lost.tell('ended');
  };

  const open = (): void => {
    const s = new WebSocket(address, [wireProtocol, `${keyProtocolPrefix}${key}`]);
    socket = s;
    s.addEventListener('open', () => {
      const again = state === 'interrupted';
      state = 'open';
      tries = 0;
      for (const text of early ?? []) s.send(text);
      early = null;
      if (again) back.tell();
    });
    s.addEventListener('message', (event) => {
      const message = parsed(event.data);
      if (message !== undefined) hear(message);
    });
    s.addEventListener('close', (event) => {
      if (socket !== s) return;
      socket = null;
      if (event.code === hostEndedCode) {
        end();
        return;
      }
      if (state === 'open') {
        state = 'interrupted';
        lost.tell('interrupted');
      }
      void tryAgain();
    });
  };

  const tryAgain = async (): Promise<void> => {
    tries += 1;
    const wait = Math.min(longestWait, firstWait * 2 ** (tries - 1));
    await new Promise((resolve) => setTimeout(resolve, wait));
    const answer = await fetch(alive, { cache: 'no-store', headers: { [keyHeader]: key } }).catch(() => null);
    if (answer?.status === 401 || (answer === null && tries >= triesWithoutServer)) {
      end();
      return;
    }
    if (answer?.status === 204) open();
    else void tryAgain();
  };

  open();
  return {
    wire: {
      send(message) {
        const text = JSON.stringify(message);
        if (early) early.push(text);
        else if (socket?.readyState === WebSocket.OPEN) socket.send(text);
      },
      listen(onMessage) {
        hear = onMessage;
      },
    },
    onLost: lost.add,
    onBack: back.add,
  };
}

function parsed(data: unknown): unknown {
  if (typeof data !== 'string') return undefined;
  try {
    return JSON.parse(data);
  } catch {
    return undefined;
  }
}
