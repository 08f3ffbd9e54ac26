import type { JobName, JobReport } from './contract/calls.ts';
import type { Trouble } from './contract/shapes.ts';

/** What a running job is given. */
export interface JobTools {
  readonly signal: AbortSignal;
  progress(done: number, total: number | null): void;
}

/** A job that is ready to wait its turn. */
export interface JobRun<R> {
  /** What it works on, for the reader. */
  readonly about: string;
  /** Id of the clip or review that it works on. */
  readonly subject?: string;
  /** Jobs of one lane run one after another; lanes run side by side. */
  readonly lane: 'read' | 'copy' | 'write' | 'listen' | 'clip';
  /** Where a job with the same key waits or runs already, that one is returned instead of a second. */
  readonly key?: string;
  run(tools: JobTools): Promise<R>;
}

export interface JobQueue {
  /** Returns the job's id. */
  start(name: JobName, job: JobRun<unknown>): string;
  /** Stops a job that waits or runs; one that has ended stays as it is. False where there is no such job. */
  cancel(id: string): boolean;
  /** Puts a waiting job before the others that wait in its lane. False where there is no such job or it has begun. */
  first(id: string): boolean;
  /** In the order in which they came or were put; those of a lane run in this order. */
  list(): JobReport[];
  /** Resolves when nothing waits or runs any more. */
  idle(): Promise<void>;
  /** Stops all and waits for their ends. */
  close(): Promise<void>;
}

interface Entry {
  readonly report: JobReport;
  readonly job: JobRun<unknown>;
  readonly stop: AbortController;
  endedAt: number | null;
}

export interface JobQueueOptions {
  readonly newId: () => string;
  readonly clock: () => number;
  readonly changed: () => void;
  readonly toTrouble: (error: unknown) => Trouble;
  /** How long an ended job stays in the list, milliseconds, and how many stay at most. */
  readonly keepFor?: number;
  readonly keepMost?: number;
}

/** Long work, one lane each for reading, copying, writing, listening and clips to hand over, so that a long copy never holds up an import. */
export function jobQueue(options: JobQueueOptions): JobQueue {
  const { newId, clock, changed, toTrouble, keepFor = 15 * 60_000, keepMost = 50 } = options;
  const entries: Entry[] = [];
  const busy = new Map<JobRun<unknown>['lane'], Promise<void>>();
  let closed = false;

  const end = (entry: Entry, state: 'done' | 'failed' | 'cancelled', rest: Partial<JobReport>): void => {
    Object.assign(entry.report, { state, ...rest });
    entry.endedAt = clock();
    changed();
  };

  const run = async (entry: Entry): Promise<void> => {
    entry.report.state = 'running';
    changed();
    const { signal } = entry.stop;
    try {
      const result = await entry.job.run({
        signal,
        progress(done, total) {
          Object.assign(entry.report, { done, total });
          changed();
        },
      });
      end(entry, 'done', { result });
    } catch (error) {
      if (signal.aborted) end(entry, 'cancelled', {});
      else end(entry, 'failed', { trouble: toTrouble(error) });
    }
  };

  const turn = (lane: JobRun<unknown>['lane']): void => {
    if (busy.has(lane) || closed) return;
    const next = entries.find((e) => e.job.lane === lane && e.report.state === 'waiting');
    if (!next) return;
    busy.set(
      lane,
      run(next).finally(() => {
        busy.delete(lane);
        turn(lane);
      }),
    );
  };

  const tidy = (): void => {
    const ended = entries.filter((e) => e.endedAt !== null);
    const old = ended.filter((e) => (e.endedAt ?? 0) < clock() - keepFor);
    const surplus = ended.slice(0, Math.max(0, ended.length - keepMost));
    for (const e of new Set([...old, ...surplus])) entries.splice(entries.indexOf(e), 1);
  };

  const isUnderWay = (e: Entry): boolean => e.endedAt === null;

  return {
    start(name, job) {
      tidy();
      const twin = entries.find((e) => job.key !== undefined && e.job.key === job.key && isUnderWay(e));
      if (twin) return twin.report.id;
      const report: JobReport = {
        id: newId(),
        name,
        about: job.about,
        subject: job.subject ?? null,
        done: 0,
        total: null,
        state: 'waiting',
        trouble: null,
        result: null,
      };
      entries.push({ report, job, stop: new AbortController(), endedAt: null });
      changed();
      turn(job.lane);
      return report.id;
    },
    cancel(id) {
      const entry = entries.find((e) => e.report.id === id);
      if (!entry) return false;
      if (!isUnderWay(entry)) return true;
      entry.stop.abort();
      if (entry.report.state === 'waiting') end(entry, 'cancelled', {});
      return true;
    },
    first(id) {
      const entry = entries.find((e) => e.report.id === id);
      if (entry?.report.state !== 'waiting') return false;
      entries.splice(entries.indexOf(entry), 1);
      const ahead = entries.findIndex((e) => e.job.lane === entry.job.lane && e.report.state === 'waiting');
      entries.splice(ahead < 0 ? entries.length : ahead, 0, entry);
      changed();
      return true;
    },
    list: () => entries.map((e) => ({ ...e.report })),
    async idle() {
      while (busy.size > 0) await Promise.all(busy.values());
    },
    async close() {
      closed = true;
      for (const e of entries.filter(isUnderWay)) this.cancel(e.report.id);
      await Promise.all(busy.values());
    },
  };
}
