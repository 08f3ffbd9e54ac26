import { createStore, type StoreApi } from 'zustand/vanilla';
import { frameShownAt, cellOf } from '../../../src/review/cells.ts';
import { heldAt, type Lock } from '../../../src/review/compare/lock.ts';
import type { RunBeside } from '../../../src/review/compare/sideBySide.ts';
import type { ClipClock } from '../../../src/time/bracket.ts';
import { frameToBeginWith } from './beginning.ts';

/** The picture of one run: exact frames of one clip of it. */
export interface LanePicture {
  readonly clock: ClipClock;
  /** First and last frame of the part that the review is about. */
  readonly first: number;
  readonly last: number;
  /** Key frames about where the run begins, rising; empty where they are not known. */
  readonly keys: readonly number[];
  /** Makes exactly this frame ready to be shown; the picture on the screen stays. */
  ready(frame: number): Promise<unknown>;
  /** Puts what is ready on the screen. */
  show(): void;
}

/** What one run shows: a frame, and by how many seconds its clip misses the moment asked for (below 0: too early). */
export interface LaneView {
  readonly frame: number;
  readonly away: number;
}

export interface LockView {
  readonly lock: Lock;
  /** Which run is asked: the first that has a picture. The others follow its frames. */
  readonly leader: number;
  /** Run time of the leader that was asked for last. */
  readonly at: number;
  /** What stands on the screen, by run; null where there is no picture, or nothing to hold it by. */
  readonly lanes: readonly (LaneView | null)[];
  readonly playing: boolean;
  readonly speed: number;
}

/** Speeds of playback, as shares of real time. */
export const speeds = [1 / 8, 1 / 4, 1 / 2, 1] as const;

/** What the lock stands on, so that it runs without a window. */
export interface LockPorts {
  /** Milliseconds of a clock that only rises. */
  now(): number;
  /** Runs a task at the next refresh of the screen. Returns the way to call it off. */
  soon(task: () => void): () => void;
  trouble(run: number, error: unknown): void;
}

/**
 * Holds the pictures of several runs together. One frame of the leader decides: what the others show is worked out from
 * it through the clocks of the runs, each is made ready as an exact frame, and only when all are ready are they put on
 * the screen together. No picture plays by itself, so none can drift.
 */
export interface Lockstep {
  readonly store: StoreApi<LockView>;
  /** Puts a picture in, or takes it away. */
  setPicture(run: number, picture: LanePicture | null): void;
  setRuns(runs: readonly RunBeside[]): void;
  setLock(lock: Lock): void;
  /** To a run time of the leader. */
  goTo(at: number): void;
  step(by: number): void;
  toEnd(end: 'first' | 'last'): void;
  toggle(): void;
  pause(): void;
  faster(step: -1 | 1): void;
}

export function createLockstep(count: number, ports: LockPorts): Lockstep {
  const pictures: (LanePicture | null)[] = Array.from({ length: count }, () => null);
  let runs: readonly RunBeside[] = [];
  let wanted = false;
  let busy = false;
  /** The pictures stand where they were left, not where the runs begin. */
  let placed = false;
  let stopTicking: (() => void) | null = null;
  /** Where playing began: run time of the leader, and the clock then. */
  let began = { at: 0, now: 0 };
  const store = createStore<LockView>()(() => ({
    lock: 'place',
    leader: 0,
    at: 0,
    lanes: pictures.map(() => null),
    playing: false,
    speed: 1,
  }));
  const get = store.getState;
  const set = (part: Partial<LockView>): void => {
    store.setState(part);
  };

  const leading = (): LanePicture | null => pictures[get().leader] ?? null;

  /** What each run is to show when the leader shows this frame. */
  const targets = (frame: number): (LaneView | null)[] => {
    const { leader, lock } = get();
    const lead = leading();
    if (!lead) return pictures.map(() => null);
    const at = halfWay(lead.clock, frame);
    return pictures.map((picture, i) => {
      if (!picture) return null;
      if (i === leader) return { frame, away: 0 };
      const [from, to] = [runs[leader], runs[i]];
      const there = from && to ? heldAt(lock, at, from, to) : null;
      return there === null ? null : shownAt(picture, there);
    });
  };

  /** What was asked of each picture last: the same frame is made ready once. */
  const made: ({
    readonly of: LanePicture;
    readonly frame: number;
    readonly done: Promise<unknown>;
  } | null)[] = pictures.map(() => null);
  const ready = (run: number, of: LanePicture, frame: number): Promise<unknown> => {
    const last = made[run];
    if (last?.of === of && last.frame === frame) return last.done;
    const next = { of, frame, done: of.ready(frame) };
    made[run] = next;
    // One that failed may be asked for again.
    next.done.catch(() => {
      if (made[run] === next) made[run] = null;
    });
    return next.done;
  };

  /** One round at a time; what is asked for meanwhile, the newest of it, comes next. */
  const round = async (): Promise<void> => {
    if (busy) return;
    busy = true;
    while (wanted) {
      wanted = false;
      const lead = leading();
      if (!lead) break;
      const lanes = targets(frameOf(lead, get().at));
      const there = [...pictures];
      const done = await Promise.allSettled(
        there.map((picture, i) =>
          lanes[i] && picture ? ready(i, picture, lanes[i].frame) : Promise.resolve(),
        ),
      );
      if (there.some((picture, i) => picture !== pictures[i])) {
        wanted = true;
        continue;
      }
      done.forEach((result, i) => {
        if (result.status === 'rejected') ports.trouble(i, result.reason);
      });
      // All in one task: the screen never shows a new picture beside an old one.
      there.forEach((picture, i) => {
        if (lanes[i] && done[i]?.status === 'fulfilled') picture?.show();
      });
      set({
        lanes: lanes.map((lane, i) => (done[i]?.status === 'rejected' ? (get().lanes[i] ?? null) : lane)),
      });
    }
    busy = false;
  };

  const ask = (at: number): void => {
    placed = true;
    set({ at });
    wanted = true;
    void round();
  };

  const again = (): void => {
    wanted = true;
    void round();
  };

  const pause = (): void => {
    stopTicking?.();
    stopTicking = null;
    if (get().playing) set({ playing: false });
  };

  const tick = (): void => {
    stopTicking = null;
    const lead = leading();
    if (!lead || !get().playing) return;
    const at = began.at + ((ports.now() - began.now) / 1000) * get().speed;
    const frame = frameOf(lead, at);
    if (frame !== frameOf(lead, get().at)) ask(at);
    if (frame >= lead.last) pause();
    else stopTicking = ports.soon(tick);
  };

  const play = (): void => {
    const lead = leading();
    if (!lead) return;
    if (frameOf(lead, get().at) >= lead.last) ask(halfWay(lead.clock, lead.first));
    began = { at: get().at, now: ports.now() };
    set({ playing: true });
    stopTicking = ports.soon(tick);
  };

  const goTo = (at: number): void => {
    pause();
    const lead = leading();
    ask(lead ? halfWay(lead.clock, frameOf(lead, at)) : at);
  };

  return {
    store,
    setPicture(run, picture) {
      pictures[run] = picture;
      if (!picture) set({ lanes: get().lanes.map((lane, i) => (i === run ? null : lane)) });
      const leader = Math.max(
        0,
        pictures.findIndex((p) => p !== null),
      );
      const lead = pictures[leader];
      if (picture && lead && !placed) {
        set({ leader });
        // With every picture that comes, what is there soonest may change: until all are there, or somebody steps in.
        set({ at: halfWay(lead.clock, frameToBeginWith(lead, runs[leader], pictures, targets)) });
        placed = pictures.every((p) => p !== null);
      } else if (leader !== get().leader) {
        // The same place of the course, on the clock of the run that leads now.
        const [from, to] = [runs[get().leader], runs[leader]];
        const there = from && to ? heldAt(get().lock, get().at, from, to) : null;
        set({ leader, at: there ?? get().at });
      }
      // While a round is under way the new picture need not wait for it to begin decoding.
      const lane = busy && picture && lead ? targets(frameOf(lead, get().at))[run] : null;
      if (lane && picture) void ready(run, picture, lane.frame);
      again();
    },
    setRuns(next) {
      runs = next;
      again();
    },
    setLock(lock) {
      set({ lock });
      again();
    },
    goTo,
    step(by) {
      const lead = leading();
      if (!lead) return;
      const frame = frameOf(lead, get().at) + by;
      goTo(halfWay(lead.clock, Math.max(lead.first, Math.min(lead.last, frame))));
    },
    toEnd(end) {
      const lead = leading();
      if (lead) goTo(halfWay(lead.clock, lead[end]));
    },
    toggle() {
      if (get().playing) pause();
      else play();
    },
    pause,
    faster(step) {
      const here = speeds.findIndex((s) => s === get().speed);
      const speed = speeds[Math.max(0, Math.min(speeds.length - 1, here + step))] ?? 1;
      began = { at: get().at, now: ports.now() };
      set({ speed });
    },
  };
}

/** The run time half-way through a frame: it stands for the frame when another run is asked. */
function halfWay(clock: ClipClock, frame: number): number {
  const cell = cellOf(clock, frame);
  return (cell.from + cell.to) / 2;
}

const frameOf = ({ clock, first, last }: LanePicture, at: number): number =>
  Math.max(first, Math.min(last, frameShownAt(clock, at)));

function shownAt(picture: LanePicture, at: number): LaneView {
  const frame = frameOf(picture, at);
  const cell = cellOf(picture.clock, frame);
  return { frame, away: at < cell.from ? at - cell.from : at >= cell.to ? at - cell.to : 0 };
}
