import { mkdtemp, rm } from 'node:fs/promises';
import { homedir, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import packageFile from '../../package.json' with { type: 'json' };
import { HostTrouble } from '../../src/host/contract/link.ts';
import { ownLibraryFolder } from '../../src/host/libraryFolder.ts';
import { forkHost, type RemoteHost } from '../../src/host/remote.ts';
import { windowFiles } from '../../src/host/serving/windowFiles.ts';
import { startWords } from '../../src/words/start.ts';
import { openBrowser } from './browser.ts';
import { BadOptions, readOptions, usage, type LocalOptions } from './options.ts';
import { serveLoopback, type Loopback } from './server.ts';

/** Serves Walkback on loopback until it is told to stop. Exit codes: 0 ended as asked, 1 could not, 2 usage. */
async function main(): Promise<number> {
  let options: LocalOptions | 'help';
  try {
    options = readOptions(process.argv.slice(2));
  } catch (error) {
    if (!(error instanceof BadOptions)) throw error;
    console.error(`${error.message}\n\n${usage}`);
    return 2;
  }
  if (options === 'help') {
    console.log(usage);
    return 0;
  }
  const throwaway = options.demo ? await mkdtemp(join(tmpdir(), 'walkback-demo-')) : null;
  try {
    return await serveLibrary(options, throwaway ?? resolve(options.library ?? ownLibraryFolder()));
  } finally {
    if (throwaway !== null) await rm(throwaway, { recursive: true, force: true, maxRetries: 3 });
  }
}

async function serveLibrary(options: LocalOptions, folder: string): Promise<number> {
  const stop = stopAsked();
  const files = await windowFiles(join(import.meta.dirname, '../../.build/window'));
  const host = await forkHost({
    folder,
    shell: 'loopback',
    version: packageFile.version,
    trustedPaths: false,
    demo: options.demo,
    demoIfNew: true,
    allowedFolders:
      options.allow.length > 0 ? options.allow.map((f) => resolve(f)) : [homedir(), process.cwd()],
  });
  let server: Loopback | null = null;
  try {
    server = await serveLoopback({ host, files, port: options.port });
    announce(server, options);
    return await untilTheEnd(host, server, stop);
  } finally {
    await server?.close();
    await host.close();
  }
}

function announce(server: Loopback, options: LocalOptions): void {
  const address = server.address();
  console.log(startWords.at(address));
  console.log(startWords.forOnce);
  // The browser gets an address of its own, so that the one that is printed stays good for a minute.
  if (options.open) openBrowser(server.address('start'));
  if (process.stdin.isTTY) {
    process.stdin.on('data', () => {
      console.log(startWords.at(server.address()));
    });
    process.stdin.unref();
  }
}

/** Resolves to the exit code, when the user ends it or the host is gone. */
async function untilTheEnd(host: RemoteHost, server: Loopback, stop: Promise<void>): Promise<number> {
  const gone = await Promise.race([host.gone, stop.then(() => null)]);
  if (gone === null) return 0;
  server.hostEnded();
  console.error(gone.message);
  return 1;
}

/**
 * Resolves when the user, or the program that started this one, wants it to end. Who asks again after a second
 * wants it at once. (Ctrl+C reaches this program twice: from the terminal, and from the one that started it.)
 */
function stopAsked(): Promise<void> {
  return new Promise((done) => {
    let asked: number | null = null;
    const ask = (): void => {
      if (asked !== null && performance.now() - asked > 1000) process.exit(1);
      asked ??= performance.now();
      done();
    };
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, ask);
    if (process.send) process.on('disconnect', ask);
  });
}

/** What went wrong, for the reader; a fault of the program is told whole. */
function sentence(error: unknown): unknown {
  if (error instanceof HostTrouble) return error.message;
  const code = error instanceof Error && 'code' in error ? error.code : null;
  if (code === 'EADDRINUSE') return startWords.portTaken;
  if (code === 'EACCES' && error instanceof Error && 'syscall' in error && error.syscall === 'listen')
    return startWords.portForbidden;
  return error;
}

// Ended outright, since the channel to the program that started this one would keep it alive.
process.exit(
  await main().catch((error: unknown) => {
    console.error(sentence(error));
    return 1;
  }),
);
