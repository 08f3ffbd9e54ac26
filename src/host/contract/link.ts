import { calls, jobs, topics } from './calls.ts';
import type {
  CallArgs,
  CallName,
  CallResult,
  JobArgs,
  JobName,
  JobReport,
  TopicArgs,
  TopicEvent,
  TopicName,
} from './calls.ts';
import { HostMessage, type WindowMessage } from './messages.ts';
import type { Trouble } from './shapes.ts';

/** An error that came from the host. Its message is written for the reader. */
export class HostTrouble extends Error {
  readonly code: Trouble['code'];
  constructor(trouble: Trouble) {
    super(trouble.message);
    this.name = 'HostTrouble';
    this.code = trouble.code;
  }
}

/** The two ends of a line to the host. The shell gives one; the link speaks over it. */
export interface Wire {
  send(message: WindowMessage): void;
  /** Called once by the link. */
  listen(onMessage: (message: unknown) => void): void;
}

/** The host as the window sees it: typed calls, subscriptions and jobs over a wire. */
export interface Link {
  call<N extends CallName>(name: N, args: CallArgs<N>): Promise<CallResult<N>>;
  /** Starts a job; resolves to its id. Watch the `jobs` topic for the rest. */
  start<N extends JobName>(name: N, args: JobArgs<N>): Promise<string>;
  /**
   * Returns the way to stop listening. After a lost wire the host sends the whole again. `onTrouble` is told where
   * the host refuses, for example because there is no such review.
   */
  subscribe<N extends TopicName>(
    name: N,
    args: TopicArgs<N>,
    on: (event: TopicEvent<N>) => void,
    onTrouble?: (trouble: HostTrouble) => void,
  ): () => void;
  /** To be called when the wire was lost and is there again: asks every subscription anew. */
  resume(): void;
}

interface Waiting {
  resolve(value: unknown): void;
  reject(error: Error): void;
}

interface Subscription {
  topic: TopicName;
  args: unknown;
  seq: number;
  on(event: unknown): void;
  onTrouble: ((trouble: HostTrouble) => void) | undefined;
}

/** Makes a link over a wire. Arguments and answers are checked against the contract on this side too. */
export function link(wire: Wire): Link {
  let next = 1;
  const waiting = new Map<number, Waiting>();
  const subscriptions = new Map<number, Subscription>();

  const ask = (message: (n: number) => WindowMessage): Promise<unknown> => {
    const n = next++;
    return new Promise((resolve, reject) => {
      waiting.set(n, { resolve, reject });
      wire.send(message(n));
    });
  };

  const subscribeAgain = (n: number, s: Subscription): void => {
    s.seq = 0;
    wire.send({ type: 'subscribe', n, topic: s.topic, args: s.args });
  };

  wire.listen((raw) => {
    const parsed = HostMessage.safeParse(raw);
    if (!parsed.success) return;
    const message = parsed.data;
    if (message.type === 'event') {
      const s = subscriptions.get(message.n);
      if (!s) return;
      if (message.seq !== s.seq + 1) {
        wire.send({ type: 'unsubscribe', n: message.n });
        subscribeAgain(message.n, s);
        return;
      }
      s.seq = message.seq;
      const event = topics[s.topic].event.safeParse(message.event);
      if (event.success) s.on(event.data);
      return;
    }
    const w = waiting.get(message.n);
    waiting.delete(message.n);
    if (message.type === 'trouble') {
      const trouble = new HostTrouble(message.trouble);
      if (w) w.reject(trouble);
      else subscriptions.get(message.n)?.onTrouble?.(trouble);
    } else w?.resolve(message.result);
  });

  return {
    async call(name, args) {
      const checked = calls[name].args.parse(args);
      const result = await ask((n) => ({ type: 'call', n, name, args: checked }));
      return calls[name].result.parse(result) as CallResult<typeof name>;
    },
    async start(name, args) {
      const checked = jobs[name].args.parse(args);
      const result = await ask((n) => ({ type: 'start', n, name, args: checked }));
      return String(result);
    },
    subscribe(name, args, on, onTrouble) {
      const n = next++;
      const s: Subscription = { topic: name, args, seq: 0, on, onTrouble };
      subscriptions.set(n, s);
      subscribeAgain(n, s);
      return () => {
        subscriptions.delete(n);
        wire.send({ type: 'unsubscribe', n });
      };
    },
    resume() {
      for (const [n, w] of waiting) {
        w.reject(
          new HostTrouble({
            code: 'internal',
            message: 'The connection to the library was lost for a moment.',
          }),
        );
        waiting.delete(n);
      }
      for (const [n, s] of subscriptions) subscribeAgain(n, s);
    },
  };
}

/** Starts a job and waits for its end on the `jobs` topic. Rejects with HostTrouble where it fails or is cancelled. */
export async function runJob<N extends JobName>(
  host: Link,
  name: N,
  args: JobArgs<N>,
  onProgress?: (report: JobReport) => void,
): Promise<import('./calls.ts').JobResult<N>> {
  let stop: (() => void) | undefined;
  try {
    const reports: JobReport[][] = [];
    let wake: (() => void) | undefined;
    stop = host.subscribe('jobs', {}, (event) => {
      reports.push(event.jobs);
      wake?.();
    });
    const id = await host.start(name, args);
    for (;;) {
      const list = reports.shift();
      if (!list) {
        await new Promise<void>((resolve) => (wake = resolve));
        continue;
      }
      const mine = list.find((j) => j.id === id);
      if (!mine) continue;
      onProgress?.(mine);
      if (mine.state === 'done')
        return jobs[name].result.parse(mine.result) as import('./calls.ts').JobResult<N>;
      if (mine.state === 'failed' || mine.state === 'cancelled') {
        const code =
          mine.state === 'cancelled' ? 'cancelled' : ((mine.trouble?.code ?? 'internal') as Trouble['code']);
        throw new HostTrouble({ code, message: mine.trouble?.message ?? 'The work was stopped.' });
      }
    }
  } finally {
    stop?.();
  }
}
