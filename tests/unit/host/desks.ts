import { mkdirSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach } from 'vitest';
import type { HostSettings } from '../../../src/host/border.ts';
import type { JobName } from '../../../src/host/contract/calls.ts';
import type { JobReport } from '../../../src/host/contract/calls.ts';
import type { Desk, HandledJobArgs } from '../../../src/host/desk.ts';
import { jobHandlers } from '../../../src/host/handlers/jobs.ts';
import { openHost, type Host, type HostRooms } from '../../../src/host/host.ts';
import { emptyFolder, settingsFor } from '../host-suite/lines.ts';
import { standInFootage, standInReport, standInVideo, type StandInVideo } from '../host-suite/standIns.ts';

/** A host with the stand-in rooms, a clock that stands still until it is moved, and ids that can be foretold. */
export interface TestHost {
  readonly host: Host;
  readonly desk: Desk;
  /** The library's folder. */
  readonly folder: string;
  /** A folder for files of the user. */
  readonly files: string;
  readonly clock: { now: number };
  /** Errors that were told as faults of the program. */
  readonly faults: unknown[];
  video(name: string, what?: Partial<StandInVideo>): Promise<string>;
  /** Runs a job to its end and returns its report. */
  run<N extends JobName>(name: N, args: HandledJobArgs<N>): Promise<JobReport>;
}

/** Hosts for one test each; closed and removed when it ends. */
export function testHosts() {
  const ends: (() => Promise<void>)[] = [];
  afterEach(async () => {
    for (const end of ends.splice(0).reverse()) await end();
  });

  const open = async (
    root: string,
    settings: Partial<HostSettings> = {},
    rooms: Partial<HostRooms> = {},
  ): Promise<TestHost> => {
    const folder = join(root, 'library');
    const files = join(root, 'files');
    mkdirSync(files, { recursive: true });
    const clock = { now: 1_000_000 };
    const faults: unknown[] = [];
    let ids = 0;
    const start = Math.random().toString(36).slice(2, 8);
    const host = await openHost(settingsFor(folder, settings), {
      footage: standInFootage(),
      report: standInReport,
      clock: () => clock.now,
      newId: () => `${start}-${++ids}`,
      onFault: (error) => faults.push(error),
      quiet: 0,
      ...rooms,
    });
    ends.push(() => host.close());
    return {
      host,
      desk: host.desk,
      folder,
      files,
      clock,
      faults,
      async video(name, what = {}) {
        const path = join(files, name);
        await writeFile(path, standInVideo({ mark: name, ...what }));
        return path;
      },
      async run(name, args) {
        const handler = jobHandlers[name] as (
          desk: Desk,
          args: unknown,
        ) => Parameters<Desk['jobs']['start']>[1];
        const id = host.desk.jobs.start(name, handler(host.desk, args));
        for (;;) {
          const report = host.desk.jobs.list().find((j) => j.id === id);
          if (!report) throw new Error('The job is gone from the list');
          if (report.state !== 'waiting' && report.state !== 'running') return report;
          await new Promise((resolve) => setTimeout(resolve, 2));
        }
      },
    };
  };

  return {
    open,
    async fresh(settings: Partial<HostSettings> = {}, rooms: Partial<HostRooms> = {}): Promise<TestHost> {
      const root = await emptyFolder();
      ends.push(root.remove);
      return open(root.path, settings, rooms);
    },
    /** Closes a host and opens its library again. */
    async reopen(of: TestHost, settings: Partial<HostSettings> = {}, rooms: Partial<HostRooms> = {}) {
      await of.host.close();
      return open(join(of.folder, '..'), settings, rooms);
    },
  };
}
