import { randomUUID } from 'node:crypto';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { HostMessage, WindowMessage } from '../../../src/host/contract/messages.ts';
import type { HostPort, MediaFile } from '../../../src/host/port.ts';

/** A host that answers just enough to test a shell, and remembers what it was told. */
export interface StandInHost {
  readonly port: HostPort;
  readonly folder: string;
  /** Makes a file and its media id. */
  media(bytes: Buffer, mime: string): Promise<string>;
  readonly ended: { uploadId: string; complete: boolean }[];
  readonly heard: unknown[];
  /** Seats taken and not left. */
  seats(): number;
  /** Sends a message to every seat. */
  tell(message: HostMessage): void;
  remove(): Promise<void>;
}

export async function standInHost(): Promise<StandInHost> {
  const folder = await mkdtemp(join(tmpdir(), 'walkback-shell-'));
  const files = new Map<string, MediaFile>();
  const uploads = new Map<string, { path: string; bytes: number }>();
  const ended: { uploadId: string; complete: boolean }[] = [];
  const heard: unknown[] = [];
  const seats = new Set<(message: HostMessage) => void>();

  const answer = (message: WindowMessage, send: (message: HostMessage) => void): void => {
    if (message.type !== 'call') return;
    if (message.name === 'upload.begin') {
      const { name, bytes } = message.args as { name: string; bytes: number };
      if (name === 'refused.mp4') {
        send({
          type: 'trouble',
          n: message.n,
          trouble: { code: 'noSpace', message: 'No room for refused.mp4.' },
        });
        return;
      }
      const uploadId = randomUUID();
      uploads.set(uploadId, { path: join(folder, uploadId), bytes });
      send({ type: 'answer', n: message.n, result: { uploadId } });
      return;
    }
    send({ type: 'answer', n: message.n, result: { echo: message.args } });
  };

  return {
    folder,
    ended,
    heard,
    seats: () => seats.size,
    tell: (message) => {
      for (const send of seats) send(message);
    },
    async media(bytes, mime) {
      const id = randomUUID();
      const path = join(folder, `media-${id}`);
      await writeFile(path, bytes);
      files.set(id, { path, bytes: bytes.length, mime });
      return id;
    },
    remove: () => rm(folder, { recursive: true, force: true }),
    port: {
      seat(send) {
        seats.add(send);
        return {
          receive: (message) => {
            heard.push(message);
            answer(message as WindowMessage, send);
          },
          leave: () => {
            seats.delete(send);
          },
        };
      },
      media: (id) => Promise.resolve(files.get(id) ?? null),
      uploadTarget: (id) => Promise.resolve(uploads.get(id) ?? null),
      uploadEnded: (uploadId, complete) => {
        ended.push({ uploadId, complete });
        return Promise.resolve();
      },
      close: () => Promise.resolve(),
    },
  };
}
