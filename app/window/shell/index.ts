import type { DesktopBridge, Shell } from '../../../src/host/contract/shell.ts';
import { desktopShell } from './desktop.ts';
import { loopbackShell } from './loopback.ts';

/** The shell as the window's screens use it. */
export type WindowShell = Shell<File>;

declare global {
  interface Window {
    /** Set by the desktop's preload, absent on loopback. */
    readonly walkbackShell?: DesktopBridge<File>;
  }
}

/** Finds the shell this window runs in: the desktop's bridge where there is one, else the loopback server. */
export function findShell(): WindowShell {
  const bridge = window.walkbackShell;
  return bridge ? desktopShell(bridge) : loopbackShell(window.location);
}
