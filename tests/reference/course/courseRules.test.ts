import { describe, expect, test } from 'vitest';
import { checkCourse } from '../../../src/course/checkCourse.ts';
import { countedCourse, type Course } from '../../../src/course/course.ts';
import type { CourseFinding } from '../../../src/course/courseFindings.ts';
import { courseLengths } from '../../../src/course/courseLength.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { aFrameFootprint, dogWalkFootprint, slope } from '../../../src/course/rules/ramps.ts';
import { courseOf, row } from '../../unit/course/courses.ts';
import { book, ours } from '../../unit/course/rules/books.ts';

const of = (what: CourseFinding['about']['what'], course: Course, category?: string) =>
  checkCourse(course, fci2023, { category }).findings.filter((f) => f.about.what === what);
const verdicts = (what: CourseFinding['about']['what'], course: Course, category?: string) =>
  of(what, course, category).map((f) => f.judgement.verdict);

describe('counts', () => {
  test('15 to 22 obstacles (Finnish Agility Association; the most also FCI from 2012)', () => {
    const at = (n: number) => verdicts('obstacles', countedCourse(n))[0];
    expect([14, 15, 22, 23].map(at)).toEqual(['below', 'holds', 'holds', 'above']);
  });

  test('at least 7 single or double hurdles (FCI from 2012, secondary)', () => {
    const at = (singles: number, doubles: number) =>
      verdicts(
        'hurdles',
        courseOf([
          ...Array.from({ length: singles }, () => ({ kind: 'barJump' as const })),
          ...Array.from({ length: doubles }, () => ({ kind: 'spread' as const })),
          ...Array.from({ length: 8 }, () => ({ kind: 'tunnel' as const })),
        ]),
      )[0];
    expect([at(5, 1), at(5, 2), at(7, 0)]).toEqual(['below', 'holds', 'holds']);
  });
});

describe('distances (FCI from 2012, secondary): 4-7 m small, 5-7 m others', () => {
  test.each([
    ['S', ['below', 'holds', 'holds', 'holds', 'holds', 'above']],
    ['M', ['below', 'below', 'below', 'holds', 'holds', 'above']],
    ['L', ['below', 'below', 'below', 'holds', 'holds', 'above']],
  ] as const)('%s', (category, expected) => {
    const at = (apart: number) => verdicts('spacing', row(2, apart), category)[0];
    expect([3.99, 4, 4.99, 5, 7, 7.01].map(at)).toEqual(expected);
  });

  test('the Kennel Club’s 5-10 m, centre to centre, as a book of its own', () => {
    const kc = book({
      categories: { value: [{ id: 'L', name: 'Large', from: 0, below: null }], source: ours },
      course: {
        spacing: {
          value: { measured: 'centres', byCategory: [{ category: 'L', least: 5, most: 10 }] },
          source: ours,
        },
      },
    });
    const at = (apart: number) =>
      checkCourse(row(2, apart), kc, { category: 'L' }).findings.map((f) => f.judgement.verdict)[0];
    expect([4.99, 5, 10, 10.01].map(at)).toEqual(['below', 'holds', 'holds', 'above']);
  });
});

describe('ring (FCI from 2012, secondary): 24 by 40 m, the course within 20 by 40 m', () => {
  const ring = (width: number, length: number) => verdicts('ring', courseOf([], { ring: { width, length } }));
  test('either way round', () => {
    expect(ring(24, 40)).toEqual(['holds', 'holds']);
    expect(ring(40, 24)).toEqual(['holds', 'holds']);
    expect(ring(23.99, 40)).toEqual(['below', 'holds']);
    expect(ring(20, 39)).toEqual(['below', 'below']);
  });

  test('the ground the course takes', () => {
    const area = (x: number, y: number) => verdicts('area', courseOf([{ at: [0, 0] }, { at: [x, y] }]));
    expect(area(20, 40)).toEqual(['holds', 'holds']);
    expect(area(40, 20)).toEqual(['holds', 'holds']);
    expect(area(20.01, 40)).toEqual(['above', 'holds']);
    expect(area(10, 40.01)).toEqual(['holds', 'above']);
  });
});

describe('bars by category (agilitynow.eu, secondary): 25-30, 35-40, 45-50, 55-60 cm', () => {
  test.each([
    ['S', 0.25, 0.3],
    ['M', 0.35, 0.4],
    ['I', 0.45, 0.5],
    ['L', 0.55, 0.6],
  ] as const)('%s', (category, least, most) => {
    const at = (height: number) => verdicts('bar', courseOf([{ sizes: { height } }]), category)[0];
    expect([least - 0.01, least, most, most + 0.01].map(at)).toEqual(['below', 'holds', 'holds', 'above']);
  });
});

describe('equipment on the ground (arithmetic on published sizes)', () => {
  test('A-frame, apex 170 and ramps 270 cm (agility-allstars.sk): 39.02°, 4.195 m', () => {
    expect((slope(170, 270) * 180) / Math.PI).toBeCloseTo(39.02, 2);
    expect(aFrameFootprint(1.7, 2.7)).toBeCloseTo(4.195, 3);
  });

  test('dog walk, planks 360 and height 120 cm (agility-allstars.sk): 19.47°, 10.388 m', () => {
    expect((slope(120, 360) * 180) / Math.PI).toBeCloseTo(19.47, 2);
    expect(dogWalkFootprint(3.6, 1.2)).toBeCloseTo(10.388, 3);
  });

  test('the worked book allows the sizes that these follow from', () => {
    const { aFrame, dogWalk } = fci2023.equipment;
    expect(aFrame?.apex?.value).toEqual({ least: 170, most: 170 });
    expect(aFrame?.rampLength?.value).toEqual({ least: 265, most: 275 });
    expect(dogWalk?.plankLength?.value).toEqual({ least: 360, most: 380 });
    expect(dogWalk?.height?.value).toEqual({ least: 120, most: 130 });
  });
});

describe('the two lengths of one course', () => {
  // A square of 6 m, walked round on three sides; the dog's way cuts the corners on quarter circles of 3 m.
  const corners = [
    { at: [0, 0] as const },
    { at: [6, 0] as const },
    { at: [6, 6] as const },
    { at: [0, 6] as const },
  ];
  const arc = (cx: number, cy: number, from: number) =>
    Array.from({ length: 181 }, (_, i) => ({
      x: cx + 3 * Math.cos(((from + i / 2) * Math.PI) / 180),
      y: cy + 3 * Math.sin(((from + i / 2) * Math.PI) / 180),
    }));
  const wheelPath = [{ x: 0, y: 0 }, ...arc(3, 3, -90), ...arc(3, 3, 0), { x: 0, y: 6 }];
  const course = courseOf(corners, { wheelPath });

  test('straight from centre to centre (The Kennel Club, “Calculating accurate course times”)', () => {
    expect(courseLengths(course).centres).toEqual({ known: true, metres: 18 });
  });

  test('along the path most dogs are expected to take (RSCE, Spain)', () => {
    const { wheelPath: found } = courseLengths(course);
    expect(found.known && found.metres).toBeCloseTo(3 + 3 * Math.PI + 3, 3);
  });

  test('the book says which one counts, and its times follow', () => {
    const with_ = (measured: 'centres' | 'wheelPath') =>
      checkCourse(
        course,
        book({
          course: { lengthMeasured: { value: measured, source: ours } },
          times: {
            standard: [{ rule: { value: { form: 'lengthOverSpeed', metresPerSecond: 3 }, source: ours } }],
          },
        }),
      ).times.standard;
    expect(with_('centres')).toMatchObject({ known: true, time: 600 });
    // 15.42 m at 3 m/s.
    expect(with_('wheelPath')).toMatchObject({ known: true, time: 514 });
  });
});
