import { describe, expect, test } from 'vitest';
import { likelyOffsets, mediaClock } from '../../../src/frames/mediaClock.ts';
import { frameTable, middleOfFrame } from '../../../src/time/frameTable.ts';
import { frameIndex } from '../../../src/time/units.ts';

const ticks = Array.from({ length: 240 }, (_, i) => i * 375 + (i % 3) * 40);
const table = frameTable({ num: 1, den: 90000 }, ticks);

describe('the time a player names', () => {
  test('is the frame that starts there, to a microsecond of rounding, at 240 frames a second', () => {
    const clock = mediaClock(table, [0]);
    ticks.forEach((t, i) => expect(clock.frameAt(Math.round((t / 90000) * 1e6) / 1e6)).toBe(i));
  });

  test('is no frame where none starts', () => {
    const clock = mediaClock(table, [0]);
    expect(clock.frameAt((ticks[10] ?? 0) / 90000 + 0.0018)).toBeNull();
    expect(clock.frameAt(-1)).toBeNull();
    expect(clock.frameAt(99)).toBeNull();
    expect(clock.frameAt(NaN)).toBeNull();
  });

  test('in whole milliseconds, as Matroska has them, is still one frame', () => {
    const clock = mediaClock(table, [0]);
    ticks.forEach((t, i) => expect(clock.frameAt(Math.round((t / 90000) * 1000) / 1000)).toBe(i));
  });

  test('on another zero: the offset that fits is found, and kept', () => {
    const late = frameTable({ num: 1, den: 600 }, [433, 457, 481, 520, 544]);
    expect(likelyOffsets(late, null)).toEqual([0, -433 / 600]);
    const fromZero = mediaClock(late, likelyOffsets(late, null));
    expect(fromZero.frameAt(87 / 600)).toBe(3);
    expect(fromZero.frameAt(24 / 600)).toBe(1);
    expect(fromZero.middleOf(frameIndex(1))).toBeCloseTo(36 / 600, 9);
    const asItIs = mediaClock(late, likelyOffsets(late, null));
    expect(asItIs.frameAt(520 / 600)).toBe(3);
    expect(mediaClock(late, likelyOffsets(late, -0.5)).frameAt(457 / 600 - 0.5)).toBe(1);
  });

  test('the middle of a frame is where the time room says it is', () => {
    const clock = mediaClock(table, [0]);
    for (const i of [0, 1, 2, 100, 239]) {
      expect(clock.middleOf(frameIndex(i))).toBeCloseTo(middleOfFrame(table, frameIndex(i)), 9);
    }
  });

  test('an estimate for any number at all', () => {
    const clock = mediaClock(table, [0]);
    expect(clock.frameNear(-5)).toBe(0);
    expect(clock.frameNear(NaN)).toBe(0);
    expect(clock.frameNear(1e9)).toBe(239);
    expect(clock.frameNear((ticks[7] ?? 0) / 90000)).toBe(7);
  });
});
