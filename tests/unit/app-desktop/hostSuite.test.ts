// The shared suite over the desktop's request handlers, with a stand-in for Electron's module.
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { vi } from 'vitest';
import { appProtocol } from '../../../app/desktop/appProtocol.ts';
import { answerRequests } from '../../../app/desktop/requests.ts';
import { openWorkbench } from '../../../app/desktop/windows.ts';
import { link } from '../../../src/host/contract/link.ts';
import { emptyFolder, forkStandIn, sendTo, windowOf } from '../host-suite/lines.ts';
import { hostSuite } from '../host-suite/suite.ts';
import * as electron from './electronStandIn.ts';

vi.mock('electron', () => import('./electronStandIn.ts'));

hostSuite('over the desktop’s main process (stand-in for Electron)', async () => {
  const folder = await emptyFolder();
  const files = join(folder.path, 'files');
  await mkdir(files);
  const host = await forkStandIn(join(folder.path, 'library'));
  const real = openWorkbench('/preload.cjs');
  answerRequests(real, host);
  const window = real as unknown as electron.BrowserWindow;
  const serve = appProtocol(host, new Map());
  const event = { sender: window.webContents, senderFrame: window.webContents.mainFrame };
  return {
    link: link({
      send: (message) => {
        electron.ipcMain.emit('walkback:wire', event, structuredClone(message));
      },
      listen: (on) => {
        window.webContents.on('stand-in:sent', (_channel: string, [message]: unknown[]) => {
          on(message);
        });
      },
    }),
    files,
    another: async () => windowOf(host),
    async read(mediaId) {
      for (const url of [`app://walkback/media/${mediaId}`, `app://report/${mediaId}`]) {
        const answer = await serve(new Request(url));
        if (answer.status === 200) return Buffer.from(await answer.arrayBuffer());
      }
      return null;
    },
    // The desktop's window hands over paths and sends nothing; the host behind it takes uploads all the same.
    send: (name, bytes) => sendTo(host, name, bytes),
    async close() {
      window.close();
      await host.close();
      await folder.remove();
    },
  };
});
