import { rename } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { jobs } from '../../../src/host/contract/calls.ts';
import type { FootageRoom } from '../../../src/host/footageRoom.ts';
import { clipsLineUp } from '../../../src/host/handlers/lineUp.ts';
import { standInFootage } from '../host-suite/standIns.ts';
import { testHosts, type TestHost } from './desks.ts';

const hosts = testHosts();

const bringIn = async (t: TestHost, name: string, mark: string, frames: number) => {
  const path = await t.video(name, { mark, frames });
  const report = await t.run('clip.import', { source: { path } });
  return jobs['clip.import'].result.parse(report.result).clip;
};
const answered = async (t: TestHost, to: string, of: string, spacing = 0) => {
  const report = await t.run('clips.lineUp', { to: { clipId: to }, of: { clipId: of }, spacing });
  expect(report.trouble).toBeNull();
  return { report, answer: jobs['clips.lineUp'].result.parse(report.result) };
};

test('two clips that hear the same are lined up; the job says what it is about', async () => {
  const t = await hosts.fresh();
  const a = await bringIn(t, 'a.mp4', 'one run', 900);
  const b = await bringIn(t, 'b.mp4', 'one run', 800);
  const { report, answer } = await answered(t, a.id, b.id, 10);
  expect(report.about).toBe('b.mp4 to a.mp4');
  expect(answer).toMatchObject({ found: true, rate: 1 });
  expect(answer.found && Math.abs(answer.offset)).toBeLessThan(0.001);
  expect(answer.found && answer.plusMinus).toBeGreaterThan(10 / 343 + 0.02);
});

test('clips of different runs are refused in plain words, and that is no failure', async () => {
  const t = await hosts.fresh();
  const a = await bringIn(t, 'a.mp4', 'one run', 900);
  const b = await bringIn(t, 'b.mp4', 'another run', 900);
  const { report, answer } = await answered(t, a.id, b.id);
  expect(report.state).toBe('done');
  expect(answer).toMatchObject({ found: false, why: 'unlike' });
  expect(!answer.found && answer.words).toMatch(/a moment that both show/);
});

test('only the part of a long clip that a review is about is listened to', async () => {
  const asked: unknown[] = [];
  const footage: FootageRoom = standInFootage();
  const t = await hosts.fresh(
    {},
    {
      footage: {
        ...footage,
        sound(path, frames, part, signal) {
          asked.push(part);
          return footage.sound(path, frames, part, signal);
        },
      },
    },
  );
  const a = await bringIn(t, 'a.mp4', 'one run', 900);
  const b = await bringIn(t, 'b.mp4', 'one run', 800);
  const cut = { from: 300, to: 600 };
  await t.run('clips.lineUp', { to: { clipId: a.id, cut }, of: { clipId: b.id }, spacing: 0 });
  expect(asked).toEqual([
    { from: 10, seconds: 10 },
    { from: 0, seconds: 799 / 30 },
  ]);
});

test('a missing file is told by name, an unknown clip at once', async () => {
  const t = await hosts.fresh();
  const path = await t.video('a.mp4', { mark: 'one', frames: 30 });
  const report = await t.run('clip.import', { source: { path } });
  const a = jobs['clip.import'].result.parse(report.result).clip;
  const b = await bringIn(t, 'b.mp4', 'one', 31);
  await rename(path, `${path}.gone`);
  await t.desk.clips.look();
  const failed = await t.run('clips.lineUp', { to: { clipId: a.id }, of: { clipId: b.id }, spacing: 0 });
  expect(failed).toMatchObject({ state: 'failed', trouble: { code: 'notFound' } });
  expect(failed.trouble?.message).toContain('a.mp4');
  const unknown = { to: { clipId: 'none' }, of: { clipId: b.id }, spacing: 0 };
  expect(() => clipsLineUp(t.desk, unknown)).toThrow();
});

test('it can be stopped between steps', async () => {
  const t = await hosts.fresh();
  const a = await bringIn(t, 'a.mp4', 'one run', 900);
  const b = await bringIn(t, 'b.mp4', 'one run', 800);
  const args = { to: { clipId: a.id }, of: { clipId: b.id }, spacing: 0 };
  const id = t.desk.jobs.start('clips.lineUp', clipsLineUp(t.desk, args));
  while (!t.desk.jobs.list().some((j) => j.id === id && j.done > 0.4))
    await new Promise((r) => setImmediate(r));
  t.desk.jobs.cancel(id);
  await t.desk.jobs.idle();
  expect(t.desk.jobs.list().find((j) => j.id === id)).toMatchObject({ state: 'cancelled', result: null });
});
