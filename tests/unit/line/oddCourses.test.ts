import { describe, expect, test } from 'vitest';
import { Course, mostNumbers } from '../../../src/course/course.ts';
import { likelyLine } from '../../../src/line/likelyLine.ts';
import { readCourse } from '../../../src/line/reading/readCourse.ts';
import { ReadingThresholds } from '../../../src/line/reading/thresholds.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { courseOf, row } from '../course/courses.ts';
import { plainLine } from './plainLine.ts';
import { heard, withStep } from './told.ts';

describe('what no judge builds is told, not tripped over', () => {
  test('two obstacles on one spot: no clear way from one to the other', () => {
    const { sentences } = heard(courseOf([{ at: [0, 0] }, { at: [6, 0] }, { at: [6, 0] }, { at: [12, 0] }]));
    expect(sentences).toContain(
      'No way was found from 2 (the bar jump) to 3 (the bar jump) that keeps clear of the equipment. See whether it stands where it should.',
    );
  });

  test('a whole course on one spot', () => {
    const kinds = ['barJump', 'barJump', 'tunnel', 'table', 'weavePoles', 'unknown'] as const;
    const { line } = heard(courseOf(kinds.map((kind) => ({ kind, at: [5, 5] as const }))));
    expect(line.stretches.some((s) => s.blocked)).toBe(true);
  });

  test.each(['tunnel', 'aFrame', 'dogWalk'] as const)('a jump inside a %s', (kind) => {
    const { sentences } = heard(
      courseOf([{ at: [0, 0] }, { kind, at: [8, 0, 0] }, { at: [8, 0.2, 90] }, { at: [8, 9, 90] }]),
    );
    expect(sentences.some((s) => s.startsWith('No way was found from 2 '))).toBe(true);
  });

  test('the same jump three times running, there and back', () => {
    const course = row(3, 6);
    const again = { obstacleId: 'o2', direction: 'forward' } as const;
    const steps = [
      { number: 1, obstacleId: 'o1', direction: 'forward' as const },
      { number: 2, ...again },
      { number: 3, ...again },
      { number: 4, obstacleId: 'o2', direction: 'reverse' as const },
    ];
    const { line } = heard({ ...course, steps });
    expect(line.steps.map((s) => s.obstacleId)).toEqual(['o1', 'o2', 'o2', 'o2']);
    for (const s of line.stretches.slice(2, 4)) expect(Math.abs(s.turnDegrees)).toBeGreaterThan(180);
  });

  test('places beyond all ground, and a number that stands on nothing', () => {
    heard(courseOf([{ at: [-1000, -1000] }, { at: [1000, 1000] }, { at: [-1000, 1000, 90] }]));
    const course = row(3, 6);
    const steps = [...course.steps, { number: 4, obstacleId: 'gone', direction: 'forward' as const }];
    expect(heard({ ...course, steps }).line.steps.map((s) => s.number)).toEqual([1, 2, 3]);
    for (const x of [NaN, Infinity, 1001])
      expect(
        Course.safeParse({ obstacles: [{ id: 'a', kind: 'barJump', stand: { x, y: 0, headingDegrees: 0 } }] })
          .success,
      ).toBe(false);
  });

  test('a number that stands twice and a piece that stands twice', () => {
    const course = row(3, 6);
    const [first] = course.obstacles;
    if (!first) throw new Error('three jumps');
    heard({ ...course, steps: [...course.steps, { number: 2, obstacleId: 'o3', direction: 'reverse' }] });
    heard({ ...course, obstacles: [...course.obstacles, first] });
  });
});

describe('ways of taking that a course may ask for', () => {
  test('a jump from its far side: she sees it from behind, and it lures her the wrong way round', () => {
    const course = withStep(
      courseOf([{ at: [0, 0] }, { at: [7, 0], reverse: true }, { at: [0, 6, 180] }]),
      2,
      {
        backside: true,
      },
    );
    const { line, remarks, sentences } = heard(course);
    expect(sentences.find((s) => s.startsWith('From 1 (the bar jump) she lands'))).toMatch(
      /and looks at it from behind\.$/,
    );
    expect(sentences.find((s) => s.includes('the wrong way round'))).toMatch(
      /she has to go round it first\.$/,
    );
    expect(remarks.find((r) => r.remark === 'trap')).toMatchObject({ from: 1, to: 2, trap: 'backJump' });
    // She comes over it the way it is numbered, from beyond it.
    expect(line.steps[1]?.entry.x).toBeGreaterThan(7);
    expect(line.steps[1]?.exit.x).toBeLessThan(7);
  });

  test.each(['left', 'right'] as const)('a wrap round the %s wing turns her that way', (wing) => {
    const course = withStep(courseOf([{ at: [0, 0] }, { at: [6, 0] }, { at: [0, 3, 180] }]), 2, {
      wrap: wing,
    });
    const { remarks, sentences } = heard(course);
    const on = remarks.find((r) => r.remark === 'way' && r.from === 2);
    expect(on?.remark === 'way' && Math.sign(on.turnDegrees)).toBe(wing === 'left' ? 1 : -1);
    expect(on?.remark === 'way' && Math.abs(on.turnDegrees)).toBeGreaterThan(120);
    expect(sentences.find((s) => s.startsWith('From 2 to 3'))).toContain(`to the ${wing}.`);
  });

  test('a wrap at the last number asks for no side change on the way out', () => {
    const { remarks } = heard(withStep(row(2, 6), 2, { wrap: 'left' }));
    expect(remarks.filter((r) => r.remark === 'sideChange' && r.at.length === 0)).toEqual([]);
  });

  test('a table turns its face to her, wherever she comes from', () => {
    for (const heading of [0, 45, 90]) {
      const { sentences } = heard(
        courseOf([{ at: [0, 0] }, { kind: 'table', at: [7, 0, heading] }, { at: [7, 7, 90] }]),
      );
      expect(sentences).toContain(
        'From 1 (the bar jump) she lands 1.4 m past it, facing 2 (the table), with the way in clear before her.',
      );
    }
    const { sentences } = heard(courseOf([{ kind: 'table', at: [0, 0] }, { at: [6, 0] }]));
    expect(sentences[0]).toMatch(/^From where she waits it is \d\.\d m to 1 \(the table\)\.$/);
  });

  test('poles from beyond their first: she has to turn round before she can go in', () => {
    const { sentences } = heard(
      courseOf([{ at: [0, 0] }, { kind: 'weavePoles', at: [2, 0.6, 0] }, { at: [9, 0.6] }]),
    );
    expect(sentences.find((s) => s.startsWith('To 2 (the weave poles)'))).toMatch(
      /^To 2 \(the weave poles\) she comes back from beyond the first pole, on their right, 1\d\d° off their line: she has to turn round before she can go in\.$/,
    );
  });

  test('a jump that she looks at end on shows her no way in', () => {
    const course = courseOf([{ at: [0, 0] }, { at: [8, 0, 90] }]);
    const { remarks } = readCourse({
      course,
      line: plainLine(course),
      thresholds: ReadingThresholds.parse({}),
    });
    const sight = remarks.find((r) => r.remark === 'sight');
    expect(sight).toMatchObject({ inView: true, seen: false, share: 0, hiddenBy: [] });
  });
});

describe('as many numbers as a course can have', () => {
  /** How often a distance is worked out while a row of so many jumps is worked on. */
  const asked = (numbers: number, work: (course: Course) => void): number => {
    const course = row(numbers, 5);
    const own = Math.hypot;
    let count = 0;
    // A spy of the test runner would keep every call, and there are millions; the root by itself is quick.
    Math.hypot = (a = 0, b = 0) => {
      count += 1;
      return Math.sqrt(a * a + b * b);
    };
    try {
      work(course);
    } finally {
      Math.hypot = own;
    }
    return count;
  };
  const quarter = mostNumbers / 4;

  test('the work of the line grows at most with their square', () => {
    const line = (course: Course): void => {
      expect(likelyLine(course, { runner: runnerWith() })?.steps).toHaveLength(course.steps.length);
    };
    const few = asked(quarter, line);
    expect(few).toBeGreaterThan(quarter);
    expect(asked(mostNumbers, line) / few).toBeLessThan(16);
  });

  test('the work of the reading grows at most with their square', () => {
    const reading = (course: Course): void => {
      const thresholds = ReadingThresholds.parse({});
      const { remarks } = readCourse({ course, line: plainLine(course), thresholds, runner: runnerWith() });
      expect(remarks.filter((r) => r.remark === 'way')).toHaveLength(course.steps.length - 1);
    };
    const few = asked(quarter, reading);
    expect(few).toBeGreaterThan(quarter);
    expect(asked(mostNumbers, reading) / few).toBeLessThan(16);
  });
});
