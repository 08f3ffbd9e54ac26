import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ClipClock } from '../../../src/time/bracket.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { timeBase } from '../../../src/time/timeBase.ts';
import { cellOf, framesWithin } from '../../../src/review/cells.ts';
import { xAt } from '../../../app/window/review/line/scale.ts';
import { cellAt, everySoMany, stripCells } from '../../../app/window/review/line/stripCells.ts';
import { createStripPictures } from '../../../app/window/review/line/stripPictures.ts';

const clockOf = (pts: readonly number[], offset = 0): ClipClock => ({
  table: frameTable(timeBase(1, 1000), pts),
  speed: [],
  offset,
  rate: 1,
});
const even = (count: number, each = 20): number[] => Array.from({ length: count }, (_, i) => i * each);

describe('where the small pictures lie', () => {
  it('gives each frame its own cell where a frame is as wide as a picture', () => {
    const clock = clockOf(even(1000));
    const cells = stripCells(clock, { from: 2, to: 2.2 }, 1000, 62);
    expect(cells.map((c) => c.frame)).toEqual([100, 101, 102, 103, 104, 105, 106, 107, 108, 109]);
    expect(cells.map((c) => Math.round(c.left))).toEqual([0, 100, 200, 300, 400, 500, 600, 700, 800, 900]);
  });

  it('fits as many as there is room for over a whole run, at the frames that begin there', () => {
    const clock = clockOf(even(1800));
    const view = { from: 0, to: 36 };
    const cells = stripCells(clock, view, 1140, 62);
    expect(cells.length).toBeGreaterThanOrEqual(12);
    expect(cells.length).toBeLessThanOrEqual(18);
    for (const c of cells) expect(c.left).toBeCloseTo(xAt(view, 1140, cellOf(clock, c.frame).from), 6);
  });

  it('lays none over another and none off its place, with frames of any length', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 200 }), { minLength: 1, maxLength: 300 }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        fc.integer({ min: 200, max: 2000 }),
        (steps, at, part, width) => {
          let sum = 0;
          const clock = clockOf([0, ...steps.map((s) => (sum += s))]);
          const whole = cellOf(clock, clock.table.pts.length - 1).to;
          const view = { from: at * whole, to: at * whole + part * whole };
          const cells = stripCells(clock, view, width, 62);
          const { from, to } = framesWithin(clock, view);
          cells.forEach((c, i) => {
            const next = cells[i + 1];
            expect(c.left).toBeCloseTo(xAt(view, width, cellOf(clock, c.frame).from), 6);
            if (next) expect(next.left - c.left).toBeGreaterThanOrEqual(62 - 1e-6);
            if (next) expect(c.right).toBe(next.left);
            expect(c.frame).toBeLessThanOrEqual(to);
          });
          if (to >= from) expect(cells.length).toBeGreaterThanOrEqual(1);
        },
      ),
    );
  });

  it('moves no cell when the view is panned, on even frames', () => {
    const clock = clockOf(even(2000));
    const frames = (from: number): number[] =>
      stripCells(clock, { from, to: from + 10 }, 1140, 62).map((c) => c.frame);
    const a = frames(10);
    const b = frames(12.5);
    expect(b.filter((f) => f < 1000)).toEqual(a.filter((f) => f >= (b[0] ?? 0)));
  });

  it('is empty where the clip is not in sight or the line has no width', () => {
    const clock = clockOf(even(100), 50);
    expect(stripCells(clock, { from: 0, to: 10 }, 1000, 62)).toEqual([]);
    expect(stripCells(clock, { from: 50, to: 52 }, 0, 62)).toEqual([]);
    expect(stripCells(clockOf([0]), { from: 0, to: 1 }, 1000, 62).map((c) => c.frame)).toEqual([0]);
  });

  it('is asked by place', () => {
    const cells = stripCells(clockOf(even(1000)), { from: 2, to: 2.2 }, 1000, 62);
    expect(cellAt(cells, 350)?.frame).toBe(103);
    expect(cellAt(cells, -1)).toBeUndefined();
  });

  it('takes every so many frames from one row, so that zooming keeps pictures', () => {
    expect([0.3, 1, 1.2, 2.5, 3.5, 5, 7, 9, 13, 100].map(everySoMany)).toEqual([
      1, 1, 2, 3, 4, 6, 8, 12, 16, 128,
    ]);
  });
});

/** A picture that counts its closings. */
function picture(frame: number) {
  return {
    frame,
    closed: 0,
    width: 62,
    height: 35,
    close() {
      this.closed++;
    },
  };
}
type Fake = ReturnType<typeof picture>;

function maker() {
  const waiting = new Map<number, { resolve(p: ImageBitmap): void; reject(e: Error): void }>();
  const made: Fake[] = [];
  const asked: number[] = [];
  return {
    made,
    asked,
    waiting,
    make: (frame: number) =>
      new Promise<ImageBitmap>((resolve, reject) => {
        asked.push(frame);
        waiting.set(frame, { resolve, reject });
      }),
    async give(frame: number) {
      const p = picture(frame);
      made.push(p);
      waiting.get(frame)?.resolve(p);
      waiting.delete(frame);
      await Promise.resolve();
      await Promise.resolve();
    },
    async fail(frame: number) {
      waiting.get(frame)?.reject(new Error('damaged'));
      waiting.delete(frame);
      await Promise.resolve();
      await Promise.resolve();
    },
  };
}

describe('the pictures of the strip', () => {
  it('are asked for a few at a time, in order, each once', async () => {
    const m = maker();
    let came = 0;
    const pictures = createStripPictures(m.make, () => came++);
    pictures.want([0, 10, 20, 30, 40, 50]);
    expect(m.asked).toEqual([0, 10, 20, 30]);
    pictures.want([0, 10, 20, 30, 40, 50]);
    await m.give(0);
    expect(m.asked).toEqual([0, 10, 20, 30, 40]);
    expect(came).toBe(1);
    for (const f of [10, 20, 30, 40, 50]) await m.give(f);
    pictures.want([50, 40, 0]);
    expect(m.asked).toEqual([0, 10, 20, 30, 40, 50]);
    expect(pictures.of(20)).toBe(m.made.find((p) => p.frame === 20));
  });

  it('forget what is no longer looked at, and keep what comes late', async () => {
    const m = maker();
    const pictures = createStripPictures(m.make, () => undefined);
    pictures.want([0, 10, 20, 30, 40, 50]);
    pictures.want([7]);
    await m.give(0);
    expect(m.asked).toEqual([0, 10, 20, 30, 7]);
    expect(pictures.of(0)).toBeDefined();
  });

  it('stay within their bound; what is in sight stays, what goes is closed once', async () => {
    const m = maker();
    const pictures = createStripPictures(m.make, () => undefined, 5);
    for (let start = 0; start < 40; start += 4) {
      const wanted = [0, 1, 2, 3].map((n) => start + n);
      pictures.want(wanted);
      for (const f of wanted) await m.give(f);
      expect(wanted.every((f) => pictures.of(f) !== undefined)).toBe(true);
      expect(m.made.filter((p) => p.closed === 0).length).toBeLessThanOrEqual(5);
    }
    pictures.close();
    expect(m.made.map((p) => p.closed)).toEqual(m.made.map(() => 1));
  });

  it('close what arrives after the strip was folded away', async () => {
    const m = maker();
    const pictures = createStripPictures(m.make, () => undefined);
    pictures.want([1, 2]);
    pictures.close();
    await m.give(1);
    expect(m.made[0]?.closed).toBe(1);
    expect(pictures.of(1)).toBeUndefined();
  });

  it('leave a frame that cannot be had empty and go on', async () => {
    const m = maker();
    const pictures = createStripPictures(m.make, () => undefined);
    pictures.want([1, 2, 3, 4, 5]);
    await m.fail(2);
    expect(m.asked).toEqual([1, 2, 3, 4, 5]);
    pictures.want([1, 2, 3, 4, 5]);
    expect(m.asked).toEqual([1, 2, 3, 4, 5]);
  });

  it('ask for nothing while held', async () => {
    const m = maker();
    const pictures = createStripPictures(m.make, () => undefined);
    pictures.hold(true);
    pictures.want([1, 2]);
    expect(m.asked).toEqual([]);
    pictures.hold(false);
    expect(m.asked).toEqual([1, 2]);
  });
});
