import { Segment, point } from '@flatten-js/core';
import { expect, test } from 'vitest';
import type { Course } from '../../../src/course/course.ts';
import { checkCourse } from '../../../src/course/checkCourse.ts';
import { drawingFindings } from '../../../src/course/drawingFindings.ts';
import { drawnSizes } from '../../../src/course/equipment.ts';
import type { GroundPoint } from '../../../src/course/points.ts';
import { from } from '../../../src/course/pose.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { drawnSteps } from '../../../src/course/sequence.ts';
import { createRangeSession, likelyLine } from '../../../src/line/likelyLine.ts';
import type { LikelyLine, LineWish } from '../../../src/line/line.ts';
import { readCourse } from '../../../src/line/reading/readCourse.ts';
import type { Remark } from '../../../src/line/reading/remark.ts';
import { ReadingThresholds } from '../../../src/line/reading/thresholds.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { sheetsOf, type PlanSheet } from '../../../src/plan/plan.ts';
import { sidesOf } from '../../../src/plan/sides.ts';
import { timePlan } from '../../../src/plan/spare.ts';
import { spotFindings } from '../../../src/plan/spots.ts';
import { waitFrom } from '../../../src/plan/wait.ts';
import { remarkSentence } from '../../../src/words/reading.ts';
import { demoReview } from '../course/file/demoCourse.ts';

/** The demo's course that is planned before it is run: what it is there to show, by the program's own computation. */
const { course, plan, footage } = demoReview('a-course-to-plan');
const runner = runnerWith();
const [inUse, beside] = sheetsOf(plan);
if (!inUse || !beside) throw new Error('the demo keeps two plans');

const wishOf = ({ wait, landings }: Pick<PlanSheet, 'wait' | 'landings'>): LineWish => ({
  runner,
  ...(wait ? { start: wait } : {}),
  ...(landings ? { landings: new Map(landings.map((l) => [l.number, l.at])) } : {}),
});
const lineFor = (sheet: Pick<PlanSheet, 'wait' | 'landings'>): LikelyLine => {
  const line = likelyLine(course, wishOf(sheet));
  if (!line) throw new Error('there is no line');
  return line;
};
const remarksOn = (line: LikelyLine): readonly Remark[] =>
  readCourse({ course, line, thresholds: ReadingThresholds.parse({}) }).remarks;
const sightOfPoles = (line: LikelyLine) =>
  remarksOn(line).find((r) => r.remark === 'sight' && r.from === 5 && r.to === 6);
const landingAt5 = (line: LikelyLine): GroundPoint => {
  const step = line.steps.find((s) => s.number === 5);
  if (!step) throw new Error('5 is not in the line');
  return step.exit;
};

test('it has no film, keeps to its rule book and to the room that equipment needs', () => {
  expect(footage).toEqual([]);
  const { findings } = checkCourse(course, fci2023);
  expect(findings.length).toBeGreaterThan(course.steps.length);
  expect(findings.filter((f) => f.judgement.verdict !== 'holds')).toEqual([]);
  expect(drawingFindings(course)).toEqual([]);
  expect(lineFor(inUse).stretches.filter((s) => s.blocked)).toEqual([]);
});

test('the way into the poles is hidden where she lands, and opens where she is said to land farther out', () => {
  const computed = lineFor(inUse);
  expect(sightOfPoles(computed)).toMatchObject({
    inView: true,
    seen: false,
    poles: { first: false, second: false },
    hiddenBy: [{ obstacleId: 'jump-birch', part: 'wing' }],
  });
  const dragged = lineFor(beside);
  expect(sightOfPoles(dragged)).toMatchObject({ seen: true, poles: { first: true, second: true } });
  // Somewhere she may well land: less than a stride away, and past the bar by no more than dogs are assumed to land.
  const [was, is] = [landingAt5(computed), landingAt5(dragged)];
  expect(is).toMatchObject({ x: beside.landings?.[0]?.at.x, y: beside.landings?.[0]?.at.y });
  expect(Math.hypot(is.x - was.x, is.y - was.y)).toBeLessThan(0.8);

  // The same by a general geometry library: the straight way to each of both poles against the wing.
  const wing = course.obstacles.find((o) => o.id === 'jump-birch');
  const poles = drawnSteps(course).find((s) => s.step.number === 6);
  if (!wing?.stand || !poles) throw new Error('17 and 6 are drawn');
  const { barWidth, wingWidth } = drawnSizes('barJump');
  const { stand } = wing;
  const [inner, outer] = [from(stand, 0, barWidth / 2), from(stand, 0, barWidth / 2 + wingWidth)];
  const segment = (a: GroundPoint, b: GroundPoint) => new Segment(point(a.x, a.y), point(b.x, b.y));
  const crossings = (eye: GroundPoint): readonly number[] =>
    [0, drawnSizes('weavePoles').spacing].map(
      (along) => segment(eye, from(poles.entry, along)).intersect(segment(inner, outer)).length,
    );
  expect(crossings(was)).toEqual([1, 1]);
  expect(crossings(is)).toEqual([0, 0]);
});

test('what hides the poles from her at 5 hides them at 12, where she lands behind the same gate: no lure', () => {
  const line = lineFor(inUse);
  const landing = (number: number) => line.steps.find((s) => s.number === number)?.exit;
  const [five, twelve] = [landing(5), landing(12)];
  if (!five || !twelve) throw new Error('she lands behind 5 and 12');
  expect(Math.hypot(five.x - twelve.x, five.y - twelve.y)).toBeLessThan(0.5);
  const poles = course.steps.find((s) => s.number === 6);
  const luredOn = (on: Course) =>
    readCourse({ course: on, line, thresholds: ReadingThresholds.parse({}) }).remarks.filter(
      (r) => r.remark === 'trap' && r.from === 12 && r.obstacleId === poles?.obstacleId,
    );
  expect(luredOn(course)).toEqual([]);
  // Without the wing that hides them they do lure her.
  const bare = { ...course, obstacles: course.obstacles.filter((o) => o.id !== 'jump-birch') };
  expect(luredOn(bare)).toHaveLength(1);
});

test('poles that lure her from behind their last are told by their wrong end', () => {
  const traps = remarksOn(lineFor(inUse)).filter((r) => r.remark === 'trap' && r.from === 15);
  expect(traps).toMatchObject([{ to: 16, trap: 'wrongObstacle', wrongEnd: true }]);
  const [trap] = traps;
  expect(trap && remarkSentence(trap, { course, unit: 'metres', dialect: 'british' })).toMatch(
    /^Ahead of her from 15 \(the rose one\) stands the wrong end of the poles \(6\): /,
  );
});

test('a back jump lies in her way', () => {
  const traps = remarksOn(lineFor(inUse)).filter((r) => r.remark === 'trap' && r.trap === 'backJump');
  expect(traps).toMatchObject([{ from: 13, to: 14, obstacleId: 'jump-white', seenFrom: 'landing' }]);
});

test('a cross has too little time and its second choice has it, as assumed and for a dog that turns tightly', () => {
  const range = createRangeSession()(course, wishOf(inUse));
  if (!range) throw new Error('there is no line');
  for (const line of [range.usual, range.tight]) {
    const { crosses } = timePlan(course, inUse, line, runner);
    const spare = (place: number, choice: 'first' | 'second'): number =>
      crosses.find((c) => c.cross.place === place && c.choice === choice)?.spare ?? NaN;
    // 0.3 s: from there on the simulator's crosses come as foretold (bench line, part simulator).
    expect(spare(13, 'first')).toBeLessThan(-0.3);
    expect(spare(13, 'second')).toBeGreaterThan(0.3);
    expect(spare(3, 'first')).toBeGreaterThan(0.3);
  }
});

test.each(sheetsOf(plan).map((sheet) => [sheet.name, sheet] as const))(
  'the plan “%s” is whole',
  (_, sheet) => {
    const { wait, leadOut } = sheet;
    if (!wait || !leadOut) throw new Error('the plan says where both stand');
    expect(waitFrom(course, wait, runner)).toMatchObject({ inLine: true, insideRing: true });
    expect(spotFindings(sheet, course)).toEqual([]);
    expect(sidesOf(sheet, course.steps.length, 'left').findings).toEqual([]);
    const { crosses, stays, untimed } = timePlan(course, sheet, lineFor(sheet), runner);
    expect(untimed).toEqual([]);
    expect(crosses.filter((c) => c.spot.proposed)).toEqual([]);
    const late = stays.flatMap((s) => (s.does.what === 'support' && s.does.late > 0.05 ? [s.does.late] : []));
    expect(late).toEqual([]);
    // Only the front at 13 of the plan in use comes too late.
    const tooLate = crosses.filter((c) => c.choice === 'first' && c.spare < 0).map((c) => c.cross.place);
    expect(tooLate).toEqual(sheet.name === inUse.name ? [13] : []);
  },
);
