import type { FramePort, FromHost } from './border.ts';

/** What Electron's utilityProcess puts on `process` (https://www.electronjs.org/docs/latest/api/parent-port). */
interface ParentPort {
  on(event: 'message', listener: (event: { data: unknown }) => void): void;
  postMessage(message: unknown): void;
}

/**
 * This process's line to the shell that started it: Electron's parent port, or the channel of child_process.fork.
 * `onLost` is called when the shell is gone. Throws where no shell started this process.
 */
export function processPort(onLost: () => void): FramePort<FromHost> {
  const parent = (process as { parentPort?: ParentPort }).parentPort;
  if (parent) {
    return {
      post: (frame) => parent.postMessage(frame),
      listen: (on) => parent.on('message', (event) => on(event.data)),
    };
  }
  if (!process.send) {
    throw new Error('This is the host process of Walkback. It is started by Walkback itself, not by hand.');
  }
  const send = process.send.bind(process);
  process.on('disconnect', onLost);
  return {
    post(frame) {
      // The shell may be gone: then nobody waits for it.
      if (process.connected) send(frame, undefined, {}, () => undefined);
    },
    listen: (on) => process.on('message', on),
  };
}
