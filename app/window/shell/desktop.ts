import { HostTrouble } from '../../../src/host/contract/link.ts';
import type { DesktopBridge, PickedFile, Shell } from '../../../src/host/contract/shell.ts';
import { shellWords } from '../../../src/words/shells.ts';
import { listeners } from './listeners.ts';

/** The shell over the desktop's bridge: files go over by path, nothing is copied. */
export function desktopShell(bridge: DesktopBridge<File>): Shell<File> {
  const lost = listeners<'ended'>();
  bridge.onHostEnded(() => {
    lost.tell('ended');
  });

  return {
    kind: 'desktop',
    wire: bridge.wire,
    async chooseFiles(purpose, several) {
      const files = await bridge.openFiles(purpose, several);
      return files.map((file): PickedFile => ({
        name: file.name,
        bytes: file.bytes,
        source: () => Promise.resolve({ path: file.path }),
      }));
    },
    sourceOf(file) {
      const path = bridge.pathOf(file);
      if (path !== '') return Promise.resolve({ path });
      return Promise.reject(
        new HostTrouble({
          code: 'badInput',
          message: shellWords.notOnDisk(file.name),
        }),
      );
    },
    mediaUrl: (mediaId) => `/media/${encodeURIComponent(mediaId)}`,
    openReport: (mediaId) => bridge.openReport(mediaId),
    saveReport: (mediaId, name) => bridge.saveReport(mediaId, name),
    saveFile: (mediaId, name) => bridge.saveFile(mediaId, name),
    onLost: lost.add,
    onBack: () => () => undefined,
  };
}
