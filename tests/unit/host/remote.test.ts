import { fork } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import type { FromHost, ToHost } from '../../../src/host/border.ts';
import type { HostMessage } from '../../../src/host/contract/messages.ts';
import { childPort, openRemote, utilityPort, type RemoteHost } from '../../../src/host/remote.ts';
import { serve } from '../../../src/host/serve.ts';
import { openHost } from '../../../src/host/host.ts';
import { emptyFolder, forkStandIn, linkTo, settingsFor } from '../host-suite/lines.ts';
import { standInFootage, standInReport } from '../host-suite/standIns.ts';

const ends: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

async function root(): Promise<string> {
  const folder = await emptyFolder();
  ends.push(folder.remove);
  return folder.path;
}

/** A host in a child process, and the child itself. */
async function withChild() {
  const entry = join(import.meta.dirname, '../host-suite/standInProcess.ts');
  const child = fork(entry, [], {
    execArgv: [],
    serialization: 'advanced',
    stdio: ['ignore', 2, 'inherit', 'ipc'],
  });
  const host = await openRemote(childPort(child), settingsFor(join(await root(), 'library')));
  ends.push(() => host.close());
  return { child, host };
}

describe('when the process of the host dies', () => {
  test('all that waits is refused with a clear message, and so is all that comes later', async () => {
    const { child, host } = await withChild();
    const link = linkTo(host);
    await link.call('library.about', {});
    child.kill('SIGSTOP');
    const waiting = [
      link.call('review.create', { title: 'x' }),
      link.start('review.import', { source: { path: '/x.json' } }),
      host.media('m'),
      host.uploadTarget('u'),
      host.uploadEnded('u', true),
    ].map((work) =>
      work.then(
        () => null,
        (error: unknown) => error,
      ),
    );
    child.kill('SIGKILL');
    for (const error of await Promise.all(waiting)) {
      expect(error).toMatchObject({
        name: 'HostTrouble',
        code: 'internal',
        message: expect.stringContaining('has ended (SIGKILL)'),
      });
    }
    expect(await host.gone).toMatchObject({ message: expect.stringContaining('Start Walkback again') });
    await expect(link.call('library.about', {})).rejects.toMatchObject({ code: 'internal' });
    await expect(host.media('m')).rejects.toMatchObject({ code: 'internal' });
    await host.close();
  });

  test('what was confirmed is there for the next host', async () => {
    const { child, host } = await withChild();
    const link = linkTo(host);
    const { folder } = await link.call('library.about', {});
    await link.call('review.create', { title: 'Confirmed' });
    child.kill('SIGKILL');
    await host.gone;
    const next = await forkStandIn(folder);
    ends.push(() => next.close());
    const reviews = await new Promise((resolve) =>
      linkTo(next).subscribe('library', {}, (e) => resolve(e.reviews)),
    );
    expect(reviews).toMatchObject([{ title: 'Confirmed' }]);
  });
});

test('a library that is open is refused to a second host, and free again when the first has closed', async () => {
  const folder = join(await root(), 'library');
  const first = await forkStandIn(folder);
  ends.push(() => first.close());
  await expect(forkStandIn(folder)).rejects.toMatchObject({
    code: 'conflict',
    message: expect.stringContaining('already open'),
  });
  await linkTo(first).call('review.create', { title: 'still at work' });
  await first.close();
  const second = await forkStandIn(folder);
  await second.close();
});

test('closing ends the process, is told to nobody as an accident, and can be asked for twice', async () => {
  const { child, host } = await withChild();
  const exited = new Promise((resolve) => child.once('exit', resolve));
  let accident = false;
  void host.gone.then(() => (accident = true));
  await Promise.all([host.close(), host.close()]);
  expect(await exited).toBe(0);
  expect(accident).toBe(false);
  await expect(linkTo(host).call('library.about', {})).rejects.toMatchObject({
    message: 'The library is closed.',
  });
});

test('the host ends with the shell that started it', async () => {
  const { child, host } = await withChild();
  const { folder } = await linkTo(host).call('library.about', {});
  const exited = new Promise((resolve) => child.once('exit', resolve));
  child.disconnect();
  expect(await exited).toBe(0);
  // Closed in order: the log was taken into the database.
  expect(existsSync(join(folder, 'walkback.sqlite-wal'))).toBe(false);
});

test('an entry that cannot be started is told', async () => {
  const child = fork(join(import.meta.dirname, 'no such file.ts'), [], {
    execArgv: [],
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
  });
  await expect(openRemote(childPort(child), settingsFor('/nowhere'))).rejects.toMatchObject({
    code: 'internal',
    message: expect.stringContaining('exit code 1'),
  });
});

test('a process without a shell says that it is not to be started by hand', async () => {
  const { spawnSync } = await import('node:child_process');
  const entry = join(import.meta.dirname, '../../../src/host/process.ts');
  const run = spawnSync(process.execPath, [entry], { encoding: 'utf8' });
  expect(run.status).not.toBe(0);
  expect(run.stderr).toContain('started by Walkback itself');
});

/** Both ends of the border in this process, over the port of Electron's utility process as far as it is used. */
async function overUtilityPort(): Promise<{
  host: RemoteHost;
  toHost: (raw: unknown) => void;
  sent: ToHost[];
}> {
  const sent: ToHost[] = [];
  let toHost: (raw: unknown) => void = () => undefined;
  let toShell: (raw: unknown) => void = () => undefined;
  let ended: (code: number) => void = () => undefined;
  const child = {
    postMessage(message: unknown) {
      sent.push(message as ToHost);
      // As it crosses: a copy, later.
      const copy: unknown = structuredClone(message);
      setImmediate(() => toHost(copy));
    },
    on: (_event: 'message', listener: (message: unknown) => void) => (toShell = listener),
    once: (_event: 'exit', listener: (code: number) => void) => (ended = listener),
    kill: () => true,
  };
  const folder = join(await root(), 'library');
  const opening = openRemote(utilityPort(child), settingsFor(folder));
  serve(
    {
      post: (frame: FromHost) => {
        const copy: unknown = structuredClone(frame);
        setImmediate(() => toShell(copy));
      },
      listen: (on) => (toHost = on),
    },
    (settings) => openHost(settings, { footage: standInFootage(), report: standInReport }),
    (code) => setImmediate(() => setImmediate(() => ended(code))),
  );
  const host = await opening;
  ends.push(() => host.close());
  return { host, toHost: (raw) => toHost(raw), sent };
}

test("the same frames travel over Electron's port", async () => {
  const { host, sent } = await overUtilityPort();
  expect(sent.map((f) => f.frame)).toEqual(['open']);
  const { reviewId } = await linkTo(host).call('review.create', { title: 'x' });
  expect(reviewId).not.toBe('');
  expect(await host.media('none')).toBeNull();
  expect(await host.uploadTarget('none')).toBeNull();
  await host.uploadEnded('none', false);
});

test('frames of another form are passed over', async () => {
  const { host, toHost } = await overUtilityPort();
  for (const raw of [
    null,
    'x',
    { frame: 'erase' },
    { frame: 'seat' },
    { frame: 'receive', seat: 99, message: {} },
  ]) {
    toHost(raw);
  }
  toHost({ frame: 'open', settings: settingsFor('/somewhere/else') });
  expect((await linkTo(host).call('library.about', {})).folder).not.toContain('somewhere');
});

test('a window that has left hears nothing more', async () => {
  const { host } = await overUtilityPort();
  const heard: HostMessage[] = [];
  const seat = host.seat((message) => heard.push(message));
  seat.receive({ type: 'call', n: 1, name: 'preferences.get', args: {} });
  seat.leave();
  await linkTo(host).call('library.about', {});
  expect(heard).toEqual([]);
});
