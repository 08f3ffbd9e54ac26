import type { FileSource } from './calls.ts';
import type { Wire } from './link.ts';

/** What a file is wanted for; the shell offers fitting endings, the host checks the content. */
export type FilePurpose = 'video' | 'picture' | 'review' | 'course' | 'rules' | 'dog';

/** A file as the window holds it (a DOM `File`), without DOM types in this room. */
export interface WindowFile {
  readonly name: string;
  readonly size: number;
}

/** How much of a file has been handed over, in bytes. */
export type OnHandedOver = (done: number, total: number) => void;

/** A file that was chosen. Its bytes move, where they must, only when `source` is called. */
export interface PickedFile {
  readonly name: string;
  /** Null where the size is not known before the host opens it. */
  readonly bytes: number | null;
  /**
   * Makes the file reachable for the host. Desktop: at once, by path. Loopback: sends it as an upload.
   * Rejects with HostTrouble; with code `cancelled` where the signal was raised.
   */
  source(onProgress?: OnHandedOver, signal?: StopSignal): Promise<FileSource>;
}

/** The part of an AbortSignal that is needed here. */
export interface StopSignal {
  readonly aborted: boolean;
  addEventListener(type: 'abort', on: () => void): void;
  removeEventListener(type: 'abort', on: () => void): void;
}

/**
 * Why the wire is gone. `interrupted`: it is being made again, wait for `onBack`. `ended`: the host or the
 * program behind it has stopped; the window cannot go on until Walkback is started again.
 */
export type WireLoss = 'interrupted' | 'ended';

/**
 * The window's way to everything outside it. Desktop and loopback differ only here. `F` is the window's own
 * file type.
 */
export interface Shell<F extends WindowFile = WindowFile> {
  readonly kind: 'desktop' | 'loopback';
  readonly wire: Wire;
  /** Asks the user for files. Empty where the dialog was closed. Must be called from a key press or a click. */
  chooseFiles(purpose: FilePurpose, several: boolean): Promise<readonly PickedFile[]>;
  /** A dropped or pasted file. Same rules as PickedFile.source. */
  sourceOf(file: F, onProgress?: OnHandedOver, signal?: StopSignal): Promise<FileSource>;
  /** Address from which the window reads a media id; byte ranges and HEAD work. */
  mediaUrl(mediaId: string): string;
  /** Shows a written report in a place of its own, where no script runs. */
  openReport(mediaId: string): Promise<void>;
  /** Saves a written report where the user says. Resolves to false where the user closed the dialog. */
  saveReport(mediaId: string, name: string): Promise<boolean>;
  /** Saves any other written file where the user says. Resolves to false where the user closed the dialog. */
  saveFile(mediaId: string, name: string): Promise<boolean>;
  /** Told when the wire is gone. Returns the way to stop listening. */
  onLost(on: (loss: WireLoss) => void): () => void;
  /** Told when the wire is there again: call `resume()` of the link. Returns the way to stop listening. */
  onBack(on: () => void): () => void;
}

/** A file named by the desktop's dialog. */
export interface DesktopFile {
  readonly path: string;
  readonly name: string;
  readonly bytes: number | null;
}

/**
 * What the desktop's preload gives the window as `window.walkbackShell`, and nothing more. Every argument is
 * checked again in the main process.
 */
export interface DesktopBridge<F extends WindowFile = WindowFile> {
  readonly wire: {
    send(message: unknown): void;
    listen(onMessage: (message: unknown) => void): void;
  };
  openFiles(purpose: FilePurpose, several: boolean): Promise<readonly DesktopFile[]>;
  /** The path of a dropped file; empty where it has none. */
  pathOf(file: F): string;
  openReport(mediaId: string): Promise<void>;
  saveReport(mediaId: string, name: string): Promise<boolean>;
  saveFile(mediaId: string, name: string): Promise<boolean>;
  onHostEnded(on: () => void): void;
}

/** Name under which the preload's bridge stands on `window`. */
export const bridgeName = 'walkbackShell';
