import { describe, expect, it } from 'vitest';
import { frameToBeginWith } from '../../../app/window/compare/beginning.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { courseOf, review, steadyClocks, took } from '../review/example.ts';

/** A run at 30 fps; its clock starts with the take-off at frame 300, between 10 s and the frame after. */
const clocks = steadyClocks(30, 2000);
const clock = clocks.get('film');
if (!clock) throw new Error('no clock');
const marks = [took(1, 'in', 300), took(1, 'out', 315)];
const run = { analysis: analyse(review(courseOf('barJump'), marks), clocks) };
const leader = { clock, first: 0, last: 1999, keys: [] as number[] };
/** What another run at the same rate shows, so many frames later. */
const beside = (later: number) => (frame: number) => [{ frame }, { frame: frame + later }];

describe('the frame that runs are shown at first', () => {
  it('is half a second before the clock starts where no key frames are known', () => {
    expect(frameToBeginWith(leader, run, [leader, leader], beside(0))).toBe(285);
  });

  it('is a key frame of one run that lies close behind a key frame of the other', () => {
    const pictures = [{ keys: [210, 270] }, { keys: [240, 300] }];
    // At 270 the other shows 272 + 30: two frames behind its key; at any later frame both have more behind them.
    expect(frameToBeginWith(leader, run, pictures, beside(32))).toBe(270);
    expect(frameToBeginWith(leader, run, [pictures[0] ?? null, null], (f) => [{ frame: f }, null])).toBe(270);
  });

  it('is never chosen by frames of which nothing is known, nor beyond what a cut leaves', () => {
    expect(frameToBeginWith(leader, run, [{ keys: [280] }, { keys: [281] }], beside(0))).toBe(281);
    expect(frameToBeginWith({ ...leader, first: 284 }, run, [{ keys: [270] }], (f) => [{ frame: f }])).toBe(
      284,
    );
  });

  it('is the first frame of the clip where no clock runs', () => {
    const unmarked = { analysis: analyse(review(courseOf('barJump'), []), clocks) };
    expect(frameToBeginWith({ ...leader, first: 12 }, unmarked, [leader], beside(0))).toBe(12);
  });
});
