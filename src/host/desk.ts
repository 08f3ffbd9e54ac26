import type { z } from 'zod';
import type { Library } from '../library/library.ts';
import type { Allowed } from './allowed.ts';
import type { ClipDesk } from './clipDesk.ts';
import type { calls, CallName, CallResult, jobs, JobName, JobResult } from './contract/calls.ts';
import type { FootageRoom } from './footageRoom.ts';
import type { Hub } from './hub.ts';
import type { JobQueue, JobRun } from './jobQueue.ts';
import type { Media } from './media.ts';
import type { ReportRoom } from './reportRoom.ts';
import type { Uploads } from './uploads.ts';

/** All that handlers work with. Made once by the host; tests make their own. */
export interface Desk {
  readonly library: Library;
  readonly footage: FootageRoom;
  readonly report: ReportRoom;
  readonly hub: Hub;
  readonly media: Media;
  readonly clips: ClipDesk;
  readonly jobs: JobQueue;
  readonly uploads: Uploads;
  readonly allowed: Allowed;
  readonly newId: () => string;
  readonly about: {
    readonly version: string;
    readonly shell: string;
    readonly demo: boolean;
    readonly fresh: boolean;
  };
}

/** Arguments as a handler gets them: checked, with defaults filled in. */
export type HandledArgs<N extends CallName> = z.output<(typeof calls)[N]['args']>;
export type HandledJobArgs<N extends JobName> = z.output<(typeof jobs)[N]['args']>;

export type CallHandler<N extends CallName> = (
  desk: Desk,
  args: HandledArgs<N>,
) => CallResult<N> | Promise<CallResult<N>>;
export type CallHandlers = { readonly [N in CallName]: CallHandler<N> };

/** A job's start: what it is about is told at once, before it waits its turn. Throws where it cannot be begun. */
export type JobHandler<N extends JobName> = (desk: Desk, args: HandledJobArgs<N>) => JobRun<JobResult<N>>;
export type JobHandlers = { readonly [N in JobName]: JobHandler<N> };
