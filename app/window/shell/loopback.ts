import { HostTrouble } from '../../../src/host/contract/link.ts';
import type { FilePurpose, PickedFile, Shell } from '../../../src/host/contract/shell.ts';
import { keyInFragment, startInAddress } from '../../../src/host/contract/loopback.ts';
import { shellWords } from '../../../src/words/shells.ts';
import { reconnectingWire } from './reconnectingWire.ts';
import { sendFile } from './sendFile.ts';

const endings: Record<FilePurpose, string> = {
  video: 'video/*,.mp4,.m4v,.mov,.mkv,.webm,.avi,.mts,.m2ts,.ts',
  picture: 'image/png,image/jpeg,image/webp,application/pdf',
  review: 'application/json,.json',
  course: 'application/json,image/svg+xml,.json,.svg',
  rules: 'application/json,.json',
  dog: 'application/json,.json',
};

/** The shell over the loopback server at the window's own address. */
export function loopbackShell(at: Location): Shell<File> {
  const key = windowKey(at);
  const line = reconnectingWire(`ws://${at.host}/wire`, '/alive', key);

  return {
    kind: 'loopback',
    wire: line.wire,
    async chooseFiles(purpose, several) {
      const files = await browserDialog(endings[purpose], several);
      return files.map((file): PickedFile => ({
        name: file.name,
        bytes: file.size,
        source: (onProgress, signal) => sendFile(file, key, onProgress, signal),
      }));
    },
    sourceOf: (file, onProgress, signal) => sendFile(file, key, onProgress, signal),
    mediaUrl: (mediaId) => `/media/${encodeURIComponent(mediaId)}`,
    openReport(mediaId) {
      // With `noopener` the answer is always null, so a blocked pop-up cannot be told: open first, cut after.
      const page = window.open(`/report/${encodeURIComponent(mediaId)}`, '_blank');
      if (page) return Promise.resolve();
      return Promise.reject(new HostTrouble({ code: 'usage', message: shellWords.reportNotOpened }));
    },
    saveReport: (mediaId, name) =>
      download(`/report/${encodeURIComponent(mediaId)}`, name, shellWords.reportNotFound),
    saveFile: (mediaId, name) =>
      download(`/media/${encodeURIComponent(mediaId)}`, name, shellWords.fileNotFound),
    onLost: line.onLost,
    onBack: line.onBack,
  };
}

/** Has the browser save what lies at an address. Rejects with `notFound` where nothing does. */
async function download(address: string, name: string, notFound: string): Promise<true> {
  const there = await fetch(address, { method: 'HEAD' });
  if (!there.ok) throw new HostTrouble({ code: 'notFound', message: notFound });
  const a = document.createElement('a');
  a.href = address;
  a.download = name;
  a.click();
  return true;
}

const keyPlace = 'walkback-key';

/**
 * The key that the server gave in the fragment of the first address. It is kept for reloads and further tabs, in
 * a store that, unlike cookies, belongs to this port alone, and is taken out of the address.
 */
function windowKey(at: Location): string {
  const fragment = new URLSearchParams(at.hash.slice(1));
  const given = fragment.get(keyInFragment);
  if (given !== null) {
    localStorage.setItem(keyPlace, given);
    const onTo = fragment.has(startInAddress) ? '#/start' : '';
    history.replaceState(null, '', `${at.pathname}${at.search}${onTo}`);
  }
  return given ?? localStorage.getItem(keyPlace) ?? '';
}

/** The browser's own file dialog. Resolves to nothing where it is closed. */
function browserDialog(accept: string, several: boolean): Promise<readonly File[]> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = accept;
    input.multiple = several;
    input.hidden = true;
    const done = (files: readonly File[]): void => {
      input.remove();
      resolve(files);
    };
    input.addEventListener('change', () => {
      done([...(input.files ?? [])]);
    });
    input.addEventListener('cancel', () => {
      done([]);
    });
    // In the document, so that assistive programs and tests can reach it.
    document.body.append(input);
    input.click();
  });
}
