import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import type { ObstacleKind } from '../../../src/course/kinds.ts';
import { dogTimes } from '../../../src/plan/dogTimes.ts';
import { PlanSheet } from '../../../src/plan/plan.ts';
import { timePlan } from '../../../src/plan/spare.ts';
import { spotFindings } from '../../../src/plan/spots.ts';
import { spareSentence, spareWords, spotSentence, supportLate } from '../../../src/words/plan.ts';
import { courseAt, straightLine } from './scene.ts';

/**
 * Two jumps on a line at 5 m/s from (5, 10): in at 0.7 s, out at 1.3 s; in at 1.9 s, out at 2.5 s. Committed 3.5 m
 * before the bar, of which 1.5 m are flown: at 0.3 s and 1.5 s. A handler who picks up and brakes at 4.5 m/s2 needs 4/3 s for 2 m.
 */
const course = courseAt([10, 10], [16, 10]);
const at = (x: number, y = 10) => ({ x, y });
const lineOf = (second: ObstacleKind = 'barJump') =>
  straightLine(at(5), [
    { entry: at(8.5), exit: at(11.5) },
    { entry: at(14.5), exit: at(17.5), kind: second },
  ]);
const runner = { committedAt: 3.5, takeOff: 1.5 };
const pace = { topSpeed: 6, pickUp: 4.5, turnSeconds: 0.5 };
const front = { id: 'c', place: 1, kind: 'front', at: at(13, 10.7) } as const;

const plan = (part: z.input<typeof PlanSheet>) =>
  PlanSheet.parse({ pace, sides: [{ after: 0, side: 'left' }], leadOut: at(13, 8.7), ...part });
const timed = (part: z.input<typeof PlanSheet>, second?: ObstacleKind) =>
  timePlan(course, plan(part), lineOf(second), runner, []);

describe("the dog's timetable", () => {
  it('says when she is committed, in and out', () => {
    const times = dogTimes(lineOf(), runner);
    expect([...times.keys()]).toEqual([1, 2]);
    const [one, two] = [times.get(1), times.get(2)];
    expect(one?.committed).toBeCloseTo(0.3, 12);
    expect([two?.committed, two?.in, two?.out].map((t) => t?.toFixed(6))).toEqual([
      ...['1.500000', '1.900000', '2.500000'],
    ]);
    // A way that is shorter than her commitment: she is committed from where it begins.
    expect(dogTimes(lineOf(), { ...runner, committedAt: 40 }).get(2)?.committed).toBeCloseTo(1.3, 12);
  });
});

describe('time to spare', () => {
  it('of a front cross: there, turned and off her line by landing, and begun by take-off', () => {
    const [cross] = timed({ crosses: [front] }).crosses;
    expect(cross?.arrives).toBeCloseTo(4 / 3, 9);
    // She turns in half a second, on the way in.
    expect(cross?.begins).toBeCloseTo(4 / 3 - 0.5, 9);
    expect(cross?.finishes).toBeCloseTo(4 / 3, 9);
    expect(cross?.mustBegin).toBeCloseTo(0.7, 9);
    expect(cross?.mustFinish).toBeCloseTo(1.3, 9);
    expect(cross?.spare).toBeCloseTo(0.7 - 4 / 3 + 0.5, 9);
    expect(cross?.limit).toBe('begin');
    expect(cross && spareSentence(cross, 'barJump', 'metres')).toBe(
      'Front cross at 1: 0.1 s too late. You run 2.0 m from where you release her and can begin at 0.8 s; take-off is at 0.7 s.',
    );
  });

  it('counts the step off her line where the spot is on it', () => {
    // From (13, 8) two metres to (13, 10): on the line, half a metre to go from standing: sqrt(2 * 0.5 / 4.5).
    const [cross] = timed({ leadOut: at(13, 8), crosses: [{ ...front, at: at(13) }] }).crosses;
    expect(cross?.finishes).toBeCloseTo(4 / 3 + Math.sqrt(1 / 4.5), 9);
  });

  it('is for the end alone where the dog is long on the obstacle', () => {
    const spot = at(19, 10.7);
    const [cross] = timed(
      { leadOut: at(19, 8.7), crosses: [{ ...front, place: 2, at: spot }] },
      'tunnel',
    ).crosses;
    expect(cross?.mustBegin).toBeNull();
    expect(cross?.spare).toBeCloseTo(2.5 - 4 / 3, 9);
    expect(cross && spareSentence(cross, 'tunnel', 'metres')).toMatch(
      /1\.2 s to spare.*done at 1\.3 s; the exit is at 2\.5 s/,
    );
  });

  it('at a tunnel: a turn behind it is cued before she goes in, by the cross or by a word she knows', () => {
    const spot = at(19, 10.7);
    const turning = (turnDegrees: number) => {
      const line = lineOf('tunnel');
      return { ...line, stretches: line.stretches.map((s) => (s.from === 2 ? { ...s, turnDegrees } : s)) };
    };
    const sheet = plan({ leadOut: at(19, 8.7), crosses: [{ ...front, place: 2, at: spot }] });
    const cross = (turnDegrees: number, words = {}) =>
      timePlan(course, sheet, turning(turnDegrees), runner, [], words).crosses[0];
    // In at 1.9 s, out at 2.5 s; she is there and turned at 4/3 s, half a second before which it shows.
    const shown = cross(80);
    expect(shown).toMatchObject({ mustBegin: 1.9, limit: 'begin', byWord: false });
    expect(shown?.spare).toBeCloseTo(1.9 - 4 / 3 + 0.5, 9);
    expect(shown && spareSentence(shown, 'tunnel', 'metres')).toMatch(
      /can begin at 0\.8 s; the entry is at 1\.9 s/,
    );
    // A word for that turn is cue enough, for the other one it is not; nor is one that she is said not to know.
    expect(cross(80, { left: true })).toMatchObject({ mustBegin: null, byWord: true, limit: 'finish' });
    expect(cross(80, { right: true })).toMatchObject({ mustBegin: 1.9, byWord: false });
    expect(cross(-80, { right: true })).toMatchObject({ mustBegin: null, byWord: true });
    expect(cross(80, { left: false })).toMatchObject({ mustBegin: 1.9, byWord: false });
    // Straight on out of it there is nothing to cue.
    expect(cross(20)).toMatchObject({ mustBegin: null, byWord: false });
  });

  it('at a tunnel is late where she cues as the dog is inside, though she is done before the exit', () => {
    const line = lineOf('tunnel');
    const stretches = line.stretches.map((s) => (s.from === 2 ? { ...s, turnDegrees: 90 } : s));
    const steps = line.steps.map((s) => (s.number === 2 ? { ...s, outAt: 4 } : s));
    const sheet = plan({ leadOut: at(12, 8.7), crosses: [{ ...front, place: 2, at: at(19, 10.7) }] });
    const cross = (words = {}) =>
      timePlan(course, sheet, { ...line, steps, stretches }, runner, [], words).crosses[0];
    expect(cross()?.spare).toBeLessThan(0);
    expect(cross({ left: true })?.spare).toBeGreaterThan(1);
  });

  it.each(['weavePoles', 'aFrame', 'dogWalk', 'seeSaw'] as const)(
    'at the %s: until she leaves, by its end ahead of her and by its beginning behind her',
    (kind) => {
      const of = (cross: 'front' | 'blind' | 'rear' | 'threadle') =>
        timed({ crosses: [{ id: 'c', place: 2, kind: cross, at: at(12, 10) }] }, kind).crosses[0];
      for (const ahead of ['front', 'blind'] as const)
        expect(of(ahead)).toMatchObject({ mustBegin: null, mustFinish: 2.5, limit: 'finish' });
      for (const other of ['rear', 'threadle'] as const)
        expect(of(other)).toMatchObject({ mustBegin: 2.5, mustFinish: null, limit: 'begin' });
    },
  );

  it('follows from the support that held her', () => {
    const support = { id: 's', place: 1, at: at(13, 8.7) } as const;
    const held = (until: 'committed' | 'in' | 'out') =>
      timed({ supports: [{ ...support, until }], crosses: [{ ...front, place: 2 }] }).crosses[0];
    // Released at 0.3, 0.7 and 1.3 s; 4/3 s later she is there and turned; landing is at 2.5 s.
    expect(held('committed')?.finishes).toBeCloseTo(0.3 + 4 / 3, 9);
    expect(held('in')?.leaves).toBeCloseTo(0.7, 9);
    expect(held('out')?.spare).toBeCloseTo(1.9 - (1.3 + 4 / 3 - 0.5), 9);
    const cross = held('committed');
    expect(cross && spareSentence(cross, 'barJump', 'metres')).toContain(
      'from your support at 1, which holds you until she is committed to it, and can begin at',
    );
  });

  it('of a rear cross: begun between commitment and take-off', () => {
    const rear = { id: 'c', place: 2, kind: 'rear', at: at(12, 10) } as const;
    // There long before: she waits for the commitment at 1.5 s; take-off is at 1.9 s.
    const [early] = timed({ leadOut: at(12, 9), crosses: [rear] }).crosses;
    expect(early).toMatchObject({ mustFinish: null, limit: 'begin' });
    expect(early?.begins).toBeCloseTo(1.5, 9);
    expect(early?.spare).toBeCloseTo(0.4, 9);
    // 9 m in the open, running through: 4 m to reach 6 m/s in 4/3 s, 5 m at it.
    const [late] = timed({ leadOut: at(3), crosses: [rear] }).crosses;
    expect(late?.begins).toBeCloseTo(4 / 3 + 5 / 6, 9);
    expect(late?.spare).toBeCloseTo(1.9 - 4 / 3 - 5 / 6, 9);
    // From the side she has to round a square corner at it, on a circle of half a metre * cos 45 / (1 - cos 45).
    const [aside] = timed({ leadOut: at(12, 1), crosses: [rear] }).crosses;
    const slow = Math.sqrt((4.5 * 0.5 * Math.SQRT1_2) / (1 - Math.SQRT1_2));
    const braked = (36 - slow * slow) / 9;
    expect(aside?.begins).toBeCloseTo(4 / 3 + (6 - slow) / 4.5 + (5 - braked) / 6, 9);
  });

  it('is told for the second choice too, from the same place', () => {
    const both = { ...front, place: 2, secondChoice: 'rear', at: at(19, 15), secondAt: at(13, 9.7) } as const;
    const { crosses, stays } = timed({ crosses: [both] });
    expect(crosses.map((c) => [c.choice, c.kind, c.leaves])).toEqual([
      ['first', 'front', 0],
      ['second', 'rear', 0],
    ]);
    expect(crosses[0]?.spare).toBeLessThan(0);
    expect(crosses[1]?.spare).toBeCloseTo(0.4, 9);
    // Lead-out and the first choice: the second is no halt of her way.
    expect(stays.map((s) => s.does.what)).toEqual(['leadOut', 'cross']);
  });

  it('holds her at a cross until the dog is committed to that obstacle', () => {
    const two = { id: 'd', place: 2, kind: 'front', at: at(19, 9.3) } as const;
    const { crosses } = timed({ leadOut: at(13, 10.7), crosses: [front, two] });
    // At her spot at 0 s, turned at 0.5 s; the dog is committed at 0.3 s: the turn holds her.
    expect(crosses.map((c) => c.leaves.toFixed(3))).toEqual(['0.000', '0.500']);
    expect(crosses[1]?.from).toEqual({ was: 'cross', place: 1, kind: 'front' });
  });

  it('says where she would stand waiting long before the dog comes', () => {
    const two = { id: 'd', place: 2, kind: 'front', at: at(19, 9.3) } as const;
    const [early] = timed({ leadOut: at(19, 9.3), crosses: [two] }).crosses;
    expect(early?.dogComes).toBeCloseTo(1.3, 9);
    expect(early && spareSentence(early, 'barJump', 'metres')).toMatch(
      /You are there 1\.3 s before she is out of 1\./,
    );
  });

  it('proposes spots where none are placed: past the obstacle on the new side, and behind the dog for a rear', () => {
    const [cross, second] = timed({
      crosses: [{ id: 'c', place: 1, kind: 'front', secondChoice: 'rear' }],
    }).crosses;
    // 45 % of the stretch from 11.5 to 14.5; dog on her right now, so she stands to the left of it.
    expect(cross?.spot).toEqual({ at: { x: 12.85, y: 10.7 }, proposed: true });
    // 60 % of 3.5 m before the entry at 8.5.
    expect(Object.keys(second?.spot.at ?? {})).toEqual(['x', 'y']);
    expect(second?.spot.at.x).toBeCloseTo(8.5 - 2.1, 9);
    expect(cross && spareSentence(cross, 'barJump', 'metres')).toMatch(
      /spot of this front cross is a proposal\.$/,
    );
  });

  it('goes round what stands in the way', () => {
    const wall = courseAt([10, 10], [16, 10], [13, 9.7, 90, 'wall']);
    const round = timePlan(wall, plan({ crosses: [front] }), lineOf(), runner).crosses[0];
    expect(round?.metres).toBeGreaterThan(2.5);
  });
});

describe('plans with something missing', () => {
  it('start beside the dog where there is no lead-out, and say so', () => {
    const sheet = PlanSheet.parse({ sides: [{ after: 0, side: 'left' }], crosses: [front] });
    const { stays } = timePlan(course, sheet, lineOf(), runner, []);
    expect(stays[0]?.spot).toEqual({ at: { x: 5, y: 9.2 }, proposed: true });
    expect(spotFindings(sheet, course).map(spotSentence)).toEqual([
      'No lead-out spot yet: times are for a handler who starts beside her dog.',
    ]);
  });

  it('tell crosses on numbers that the line does not reach, and count nothing without a line', () => {
    const gone = { ...front, place: 9 };
    expect(timed({ crosses: [gone] })).toMatchObject({ crosses: [], untimed: [{ place: 9 }] });
    const none = { steps: [], stretches: [], length: 0, seconds: 0 };
    const sheet = PlanSheet.parse({ crosses: [front] });
    expect(timePlan(course, sheet, none, runner)).toMatchObject({ stays: [], crosses: [] });
  });

  it('tell a support that cannot be given, and spots outside the ring', () => {
    const support = { id: 's', place: 1, until: 'in', at: at(14) } as const;
    const { stays } = timed({ leadOut: at(12), supports: [support] });
    const [, stay] = stays;
    // Running on, 2 m in sqrt(4 / 4.5) s; the dog takes off at 0.7 s.
    const late = Math.sqrt(4 / 4.5) - 0.7;
    expect(stay?.does.what === 'support' && stay.does.late).toBeCloseTo(late, 9);
    expect(supportLate(1, late)).toBe('You reach the spot of your support at 1 0.2 s too late to give it.');
    const off = plan({
      leadOut: at(50),
      wait: at(-1),
      supports: [{ ...support, at: at(0, 99) }],
      crosses: [{ ...front, at: at(41), secondAt: at(0, -2) }],
    });
    expect(spotFindings(off, course).map(spotSentence)).toEqual([
      'The spot where the dog waits lies outside the ring.',
      'The lead-out spot lies outside the ring.',
      'The spot of your support at 1 lies outside the ring.',
      'The spot of the cross at 1 lies outside the ring.',
      'The spot of the second choice at 1 lies outside the ring.',
    ]);
    expect(spotFindings(off, {})).toEqual([]);
  });

  it('words', () => {
    expect([0.04, 0.36, -1.25].map(spareWords)).toEqual(['just in time', '0.4 s to spare', '1.3 s too late']);
  });
});
