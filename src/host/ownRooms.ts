import type { HostRooms } from './host.ts';

/** The rooms that the host works with outside of tests. */
export async function ownRooms(): Promise<HostRooms> {
  throw new Error('The footage room is not built yet.');
}
