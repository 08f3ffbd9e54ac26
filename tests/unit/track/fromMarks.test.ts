import { describe, expect, it } from 'vitest';
import { readingsFrom, type GroundView } from '../../../src/track/fromMarks.ts';
import { realLine } from '../../../src/track/realLine.ts';
import type { TrackMark } from '../../../src/track/track.ts';
import { frameTable } from '../../../src/time/frameTable.ts';

/** A camera straight above: 100 pixels a metre, x and y as in the picture; nothing above the row 100. */
const view: GroundView = {
  picture: { width: 2000, height: 1000 },
  under: ({ x, y }) =>
    y < 100 ? null : { x: x / 100, y: y / 100, byPixel: [0.01, 0, 0, 0.01], byFit: [[1], [0]] },
  foot: { x: 10, y: 20 },
  error: null,
  clickNoise: 2,
};
// Uneven frames at a base of a hundredth.
const table = frameTable({ num: 1, den: 100 }, [0, 4, 8, 14, 20, 40]);
const clock = { table, speed: [], offset: 10, rate: 1 };
const mark = (pts: number, x = 0.5, more: Partial<TrackMark> = {}): TrackMark => ({
  pts,
  at: { x, y: 0.5 },
  contact: 'ground',
  ...more,
});
const read = (...marks: TrackMark[]) => readingsFrom({ marks }, clock, view);

describe('readings from marks', () => {
  it('place, moment and noise (hand values)', () => {
    const [reading] = read(mark(8)).readings;
    // 2 pixels at a centimetre each; the frame lasts from 0.08 to 0.14 s.
    expect(reading).toMatchObject({ at: 10.08, x: 10, y: 5, spread: [0.0004, 0, 0.0004] });
    expect(reading?.unsure).toBeCloseTo(0.06 / Math.sqrt(12), 9);
    const [unsure] = read(mark(8, 0.5, { unsure: 10 })).readings;
    expect(unsure).toMatchObject({ spread: [0.01, 0, 0.01] });
  });

  it('a mark in the air lies on the way from where the camera stands', () => {
    const [reading] = read(mark(8, 0.5, { contact: 'air' })).readings;
    // From (10, 20) toward (10, 5): straight along -y, 2 cm to either side; the fit moves it along x, its right is -x.
    expect(reading).toMatchObject({ contact: 'air', along: -Math.PI / 2 });
    if (reading?.contact !== 'air') throw new Error('not in the air');
    expect(reading.aside).toBeCloseTo(0.02, 9);
    expect(reading.byFit?.[0]).toBeCloseTo(1, 9);
    const without = readingsFrom({ marks: [mark(8, 0.5, { contact: 'air' })] }, clock, {
      ...view,
      foot: null,
    });
    expect(without).toMatchObject({ readings: [], leftOut: [{ why: 'noFoot' }] });
  });

  it('marks out of order, twice on a frame, on no frame, above the horizon, outside of the cut', () => {
    const { readings, marks, leftOut } = read(
      mark(14),
      mark(4, 0.1),
      mark(4, 0.2),
      mark(-3),
      mark(9999),
      mark(8, 0.5, { at: { x: 0.5, y: 0.05 } }),
    );
    expect(readings.map((r) => [r.at, r.x])).toEqual([
      [10.04, 4],
      [10.14, 10],
    ]);
    expect(marks.map((m) => m.pts)).toEqual([4, 14]);
    expect(leftOut.map((l) => l.why)).toEqual(['twice', 'noFrame', 'noFrame', 'horizon']);
    const cut = readingsFrom({ marks: [mark(4), mark(14), mark(20)] }, clock, view, { from: 8, to: 14 });
    expect(cut.readings.map((r) => r.at)).toEqual([10.14]);
    expect(cut.leftOut.map((l) => l.why)).toEqual(['cutOff', 'cutOff']);
  });

  it('a clip cut mid-run still gives the line up to there, the last frame too', () => {
    const { readings } = read(mark(0, 0.1), mark(20, 0.15), mark(40, 0.2));
    const line = realLine({ who: 'dog', readings });
    expect(line?.to).toBeCloseTo(10.4, 9);
    expect(line?.leftOut).toEqual([]);
    // She took off before the clip was cut, and landed after it.
    const flights = [{ from: 10.3, to: 11 }];
    expect(realLine({ who: 'dog', readings, flights })).toMatchObject({ to: line?.to, gaps: [] });
  });

  it('a click without any doubt keeps a quarter of a pixel', () => {
    expect(read(mark(8, 0.5, { unsure: 0 })).readings[0]).toMatchObject({
      spread: [0.0025 ** 2, 0, 0.0025 ** 2],
    });
  });
});
