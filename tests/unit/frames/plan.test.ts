import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  nextToDecode,
  reachOf,
  remoteness,
  travel,
  type Direction,
  type Next,
  type Travel,
  type Underway,
} from '../../../src/frames/plan.ts';

/** A decoder of one frame a turn and a store, worked by the plan alone. */
function workshop(last: number, group: number, capacity: number) {
  const kept = new Set<number>();
  const reach = reachOf(capacity);
  let run: (Underway & { out: number; goal: number }) | null = null;
  let decoded = 0;
  const firstFrom = (f: number): number => f - (f % group);
  const keep = (frame: number, asked: number, direction: Direction): void => {
    kept.add(frame);
    while (kept.size > capacity) {
      kept.delete(
        [...kept].reduce((a, b) =>
          remoteness(b, asked, direction) > remoteness(a, asked, direction) ? b : a,
        ),
      );
    }
  };
  return {
    kept,
    decoded: () => decoded,
    /** Works until the frame is there, or until there is nothing to do. */
    work(asked: number, direction: Direction, until: 'asked' | 'rest', most = 5000): Next {
      let next: Next = { act: 'rest' };
      for (let turn = 0; turn < most; turn++) {
        next = nextToDecode({
          asked,
          direction,
          last,
          reach,
          has: (f) => kept.has(f),
          firstFrom,
          underway: run,
        });
        if (next.act === 'rest' || (until === 'asked' && kept.has(asked))) return next;
        if (next.act === 'start') {
          const first = firstFrom(next.from);
          run = { first, out: first - 1, goal: next.goal };
        }
        if (!run) throw new Error('told to run on without a run');
        run.goal = next.goal;
        run.out++;
        decoded++;
        keep(run.out, asked, direction);
        if (run.out >= last || (next.drain && run.out >= next.goal)) run = null;
      }
      throw new Error('never came to rest');
    },
  };
}

describe('what to decode next', () => {
  test('a jump decodes from the key frame to the frame, then on ahead, then rests with its window full', () => {
    const shop = workshop(999, 100, 61);
    shop.work(550, 1, 'asked');
    expect(shop.decoded()).toBe(51);
    shop.work(550, 1, 'rest');
    const { ahead, behind } = reachOf(61);
    for (let f = 550 - behind; f <= 550 + ahead; f++) expect(shop.kept.has(f)).toBe(true);
    expect(shop.kept.size).toBeLessThanOrEqual(61);
  });

  test('forward, no frame is decoded twice', () => {
    const shop = workshop(999, 250, 61);
    for (let f = 0; f <= 900; f++) shop.work(f, 1, 'asked');
    expect(shop.decoded()).toBeLessThanOrEqual(901 + 61);
  });

  test('backward through long groups, whole pieces are fetched: far less than a group a frame', () => {
    const shop = workshop(999, 250, 184);
    for (let f = 999; f >= 0; f--) {
      shop.work(f, -1, 'asked');
      shop.work(f, -1, 'rest');
    }
    expect(shop.decoded() / 1000).toBeLessThan(2.5);
  });

  test('backward through short groups costs about one decoding a frame', () => {
    const shop = workshop(999, 15, 184);
    for (let f = 999; f >= 0; f--) {
      shop.work(f, -1, 'asked');
      shop.work(f, -1, 'rest');
    }
    expect(shop.decoded() / 1000).toBeLessThan(1.4);
  });

  test('it always comes to rest with the frame asked for, wherever one goes', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.integer({ min: 1, max: 120 }),
        fc.integer({ min: 4, max: 90 }),
        fc.array(fc.tuple(fc.nat(), fc.boolean()), { minLength: 1, maxLength: 25 }),
        (frames, group, capacity, asks) => {
          const shop = workshop(frames - 1, group, capacity);
          for (const [wish, forward] of asks) {
            const asked = wish % frames;
            shop.work(asked, forward ? 1 : -1, 'asked');
            expect(shop.kept.has(asked)).toBe(true);
            expect(shop.work(asked, forward ? 1 : -1, 'rest')).toEqual({ act: 'rest' });
            expect(shop.kept.has(asked)).toBe(true);
            expect(shop.kept.size).toBeLessThanOrEqual(capacity);
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('the direction of travel', () => {
  const go = (steps: readonly number[]): Travel => {
    let at = 100;
    let now: Travel = { direction: 1, against: 0 };
    for (const by of steps) {
      now = travel(now, at, at + by);
      at += by;
    }
    return now;
  };

  test('two steps against it turn it; one does not; a jump points forward', () => {
    expect(go([1, 1, -1]).direction).toBe(1);
    expect(go([1, 1, -1, -1]).direction).toBe(-1);
    expect(go([-1, -1, 1]).direction).toBe(-1);
    expect(go([-1, 1, -1, 1]).direction).toBe(1);
    expect(go([-1, -1, 0]).direction).toBe(-1);
    expect(go([-1, -1, 500]).direction).toBe(1);
  });
});
