import { contextBridge, ipcRenderer, webUtils } from 'electron';
import { bridgeName, type DesktopBridge } from '../../src/host/contract/shell.ts';
import { channels } from './channels.ts';

/** The type that a DOM `File` has in this room, which knows no DOM. */
type DomFile = Parameters<typeof webUtils.getPathForFile>[0];

/** All that the window can reach beyond itself. Events of Electron never reach the window, only their contents. */
const bridge = {
  wire: {
    send(message) {
      ipcRenderer.send(channels.wire, message);
    },
    listen(onMessage) {
      ipcRenderer.on(channels.wire, (_event, message: unknown) => {
        onMessage(message);
      });
    },
  },
  openFiles: (purpose, several) => ipcRenderer.invoke(channels.openFiles, purpose, several),
  pathOf: (file) => webUtils.getPathForFile(file),
  openReport: (mediaId) => ipcRenderer.invoke(channels.openReport, mediaId),
  saveReport: (mediaId, name) => ipcRenderer.invoke(channels.saveReport, mediaId, name),
  saveFile: (mediaId, name) => ipcRenderer.invoke(channels.saveFile, mediaId, name),
  onHostEnded(on) {
    ipcRenderer.on(channels.hostEnded, () => {
      on();
    });
  },
} satisfies DesktopBridge<DomFile>;

contextBridge.exposeInMainWorld(bridgeName, bridge);
