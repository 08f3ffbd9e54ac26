import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { checkCourse } from '../../../src/course/checkCourse.ts';
import { countedCourse, emptyCourse, type Course } from '../../../src/course/course.ts';
import type { CourseFinding } from '../../../src/course/courseFindings.ts';
import { courseLengths } from '../../../src/course/courseLength.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { hundredths } from '../../../src/course/rules/hundredths.ts';
import { readDocument } from '../../../src/review/readDocument.ts';
import { courseCheckWords } from '../../../src/words/courseCheck.ts';
import { courseOf, row } from './courses.ts';
import { book, ours } from './rules/books.ts';

const of = (what: CourseFinding['about']['what'], check: { findings: readonly CourseFinding[] }) =>
  check.findings.filter((f) => f.about.what === what);
const spacing = (course: Course, category = 'L') =>
  of('spacing', checkCourse(course, fci2023, { category })).map((f) =>
    f.judgement.verdict === 'cannotTell' ? f.judgement.why : Number(f.judgement.measured.toFixed(3)),
  );

describe('what a finding carries', () => {
  test('the entry it goes by, with source and status, and the numbers it is about', () => {
    const [finding] = of('spacing', checkCourse(row(2, 4), fci2023, { category: 'L' }));
    expect(finding).toMatchObject({
      judgement: { verdict: 'below', measured: 4, least: 5, most: 7 },
      numbers: [1, 2],
      rule: { name: 'course.spacing', status: 'seen', source: { kind: 'secondary', edition: 'earlier' } },
    });
  });

  test('a book that says nothing finds nothing', () => {
    const check = checkCourse(row(30, 1), book());
    expect(check.findings).toEqual([]);
    expect(check.bookLength).toBeNull();
    expect(check.times.standard).toMatchObject({ known: false, missing: 'noRule' });
  });
});

describe('distances from where one ends to where the next begins', () => {
  test('long pieces count from their ends, whichever way they are taken', () => {
    // Dog walk of 10.388 m with its middle 15 m from the jump before, and the A-frame of 4.195 m behind it.
    const course = courseOf([
      { at: [0, 0] },
      { kind: 'dogWalk', at: [15, 0, 180], reverse: true },
      { kind: 'aFrame', at: [28, 0] },
    ]);
    const [first, second] = spacing(course).map(Number);
    expect(first).toBeCloseTo(15 - 10.388 / 2, 2);
    expect(second).toBeCloseTo(13 - 10.388 / 2 - 4.195 / 2, 2);
  });

  test('a tunnel counts from the mouth it is left at', () => {
    const bend = [
      [4, 0],
      [6, 2],
      [4, 4],
    ] as const;
    const tunnel = { kind: 'tunnel' as const, at: [5, 2, 0] as const, bend };
    expect(spacing(courseOf([tunnel, { at: [-2, 4] }]))).toEqual([6]);
    expect(spacing(courseOf([{ ...tunnel, reverse: true }, { at: [-2, 0] }]))).toEqual([6]);
  });

  test('weave poles by their count, a spread and a long jump by their depth', () => {
    const after = (piece: Parameters<typeof courseOf>[0][number]) =>
      spacing(courseOf([{ ...piece, at: [0, 0] }, { at: [10, 0] }]))[0];
    expect(after({ kind: 'weavePoles' })).toBe(6.7);
    expect(after({ kind: 'weavePoles', sizes: { poles: 6 } })).toBe(8.5);
    expect(after({ kind: 'spread', sizes: { depth: 0.4 } })).toBe(9.8);
    expect(after({ kind: 'longJump', sizes: { depth: 1.2 } })).toBe(9.4);
    expect(after({ kind: 'tyre' })).toBe(10);
  });

  test('is judged as it is shown: what reads 5.00 m is 5 m', () => {
    const verdict = (apart: number) =>
      of('spacing', checkCourse(row(2, apart), fci2023, { category: 'L' }))[0]?.judgement.verdict;
    expect(verdict(4.996)).toBe('holds');
    expect(verdict(4.994)).toBe('below');
  });

  test('a hole in the numbers has no distance', () => {
    const course = row(3, 6);
    const holed = { ...course, steps: course.steps.filter((s) => s.number !== 2) };
    expect(spacing(holed)).toEqual([]);
  });
});

describe('cannot tell', () => {
  test('a bare count of obstacles is counted and nothing else', () => {
    const check = checkCourse(countedCourse(18), fci2023, { category: 'L' });
    expect(of('obstacles', check)[0]?.judgement.verdict).toBe('holds');
    expect(of('hurdles', check)[0]?.judgement).toEqual({ verdict: 'cannotTell', why: 'kindUnknown' });
    expect(of('spacing', check).every((f) => f.judgement.verdict === 'cannotTell')).toBe(true);
    expect(of('area', check)[0]?.numbers).toHaveLength(18);
    expect(of('ring', check)[0]?.judgement).toEqual({ verdict: 'cannotTell', why: 'noRing' });
    expect(of('length', check)[0]?.judgement).toEqual({ verdict: 'cannotTell', why: 'noWheelPath' });
  });

  test('hurdles fall short only where the unknown ones cannot make up for it', () => {
    const kinds = (jumps: number, unknown: number) =>
      of(
        'hurdles',
        checkCourse(
          courseOf([
            ...Array.from({ length: jumps }, () => ({ kind: 'barJump' as const })),
            ...Array.from({ length: unknown }, () => ({ kind: 'unknown' as const })),
          ]),
          fci2023,
        ),
      )[0]?.judgement.verdict;
    expect([kinds(5, 1), kinds(5, 2), kinds(7, 9)]).toEqual(['below', 'cannotTell', 'holds']);
  });

  test('without a height category, or with one the rule leaves out', () => {
    expect(of('spacing', checkCourse(row(5, 6), fci2023)).map((f) => f.judgement)).toEqual([
      { verdict: 'cannotTell', why: 'noCategory' },
    ]);
    for (const category of ['XS', 'constructor', '__proto__', 'x'.repeat(10_000)])
      expect(of('spacing', checkCourse(row(5, 6), fci2023, { category }))[0]?.judgement).toEqual({
        verdict: 'cannotTell',
        why: 'categoryNotInRule',
      });
  });

  test('one obstacle that is not drawn is named, and the others are measured', () => {
    const course = courseOf([{ at: [0, 0] }, {}, { at: [12, 0] }, { at: [18, 0] }]);
    expect(spacing(course)).toEqual(['notDrawn', 'notDrawn', 6]);
    expect(courseLengths(course).centres).toEqual({ known: false, why: 'notDrawn', numbers: [2] });
  });

  test('an empty course, and one obstacle alone', () => {
    for (const course of [emptyCourse(), courseOf([{ at: [1, 1] }])]) {
      expect(courseLengths(course).centres).toMatchObject({ known: false, why: 'fewNumbers' });
      expect(() => checkCourse(course, fci2023, { category: 'S' })).not.toThrow();
    }
  });

  test('numbers that are no numbers never hold', () => {
    const course = row(2, 6);
    const broken: Course = {
      ...course,
      ring: { width: NaN, length: 40 },
      wheelPath: [
        { x: 0, y: NaN },
        { x: 1, y: 1 },
      ],
      obstacles: course.obstacles.map((o) => ({ ...o, stand: { x: NaN, y: 0, headingDegrees: 0 } })),
    };
    const { findings } = checkCourse(broken, fci2023, { category: 'L' });
    for (const what of ['spacing', 'area', 'length'] as const)
      for (const f of of(what, { findings })) expect(f.judgement.verdict, what).toBe('cannotTell');
  });

  test('steps that point to no obstacle', () => {
    const course = { ...row(2, 6), obstacles: [] };
    expect(spacing(course)).toEqual(['notDrawn']);
  });
});

describe('the head of the course', () => {
  test('its height category counts where nothing else is asked for', () => {
    const head = { class: '', level: '3', judge: '', place: '', date: '', heightCategory: 'S' };
    const course = { ...row(2, 4), head };
    const [finding] = of('spacing', checkCourse(course, fci2023));
    expect(finding?.judgement).toMatchObject({ verdict: 'holds', least: 4 });
    expect(of('spacing', checkCourse(course, fci2023, { category: 'L' }))[0]?.judgement.verdict).toBe(
      'below',
    );
  });

  test('its level decides the course time where the book knows it', () => {
    const at = (level: string) =>
      checkCourse(
        { ...row(2, 6), head: { class: '', level, judge: '', place: '', date: '', heightCategory: '' } },
        fci2023,
        {
          facts: { bestTime: hundredths(40), judgesSpeed: 4 },
        },
      ).times.standard;
    expect(at('3')).toMatchObject({ known: true, time: 4600 });
    expect(at('2')).toMatchObject({ known: false, missing: 'length' });
    expect(at('evening')).toMatchObject({ known: false, missing: 'level' });
  });
});

describe('a large course', () => {
  test('two hundred numbers over one obstacle of a thousand', () => {
    const course = row(1, 1);
    const many: Course = {
      ...course,
      steps: Array.from({ length: 200 }, (_, i) => ({
        number: i + 1,
        obstacleId: 'o1',
        direction: 'forward',
      })),
    };
    const check = checkCourse(many, fci2023, { category: 'L' });
    expect(of('obstacles', check)[0]).toMatchObject({ judgement: { verdict: 'above' } });
    expect(of('obstacles', check)[0]?.numbers).toHaveLength(178);
    expect(of('spacing', check)).toHaveLength(199);
    const told = check.findings.map((f) => courseCheckWords.told(f, 'metres'));
    expect(Math.max(...told.map((t) => t.length))).toBeLessThan(200);
  });
});

describe('sentences', () => {
  const told = (course: Course, unit: 'metres' | 'feet' = 'metres', category: string | undefined = 'L') =>
    checkCourse(course, fci2023, { category }).findings.map((f) => courseCheckWords.told(f, unit));

  test('say what was measured, what is asked, and what to do', () => {
    expect(told(row(2, 4))).toContain(
      '1 to 2, from the end of the one to the beginning of the next: 4.00 m; too little, 5 m to 7 m is asked.',
    );
    expect(told(row(2, 6), 'feet')).toContain(
      '1 to 2, from the end of the one to the beginning of the next: 19.7 ft; 16.4 ft to 23 ft is asked.',
    );
    expect(told(row(2, 6))).toContain('Obstacles: 2; too little, 15 to 22 is asked.');
    expect(told(courseOf([{ sizes: { height: 0.65 } }]))).toContain(
      'Bar at 1: 65 cm; too much, 55 cm to 60 cm is asked.',
    );
    expect(told(countedCourse(18))).toContain(
      'Ground of the course, longer way: cannot tell; not drawn: 1, 2, 3, 4, 5, 6, 7, 8 and 10 more. Place them on the grass.',
    );
    expect(told(row(2, 6))).toContain(
      'Length of the course: cannot tell; the book measures along the path dogs will take. Roll the wheel along it.',
    );
  });

  test('name the entry, its source and how well it is known', () => {
    const { findings } = checkCourse(row(2, 4), fci2023, { category: 'L' });
    for (const f of findings) {
      const by = courseCheckWords.by(f.rule);
      expect(by).toContain(f.rule.name);
      expect(by).toContain(f.rule.source.text);
    }
    const length = of('length', { findings })[0];
    expect(length && courseCheckWords.by(length.rule)).toMatch(/from memory, not read$/);
  });

  test('of lengths and times', () => {
    const course = row(3, 6);
    const { lengths } = checkCourse(course, fci2023);
    expect(courseCheckWords.length('centres', lengths.centres, 'metres')).toBe(
      'Length, straight from centre to centre: 12.00 m.',
    );
    expect(courseCheckWords.length('wheelPath', lengths.wheelPath, 'metres')).toBe(
      'Length, along the wheel’s path: cannot tell; no wheel has been rolled.',
    );
    const stated = book({
      times: {
        standard: [{ rule: { value: { form: 'stated' }, source: ours } }],
        maximum: [{ rule: { value: { form: 'timesStandard', usual: 2, least: 1.5 }, source: ours } }],
      },
    });
    const { times } = checkCourse(course, stated, {
      facts: { statedStandard: hundredths(40), statedMaximum: hundredths(50) },
    });
    expect(courseCheckWords.time('standard', times.standard)).toBe(
      'Standard course time: 40.00 s, as the judge stated it.',
    );
    expect(times.belowLeast && courseCheckWords.belowLeast(times.belowLeast)).toBe(
      'The maximum course time is below what the book allows: at least 60.00 s.',
    );
    expect(courseCheckWords.time('maximum', checkCourse(course, stated).times.maximum)).toBe(
      'Maximum course time: cannot tell; it follows from the standard course time, which is not known.',
    );
  });
});

test('what the course says of its times counts as if it were stated, until somebody states otherwise', () => {
  const rules = book({
    times: {
      standard: [
        {
          disciplines: ['jumping'],
          rule: { value: { form: 'lengthOverSpeed' }, source: ours },
        },
      ],
      maximum: [{ rule: { value: { form: 'stated' }, source: ours } }],
    },
    course: { lengthMeasured: { value: 'centres', source: ours } },
  });
  const course: Course = {
    ...row(3, 6),
    timing: { discipline: 'jumping', judgesSpeed: 4, statedMaximum: 9.07 },
  };
  // 12 m at 4 m/s.
  expect(checkCourse(course, rules).times).toMatchObject({
    standard: { known: true, time: 300, stated: false },
    maximum: { known: true, time: 907, stated: true },
  });
  expect(checkCourse(course, rules, { facts: { judgesSpeed: 3 } }).times.standard).toMatchObject({
    time: 400,
  });
});

describe('the demo course', () => {
  test('is counted, measured and told without a gap', () => {
    const file = new URL('../../../fixtures/demo/first-evening.walkback.json', import.meta.url);
    const reading = readDocument(readFileSync(file, 'utf8'));
    if (!reading.ok) throw new Error(reading.problems.join('\n'));
    const { course } = reading.document;
    const check = checkCourse(course, fci2023, { category: 'L' });
    expect(of('obstacles', check)[0]?.judgement).toMatchObject({
      verdict: 'holds',
      measured: course.steps.length,
    });
    expect(of('spacing', check)).toHaveLength(course.steps.length - 1);
    for (const f of of('spacing', check)) expect(f.judgement.verdict).not.toBe('cannotTell');
    // Worked out by hand from the stands in the file: 1 to 2 is 5.3 m along and 0.3 m aside.
    const [first] = of('spacing', check);
    expect(first?.judgement.verdict !== 'cannotTell' && first?.judgement.measured).toBeCloseTo(
      Math.hypot(5.3, 0.3),
      9,
    );
  });
});
