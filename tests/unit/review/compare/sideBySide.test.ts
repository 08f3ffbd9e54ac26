import { describe, expect, it } from 'vitest';
import { analyse } from '../../../../src/review/analyse.ts';
import type { Mark } from '../../../../src/review/marks.ts';
import { otherCourse } from '../../../../src/review/compare/sameCourse.ts';
import { samePlace, sideBySide, type RunBeside } from '../../../../src/review/compare/sideBySide.ts';
import { courseOf, review, steadyClocks, took } from '../example.ts';

const rate = 100;
const course = courseOf('barJump', 'barJump', 'barJump', 'barJump');
/** A run of jumps: take-off and landing frames, number by number. */
const jumps = (...edges: readonly (readonly [number, number] | null)[]): Mark[] =>
  edges.flatMap((e, i) => (e ? [took(i + 1, 'in', e[0]), took(i + 1, 'out', e[1])] : []));
const run = (marks: Mark[], lengths: readonly number[] = []): RunBeside => ({
  analysis: analyse(review(course, marks), steadyClocks(rate)),
  lengths: new Map(lengths.map((m, i) => [i + 2, { value: m, plusMinus: 0.1, unit: 'm' }])),
});
const a = run(jumps([100, 150], [300, 350], [500, 550], [700, 750]), [6, 6, 6]);
const b = run(jumps([200, 250], [420, 470], [610, 660], [850, 900]), [7, 6, 8]);

describe('runs of one course side by side', () => {
  it('are matched by obstacle: times, parts, gap and the quickest stretches, by hand', () => {
    const { rows, gaps, together, best, clocksAgree } = sideBySide([a, b]);
    expect(clocksAgree).toBe(true);
    expect(rows.map((r) => [r.from, r.to, ...r.times.map((t) => t?.value.toFixed(3))])).toEqual([
      [null, 1, '0.490', '0.490'],
      [1, 2, '2.000', '2.200'],
      [2, 3, '2.000', '1.900'],
      [3, 4, '2.000', '2.400'],
    ]);
    expect(rows.map((r) => r.quickest)).toEqual([null, 0, 1, 0]);
    // 2 s on 6 m against 2.2 s on 7 m: the metre more costs (2/6 + 2.2/7)/2, the speed gives some of it back.
    expect(rows[1]?.parts[1]?.distance?.value).toBeCloseTo((2 / 6 + 2.2 / 7) / 2, 9);
    expect(rows[1]?.parts[1]?.speed?.value).toBeCloseTo(0.2 - (2 / 6 + 2.2 / 7) / 2, 9);
    expect(gaps[1]?.map((g) => [g.place, g.gap.value.toFixed(3), g.gap.plusMinus.toFixed(3)])).toEqual([
      [1, '0.000', '0.020'],
      [2, '0.200', '0.020'],
      [3, '0.100', '0.020'],
      [4, '0.500', '0.020'],
    ]);
    // The first stretch has no line, so the whole is not parted; its difference still is the sum.
    expect(together[1]).toMatchObject({ distance: null, speed: null, measured: 3 });
    expect(together[1]?.difference.value).toBeCloseTo(0.5, 9);
    expect(best?.rows.map((r) => [r.to, r.run])).toEqual([
      [1, 0],
      [2, 0],
      [3, 1],
      [4, 0],
    ]);
    expect(best?.sum.value).toBeCloseTo(0.49 + 2 + 1.9 + 2, 9);
    expect(best?.complete).toBe(true);
  });

  it('cut short or with an off-course are compared as far as both went', () => {
    const short = run(jumps([100, 150], null, [500, 550]));
    const { rows, gaps, best } = sideBySide([a, short]);
    expect(rows.map((r) => r.runs.map((x) => x !== null))).toEqual([
      [true, true],
      [true, false],
      [true, false],
      [true, false],
    ]);
    expect(gaps[1]?.map((g) => g.place)).toEqual([1, 3]);
    expect(best?.complete).toBe(true);
    expect(sideBySide([short, short]).best?.complete).toBe(false);
    expect(sideBySide([run([]), run([])])).toMatchObject({ rows: [], best: null });
    expect(sideBySide([])).toMatchObject({ rows: [], gaps: [], best: null });
  });

  it('whose clocks start by different things are level at the first out that both have', () => {
    const start: Mark = {
      id: 's',
      footageId: 'film',
      pts: 50,
      unsure: 0,
      note: '',
      kind: 'event',
      event: 'clockStart',
    };
    const marked = run([start, ...jumps([200, 250], [420, 470], [610, 660], [850, 900])]);
    const { clocksAgree, gaps, rows } = sideBySide([a, marked]);
    expect(clocksAgree).toBe(false);
    expect(gaps[1]?.[0]).toEqual({ place: 1, gap: { value: 0, plusMinus: 0, unit: 's' } });
    expect(gaps[1]?.[3]?.gap.value).toBeCloseTo(0.5, 9);
    expect(rows[0]?.times).toEqual([null, null]);
  });

  it('agree by their clocks whatever a run beside them has no marks for', () => {
    const { clocksAgree, rows, gaps } = sideBySide([a, run([]), b]);
    expect(clocksAgree).toBe(true);
    expect(rows[0]?.times.map((t) => t?.value.toFixed(2))).toEqual(['0.49', undefined, '0.49']);
    expect(gaps.map((g) => g.length)).toEqual([0, 0, 4]);
  });

  it('an obstacle taken twice after a refusal counts by its later taking', () => {
    const twice = run([
      ...jumps([100, 150], [300, 350], [500, 550], [700, 750]),
      took(2, 'in', 400),
      took(2, 'out', 450),
    ]);
    expect(sideBySide([a, twice]).rows[1]?.times[1]?.value).toBeCloseTo(3, 9);
  });

  it('leaves open who was quicker inside the plus or minus', () => {
    const near = run(jumps([100, 150], [300, 351], [500, 551], [700, 751]));
    expect(sideBySide([a, near]).rows.map((r) => r.quickest)).toEqual([null, null, null, null]);
  });
});

describe('the same place in the other run', () => {
  it('is met at every edge that both have, between them in proportion, outside at the same pace', () => {
    // Edges lie half a frame beside their marks, alike in both runs.
    const off = (frame: number, edge: 'in' | 'out'): number => (frame + (edge === 'in' ? 0.5 : -0.5)) / rate;
    expect(samePlace(off(300, 'in'), a, b)).toBeCloseTo(off(420, 'in'), 9);
    expect(samePlace(off(350, 'out'), a, b)).toBeCloseTo(off(470, 'out'), 9);
    const half = (off(150, 'out') + off(300, 'in')) / 2;
    expect(samePlace(half, a, b)).toBeCloseTo((off(250, 'out') + off(420, 'in')) / 2, 9);
    expect(samePlace(off(100, 'in') - 0.4, a, b)).toBeCloseTo(off(200, 'in') - 0.4, 9);
    expect(samePlace(off(750, 'out') + 1, a, b)).toBeCloseTo(off(900, 'out') + 1, 9);
    expect(samePlace(1, a, run([]))).toBeNull();
  });

  it('never runs backwards, whatever order the marks of the other run are in', () => {
    const muddled = run(jumps([200, 250], [420, 470], [230, 240], [850, 900]));
    let before = -Infinity;
    for (let at = 0; at < 10; at += 0.01) {
      const there = samePlace(at, a, muddled) ?? NaN;
      expect(there).toBeGreaterThanOrEqual(before);
      before = there;
    }
  });
});

describe('one course or another', () => {
  const at = (x: number, y: number) => ({ x, y, headingDegrees: 0 });
  const drawn = (...places: readonly (readonly [number, number])[]) => ({
    ...course,
    obstacles: course.obstacles.map((o, i) => ({ ...o, ...(places[i] ? { stand: at(...places[i]) } : {}) })),
  });
  it('agrees with a drawing of itself, and with what says less', () => {
    expect(otherCourse(course, course)).toBeNull();
    expect(otherCourse(drawn([1, 1], [5, 5]), drawn([1.4, 1.3], [5, 5], [9, 9]))).toBeNull();
    expect(otherCourse(courseOf('unknown', 'barJump', 'barJump', 'barJump'), course)).toBeNull();
  });
  it('is another by count, kind, place or direction, and says at which number', () => {
    expect(otherCourse(course, courseOf('barJump'))).toEqual({ why: 'count', counts: [4, 1] });
    expect(otherCourse(course, courseOf('barJump', 'tunnel', 'barJump', 'barJump'))).toEqual({
      why: 'kind',
      number: 2,
    });
    expect(otherCourse(drawn([1, 1], [5, 5]), drawn([1, 1], [5, 8]))).toEqual({ why: 'place', number: 2 });
    const turned = drawn([1, 1]);
    const steps = turned.steps.map((s) => ({ ...s, direction: 'reverse' as const }));
    expect(otherCourse(turned, { ...turned, steps })).toEqual({ why: 'direction', number: 1 });
    expect(otherCourse(drawn([NaN, 1]), drawn([1, 1]))).toEqual({ why: 'place', number: 1 });
  });
});
