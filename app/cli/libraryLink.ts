import packageFile from '../../package.json' with { type: 'json' };
import { link, type Link } from '../../src/host/contract/link.ts';
import type { TopicEvent } from '../../src/host/contract/calls.ts';
import { openHost } from '../../src/host/host.ts';
import { ownLibraryFolder } from '../../src/host/libraryFolder.ts';
import { ownRooms } from '../../src/host/ownRooms.ts';
import { placeOf } from './place.ts';

/** The folder that was named, else the user's own. */
export function libraryFolder(named: string | undefined): string {
  return named === undefined ? ownLibraryFolder() : placeOf(named);
}

/** Opens the library, does the work over the same contract as a window, and closes it again. */
export async function withLibrary<T>(
  folder: string | undefined,
  work: (host: Link) => Promise<T>,
): Promise<T> {
  const host = await openHost(
    {
      folder: libraryFolder(folder),
      shell: 'command line',
      version: packageFile.version,
      trustedPaths: true,
    },
    await ownRooms(),
  );
  try {
    let take: (message: unknown) => void = () => undefined;
    const seat = host.seat((message) => take(message));
    const wired = link({
      send: (message) => seat.receive(message),
      listen: (onMessage) => (take = onMessage),
    });
    return await work(wired);
  } finally {
    await host.close();
  }
}

/** What the library holds now. */
export function libraryNow(host: Link): Promise<TopicEvent<'library'>> {
  return new Promise((resolve) => {
    const stop = host.subscribe('library', {}, (event) => {
      resolve(event);
      queueMicrotask(() => stop());
    });
  });
}
