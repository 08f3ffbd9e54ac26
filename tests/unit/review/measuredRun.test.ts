import { describe, expect, it } from 'vitest';
import type { StartTry, Taken } from '../../../src/review/analysis.ts';
import { measuredRun } from '../../../src/review/measuredRun.ts';
import { fitRunner, ownFigures } from '../../../src/line/runnerFit.ts';
import { runSeconds } from '../../../src/time/units.ts';
import { courseOf } from '../course/courses.ts';
import { lineThrough, readingsOf } from '../track/lines.ts';

const moment = (at: number, width = 0.02): NonNullable<Taken['in']> => ({
  ...{ markId: `m${at}`, footageId: 'f', pts: 0, frame: 0 },
  bracket: { from: runSeconds(at - width / 2), to: runSeconds(at + width / 2) },
  at: { value: at, plusMinus: width / 2, unit: 's' },
});
const taken = (
  place: number,
  kind: Taken['kind'],
  from: number,
  to: number,
  more: Partial<Taken> = {},
): Taken => ({
  ...{ place, try: 1, obstacleId: `o${place}`, kind, nickname: '', single: false },
  ...{ in: moment(from), out: moment(to), on: { value: to - from, plusMinus: 0.01, unit: 's' } },
  ...more,
});
const start: StartTry = {
  ...{ try: 1, verdict: 'kept', stay: null, early: null, fakes: 0, shifts: 0 },
  moments: [{ part: 'step', moment: moment(0) }],
};

/** From standing at (0, 0), 4 m/s² up to 6 m/s (after 1.5 s and 4.5 m), straight along x. */
const run = (t: number) => ({ x: t <= 0 ? 0 : t < 1.5 ? 2 * t * t : 4.5 + 6 * (t - 1.5), y: 0 });

describe('a run as its marks and its line have it', () => {
  const course = courseOf([
    { at: [6, 0] },
    { at: [15, 0] },
    { kind: 'tunnel', at: [21, 0] },
    { kind: 'weavePoles', at: [30, 0] },
  ]);
  // In the air from 1.6 m before a bar to 1.4 m behind it, at 6 m/s.
  const passes = (x: number) => 1.5 + (x - 4.5) / 6;
  const all = [
    taken(1, 'barJump', passes(4.5), passes(7.4)),
    taken(2, 'barJump', passes(13.4), passes(16.4)),
    taken(3, 'tunnel', 4, 5),
    taken(4, 'weavePoles', 6, 8, { single: true }),
  ];
  const analysis = { taken: all, countedTry: 1, startLine: [start] };

  it('without a line tells how fast she is where marks and drawing suffice, and leaves single marks out', () => {
    const { stretches, turns, taken: told } = measuredRun(analysis, course, null);
    expect([stretches, turns]).toEqual([[], []]);
    const [jump, , tunnel, poles] = told;
    expect(jump).toMatchObject({ takeOff: null, landing: null, metres: null });
    // A straight tunnel of the table is 5 m long as it is drawn.
    expect(tunnel?.metres?.value).toBeCloseTo(5, 6);
    expect(tunnel?.seconds?.value).toBeCloseTo(1, 9);
    expect(poles?.seconds).toBeNull();
    // Twelve poles 0.6 m apart: 6.6 m from the first to the last (FCI regulations 2023: 12 poles, 60 cm).
    expect(poles?.metres?.value).toBeCloseTo(6.6, 9);
  });

  it('with a line tells stretches, take-offs and landings, and how she picks up from standing', () => {
    const line = lineThrough({ readings: readingsOf(run, 0, 4, 0.1, 0.01) });
    const found = measuredRun(analysis, course, line);
    const [runIn, open] = found.stretches;
    expect(runIn).toMatchObject({ fromStand: true });
    expect(runIn?.metres.value).toBeCloseTo(4.5, 1);
    expect(runIn?.seconds.value).toBeCloseTo(1.5, 6);
    expect(open).toMatchObject({ fromStand: false });
    expect(open?.metres.value).toBeCloseTo(6, 1);
    expect(open?.fastest?.value).toBeCloseTo(6, 1);
    expect(Math.abs(open?.turnDegrees ?? NaN)).toBeLessThan(3);
    expect(found.taken[1]?.takeOff?.value).toBeCloseTo(1.6, 1);
    expect(found.taken[1]?.landing?.value).toBeCloseTo(1.4, 1);
    expect(found.turns).toEqual([]);
    const fit = fitRunner(Array.from({ length: 9 }, () => found));
    expect(fit.topSpeed.value).toBeCloseTo(6, 1);
    expect(Math.abs(fit.pickUp.value - 4)).toBeLessThan(0.3);
    expect(Object.keys(ownFigures(fit)).sort()).toEqual(
      ['landing', 'pickUp', 'takeOff', 'topSpeed', 'tunnelSpeed'].sort(),
    );
  });

  it('tells the tightest of a turn: half a circle of 2 m at 4 m/s', () => {
    const way = (t: number) => {
      const angle = Math.max(0, Math.min(Math.PI, 2 * (t - 1)));
      const past = Math.max(0, 4 * (t - 1) - 2 * Math.PI);
      return { x: Math.min(4 * t, 4) + 2 * Math.sin(angle) - past, y: 2 - 2 * Math.cos(angle) };
    };
    const line = lineThrough({ readings: readingsOf(way, 0, 4, 0.08, 0.005) });
    const two = [taken(1, 'barJump', 0.2, 0.4), taken(2, 'barJump', 3.4, 3.7)];
    const { turns } = measuredRun({ ...analysis, taken: two, startLine: [] }, courseOf([{}, {}]), line);
    expect(turns).toHaveLength(1);
    expect(Math.abs((turns[0]?.radius.value ?? NaN) - 2)).toBeLessThan(0.3);
    expect(Math.abs((turns[0]?.speed.value ?? NaN) - 4)).toBeLessThan(0.3);
  });

  it('leaves out what another course asks for, tries that do not count, and a course that is not drawn', () => {
    const other = measuredRun(analysis, courseOf([{ kind: 'table', at: [0, 0] }]), null);
    expect(other.taken.every((t) => t.metres === null)).toBe(true);
    expect(measuredRun({ ...analysis, countedTry: 2 }, course, null).taken).toEqual([]);
    const line = lineThrough({ readings: readingsOf(run, 0, 4, 0.1, 0.01) });
    expect(measuredRun(analysis, courseOf([{}, {}]), line).taken.every((t) => t.takeOff === null)).toBe(true);
  });
});
