import { mkdir, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { isInside } from '../../../src/host/allowed.ts';
import { Preferences } from '../../../src/host/contract/shapes.ts';
import { callHandlers } from '../../../src/host/handlers/calls.ts';
import { standInVideo } from '../host-suite/standIns.ts';
import { testHosts, type TestHost } from './desks.ts';

const hosts = testHosts();

/** A host for a loopback window that may look into one folder, beside one that it may not look into. */
async function confined(): Promise<TestHost & { allowed: string; secret: string }> {
  const t = await hosts.fresh();
  const allowed = join(t.files, 'allowed');
  const secret = join(t.files, 'secret');
  await mkdir(join(allowed, 'inner'), { recursive: true });
  await mkdir(secret);
  await writeFile(join(secret, 'private.mp4'), standInVideo());
  await writeFile(join(allowed, 'run.mp4'), standInVideo());
  const again = await hosts.reopen(t, {
    trustedPaths: false,
    allowedFolders: [allowed, join(t.files, 'gone')],
  });
  return { ...again, allowed, secret };
}

const list = (t: TestHost, folder: string) => Promise.resolve(callHandlers['files.list'](t.desk, { folder }));

test('the folders shown are those that are allowed and there', async () => {
  const t = await confined();
  const { folders } = await callHandlers['files.roots'](t.desk, {});
  expect(folders).toEqual([{ name: 'allowed', path: t.allowed, folder: true, bytes: null }]);
});

test('folders first, then files that can be brought in, each by name', async () => {
  const t = await confined();
  for (const name of ['b.MOV', 'map.png', 'notes.txt', '.hidden.mp4', 'x.walkback.json', 'prog.exe']) {
    await writeFile(join(t.allowed, name), 'x');
  }
  const { entries } = await list(t, t.allowed);
  expect(entries.map((e) => e.name)).toEqual(['inner', 'b.MOV', 'map.png', 'run.mp4', 'x.walkback.json']);
  expect(entries[0]).toMatchObject({ folder: true, bytes: null });
  expect(entries[1]).toMatchObject({ folder: false, bytes: 1, path: join(t.allowed, 'b.MOV') });
});

test.each([
  ['beside it', (t: { secret: string }) => t.secret],
  ['by dots', (t: { allowed: string }) => `${t.allowed}/../secret`],
  ['by a link', (t: { allowed: string }) => join(t.allowed, 'link')],
  ['by a name that begins alike', (t: { allowed: string }) => `${t.allowed}-too`],
  ['the root', () => '/'],
  ['what is not there at all', () => '/no/such/folder'],
])('a folder outside is refused: %s', async (_name, folder) => {
  const t = await confined();
  await mkdir(`${t.allowed}-too`);
  await symlink(t.secret, join(t.allowed, 'link'));
  await expect(list(t, folder(t))).rejects.toMatchObject({ code: 'badInput' });
});

test('links that lead outside are not shown; links within are', async () => {
  const t = await confined();
  await symlink(t.secret, join(t.allowed, 'out'));
  await symlink(join(t.secret, 'private.mp4'), join(t.allowed, 'out.mp4'));
  await symlink(join(t.allowed, 'run.mp4'), join(t.allowed, 'within.mp4'));
  await symlink(join(t.allowed, 'nothing'), join(t.allowed, 'broken.mp4'));
  const { entries } = await list(t, t.allowed);
  expect(entries.map((e) => e.name)).toEqual(['inner', 'run.mp4', 'within.mp4']);
});

test('a path that is not full, or carries a zero, is refused', async () => {
  const t = await confined();
  for (const folder of ['relative', '', `${t.allowed}\0/x`]) {
    await expect(list(t, folder)).rejects.toMatchObject({ code: 'badInput' });
  }
  await expect(list(t, join(t.allowed, 'run.mp4'))).rejects.toMatchObject({ code: 'badInput' });
  await expect(list(t, join(t.allowed, 'no such'))).rejects.toMatchObject({ code: 'notFound' });
});

test('a loopback window brings in only what lies in those folders, and only what is a video', async () => {
  const t = await confined();
  await symlink(join(t.secret, 'private.mp4'), join(t.allowed, 'out.mp4'));
  await writeFile(join(t.allowed, 'passwords.txt'), standInVideo());
  for (const path of [
    join(t.secret, 'private.mp4'),
    join(t.allowed, 'out.mp4'),
    join(t.allowed, 'passwords.txt'),
  ]) {
    const job = await t.run('clip.import', { source: { path } });
    expect(job).toMatchObject({ state: 'failed', trouble: { code: 'badInput' } });
  }
  expect(t.desk.library.clips.list()).toEqual([]);
  expect(await t.run('clip.import', { source: { path: join(t.allowed, 'run.mp4') } })).toMatchObject({
    state: 'done',
  });
});

test('a loopback window cannot let itself into more folders, but may give some away', async () => {
  const t = await confined();
  const preferences = Preferences.parse({ allowedFolders: [t.secret] });
  const set = await callHandlers['preferences.set'](t.desk, { preferences });
  expect(set.allowedFolders).toEqual([]);
  await expect(list(t, t.secret)).rejects.toMatchObject({ code: 'badInput' });

  const trusted = await hosts.reopen(t);
  await callHandlers['preferences.set'](trusted.desk, { preferences });
  const later = await hosts.reopen(trusted, { trustedPaths: false, allowedFolders: [t.allowed] });
  expect((await list(later, t.secret)).entries.map((e) => e.name)).toEqual(['private.mp4']);
  await callHandlers['preferences.set'](later.desk, { preferences: Preferences.parse({}) });
  await expect(list(later, t.secret)).rejects.toMatchObject({ code: 'badInput' });
});

test('the library itself cannot be brought in, which would drop its lock', async () => {
  const t = await hosts.fresh();
  const job = await t.run('clip.import', { source: { path: t.desk.library.layout.database } });
  expect(job).toMatchObject({ state: 'failed', trouble: { code: 'badInput' } });
});

test('inside means inside', () => {
  expect(isInside('/a/b', '/a/b')).toBe(true);
  expect(isInside('/a/b', '/a/b/c/d')).toBe(true);
  expect(isInside('/a/b', '/a/b/..c')).toBe(true);
  expect(isInside('/a/b', '/a/bc')).toBe(false);
  expect(isInside('/a/b', '/a')).toBe(false);
  expect(isInside('/', '/a')).toBe(true);
});
