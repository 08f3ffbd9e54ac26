import { describe, expect, it } from 'vitest';
import { countedCourse, emptyCourse, type Course } from '../../../../src/course/course.ts';
import { papers, type PaperDrawing, type PaperShape } from '../../../../src/report/courseSheet/paper.ts';
import {
  planDrawing,
  planPicture,
  planSheet,
  type Drawn,
} from '../../../../src/report/courseSheet/planSheet.ts';
import { fits, fittingScale } from '../../../../src/report/courseSheet/scale.ts';
import { courseSvg } from '../../../../src/report/courseSheet/svg.ts';
import { walkSheet } from '../../../../src/report/courseSheet/walkSheet.ts';
import { demoCourse, fullCourse } from '../../course/file/demoCourse.ts';

const drawn = <T>(d: Drawn<T>): T => {
  if (!d.ok) throw new Error(d.why);
  return d.drawing;
};
const texts = (shapes: readonly PaperShape[]): string[] =>
  shapes.flatMap((s) => (s.shape === 'text' || s.shape === 'board' ? [s.text] : []));
const boards = (d: PaperDrawing) => d.shapes.filter((s) => s.shape === 'board');

/** The least and the most of where anything of a drawing lies, but for the width of lines. */
function reach({ shapes }: PaperDrawing): { x0: number; x1: number; y0: number; y1: number } {
  const points = shapes.flatMap((s): (readonly [number, number])[] =>
    s.shape === 'path'
      ? [...s.points]
      : s.shape === 'board'
        ? [
            [s.x - s.width / 2, s.y - s.height / 2],
            [s.x + s.width / 2, s.y + s.height / 2],
          ]
        : [[s.x, s.y]],
  );
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
}

const walk = { paper: 'a4', unit: 'metres', dialect: 'british' } as const;

describe('scales', () => {
  it('are the largest at which the ground fits', () => {
    expect(fittingScale({ width: 40, height: 20 }, { width: 200, height: 100 })).toBe(200);
    expect(fittingScale({ width: 40, height: 20 }, { width: 199, height: 100 })).toBe(250);
    expect(fittingScale({ width: 2000, height: 2000 }, { width: 200, height: 200 })).toBeNull();
    expect(fits({ width: 40, height: 20 }, { width: 200, height: 99.9 }, 200)).toBe(false);
  });
});

describe('the plan', () => {
  it.each(['a4', 'a5'] as const)('lies within %s, with every number on a board of its own', (paper) => {
    const sheet = drawn(planSheet(demoCourse(), { paper, unit: 'metres' }));
    expect([sheet.width, sheet.height]).toEqual([papers[paper].height, papers[paper].width]);
    const { x0, x1, y0, y1 } = reach(sheet);
    expect(Math.min(x0, y0)).toBeGreaterThan(5);
    expect(x1).toBeLessThan(sheet.width - 5);
    expect(y1).toBeLessThan(sheet.height - 5);
    const all = boards(sheet);
    expect(all.map((b) => Number(b.text)).sort((a, b) => a - b)).toEqual(
      Array.from({ length: 19 }, (_, i) => i + 1),
    );
    for (const a of all)
      for (const b of all)
        if (a !== b) {
          const clear =
            Math.abs(a.x - b.x) >= (a.width + b.width) / 2 ||
            Math.abs(a.y - b.y) >= (a.height + b.height) / 2;
          expect(clear, `${a.text} and ${b.text}`).toBe(true);
        }
    // Ten points are the least that is read with ease at arm's length (common practice in print).
    for (const b of all) expect(b.textSize * (72 / 25.4)).toBeGreaterThan(10);
  });

  it('is laid the way the course is, and says its scale', () => {
    const course = demoCourse();
    const narrow: Course = { ...course, ring: { width: 40, length: 90 } };
    const sheet = drawn(planSheet(narrow, { paper: 'a4', unit: 'metres' }));
    expect(sheet.height).toBeGreaterThan(sheet.width);
    expect(texts(sheet.shapes)).toContain('10 m · 1:400 on A4');
    const asked = drawn(planSheet(course, { paper: 'a4', unit: 'feet', scale: 500 }));
    expect(texts(asked.shapes).join()).toMatch(/20 ft · 1:500 on A4/);
    expect(texts(asked.shapes).join()).toMatch(/ring 131 ft × 66 ft/);
  });

  it('says what does not fit, and what is not there', () => {
    expect(planSheet(demoCourse(), { paper: 'a5', unit: 'metres', scale: 100 })).toMatchObject({
      ok: false,
      why: expect.stringContaining('At 1:100 this course does not fit on A5'),
    });
    const far: Course = { ...demoCourse(), ring: { width: 500, length: 500 } };
    expect(planSheet(far, { paper: 'a5', unit: 'metres' }).ok).toBe(true);
    for (const none of [emptyCourse(), countedCourse(5)]) {
      expect(planSheet(none, { paper: 'a4', unit: 'metres' })).toMatchObject({ ok: false });
      expect(planDrawing(none, 'metres')).toMatchObject({ ok: false });
      expect(planPicture(none, 'metres')).toMatchObject({ ok: false });
    }
  });

  it('of numbers on a picture shows the picture, not to scale, and is no drawing', () => {
    const course: Course = {
      ...countedCourse(3),
      mapPicture: { pictureId: 'p', name: 'map.png', width: 1600, height: 1000 },
      steps: countedCourse(3).steps.map((s) => ({ ...s, onPicture: { x: 0.2 * s.number, y: 0.5 } })),
    };
    const sheet = drawn(planSheet(course, { paper: 'a4', unit: 'metres' }));
    expect(sheet.shapes.filter((s) => s.shape === 'picture')).toHaveLength(1);
    expect(texts(sheet.shapes).join()).toMatch(/Not to scale/);
    expect(planDrawing(course, 'metres')).toMatchObject({
      ok: false,
      why: expect.stringContaining('trace it'),
    });
  });
});

describe('the picture for a phone', () => {
  it('has numbers of 11 pixels or more where it is 360 wide', () => {
    const d = drawn(planPicture(demoCourse(), 'metres'));
    for (const b of boards(d)) expect((b.textSize / d.width) * 360).toBeGreaterThan(10.9);
  });
});

describe('the sheet for the walk', () => {
  it('is one page of A4 or A5 for the demo, with each number, its name, its kind and its way to the next', () => {
    for (const paper of ['a4', 'a5'] as const) {
      const pages = drawn(walkSheet(demoCourse(), { ...walk, paper }));
      expect(pages).toHaveLength(1);
      const [page] = pages;
      if (!page) throw new Error('no page');
      expect([page.width, page.height]).toEqual([papers[paper].width, papers[paper].height]);
      expect(reach(page).y1).toBeLessThanOrEqual(page.height - 5);
      const told = texts(page.shapes);
      for (const word of ['the red tunnel', 'weave poles', 'see-saw', '19', '5.3 m', 'Notes'])
        expect(told).toContain(word);
    }
  });

  it('measures from centre to centre, by a course whose distances are plain', () => {
    const at = (id: string, x: number, y: number) =>
      ({ id, kind: 'barJump', nickname: id, stand: { x, y, headingDegrees: 0 } }) as const;
    const course: Course = {
      ...emptyCourse(),
      ring: { width: 20, length: 20 },
      obstacles: [at('a', 2, 2), at('b', 5, 6), at('c', 5, 13.25)],
      steps: ['a', 'b', 'c'].map((obstacleId, i) => ({ number: i + 1, obstacleId, direction: 'forward' })),
    };
    const told = texts(drawn(walkSheet(course, walk))[0]?.shapes ?? []);
    // A triangle of 3, 4 and 5; then 7.25 straight on.
    expect(told).toContain('5.0 m');
    expect(told).toContain('7.3 m');
    expect(told).toContain(
      'ring 20 m × 20 m · 3 numbers · 3 obstacles · 12 m straight from centre to centre',
    );
  });

  it('goes on over as many pages as the numbers need', () => {
    const course = demoCourse();
    const steps = Array.from({ length: 200 }, (_, i) => ({
      number: i + 1,
      obstacleId: course.obstacles[i % 16]?.id ?? '',
      direction: 'forward' as const,
    }));
    const pages = drawn(walkSheet({ ...course, steps }, walk));
    expect(pages.length).toBeGreaterThan(3);
    const rows = pages.flatMap((p) =>
      p.shapes.flatMap((s) =>
        s.shape === 'text' && s.tone === 'strong' && /^\d+$/.test(s.text) ? [s.text] : [],
      ),
    );
    expect(rows).toEqual(steps.map((s) => String(s.number)));
    for (const page of pages) expect(reach(page).y1).toBeLessThanOrEqual(page.height - 5);
  });

  it('of numbers on a picture is one page too, and asks nobody to measure a bar that is not there', () => {
    const bare = countedCourse(20);
    const course: Course = {
      ...bare,
      mapPicture: { pictureId: 'p', name: 'map.jpg', width: 2600, height: 1950 },
      steps: bare.steps.map((s) => ({ ...s, onPicture: { x: s.number / 21, y: 0.5 } })),
    };
    for (const paper of ['a4', 'a5'] as const) {
      const pages = drawn(walkSheet(course, { ...walk, paper }));
      expect(pages).toHaveLength(1);
      expect(texts(pages[0]?.shapes ?? []).join()).not.toMatch(/measure the bar/);
    }
  });

  it('is a table to write on where a course is only a count', () => {
    const told = texts(drawn(walkSheet(countedCourse(12), walk))[0]?.shapes ?? []);
    expect(told).toContain('12');
    expect(walkSheet(emptyCourse(), walk)).toMatchObject({ ok: false });
  });

  it('speaks the coach’s dialect, and cuts what is too long', () => {
    const course = demoCourse();
    const long = {
      ...course,
      obstacles: course.obstacles.map((o, i) => (i === 0 ? { ...o, nickname: 'w'.repeat(60) } : o)),
    };
    const told = texts(drawn(walkSheet(long, { ...walk, dialect: 'american' }))[0]?.shapes ?? []);
    expect(told).toContain('teeter');
    expect(told.some((t) => /^w+…$/.test(t))).toBe(true);
  });
});

describe('the drawing', () => {
  it('is true to size: a metre of ground is a thousandth of its scale on paper', () => {
    const d = drawn(planDrawing(demoCourse(), 'metres'));
    const svg = courseSvg(d, demoCourse());
    const [, width = ''] = /width="([\d.]+)mm"/.exec(svg) ?? [];
    const [, box = ''] = /viewBox="0 0 ([\d.]+) /.exec(svg) ?? [];
    expect(texts(d.shapes).join()).toMatch(/10 m · 1:150$/);
    expect(Number(width) / Number(box)).toBeCloseTo(1000 / 150, 3);
    expect(Number(box)).toBeCloseTo(40, 6);
  });

  it('carries no markup of anybody else’s, and no direction overrides', () => {
    const svg = courseSvg(drawn(planDrawing(fullCourse(), 'metres')), fullCourse());
    expect(svg).not.toMatch(/<script|<b>|<!ENTITY|&lol;/);
    expect(svg.replace(/<metadata>.*<\/metadata>/s, '')).not.toMatch(/[\u202A-\u202E\uFFFE]|\p{Cc}(?<!\n)/u);
  });
});
