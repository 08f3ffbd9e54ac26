import { homedir } from 'node:os';
import { randomUUID } from 'node:crypto';
import { openLibrary } from '../library/library.ts';
import { hostTroubles } from '../words/hostTroubles.ts';
import { makeAllowed } from './allowed.ts';
import type { HostSettings } from './border.ts';
import { clipDesk } from './clipDesk.ts';
import { openDemo } from './demo.ts';
import type { Desk } from './desk.ts';
import type { FootageRoom } from './footageRoom.ts';
import { keepOrder, resumeCopies } from './copyQueue.ts';
import { makeRoom, sweepCopies } from './copyStore.ts';
import { makeHub } from './hub.ts';
import { jobQueue } from './jobQueue.ts';
import { makeMedia } from './media.ts';
import type { HostPort } from './port.ts';
import { readPreferences } from './preferences.ts';
import type { ReportRoom } from './reportRoom.ts';
import { seat } from './seats.ts';
import { toTrouble } from './troubles.ts';
import { makeUploads, sweep } from './uploads.ts';

/** What the host works with; tests put their own in place. */
export interface HostRooms {
  readonly footage: FootageRoom;
  readonly report: ReportRoom;
  readonly clock?: () => number;
  readonly newId?: () => string;
  /** The folder of the demo's review files. */
  readonly demoFolder?: string | null;
  /** Gets every error that is a fault of the program. */
  readonly onFault?: (error: unknown) => void;
  /** How long news of the list of reviews, clips and jobs is gathered before it is told again, milliseconds. */
  readonly quiet?: number;
}

/** A host in this process, with its desk for those who sit beside it (demo, command line, tests). */
export interface Host extends HostPort {
  readonly desk: Desk;
}

/**
 * Opens the host of a library. Rejects with LibraryTrouble where the library cannot be opened (see openLibrary).
 * What an earlier host left unfinished is swept or queued again.
 */
export async function openHost(settings: HostSettings, rooms: HostRooms): Promise<Host> {
  const { clock = Date.now, newId = randomUUID, quiet = 150 } = rooms;
  const onFault = rooms.onFault ?? ((error) => console.error(error));
  const library = openLibrary(settings.folder, { clock, newId });
  const told = (error: unknown) => toTrouble(library.layout.folder, error, onFault);
  const media = makeMedia();
  const hub = makeHub(quiet);
  const closing = new AbortController();
  const desk: Desk = {
    library,
    footage: rooms.footage,
    report: rooms.report,
    hub,
    media,
    clips: clipDesk(
      library,
      media,
      async (path, clip) =>
        (await rooms.footage.contentHash(path, closing.signal, () => undefined)) === clip.sha256,
      hub.libraryChanged,
    ),
    jobs: jobQueue({
      newId,
      clock,
      changed() {
        hub.jobsChanged();
        // Closing stops all work; what was asked for stays in the note, for the next host to go on with.
        if (!closing.signal.aborted) keepOrder(desk);
      },
      toTrouble: told,
    }),
    uploads: makeUploads({
      folder: library.layout.incoming,
      newId,
      clock,
      largest: settings.largestUpload ?? 2 ** 36,
    }),
    allowed: makeAllowed(settings.trustedPaths, () => [
      ...(settings.allowedFolders ?? [homedir(), process.cwd()]),
      ...readPreferences(library.notes).allowedFolders,
    ]),
    newId,
    about: {
      version: settings.version,
      shell: settings.shell,
      demo: settings.demo ?? false,
      fresh: library.fresh && (settings.demo === true || settings.demoIfNew === true),
    },
  };

  try {
    await sweep(library.layout);
    await desk.clips.look();
    await sweepCopies(desk);
    await makeRoom(desk);
    resumeCopies(desk);
    if (desk.about.fresh) await openDemo(desk, rooms.demoFolder ?? null);
  } catch (error) {
    closing.abort();
    await desk.jobs.close();
    library.close();
    throw error;
  }
  return host(desk, told, closing);
}

function host(
  desk: Desk,
  told: (error: unknown) => ReturnType<typeof toTrouble>,
  ending: AbortController,
): Host {
  const seats = new Set<ReturnType<typeof seat>>();
  let closing: Promise<void> | null = null;
  const close = async (): Promise<void> => {
    for (const s of seats) s.leave();
    seats.clear();
    ending.abort();
    await desk.jobs.close();
    desk.hub.close();
    desk.library.close();
  };
  return {
    desk,
    seat(send) {
      if (closing) throw new Error(hostTroubles.closed);
      const made = seat(desk, send, told);
      seats.add(made);
      return {
        receive: (message) => made.receive(message),
        leave() {
          made.leave();
          seats.delete(made);
        },
      };
    },
    media: async (mediaId) => desk.media.find(mediaId),
    uploadTarget: async (uploadId) => desk.uploads.target(uploadId),
    uploadEnded: async (uploadId, complete) => desk.uploads.ended(uploadId, complete),
    close: () => (closing ??= close()),
  };
}
