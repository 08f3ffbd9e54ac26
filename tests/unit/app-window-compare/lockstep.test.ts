import { describe, expect, it } from 'vitest';
import { createLockstep, type LanePicture } from '../../../app/window/compare/lockstep.ts';
import type { Mark } from '../../../src/review/marks.ts';
import { analyse } from '../../../src/review/analyse.ts';
import type { RunBeside } from '../../../src/review/compare/sideBySide.ts';
import { courseOf, review, steadyClocks, took } from '../review/example.ts';

const course = courseOf('barJump', 'barJump', 'barJump');
const jumps = (...edges: readonly (readonly [number, number])[]): Mark[] =>
  edges.flatMap((e, i) => [took(i + 1, 'in', e[0]), took(i + 1, 'out', e[1])]);

interface Film {
  readonly run: RunBeside;
  readonly picture: LanePicture;
  readonly ready: () => number;
  readonly seen: () => number;
  fail: boolean;
}

/** A run on a film of its own rate; its picture is ready as late as `delay` turns of the event loop. */
function film(rate: number, marks: Mark[], delay = 0): Film {
  const clocks = steadyClocks(rate, 2000);
  const clock = clocks.get('film');
  if (!clock) throw new Error('no clock');
  let ready = -1;
  let seen = -1;
  const made: Film = {
    run: { analysis: analyse(review(course, marks), clocks), lengths: new Map() },
    picture: {
      clock,
      first: 0,
      last: 1999,
      keys: [],
      async ready(frame) {
        for (let i = 0; i < delay; i++) await Promise.resolve();
        if (made.fail) throw new Error('damaged');
        ready = frame;
      },
      show() {
        seen = ready;
      },
    },
    ready: () => ready,
    seen: () => seen,
    fail: false,
  };
  return made;
}

const settled = async (): Promise<void> => {
  for (let i = 0; i < 200; i++) await Promise.resolve();
};

function stand(films: readonly Film[]) {
  let now = 0;
  let next: (() => void) | null = null;
  const troubles: number[] = [];
  const lockstep = createLockstep(films.length, {
    now: () => now,
    soon(task) {
      next = task;
      return () => {
        next = null;
      };
    },
    trouble: (run) => void troubles.push(run),
  });
  lockstep.setRuns(films.map((f) => f.run));
  films.forEach((f, i) => {
    lockstep.setPicture(i, f.picture);
  });
  return {
    lockstep,
    troubles,
    /** So many milliseconds pass, then the screen is drawn anew. */
    async pass(ms: number) {
      now += ms;
      const task = next;
      next = null;
      task?.();
      await settled();
    },
  };
}

describe('runs held together', () => {
  const slow = film(50, jumps([100, 130], [200, 230], [300, 330]));
  const quick = film(100, jumps([150, 200], [350, 400], [600, 650]), 3);

  it('begin half a second before the clock of the one that leads', async () => {
    const { lockstep } = stand([slow, quick]);
    await settled();
    expect(lockstep.store.getState().leader).toBe(0);
    expect(slow.seen()).toBe(75);
  });

  it('ask for the picture of a run that comes while another is decoded at once, and once only', async () => {
    const asked: string[] = [];
    const watched = (name: string, of: Film): Film => ({
      ...of,
      picture: {
        ...of.picture,
        ready(frame) {
          asked.push(name);
          return of.picture.ready(frame);
        },
      },
    });
    stand([watched('A', quick), watched('B', slow)]);
    // Before anything was decoded.
    expect(asked).toEqual(['A', 'B']);
    await settled();
    expect(asked).toEqual(['A', 'B']);
  });

  it('show the other dog at the same place, whatever the rates', async () => {
    const { lockstep } = stand([slow, quick]);
    await settled();
    // Outs lie half a frame before, take-offs half a frame after their marks: 36 of 71 frames, and so of 151.
    lockstep.goTo(165.5 / 50);
    await settled();
    expect([slow.seen(), quick.seen()]).toEqual([165, 276]);
    lockstep.step(10);
    await settled();
    expect(slow.seen()).toBe(175);
    expect(quick.seen()).toBe(Math.floor(199.5 + (46 / 71) * 151));
    lockstep.setLock('clock');
    await settled();
    // 75 frames at 50 a second after the start are 150 at 100.
    expect(Math.abs(quick.seen() - 300)).toBeLessThanOrEqual(1);
  });

  it('never put a new picture beside an old one, and play by the leader’s clock', async () => {
    const { lockstep, pass } = stand([slow, quick]);
    await settled();
    lockstep.goTo(2);
    await settled();
    const before = slow.seen();
    lockstep.toggle();
    for (let i = 0; i < 60; i++) {
      await pass(33);
      const { lanes } = lockstep.store.getState();
      expect([slow.seen(), quick.seen()]).toEqual(lanes.map((l) => l?.frame));
    }
    expect(Math.abs(slow.seen() - before - 60 * 0.033 * 50)).toBeLessThanOrEqual(1);
    lockstep.faster(-1);
    const half = slow.seen();
    for (let i = 0; i < 30; i++) await pass(33);
    expect(Math.abs(slow.seen() - half - 30 * 0.033 * 25)).toBeLessThanOrEqual(1);
    lockstep.toggle();
    const stopped = slow.seen();
    await pass(500);
    expect(slow.seen()).toBe(stopped);
  });

  it('stop at the end of the leader, and play from the beginning again', async () => {
    const { lockstep, pass } = stand([slow, quick]);
    await settled();
    lockstep.toEnd('last');
    await settled();
    expect(slow.seen()).toBe(1999);
    lockstep.toggle();
    await pass(20);
    expect(slow.seen()).toBe(1);
    lockstep.toEnd('last');
    lockstep.step(5);
    await settled();
    expect(slow.seen()).toBe(1999);
    expect(lockstep.store.getState().playing).toBe(false);
    // The other clip has ended by then, and says by how much.
    expect(lockstep.store.getState().lanes[1]?.frame).toBe(1999);
    expect(lockstep.store.getState().lanes[1]?.away).toBeGreaterThan(0);
  });

  it('go on where one cannot be shown: no picture, nothing marked, a damaged frame', async () => {
    const bare = film(50, []);
    const { lockstep } = stand([slow, bare]);
    await settled();
    expect(lockstep.store.getState().lanes[1]).toBeNull();

    const broken = film(100, jumps([150, 200], [350, 400]));
    const { lockstep: second, troubles } = stand([slow, broken]);
    await settled();
    broken.fail = true;
    const before = broken.seen();
    second.step(1);
    await settled();
    expect(troubles).toEqual([1]);
    expect(broken.seen()).toBe(before);
    second.setPicture(0, null);
    broken.fail = false;
    await settled();
    expect(second.store.getState().leader).toBe(1);
    second.step(1);
    await settled();
    // The step that it missed was two of its frames.
    expect(broken.seen()).toBe(before + 3);
    second.setPicture(1, null);
    await settled();
    second.step(1);
    second.toggle();
    expect(second.store.getState()).toMatchObject({ lanes: [null, null], playing: false });
  });
});
