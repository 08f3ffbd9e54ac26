import { describe, expect, it } from 'vitest';
import { asksFor } from '../../../app/window/course/rules/asksFor.ts';
import { counted, findingGroups } from '../../../app/window/course/rules/findingGroups.ts';
import { typedNumber, withTiming } from '../../../app/window/course/rules/timing.ts';
import { checkCourse } from '../../../src/course/checkCourse.ts';
import { Course, emptyCourse } from '../../../src/course/course.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { row } from '../course/courses.ts';
import { book, ours } from '../course/rules/books.ts';

describe('findings rule by rule', () => {
  it('stand in the order of the book, each once, sorted by what came of them', () => {
    const { findings } = checkCourse(row(4, 2), fci2023, { category: 'L' });
    const groups = findingGroups(findings);
    expect(groups.flatMap((g) => [...g.off, ...g.open, ...g.held])).toHaveLength(findings.length);
    expect(groups.map((g) => g.rule.name)).toEqual([...new Set(findings.map((f) => f.rule.name))]);
    const spacing = groups.find((g) => g.rule.name === 'course.spacing');
    expect(spacing?.off).toHaveLength(3);
    const { off, open, held } = counted(groups);
    expect(off + open + held).toBe(findings.length);
    expect(findingGroups([])).toEqual([]);
  });
});

describe('what a book asks for its course times', () => {
  it('is what its rules hang on', () => {
    expect(asksFor(fci2023)).toEqual({ discipline: true, judgesSpeed: true, bestTime: true });
    expect(asksFor(book())).toEqual({ discipline: false, judgesSpeed: false, bestTime: false });
    const fixed = { value: { form: 'lengthOverSpeed' as const, metresPerSecond: 4 }, source: ours };
    expect(asksFor(book({ times: { standard: [{ rule: fixed }] } }))).toMatchObject({ judgesSpeed: false });
  });
});

describe('figures that are typed', () => {
  it.each<[string, number | undefined | null]>([
    ['4.25', 4.25],
    [' 4,25 ', 4.25],
    ['4.256', 4.26],
    ['', undefined],
    ['  ', undefined],
    ['fast', null],
    ['0', null],
    ['-3', null],
    ['1e9', null],
    ['Infinity', null],
    ['NaN', null],
  ])('%j', (text, value) => {
    expect(typedNumber(text, 0.1, 20)).toBe(value);
  });

  it('become part of the course, and leave it again, as the schema wants it', () => {
    const with1 = withTiming(emptyCourse(), { judgesSpeed: 4.26, discipline: 'agility' });
    expect(Course.parse(with1).timing).toEqual({ judgesSpeed: 4.26, discipline: 'agility' });
    const without = withTiming(with1, { judgesSpeed: undefined });
    expect(without.timing).toEqual({ discipline: 'agility' });
    expect(withTiming(without, { discipline: undefined })).toEqual(emptyCourse());
  });
});
