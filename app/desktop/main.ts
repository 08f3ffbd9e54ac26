import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { app, dialog, Menu, protocol, session, utilityProcess } from 'electron';
import packageFile from '../../package.json' with { type: 'json' };
import { ownLibraryFolder } from '../../src/host/libraryFolder.ts';
import { openRemote, utilityPort, type RemoteHost } from '../../src/host/remote.ts';
import { windowFiles } from '../../src/host/serving/windowFiles.ts';
import { startWords } from '../../src/words/start.ts';
import { appProtocol, schemePrivileges } from './appProtocol.ts';
import { scheme } from './addresses.ts';
import { channels } from './channels.ts';
import { lockContents, lockSession } from './lockdown.ts';
import { menuTemplate } from './menu.ts';
import { readDesktopOptions } from './options.ts';
import { answerRequests } from './requests.ts';
import { openWorkbench } from './windows.ts';

// All of this is in place before the first page can be.
protocol.registerSchemesAsPrivileged([schemePrivileges]);
app.enableSandbox();
lockContents(app);

const options = readDesktopOptions(process.argv.slice(app.isPackaged ? 1 : 2));
let host: RemoteHost | null = null;
let throwaway: string | null = null;

/** Starts the host in a process of its own, so that disk, database and ffmpeg never hold up the window. */
async function startHost(): Promise<RemoteHost> {
  if (options.demo) throwaway = await mkdtemp(join(tmpdir(), 'walkback-demo-'));
  const child = utilityProcess.fork(join(import.meta.dirname, 'host.js'), [], {
    serviceName: 'Walkback library',
  });
  return openRemote(utilityPort(child), {
    folder: throwaway ?? resolve(options.library ?? ownLibraryFolder()),
    shell: 'desktop',
    version: packageFile.version,
    trustedPaths: true,
    demo: options.demo,
    demoIfNew: true,
  });
}

async function open(): Promise<void> {
  lockSession(session.defaultSession);
  Menu.setApplicationMenu(Menu.buildFromTemplate(menuTemplate(process.platform)));
  const files = await windowFiles(join(import.meta.dirname, '../window'));
  const running = await startHost();
  host = running;
  protocol.handle(scheme, appProtocol(running, files));
  const window = openWorkbench(join(import.meta.dirname, '../preload/desktop.cjs'));
  answerRequests(window, running);
  window.once('ready-to-show', () => {
    console.log(startWords.opened);
  });
  void running.gone.then((trouble) => {
    console.error(trouble.message);
    process.exitCode = 1;
    if (!window.isDestroyed()) window.webContents.send(channels.hostEnded);
  });
}

async function close(): Promise<void> {
  await host?.close();
  if (throwaway !== null) await rm(throwaway, { recursive: true, force: true, maxRetries: 3 });
}

let closed = false;
app.on('will-quit', (event) => {
  if (closed) return;
  // Electron does not wait for promises: hold the quitting back until the host has closed its store.
  event.preventDefault();
  void close().finally(() => {
    closed = true;
    app.exit(process.exitCode === undefined ? 0 : Number(process.exitCode));
  });
});
app.on('window-all-closed', () => {
  app.quit();
});
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const)
  process.on(signal, () => {
    app.quit();
  });

app
  .whenReady()
  .then(open)
  .catch((error: unknown) => {
    const message = error instanceof Error ? error.message : String(error);
    console.error(message);
    dialog.showErrorBox('Walkback', message);
    process.exitCode = 1;
    app.quit();
  });
