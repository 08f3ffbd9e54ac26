import { callHandlers } from './handlers/calls.ts';
import { jobHandlers } from './handlers/jobs.ts';
import { calls, jobs, topics, type CallName, type JobName, type TopicName } from './contract/calls.ts';
import { largestMessage, WindowMessage, type HostMessage } from './contract/messages.ts';
import type { Trouble } from './contract/shapes.ts';
import type { Desk } from './desk.ts';
import type { Seat } from './port.ts';
import { watchers } from './topics.ts';
import { trouble } from './troubles.ts';
import { hostTroubles } from '../words/hostTroubles.ts';

/** How many subscriptions one window may hold. */
const mostSubscriptions = 200;

/**
 * Seats a window: checks what comes, hands it to the handlers, checks what goes back. Messages are taken in the
 * order in which they come, and a handler that does not wait is done before the next is looked at.
 */
export function seat(
  desk: Desk,
  send: (message: HostMessage) => void,
  toTrouble: (error: unknown) => Trouble,
): Seat {
  const subscriptions = new Map<number, () => void>();
  let seated = true;

  const tell = (message: HostMessage): void => {
    if (seated) send(message);
  };
  const fail = (n: number, error: unknown): void => tell({ type: 'trouble', n, trouble: toTrouble(error) });
  const answer = (n: number, result: unknown): void => {
    tell({ type: 'answer', n, result: withinSize(result) });
  };

  const call = (n: number, name: string, args: unknown): void => {
    if (!isCall(name)) throw trouble('badInput', hostTroubles.unknownName(name));
    const handler = callHandlers[name] as (desk: Desk, args: unknown) => unknown;
    const result = handler(desk, calls[name].args.parse(args));
    const checked = (value: unknown): void => answer(n, calls[name].result.parse(value));
    if (!(result instanceof Promise)) checked(result);
    else result.then(checked).catch((error: unknown) => fail(n, error));
  };

  const start = (n: number, name: string, args: unknown): void => {
    if (!isJob(name)) throw trouble('badInput', hostTroubles.unknownName(name));
    const handler = jobHandlers[name] as (desk: Desk, args: unknown) => Parameters<Desk['jobs']['start']>[1];
    const job = handler(desk, jobs[name].args.parse(args));
    answer(n, desk.jobs.start(name, job));
  };

  const subscribe = (n: number, topic: string, args: unknown): void => {
    if (!isTopic(topic)) throw trouble('badInput', hostTroubles.unknownName(topic));
    unsubscribe(n);
    if (subscriptions.size >= mostSubscriptions) throw trouble('conflict', hostTroubles.tooManyListeners);
    const state = { seq: 0, failed: false };
    const watch = watchers[topic] as (desk: Desk, args: unknown, on: (event: unknown) => void) => () => void;
    const stop = watch(desk, topics[topic].args.parse(args), (event) => {
      try {
        tell({ type: 'event', n, seq: ++state.seq, event: withinSize(event) });
      } catch (error) {
        state.failed = true;
        unsubscribe(n);
        fail(n, error);
      }
    });
    // The first event comes while the watching begins, and may have been too large.
    if (state.failed) stop();
    else subscriptions.set(n, stop);
  };

  const unsubscribe = (n: number): void => {
    subscriptions.get(n)?.();
    subscriptions.delete(n);
  };

  return {
    receive(raw) {
      if (!seated) return;
      const parsed = WindowMessage.safeParse(raw);
      if (!parsed.success) {
        const n = numberOf(raw);
        if (n !== null) fail(n, trouble('badInput', hostTroubles.messageForm));
        return;
      }
      const message = parsed.data;
      try {
        if (message.type === 'unsubscribe') return unsubscribe(message.n);
        withinSize(message.args);
        if (message.type === 'call') call(message.n, message.name, message.args);
        else if (message.type === 'start') start(message.n, message.name, message.args);
        else subscribe(message.n, message.topic, message.args);
      } catch (error) {
        fail(message.n, error);
      }
    },
    leave() {
      seated = false;
      for (const n of [...subscriptions.keys()]) unsubscribe(n);
    },
  };
}

const isCall = (name: string): name is CallName => Object.hasOwn(calls, name);
const isJob = (name: string): name is JobName => Object.hasOwn(jobs, name);
const isTopic = (name: string): name is TopicName => Object.hasOwn(topics, name);

/** The value itself. Throws `badInput` where its JSON is larger than a message may be, or where it has none. */
function withinSize<T>(value: T): T {
  const bytes = Buffer.byteLength(jsonOf(value));
  if (bytes > largestMessage) throw trouble('badInput', hostTroubles.messageTooLarge(bytes, largestMessage));
  return value;
}

function jsonOf(value: unknown): string {
  try {
    // In a list, since undefined alone has no form.
    return JSON.stringify([value]);
  } catch {
    // A ring of references, or a number that JSON has no form for.
    throw trouble('badInput', hostTroubles.messageForm);
  }
}

/** The number of an ask whose form is wrong, so that it can at least be answered. */
function numberOf(raw: unknown): number | null {
  if (typeof raw !== 'object' || raw === null || !('n' in raw)) return null;
  return typeof raw.n === 'number' && Number.isSafeInteger(raw.n) ? raw.n : null;
}
