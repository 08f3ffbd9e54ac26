import { fork } from 'node:child_process';
import { readdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { JobReport } from '../../../src/host/contract/calls.ts';
import { runJob, type Link } from '../../../src/host/contract/link.ts';
import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import { childPort, openRemote, type RemoteHost } from '../../../src/host/remote.ts';
import { emptyFolder, linkTo, settingsFor } from './lines.ts';

/** What was seen when hosts were killed while they made a working copy. */
export interface KilledCopies {
  /** Share of the work that was done at each kill. */
  readonly at: readonly number[];
  /** Kills after which anything but an unfinished file, or a clip that is said to have a copy, was found. */
  readonly halfUsed: number;
  /** Unfinished files that the next host left lying. */
  readonly leftLying: number;
  /** Kills after which the next host did not go on with the copy by itself. */
  readonly notGoneOn: number;
  /** The copy that the last host made, undisturbed. */
  readonly copy: string;
  remove(): Promise<void>;
}

const entry = resolve(import.meta.dirname, '../../../src/host/process.ts');

/**
 * Brings a clip that needs a working copy into a real host, with a real ffmpeg, kills the host's process (SIGKILL) at
 * a random moment of the making, opens the library anew, and so on; the last host is left to finish.
 */
export async function killCopies(file: string, kills: number, random: () => number): Promise<KilledCopies> {
  const root = await emptyFolder();
  const library = join(root.path, 'library');
  const copies = join(library, 'copies');
  const finished = async (): Promise<string[]> =>
    (await readdir(copies)).filter((n) => !n.endsWith('.unfinished'));
  const at: number[] = [];
  const unfinished = new Set<string>();
  let [halfUsed, leftLying, notGoneOn] = [0, 0, 0];

  const open = async (): Promise<{ host: RemoteHost; link: Link; kill(): void }> => {
    const child = fork(entry, [], {
      execArgv: [],
      serialization: 'advanced',
      stdio: ['ignore', 2, 'inherit', 'ipc'],
    });
    const host = await openRemote(childPort(child), settingsFor(library));
    return { host, link: linkTo(host), kill: () => void child.kill('SIGKILL') };
  };

  let { host, link, kill } = await open();
  await runJob(link, 'clip.import', { source: { path: file } });
  for (let i = 0; i < kills; i++) {
    // Early enough that the copy is not made meanwhile: progress comes in steps.
    const moment = 0.02 + 0.5 * random();
    const seen = await reached(link, moment);
    kill();
    await host.gone;
    at.push(seen);
    const there = await readdir(copies);
    if ((await finished()).length > 0) halfUsed++;
    for (const name of there) if (name.endsWith('.unfinished')) unfinished.add(name);
    ({ host, link, kill } = await open());
    leftLying += (await readdir(copies)).filter((name) => unfinished.has(name)).length;
    const clip = await firstClip(link);
    if (clip.copy !== null || clip.mediaId !== null || clip.state !== 'needsCopy') halfUsed++;
    if (!(await jobsNow(link)).some((job) => job.subject === clip.id)) notGoneOn++;
  }
  await reached(link, 1);
  const [copy = ''] = await finished();
  const { state } = await firstClip(link);
  await host.close();
  if (state !== 'workingCopy') throw new Error(`the clip is ${state} after its copy was made undisturbed`);
  return { at, halfUsed, leftLying, notGoneOn, copy: join(copies, copy), remove: root.remove };
}

/** Waits until so much of the copy is done (1: until its job has ended well); tells how much that was. */
function reached(link: Link, share: number): Promise<number> {
  return new Promise((done, fail) => {
    const stop = link.subscribe('jobs', {}, ({ jobs }) => {
      const job = jobs.find((j) => j.name === 'clip.workingCopy');
      if (!job) return;
      const part = job.total ? job.done / job.total : 0;
      if (job.state === 'failed') fail(new Error(job.trouble?.message ?? 'the copy failed'));
      if (job.state === 'done' && share < 1) fail(new Error('the copy was made before the kill'));
      if (share < 1 ? part < share : job.state !== 'done') return;
      queueMicrotask(() => {
        stop();
      });
      done(part);
    });
  });
}

const first = <T>(listen: (on: (value: T) => void) => () => void): Promise<T> =>
  new Promise((done) => {
    const stop = listen((value) => {
      queueMicrotask(() => {
        stop();
      });
      done(value);
    });
  });

const jobsNow = (link: Link): Promise<readonly JobReport[]> =>
  first((on) => link.subscribe('jobs', {}, ({ jobs }) => on(jobs)));

async function firstClip(link: Link): Promise<ClipSummary> {
  const clips = await first<readonly ClipSummary[]>((on) =>
    link.subscribe('library', {}, (event) => on(event.clips)),
  );
  const [clip] = clips;
  if (!clip) throw new Error('The library has lost its clip');
  return clip;
}
