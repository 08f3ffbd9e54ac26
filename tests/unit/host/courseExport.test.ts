import { expect, it } from 'vitest';
import { emptyCourse, type Course } from '../../../src/course/course.ts';
import { readCourseFile } from '../../../src/course/file/readCourseFile.ts';
import { RuleBook } from '../../../src/course/rules/book.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { exportedCourse } from '../../../src/host/courseSheet/export.ts';

const course: Course = {
  ...emptyCourse(),
  name: 'Two tunnels',
  ring: { width: 20, length: 20 },
  obstacles: [
    { id: 'a', kind: 'tunnel', nickname: '', stand: { x: 5, y: 5, headingDegrees: 0 } },
    { id: 'b', kind: 'tunnel', nickname: '', stand: { x: 12, y: 14, headingDegrees: 90 } },
  ],
  steps: [
    { number: 1, obstacleId: 'a', direction: 'forward' },
    { number: 2, obstacleId: 'b', direction: 'forward' },
  ],
};

/** The worked book with tunnels twice as wide. */
function wideTunnels(): RuleBook {
  const { diameter } = fci2023.equipment.tunnel ?? {};
  if (!diameter) throw new Error('the worked book has no tunnel');
  const tunnel = { ...fci2023.equipment.tunnel, diameter: { ...diameter, value: { least: 120, most: 120 } } };
  return RuleBook.parse({ ...fci2023, equipment: { ...fci2023.equipment, tunnel } });
}

it('draws equipment as the rule book builds it, and hands the course over as it is kept', async () => {
  const asked = {
    form: 'svg',
    paper: 'a4',
    scale: undefined,
    unit: 'metres',
    dialect: 'british',
    picture: () => Promise.resolve(null),
  } as const;
  const plain = (await exportedCourse(course, asked)).toString();
  const built = (await exportedCourse(course, { ...asked, book: wideTunnels() })).toString();
  const widths = (svg: string): number[] =>
    [...svg.matchAll(/stroke-width="([\d.]+)"/g)].map(([, width]) => Number(width));
  expect(widths(plain)).toContain(0.6);
  expect(widths(built)).toContain(1.2);
  expect(widths(built)).not.toContain(0.6);
  for (const svg of [plain, built]) {
    const reading = readCourseFile(svg);
    expect(reading.ok && reading.course.obstacles).toEqual(course.obstacles);
  }
});
