import { describe, expect, it } from 'vitest';
import {
  highest,
  lastPlace,
  nextUnplaced,
  sharing,
  standingAbove,
  withCount,
  withCross,
  withObstacle,
  withoutCross,
  withPlace,
} from '../../../app/window/course/edit.ts';
import { Course, countedCourse, courseProblems, emptyCourse } from '../../../src/course/course.ts';
import { emptyPlan, Plan } from '../../../src/plan/plan.ts';
import { Header } from '../../../src/review/document.ts';
import type { ReviewState } from '../../../src/review/entities.ts';

describe('the count of obstacles', () => {
  it('makes numbers from nothing and takes the last away again', () => {
    const twelve = withCount(emptyCourse(), 12);
    expect(twelve).toEqual(countedCourse(12));
    expect(withCount(twelve, 3)).toEqual(countedCourse(3));
    expect(courseProblems(withCount(withCount(twelve, 3), 12))).toEqual([]);
  });

  it('keeps an obstacle that carries an earlier number, and drawn ones that carry none', () => {
    const course = Course.parse({
      obstacles: [
        { id: 'a', kind: 'barJump', nickname: 'the white one' },
        { id: 'b', kind: 'tunnel', stand: { x: 1, y: 2, headingDegrees: 0 } },
      ],
      steps: [
        { number: 1, obstacleId: 'a' },
        { number: 2, obstacleId: 'b' },
        { number: 3, obstacleId: 'a' },
      ],
    });
    const one = withCount(course, 1);
    expect(one.obstacles.map((o) => o.id)).toEqual(['a', 'b']);
    expect(one.steps.map((s) => s.number)).toEqual([1]);
    expect(sharing(course, 3)).toEqual([1]);
    expect(highest(course)).toBe(3);
  });

  it('fills gaps and never takes an id that is in use', () => {
    const odd = Course.parse({
      obstacles: [{ id: 'o2', kind: 'wall' }],
      steps: [{ number: 4, obstacleId: 'o2' }],
    });
    const five = withCount(odd, 5);
    expect(five.steps.map((s) => s.number)).toEqual([1, 2, 3, 4, 5]);
    expect(courseProblems(five)).toEqual([]);
    expect(Course.safeParse(five).success).toBe(true);
  });

  it('stays within what a course may have', () => {
    expect(withCount(emptyCourse(), 5000).steps.length).toBe(200);
    expect(withCount(countedCourse(3), -2).steps).toEqual([]);
  });

  it('knows what stands on the numbers that would go', () => {
    const state: ReviewState = {
      id: 'r',
      header: Header.parse({ title: 'x' }),
      course: countedCourse(5),
      plan: Plan.parse({ crosses: [{ id: 'p', place: 5, kind: 'rear' }] }),
      footage: [],
      marks: [
        { id: 'm', footageId: 'f', pts: 0, unsure: 0, note: '', kind: 'taken', place: 4, edge: 'in', try: 1 },
        { id: 'n', footageId: 'f', pts: 0, unsure: 0, note: '', kind: 'event', event: 'note' },
      ],
      crosses: [{ id: 'c', place: 4, kind: 'front', note: '' }],
      drawings: [],
      tracks: [],
      fits: [],
    };
    expect(standingAbove(state, 5)).toBe(0);
    expect(standingAbove(state, 4)).toBe(1);
    expect(standingAbove(state, 3)).toBe(3);
    const more = Plan.parse({
      supports: [{ id: 's', place: 5, until: 'in' }],
      sides: [{ after: 5, side: 'left' }],
      landings: [{ number: 5, at: { x: 0, y: 0 } }],
      others: [{ supports: [{ id: 's', place: 3, until: 'in' }] }],
    });
    expect(standingAbove({ ...state, plan: more }, 4)).toBe(3);
    expect(lastPlace({ ...state, plan: { ...emptyPlan(), others: more.others }, marks: [] })).toBe(4);
  });
});

describe('obstacles and their places on the picture', () => {
  it('share names between the numbers of one obstacle', () => {
    const course = Course.parse({
      obstacles: [{ id: 'a', kind: 'barJump' }],
      steps: [
        { number: 1, obstacleId: 'a' },
        { number: 2, obstacleId: 'a', direction: 'reverse' },
      ],
    });
    expect(withObstacle(course, 2, { nickname: 'the blue one' }).obstacles[0]?.nickname).toBe('the blue one');
  });

  it('put numbers inside the picture, in order, and know which is next', () => {
    let course = countedCourse(3);
    expect(nextUnplaced(course)).toBe(1);
    course = withPlace(course, 1, { x: 1.4, y: -0.2 });
    expect(course.steps[0]?.onPicture).toEqual({ x: 1, y: 0 });
    expect(nextUnplaced(course, 2)).toBe(2);
    course = withPlace(course, 3, { x: 0.5, y: 0.5 });
    expect(nextUnplaced(course, 3)).toBe(2);
    course = withPlace(course, 2, { x: 0.5, y: 0.5 });
    expect(nextUnplaced(course)).toBeUndefined();
    expect(Course.safeParse(course).success).toBe(true);
  });
});

describe('the plan', () => {
  it('adds, changes and removes crosses, in the order of the course', () => {
    let plan = withCross(Plan.parse({}), { id: 'a', place: 9, kind: 'rear', reason: '' });
    plan = withCross(plan, { id: 'b', place: 3, kind: 'front', reason: '' });
    expect(plan.crosses.map((c) => c.id)).toEqual(['b', 'a']);
    plan = withCross(plan, {
      id: 'a',
      place: 9,
      kind: 'blind',
      reason: 'she is ahead',
      secondChoice: 'rear',
    });
    expect(plan.crosses.length).toBe(2);
    expect(plan.crosses[1]?.kind).toBe('blind');
    expect(withoutCross(plan, 'b').crosses.map((c) => c.id)).toEqual(['a']);
    expect(Plan.safeParse(plan).success).toBe(true);
  });
});
