import { describe, expect, it } from 'vitest';
import { createTrackHands, type TrackPorts } from '../../../app/window/review/track/trackHands.ts';
import { frameBefore, nextFrame, tunnelAhead } from '../../../app/window/review/track/strides.ts';
import { Course } from '../../../src/course/course.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { timeBase } from '../../../src/time/timeBase.ts';
import { bench, clocks } from './bench.ts';

const nowhere: TrackPorts = { hidden: () => [], flights: () => [] };
/** 50 frames a second, two ticks of a hundredth each. */
const clock = clocks().get('f1');
if (!clock) throw new Error('no clock on the bench');

function marking(ports: TrackPorts = nowhere) {
  const b = bench();
  const track = createTrackHands(b.desk, ports);
  const frame = (): number => b.desk.store.getState().frame;
  const marks = () => b.review().tracks.map((t) => [t.who, t.point, t.during, t.marks.map((m) => m.pts)]);
  return { ...b, track, frame, marks };
}

describe('the next frame to mark', () => {
  it('comes a stride on, whatever the frames are like', () => {
    expect(nextFrame(clock, 100, 0.4, [], [], 1999)).toBe(120);
    const uneven = {
      ...clock,
      table: frameTable(timeBase(1, 100), [0, 3, 4, 30, 31, 55, 90]),
    };
    // 0.30 s is shown from the frame at 0.30 on.
    expect(nextFrame(uneven, 0, 0.305, [], [], 6)).toBe(3);
    // A stride shorter than a frame still goes on.
    expect(nextFrame(uneven, 4, 0.01, [], [], 6)).toBe(5);
  });

  it('is that of a mark that stands about there', () => {
    expect(nextFrame(clock, 100, 0.4, [246, 400], [], 1999)).toBe(123);
    expect(nextFrame(clock, 100, 0.4, [262], [], 1999)).toBe(120);
    expect(frameBefore(clock, 123, [200, 246])).toBe(100);
    expect(frameBefore(clock, 100, [200, 246])).toBeNull();
  });

  it('passes over a tunnel and ends with the clip', () => {
    expect(nextFrame(clock, 100, 0.4, [], [{ from: 2.2, to: 3.61 }], 1999)).toBe(181);
    expect(nextFrame(clock, 100, 0.4, [], [{ from: 2.2, to: 3.6 }], 1999)).toBe(180);
    expect(nextFrame(clock, 1990, 0.4, [], [], 1999)).toBe(1999);
    expect(nextFrame(clock, 1999, 0.4, [], [], 1999)).toBeNull();
  });
});

describe('a tunnel ahead', () => {
  const course = Course.parse({
    name: '',
    obstacles: [
      {
        id: 't',
        kind: 'tunnel',
        nickname: '',
        stand: { x: 10, y: 0, headingDegrees: 0 },
        sizes: { tunnelLength: 5.5 },
      },
    ],
    steps: [],
  });
  it('is seen where the last stride leads into a mouth, either mouth, and not past it or away from it', () => {
    // The first mouth of a straight tunnel of 5.5 m at x = 10 lies at 7.25; 5.5 m at 5.5 m/s (assumedRunner) is 1 s.
    const into = tunnelAhead(course, { at: 1, x: 3, y: 0 }, { at: 1.4, x: 6, y: 0 }, 0.4);
    expect(into?.from).toBeCloseTo(1.4 + 1.25 / 7.5, 6);
    expect((into?.to ?? 0) - (into?.from ?? 0)).toBeCloseTo(1, 6);
    expect(tunnelAhead(course, { at: 1, x: 17, y: 0 }, { at: 1.4, x: 14, y: 0 }, 0.4)).not.toBeNull();
    expect(tunnelAhead(course, { at: 1, x: 6, y: 0 }, { at: 1.4, x: 3, y: 0 }, 0.4)).toBeNull();
    expect(tunnelAhead(course, { at: 1, x: 3, y: 3 }, { at: 1.4, x: 6, y: 3 }, 0.4)).toBeNull();
    expect(tunnelAhead(course, { at: 1, x: 6, y: 0 }, { at: 1.4, x: 6, y: 0 }, 0.4)).toBeNull();
    expect(tunnelAhead(course, { at: 1.4, x: 3, y: 0 }, { at: 1.4, x: 6, y: 0 }, 0.4)).toBeNull();
  });
});

describe('marking a line', () => {
  it('a click marks the frame and the next comes by itself; a click again corrects', () => {
    const m = marking();
    m.at(100);
    m.track.open();
    expect(m.desk.store.getState().mode.name).toBe('track');
    expect(m.desk.store.getState().tab).toBe('line');
    m.track.click({ x: 0.2, y: 0.5 });
    expect(m.frame()).toBe(120);
    m.track.click({ x: 0.3, y: 0.5 });
    expect(m.marks()).toEqual([['dog', 'leftFrontPaw', 'run', [200, 240]]]);
    m.track.back();
    expect(m.frame()).toBe(120);
    expect(m.track.grip.take({ x: 0.305, y: 0.5 }, { x: 0.01, y: 0.01 })).toBe(true);
    expect(m.track.grip.take({ x: 0.32, y: 0.5 }, { x: 0.01, y: 0.01 })).toBe(false);
    m.track.grip.drag({ x: 0.31, y: 0.5 });
    m.track.grip.drop(null);
    expect(m.track.here()?.at.x).toBe(0.3);
    m.track.grip.drop({ x: 0.31, y: 0.5 });
    expect(m.frame()).toBe(120);
    expect(m.track.here()).toMatchObject({ at: { x: 0.31 }, contact: 'ground' });
    m.track.back();
    m.track.remove();
    expect(m.marks()).toEqual([['dog', 'leftFrontPaw', 'run', [240]]]);
    expect(m.labels).toEqual([
      'left front paw, marked',
      'left front paw, marked',
      'left front paw, mark moved',
      'left front paw, mark removed',
    ]);
    m.at(120);
    m.track.remove();
    expect(m.review().tracks).toEqual([]);
  });

  it('keeps points, dog and handler, run and wait apart', () => {
    const m = marking();
    m.at(10);
    m.track.open();
    m.track.click({ x: 0.2, y: 0.5 });
    m.track.nextPoint();
    m.track.click({ x: 0.2, y: 0.5 });
    m.track.set({ who: 'handler' });
    m.track.click({ x: 0.2, y: 0.5 });
    m.track.open('wait');
    m.track.click({ x: 0.2, y: 0.5 });
    expect(m.marks().map((t) => t.slice(0, 3))).toEqual([
      ['dog', 'leftFrontPaw', 'run'],
      ['dog', 'rightFrontPaw', 'run'],
      ['handler', 'leftFoot', 'run'],
      ['dog', 'rightFrontPaw', 'wait'],
    ]);
  });

  it('in the air by a key, or where the coach marked a flight; each click anew', () => {
    const m = marking({ ...nowhere, flights: () => [{ from: 2.3, to: 2.7 }] });
    m.at(100);
    m.track.open();
    m.track.touch('air');
    m.track.click({ x: 0.2, y: 0.5 });
    m.track.click({ x: 0.3, y: 0.5 });
    m.track.click({ x: 0.4, y: 0.5 });
    expect(m.review().tracks[0]?.marks.map((x) => [x.pts, x.contact])).toEqual([
      [200, 'air'],
      [240, 'air'],
      [280, 'ground'],
    ]);
    m.track.back();
    m.track.touch('air');
    expect(m.track.here()?.contact).toBe('air');
  });

  it('by keys alone: a cross-hair goes about and marks', () => {
    const m = marking();
    m.at(100);
    m.track.open();
    m.track.moveCross(1, 0, 1);
    m.track.moveCross(0, -1, 1);
    m.track.set({ fine: true });
    m.track.moveCross(1, 0, 1);
    m.track.clickCross();
    const [mark] = m.review().tracks[0]?.marks ?? [];
    expect(mark?.at.x).toBeCloseTo(0.516, 9);
    expect(mark?.at.y).toBeCloseTo(0.485, 9);
    expect(m.frame()).toBe(120);
    for (let i = 0; i < 2000; i++) m.track.moveCross(-1, -1, 1);
    expect(m.track.store.getState().cross).toEqual({ x: 0, y: 0 });
  });

  it('skips, asks for longer strides within bounds, and says no to what is beside the picture', () => {
    const m = marking();
    m.at(100);
    m.track.open();
    m.track.skip();
    expect(m.frame()).toBe(120);
    m.track.setStep(1);
    m.track.skip();
    expect(m.frame()).toBe(170);
    for (let i = 0; i < 50; i++) m.track.longer(1);
    expect(m.track.stepSeconds()).toBe(5);
    m.track.setStep(Number.NaN);
    expect(m.track.stepSeconds()).toBe(0.4);
    m.track.click({ x: 1.2, y: 0.5 });
    m.track.click({ x: Number.NaN, y: 0.5 });
    expect(m.review().tracks).toEqual([]);
    expect(m.frame()).toBe(170);
  });

  it('leaves its mode with its page', () => {
    const m = marking();
    m.track.open();
    m.desk.showTab('splits');
    expect(m.desk.store.getState().mode.name).toBe('obstacles');
    m.track.open();
    m.hands.leave();
    expect(m.desk.store.getState().mode.name).toBe('obstacles');
  });
});
