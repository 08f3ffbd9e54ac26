import { describe, expect, test } from 'vitest';
import { mostNumbers, type Course } from '../../../src/course/course.ts';
import { likelyLine } from '../../../src/line/likelyLine.ts';
import { ReadingThresholds } from '../../../src/line/reading/thresholds.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { crossArguments } from '../../../src/plan/crossArguments.ts';
import { wishOf } from '../../../src/plan/lineWish.ts';
import { crossKinds, PlanSheet, supportEnds } from '../../../src/plan/plan.ts';
import { sidesOf } from '../../../src/plan/sides.ts';
import { timePlan } from '../../../src/plan/spare.ts';
import { waitFrom } from '../../../src/plan/wait.ts';
import { walkThrough } from '../../../src/plan/walkThrough.ts';
import type { Solid } from '../../../src/plan/wayRound.ts';
import { argumentSentence } from '../../../src/words/crossArguments.ts';
import { sideSentence, spareSentence, waitSentence } from '../../../src/words/plan.ts';
import { courseOf, row } from '../course/courses.ts';
import { plainLine } from '../line/plainLine.ts';
import { allFinite, withStep } from '../line/told.ts';

const runner = runnerWith();
const thresholds = ReadingThresholds.parse({});

/** A cross of each kind, each with a second choice, and a support at every number. */
const busy = (course: Course): PlanSheet =>
  PlanSheet.parse({
    crosses: course.steps.slice(0, 100).map(({ number }, i) => ({
      ...{ id: `c${i}`, place: number, kind: crossKinds[i % crossKinds.length] },
      secondChoice: crossKinds[(i + 2) % crossKinds.length],
    })),
    supports: course.steps.slice(0, 100).map(({ number }, i) => ({
      ...{ id: `s${i}`, place: number, until: supportEnds[i % supportEnds.length] },
    })),
    sides: [{ after: 0, side: 'left' }],
  });

const odd: readonly (readonly [string, Course])[] = [
  ['two obstacles on one spot', courseOf([{ at: [0, 0] }, { at: [0, 0] }, { at: [6, 0] }])],
  ['a jump inside a tunnel', courseOf([{ at: [0, 0] }, { kind: 'tunnel', at: [8, 0] }, { at: [10, 0] }])],
  [
    'a jump from its far side',
    withStep(courseOf([{ at: [0, 0] }, { at: [7, 0], reverse: true }, { at: [0, 6, 180] }]), 2, {
      backside: true,
    }),
  ],
  ['a wrap', withStep(courseOf([{ at: [0, 0] }, { at: [6, 0] }, { at: [0, 3, 180] }]), 2, { wrap: 'left' })],
  ['a table', courseOf([{ at: [0, 0] }, { kind: 'table', at: [6, 0] }, { at: [6, 6, 90] }])],
  ['nothing but tables', courseOf([0, 6, 12].map((x) => ({ kind: 'table', at: [x, 0] as const })))],
];

test.each(odd)('%s: every time of a plan is a figure, and every sentence is whole', (_, course) => {
  const sheet = busy(course);
  const line = likelyLine(course, { runner });
  if (!line) throw new Error('there is no line');
  const times = timePlan(course, sheet, line, runner);
  allFinite(times);
  expect(times.untimed).toEqual([]);
  const walk = walkThrough(line, times);
  for (let t = -1; t <= walk.seconds + 1; t += 0.25) allFinite([walk.dog(t), walk.handler(t)]);
  const told = { course, unit: 'metres', dialect: 'british' } as const;
  const sentences = times.crosses.flatMap((time) => [
    spareSentence(time, 'barJump', 'feet'),
    ...crossArguments(time, { course, line, runner, skills: undefined, thresholds }).map((a) =>
      argumentSentence(a, told),
    ),
  ]);
  for (const sentence of sentences) {
    expect(sentence).toMatch(/^[A-Z].*\.$/s);
    expect(sentence).not.toMatch(/NaN|Infinity|undefined|null/);
  }
  expect(sentences[0]).toContain(' ft from ');
});

describe('a wait that cannot line 1 and 2 up says why', () => {
  const said = (pieces: Parameters<typeof courseOf>[0], at = { x: -4, y: 0 }): string | null => {
    const wait = waitFrom(courseOf(pieces), at, runner);
    if (wait) allFinite(wait);
    return wait && waitSentence(wait, 'metres');
  };

  test('one spot, behind 1, from the far side, too much of a slant', () => {
    expect(said([{ at: [0, 0] }, { at: [0, 0] }])).toBe(
      'Number 1 and number 2 stand on one spot: move one of them apart.',
    );
    expect(said([{ at: [0, 0] }, { at: [-2, 5] }])).toMatch(
      /2 does not lie beyond 1, so she has to turn back to it\.$/,
    );
    expect(said([{ at: [0, 0] }, { at: [7, 0], reverse: true }])).toMatch(
      /2 is taken from its far side, so she has to go round it\.$/,
    );
    // 2 lies at 50 degrees behind 1, and she waits on that line; she slices 40 at the most.
    const a = (50 * Math.PI) / 180;
    const out = (far: number) => ({ x: far * Math.cos(a), y: far * Math.sin(a) });
    expect(said([{ at: [0, 0] }, { at: [out(6).x, out(6).y, 50] }], out(-4))).toMatch(
      /she would have to take 1 at 50° to the left, more of a slant than she takes\.$/,
    );
  });

  test('a table can be taken from any side', () => {
    expect(said([{ at: [0, 0] }, { kind: 'table', at: [7, 0, 180] }])).toMatch(
      /^From here 1 and 2 stand in one line for her/,
    );
  });

  test('lengths are in feet for who measures in feet', () => {
    const wait = waitFrom(courseOf([{ at: [0, 0] }, { at: [6, 0] }]), { x: -4, y: 0.5 }, runner);
    expect(wait && waitSentence(wait, 'feet')).toMatch(/1\.0 ft left of its middle/);
  });
});

describe('what a plan holds that is no place, no number, or stands twice', () => {
  test('is refused where it is read, and asks for nothing while it is dragged', () => {
    for (const at of [
      { x: NaN, y: 0 },
      { x: 0, y: Infinity },
      { x: 1e6, y: 0 },
    ]) {
      expect(PlanSheet.safeParse({ wait: at }).success).toBe(false);
      expect(PlanSheet.safeParse({ landings: [{ number: 2, at }] }).success).toBe(false);
      expect(wishOf({ wait: at, landings: [{ number: 2, at }] }, runner)).toEqual({ runner });
    }
    for (const place of [0, -1, 1.5, NaN, mostNumbers + 1])
      expect(PlanSheet.safeParse({ crosses: [{ id: 'c', place, kind: 'front' }] }).success).toBe(false);
  });

  test('crosses, supports, sides and landings at one number', () => {
    const course = row(3, 6);
    const twice = { place: 2, kind: 'front' } as const;
    const sheet = PlanSheet.parse({
      crosses: [
        { id: 'a', ...twice },
        { id: 'a', ...twice },
      ],
      supports: [
        { id: 's', place: 2, until: 'committed' },
        { id: 's', place: 2, until: 'committed' },
      ],
      sides: [
        { after: 1, side: 'left' },
        { after: 1, side: 'right' },
      ],
      landings: [
        { number: 2, at: { x: 8, y: 0 } },
        { number: 2, at: { x: 8, y: 0.5 } },
      ],
    });
    const { findings } = sidesOf(sheet, 3);
    expect(findings.map(sideSentence)).toEqual([
      'After 1 the side is stated twice; the first counts.',
      'Two side changes are planned at 2: they take each other back.',
    ]);
    const line = likelyLine(course, wishOf(sheet, runner));
    if (!line) throw new Error('there is no line');
    // Of two landings the later one counts.
    expect(line.steps[1]?.exit).toMatchObject({ x: 8, y: 0.5 });
    allFinite(timePlan(course, sheet, line, runner));
  });
});

test('the work of the way round grows at most with the square of the numbers', () => {
  const looks = (numbers: number): number => {
    const course = row(numbers, 5);
    let count = 0;
    // Something solid beside every jump that no way meets: it is looked at, and that is all.
    const solid: Solid = course.obstacles.map((_, i) => {
      const corner = (x: number, y: number) => ({
        get x() {
          count += 1;
          return 5 * i + x;
        },
        y,
      });
      return [corner(0, 40), corner(1, 40), corner(1, 41), corner(0, 41)];
    });
    const times = timePlan(course, busy(course), plainLine(course), runner, solid);
    expect(times.crosses.length).toBeGreaterThan(numbers / 2);
    return count;
  };
  const few = looks(mostNumbers / 4);
  expect(few).toBeGreaterThan(mostNumbers);
  expect(looks(mostNumbers) / few).toBeLessThan(16.5);
});
