import { mkdir, mkdtemp, readFile, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { HostSettings } from '../../../src/host/border.ts';
import type { FileSource } from '../../../src/host/contract/calls.ts';
import { link, type Link } from '../../../src/host/contract/link.ts';
import type { HostPort } from '../../../src/host/port.ts';
import { forkHost, type RemoteHost } from '../../../src/host/remote.ts';
import type { Connected } from './suite.ts';

/** An empty folder that the caller removes. */
export async function emptyFolder(): Promise<{ path: string; remove(): Promise<void> }> {
  const path = await realpath(await mkdtemp(join(tmpdir(), 'walkback-')));
  return { path, remove: () => rm(path, { recursive: true, force: true }) };
}

export const settingsFor = (folder: string, more: Partial<HostSettings> = {}): HostSettings => ({
  folder,
  shell: 'test',
  version: '0',
  trustedPaths: true,
  ...more,
});

/** A window's line straight to a host's seat. */
export function windowOf(host: HostPort): { readonly link: Link; leave(): void } {
  let hear: (message: unknown) => void = () => undefined;
  const seat = host.seat((message) => hear(message));
  return {
    link: link({ send: (m) => seat.receive(m), listen: (on) => (hear = on) }),
    leave: () => seat.leave(),
  };
}

export const linkTo = (host: HostPort): Link => windowOf(host).link;

/** Reads a media id the way a shell does. Null where there is no such thing. */
export async function mediaOf(host: HostPort, mediaId: string): Promise<Buffer | null> {
  const file = await host.media(mediaId);
  return file && (await readFile(file.path));
}

/** Sends a file in the way a shell does. */
export async function sendTo(host: HostPort, name: string, bytes: Buffer): Promise<FileSource> {
  const { link: own, leave } = windowOf(host);
  const { uploadId } = await own.call('upload.begin', { name, bytes: bytes.length });
  const target = await host.uploadTarget(uploadId);
  if (!target) throw new Error('The upload that was just begun is not known');
  await writeFile(target.path, bytes);
  await host.uploadEnded(uploadId, true);
  leave();
  return { uploadId };
}

const standInProcess = fileURLToPath(new URL('./standInProcess.ts', import.meta.url));

/** A host in a process of its own, with the stand-in rooms. */
export const forkStandIn = (folder: string, more: Partial<HostSettings> = {}): Promise<RemoteHost> =>
  forkHost(settingsFor(folder, more), standInProcess);

/** What the suite needs, for a host whose port is at hand. */
export async function connected(open: (library: string) => Promise<HostPort>): Promise<Connected> {
  const folder = await emptyFolder();
  const files = join(folder.path, 'files');
  await mkdir(files);
  const host = await open(join(folder.path, 'library'));
  return {
    link: linkTo(host),
    files,
    another: async () => windowOf(host),
    read: (mediaId) => mediaOf(host, mediaId),
    send: (name, bytes) => sendTo(host, name, bytes),
    async close() {
      await host.close();
      await folder.remove();
    },
  };
}
