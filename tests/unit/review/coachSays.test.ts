import { describe, expect, it } from 'vitest';
import { Official, Section, WorkSaid } from '../../../src/review/coachSays.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { sectionTimes } from '../../../src/review/sections.ts';
import { besideOfficial } from '../../../src/words/scorePart.ts';
import { courseOf, review, steadyClocks, took } from './example.ts';

const course = courseOf('barJump', 'tunnel', 'barJump', 'barJump');
const marks = [1, 2, 3, 4].flatMap((n) => [took(n, 'in', n * 100), took(n, 'out', n * 100 + 20)]);
const analysisOf = (some = marks) => analyse(review(course, some), steadyClocks(50, 1000));
const section = (from: number, to: number) => ({ id: `${from}-${to}`, name: 'Opening', from, to });

describe('sections that the coach named', () => {
  it('take from out to out, the first from the start of the clock, and add up to the run', () => {
    const analysis = analysisOf();
    const [opening, rest] = sectionTimes(analysis, [section(0, 2), section(2, 4)]);
    // Take-off in frame 100 (last seen: middle 100.5), landing by frame 220 (first seen: middle 219.5), at 50 fps.
    expect(opening?.time?.value).toBeCloseTo(119 / 50, 9);
    expect(rest?.time?.value).toBeCloseTo(200 / 50, 9);
    expect((opening?.time?.value ?? 0) + (rest?.time?.value ?? 0)).toBeCloseTo(
      analysis.clock?.time.value ?? NaN,
      9,
    );
    expect(rest?.time?.plusMinus).toBeCloseTo(1 / 50, 9);
  });

  it('say which end is not marked, and tell no time where the ends are out of order', () => {
    const cut = analysisOf(marks.filter((m) => !('place' in m && m.place === 3)));
    expect(sectionTimes(cut, [section(2, 3)])).toMatchObject([{ time: null, missing: [3] }]);
    const backwards = analysisOf([took(1, 'out', 900), took(2, 'out', 300)]);
    expect(sectionTimes(backwards, [section(1, 2)])).toMatchObject([{ time: null, missing: [] }]);
  });

  it.each([
    ['one that ends before it begins', { from: 3, to: 2 }],
    ['one without a name', { from: 1, to: 2, name: ' ' }],
    ['an end that is no number', { from: 1, to: '2' }],
    ['half a number', { from: 0.5, to: 2 }],
    ['a number no course has', { from: 1, to: 1e9 }],
  ])('refuse %s', (_, part) => {
    expect(Section.safeParse({ ...section(1, 2), ...part }).success).toBe(false);
  });
});

describe('what the ring said', () => {
  it.each([{ time: NaN }, { time: -1 }, { time: 1e9 }, { time: '38' }, { courseFaults: -5 }, { more: 1 }])(
    'is refused as %j',
    (official) => {
      expect(Official.safeParse(official).success).toBe(false);
    },
  );

  it('agrees with our clock within its plus or minus, or is said to differ, or waits for the whole run', () => {
    const { clock } = analysisOf();
    // 320 frames less one at 50 fps: 6.38 s ± 0.02.
    expect(besideOfficial(6.4, clock)).toBe('Our clock agrees within its plus or minus (6.38 s ± 0.02).');
    expect(besideOfficial(6.0, clock)).toMatch(/^Our clock reads 0\.38 s ± 0\.0\d more/);
    expect(besideOfficial(7, clock)).toMatch(/ less:/);
    expect(besideOfficial(6.4, null)).toMatch(/not read the whole run yet/);
    expect(besideOfficial(6.4, clock && { ...clock, complete: false })).toMatch(/not read the whole run yet/);
  });
});

it('a word on what to work on names themes that there are', () => {
  expect(WorkSaid.parse({})).toEqual({ first: [], notNow: [] });
  expect(WorkSaid.safeParse({ first: ['constructor'] }).success).toBe(false);
});
