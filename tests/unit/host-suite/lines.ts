import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { HostSettings } from '../../../src/host/border.ts';
import { link, type Link } from '../../../src/host/contract/link.ts';
import type { HostPort } from '../../../src/host/port.ts';
import { forkHost, type RemoteHost } from '../../../src/host/remote.ts';

/** An empty folder that the caller removes. */
export async function emptyFolder(): Promise<{ path: string; remove(): Promise<void> }> {
  const path = await mkdtemp(join(tmpdir(), 'walkback-'));
  return { path, remove: () => rm(path, { recursive: true, force: true }) };
}

export const settingsFor = (folder: string, more: Partial<HostSettings> = {}): HostSettings => ({
  folder,
  shell: 'test',
  version: '0',
  trustedPaths: true,
  ...more,
});

/** A link straight to a host's seat. */
export function linkTo(host: HostPort): Link {
  let hear: (message: unknown) => void = () => undefined;
  const seat = host.seat((message) => hear(message));
  return link({ send: (m) => seat.receive(m), listen: (on) => (hear = on) });
}

const standInProcess = fileURLToPath(new URL('./standInProcess.ts', import.meta.url));

/** A host in a process of its own, with the stand-in rooms. */
export const forkStandIn = (folder: string, more: Partial<HostSettings> = {}): Promise<RemoteHost> =>
  forkHost(settingsFor(folder, more), standInProcess);
