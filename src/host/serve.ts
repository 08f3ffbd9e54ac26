import { ToHost, type FramePort, type FromHost, type HostSettings } from './border.ts';
import type { HostPort, Seat } from './port.ts';
import { toTrouble } from './troubles.ts';

/**
 * The host's side of the border: opens a host when asked and hands frames to it.
 * `leave` is called when the host was closed, or could not be opened: the process may end then.
 */
export function serve(
  port: FramePort<FromHost>,
  open: (settings: HostSettings) => Promise<HostPort>,
  leave: (code: number) => void,
): { close(): Promise<void> } {
  const seats = new Map<number, Seat>();
  let host: HostPort | null = null;
  let folder = '';
  const told = (error: unknown) => toTrouble(folder, error, (fault) => console.error(fault));

  const begin = async (settings: HostSettings): Promise<void> => {
    folder = settings.folder;
    try {
      host = await open(settings);
      port.post({ frame: 'opened' });
    } catch (error) {
      port.post({ frame: 'refused', trouble: told(error) });
      leave(1);
    }
  };

  const answer = (ask: number, work: Promise<unknown>): void => {
    work.then(
      (value) => port.post({ frame: 'reply', ask, value }),
      (error: unknown) => port.post({ frame: 'trouble', ask, trouble: told(error) }),
    );
  };

  const close = async (): Promise<void> => {
    const closing = host;
    host = null;
    seats.clear();
    await closing?.close();
  };

  port.listen((raw) => {
    const parsed = ToHost.safeParse(raw);
    if (!parsed.success) return;
    const frame = parsed.data;
    if (frame.frame === 'open') {
      if (folder === '') void begin(frame.settings);
      return;
    }
    if (!host) return;
    switch (frame.frame) {
      case 'seat': {
        const { seat } = frame;
        seats.set(
          seat,
          host.seat((message) => port.post({ frame: 'send', seat, message })),
        );
        break;
      }
      case 'receive':
        seats.get(frame.seat)?.receive(frame.message);
        break;
      case 'leave':
        seats.get(frame.seat)?.leave();
        seats.delete(frame.seat);
        break;
      case 'media':
        answer(frame.ask, host.media(frame.mediaId));
        break;
      case 'uploadTarget':
        answer(frame.ask, host.uploadTarget(frame.uploadId));
        break;
      case 'uploadEnded':
        answer(frame.ask, host.uploadEnded(frame.uploadId, frame.complete));
        break;
      case 'close':
        answer(
          frame.ask,
          close().finally(() => setImmediate(() => leave(0))),
        );
        break;
    }
  });
  port.post({ frame: 'awake' });
  return { close };
}
