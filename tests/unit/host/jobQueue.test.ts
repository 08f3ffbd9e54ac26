import { expect, test } from 'vitest';
import { jobQueue, type JobRun, type JobTools } from '../../../src/host/jobQueue.ts';

interface Held extends JobRun<string> {
  tools: JobTools | null;
  finish(result: string): void;
  fail(error: Error): void;
}

/** A job that runs until the test ends it; it stops when it is told to. */
function held(lane: JobRun<string>['lane'], key?: string): Held {
  let yes: (result: string) => void = () => undefined;
  let no: (error: Error) => void = () => undefined;
  const end = new Promise<string>((resolve, reject) => {
    yes = resolve;
    no = reject;
  });
  const job: Held = {
    about: `a job in ${lane}`,
    lane,
    ...(key === undefined ? {} : { key }),
    tools: null,
    finish: (r) => yes(r),
    fail: (e) => no(e),
    run(tools) {
      job.tools = tools;
      tools.signal.addEventListener('abort', () => no(new Error('stopped')));
      return end;
    },
  };
  return job;
}

function queue(options: { keepFor?: number; keepMost?: number } = {}) {
  const clock = { now: 0 };
  let ids = 0;
  const told: number[] = [];
  const jobs = jobQueue({
    newId: () => `j${++ids}`,
    clock: () => clock.now,
    changed: () => told.push(jobs.list().length),
    toTrouble: (error) => ({ code: 'unreadable', message: (error as Error).message }),
    ...options,
  });
  const state = (id: string) => jobs.list().find((j) => j.id === id)?.state;
  return { jobs, clock, told, state };
}

const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

test('one at a time in a lane, lanes side by side, in the order they came', async () => {
  const { jobs, state } = queue();
  const [a, b, c] = [held('read'), held('read'), held('copy')];
  const ids = [a, b, c].map((job) => jobs.start('clip.import', job));
  expect(ids.map(state)).toEqual(['running', 'waiting', 'running']);
  a.finish('x');
  await settle();
  expect(ids.map(state)).toEqual(['done', 'running', 'running']);
  expect(jobs.list()[0]).toMatchObject({ result: 'x', trouble: null });
  b.finish('y');
  c.finish('z');
  await jobs.idle();
  expect(ids.map(state)).toEqual(['done', 'done', 'done']);
});

test('progress is told; a failure carries its trouble and the lane goes on', async () => {
  const { jobs, told, state } = queue();
  const [a, b] = [held('read'), held('read')];
  const [first = '', second = ''] = [a, b].map((job) => jobs.start('clip.import', job));
  const before = told.length;
  a.tools?.progress(3, 10);
  expect(told.length).toBe(before + 1);
  expect(jobs.list()[0]).toMatchObject({ done: 3, total: 10, about: 'a job in read' });
  a.fail(new Error('It cannot be read.'));
  await settle();
  expect(jobs.list()[0]).toMatchObject({
    state: 'failed',
    trouble: { code: 'unreadable', message: 'It cannot be read.' },
  });
  expect(state(second)).toBe('running');
  expect(state(first)).toBe('failed');
  b.finish('');
});

test('waiting and running jobs can be stopped; one that ended stays as it is', async () => {
  const { jobs, state } = queue();
  const [a, b] = [held('read'), held('read')];
  const [first = '', second = ''] = [a, b].map((job) => jobs.start('clip.import', job));
  expect(jobs.cancel(second)).toBe(true);
  expect(state(second)).toBe('cancelled');
  expect(jobs.cancel(first)).toBe(true);
  await settle();
  expect(state(first)).toBe('cancelled');
  expect(b.tools).toBeNull();
  expect(jobs.cancel(first)).toBe(true);
  expect(state(first)).toBe('cancelled');
  expect(jobs.cancel('nobody')).toBe(false);
});

test('the same work is not queued twice while it is under way', async () => {
  const { jobs } = queue();
  const [a, twin, later] = [held('copy', 'copy c1'), held('copy', 'copy c1'), held('copy', 'copy c1')];
  const id = jobs.start('clip.workingCopy', a);
  expect(jobs.start('clip.workingCopy', twin)).toBe(id);
  a.finish('');
  await settle();
  expect(jobs.start('clip.workingCopy', later)).not.toBe(id);
  later.finish('');
  await jobs.idle();
});

test('what ended is kept for a while, and not for ever', async () => {
  const { jobs, clock } = queue({ keepFor: 1000, keepMost: 3 });
  const start = (): string => jobs.start('clip.import', { about: '', lane: 'read', run: async () => '' });
  for (let n = 0; n < 5; n++) {
    start();
    await jobs.idle();
  }
  expect(jobs.list().map((j) => j.id)).toEqual(['j2', 'j3', 'j4', 'j5']);
  clock.now += 2000;
  start();
  expect(jobs.list().map((j) => j.id)).toEqual(['j6']);
  await jobs.idle();
});

test('closing stops all and starts nothing more', async () => {
  const { jobs, state } = queue();
  const [a, b] = [held('read'), held('read')];
  const ids = [a, b].map((job) => jobs.start('clip.import', job));
  await jobs.close();
  expect(ids.map(state)).toEqual(['cancelled', 'cancelled']);
  expect(b.tools).toBeNull();
});
