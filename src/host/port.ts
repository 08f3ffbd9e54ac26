import type { HostMessage } from './contract/messages.ts';

/** A window's place at the host. Messages in either direction are plain data, unchecked until they arrive. */
export interface Seat {
  receive(message: unknown): void;
  leave(): void;
}

/** A file that a media id stands for. The path never leaves the host and its shell. */
export interface MediaFile {
  readonly path: string;
  readonly bytes: number;
  readonly mime: string;
}

/**
 * What a shell sees of the host, whether in this process (command line, tests) or across a process border
 * (desktop, loopback). Shells only forward.
 */
export interface HostPort {
  /** Seats a window. `send` is called with each message for it. */
  seat(send: (message: HostMessage) => void): Seat;
  /** Resolves an opaque media id; null where there is no such thing. Ids are random and live as long as the host. */
  media(mediaId: string): Promise<MediaFile | null>;
  /** Where the bytes of an upload that was begun are to be written, and how many are allowed; null if unknown. */
  uploadTarget(uploadId: string): Promise<{ readonly path: string; readonly bytes: number } | null>;
  /** Tells that an upload ended; `complete` false throws the bytes away. */
  uploadEnded(uploadId: string, complete: boolean): Promise<void>;
  /** Ends jobs, closes the store. */
  close(): Promise<void>;
}
