import { describe, expect, test } from 'vitest';
import { FrameStore } from '../../../src/frames/frameStore.ts';
import { clampFrame } from '../../../src/frames/frameWindow.ts';
import { FrameTrouble, wantsWorkingCopy } from '../../../src/frames/trouble.ts';
import { frameTable } from '../../../src/time/frameTable.ts';

let open = 0;
/** Stands in for a decoded frame: counts how many are open. */
function picture(width: number, height: number): VideoFrame {
  open++;
  let closed = false;
  const made = {
    format: 'I420',
    codedWidth: width,
    codedHeight: height,
    allocationSize: () => width * height * 1.5,
    close() {
      if (!closed) open--;
      closed = true;
    },
  };
  return made as unknown as VideoFrame;
}

describe('the frames kept', () => {
  test('180 full 1080p frames fit in 600 MB, and never more than the budget', () => {
    const store = new FrameStore(600_000_000, 1920 * 1080 * 1.5);
    expect(store.capacity).toBeGreaterThanOrEqual(180);
    for (let i = 0; i < 400; i++) store.put(i, picture(1920, 1080), i, 1);
    expect(store.size).toBeGreaterThanOrEqual(180);
    expect(store.bytes).toBeLessThanOrEqual(600_000_000);
    expect(open).toBe(store.size);
    store.clear();
    expect(open).toBe(0);
  });

  test('the frame asked for and those ahead stay; a frame that came twice is closed', () => {
    const store = new FrameStore(20 * 150, 150);
    const { capacity } = store;
    for (let i = 0; i < 100; i++) store.put(i, picture(10, 10), 50, 1);
    expect(store.has(50)).toBe(true);
    expect(store.has(55)).toBe(true);
    expect(store.has(99)).toBe(false);
    expect(store.put(50, picture(10, 10), 50, 1)).toBe(false);
    expect(store.size).toBe(capacity);
    expect(open).toBe(capacity);
    store.clear();
    expect(open).toBe(0);
  });

  test('larger frames than was thought shrink the number kept', () => {
    const store = new FrameStore(100 * 150, 150);
    const before = store.capacity;
    store.put(0, picture(20, 20), 0, 1);
    expect(store.capacity).toBeLessThan(before);
    store.clear();
  });
});

test('any wish becomes a frame of the clip', () => {
  const table = frameTable({ num: 1, den: 30 }, [0, 1, 2, 3]);
  expect([-5, NaN, 1.4, 2, 99, Infinity, -Infinity].map((n) => clampFrame(table, n))).toEqual([
    0, 0, 1, 2, 3, 3, 0,
  ]);
});

test('troubles speak to the reader and say whether a working copy helps', () => {
  expect(new FrameTrouble('damaged', 'x', 11).message).toMatch(/^Frame 12 /);
  expect(wantsWorkingCopy(new FrameTrouble('cannotDecode'))).toBe(true);
  expect(wantsWorkingCopy(new FrameTrouble('misaligned'))).toBe(true);
  expect(wantsWorkingCopy(new FrameTrouble('unreachable'))).toBe(false);
  expect(wantsWorkingCopy(new Error('x'))).toBe(false);
});
