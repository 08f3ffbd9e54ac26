import { BrowserWindow, type WebPreferences } from 'electron';
import { reportAddress, windowAddress } from './addresses.ts';

/** What every window of ours is kept to. The spelling checker is off since it would fetch dictionaries. */
const keptTo = {
  contextIsolation: true,
  sandbox: true,
  nodeIntegration: false,
  nodeIntegrationInWorker: false,
  nodeIntegrationInSubFrames: false,
  webSecurity: true,
  allowRunningInsecureContent: false,
  experimentalFeatures: false,
  webviewTag: false,
  navigateOnDragDrop: false,
  spellcheck: false,
  devTools: false,
} as const satisfies WebPreferences;

/** Opens the workbench. */
export function openWorkbench(preload: string): BrowserWindow {
  const window = new BrowserWindow({
    width: 1280,
    height: 800,
    minWidth: 800,
    minHeight: 500,
    show: false,
    autoHideMenuBar: true,
    title: 'Walkback',
    webPreferences: { ...keptTo, preload },
  });
  window.once('ready-to-show', () => {
    window.show();
  });
  void window.loadURL(`${windowAddress}#/start`);
  return window;
}

/** Opens a written report beside the workbench: no preload, no scripts, an origin of its own. */
export async function openReport(parent: BrowserWindow, mediaId: string): Promise<void> {
  const window = new BrowserWindow({
    parent,
    width: 900,
    height: 900,
    autoHideMenuBar: true,
    webPreferences: { ...keptTo, javascript: false },
  });
  await window.loadURL(reportAddress(mediaId));
}
