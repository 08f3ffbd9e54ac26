import { expect, test } from 'vitest';
import type { Course } from '../../../../src/course/course.ts';
import type { Pose } from '../../../../src/course/pose.ts';
import { likelyLine } from '../../../../src/line/likelyLine.ts';
import { readCourse } from '../../../../src/line/reading/readCourse.ts';
import type { Remark } from '../../../../src/line/reading/remark.ts';
import { ReadingThresholds } from '../../../../src/line/reading/thresholds.ts';
import { runnerWith } from '../../../../src/line/runner.ts';
import { DogSkills } from '../../../../src/line/skills.ts';
import { courseOf, row } from '../../course/courses.ts';
import { demoCourse } from '../../course/file/demoCourse.ts';
import { plainLine } from '../plainLine.ts';

const usual = ReadingThresholds.parse({});

interface Asked {
  readonly skills?: Record<string, unknown>;
  readonly thresholds?: Record<string, number>;
  readonly landings?: readonly (readonly [number, Pose])[];
}

const read = (course: Course, { skills, thresholds, landings }: Asked = {}): readonly Remark[] =>
  readCourse({
    course,
    line: plainLine(course, new Map(landings)),
    thresholds: thresholds ? ReadingThresholds.parse(thresholds) : usual,
    skills: skills && DogSkills.parse(skills),
  }).remarks;

function only<K extends Remark['remark']>(remarks: readonly Remark[], kind: K) {
  return remarks.filter((r): r is Extract<Remark, { remark: K }> => r.remark === kind);
}

/** Two jumps in line and then poles, the dog coming down on them from `degrees` to the right of their line. */
const intoPoles = (degrees: number): Course => {
  const a = (degrees * Math.PI) / 180;
  const at = (far: number) => [10 - far * Math.cos(a), 10 - far * Math.sin(a), degrees] as const;
  return courseOf([{ at: at(9) }, { at: at(4) }, { kind: 'weavePoles', at: [13.3, 10, 0] }]);
};

test('a straight row of jumps: distances, nothing in the way, no turn, no trap', () => {
  const remarks = read(row(4, 5));
  expect(only(remarks, 'way').map((w) => [w.from, w.to])).toEqual([
    [1, 2],
    [2, 3],
    [3, 4],
  ]);
  for (const w of only(remarks, 'way')) {
    // 5 m between the bars, landing 1.4 m behind the one and taking off 1.7 m before the other.
    expect(w.straight).toBeCloseTo(1.9, 9);
    expect(w.along).toBeCloseTo(1.9, 9);
    expect(w.turnDegrees).toBe(0);
  }
  for (const s of only(remarks, 'sight')) {
    expect(s).toMatchObject({ inView: true, seen: true, share: 1, fromBehind: false, offHeading: 0 });
    expect(s.past).toBeCloseTo(1.4, 9);
    expect(s.metres).toBeCloseTo(3.6, 9);
  }
  expect(remarks.filter((r) => ['trap', 'entry', 'slice', 'sideChange'].includes(r.remark))).toEqual([]);
});

test('"What if she lands there?": every remark about the way on answers from the landing', () => {
  const course = row(3, 5);
  const landing = { x: 6.4, y: 2, headingDegrees: 45 };
  const [before, after] = [read(course), read(course, { landings: [[2, landing]] })];
  const [was, is] = [before, after].map((r) => only(r, 'sight').find((s) => s.from === 2));
  expect(was).toMatchObject({ offHeading: 0, inView: true });
  // Atan(2 / 3.6) is 29.05 degrees below the x axis; she faces 45 above it.
  expect(is?.offHeading).toBeCloseTo(-45 - 29.0546, 3);
  expect(is?.inView).toBe(false);
  expect(is?.highlight.shapes[0]).toMatchObject({ shape: 'body', at: { x: 6.4, y: 2 }, headingDegrees: 45 });
  expect(only(after, 'way').find((w) => w.from === 2)?.straight).toBeCloseTo(Math.hypot(8.3 - 6.4, 2), 9);
  expect(only(after, 'sight').find((s) => s.from === 1)).toEqual(
    only(before, 'sight').find((s) => s.from === 1),
  );
});

test.each([
  [40, 'on', 0],
  [-40, 'off', 40],
  [-75, 'off', 75],
] as const)('poles met from %i degrees are on the %s-side', (degrees, side, round) => {
  const [entry] = only(read(intoPoles(degrees)), 'entry');
  expect(entry?.obliquely).toBeCloseTo(degrees, 6);
  expect(entry?.poles?.side).toBe(side);
  expect(entry?.poles?.round).toBeCloseTo(round, 6);
});

test('the reading argues with what she has done, and says where the tries are few', () => {
  const entries = (done: number, tried: number) => ({
    weaveEntries: [{ side: 'off', band: 'to60', count: { done, tried } }],
  });
  const told = (skills?: Record<string, unknown>) =>
    only(read(intoPoles(-40), skills ? { skills } : {}), 'entry')[0];
  expect(told(entries(3, 10))?.poles).toMatchObject({ count: { done: 3, tried: 10 }, few: false });
  expect(told(entries(1, 4))?.poles?.few).toBe(true);
  expect(told()?.poles).not.toHaveProperty('count');
  expect(told(entries(3, 10))?.weight).toBeGreaterThan(told(entries(10, 10))?.weight ?? 1);
});

test('a frame between landing and poles hides them, and the remark names it', () => {
  const course = courseOf([
    { at: [0, 0] },
    { kind: 'weavePoles', at: [13.3, 2, 0] },
    { kind: 'aFrame', at: [6, 1, 90] },
  ]);
  const [sight] = only(read(course), 'sight');
  expect(sight).toMatchObject({
    inView: true,
    seen: false,
    poles: { first: false, second: false },
    hiddenBy: [{ obstacleId: 'o3', part: 'frame' }],
  });
  expect(sight?.highlight.obstacleIds).toEqual(['o2', 'o3']);
});

test('a tunnel mouth that looks away is hidden by its own tube', () => {
  const course = courseOf([{ at: [0, 0] }, { kind: 'tunnel', at: [8, 0, 180] }]);
  const [sight] = only(read(course), 'sight');
  expect(sight).toMatchObject({
    fromBehind: true,
    seen: false,
    hiddenBy: [{ obstacleId: 'o2', part: 'tube' }],
  });
});

test('a wrong obstacle, a wrong mouth and a back jump on her straight way on', () => {
  const turnThen = (trap: Parameters<typeof courseOf>[0][number]) =>
    courseOf([{ at: [0, 0] }, { at: [4, 5, 90] }, { at: [4, 10, 90] }, trap]);
  const [wrong] = only(read(turnThen({ kind: 'tunnel', at: [8.5, 0.2, 0] })), 'trap');
  expect(wrong).toMatchObject({ from: 1, to: 2, trap: 'wrongObstacle', obstacleId: 'o4', offHeading: 0 });
  expect(wrong?.metres).toBeCloseTo(6 - 0.05 - 1.4, 6);
  expect(wrong?.rightOffHeading).toBeGreaterThan(45);

  const [back] = only(read(turnThen({ at: [7, 0.2, 180] })), 'trap');
  expect(back).toMatchObject({ from: 1, trap: 'backJump', obstacleId: 'o4' });

  const bent = courseOf([
    { at: [0, 0] },
    {
      kind: 'tunnel',
      at: [8, 1.5, 90],
      bend: [
        [6, 3],
        [8.5, 2.8],
        [8.5, 0.3],
        [6, 0],
      ],
    },
  ]);
  const [mouth] = only(read(bent), 'trap');
  expect(mouth).toMatchObject({ from: 1, to: 2, trap: 'wrongMouth', obstacleId: 'o2' });
});

test('what lies behind the right obstacle, sideways on or out of reach is no trap', () => {
  const beyond = (at: [number, number, number]) => only(read(courseOf([...three, { at }])), 'trap');
  const three = [{ at: [0, 0] as const }, { at: [5, 0] as const }, { at: [10, 0] as const }];
  expect(beyond([14, 0, 0]).filter((t) => t.from === 1)).toEqual([]);
  expect(beyond([3, 0.5, 90]).filter((t) => t.from === 1)).toEqual([]);
  const turn = courseOf([{ at: [0, 0] }, { at: [2, 6, 90] }, { at: [12, 0, 0] }]);
  expect(only(read(turn), 'trap').filter((t) => t.from === 1)).toEqual([]);
  expect(only(read(turn, { thresholds: { trapReach: 15 } }), 'trap').map((t) => t.from)).toContain(1);
});

test('turned right back, she meets the jump she has just taken', () => {
  const [back] = only(read(courseOf([{ at: [0, 0] }, { at: [-6, 0, 180] }])), 'trap');
  expect(back).toMatchObject({ trap: 'backJump', obstacleId: 'o1', seenFrom: 'turning' });
});

test('a serpentine changes hands at its middle jump', () => {
  const course = courseOf([
    { at: [0, 0, 60] },
    { at: [4, 2, -60] },
    { at: [8, 0, 60] },
    { at: [12, 2, -60] },
  ]);
  const changes = only(read(course), 'sideChange');
  expect(changes.map((c) => [c.before, c.at])).toEqual([
    ['right', [2]],
    ['left', [3]],
  ]);
});

test('the swing before poles that the bend on to them takes back is no change of hands', () => {
  const course = courseOf([
    { at: [30, 10, 180] },
    { at: [24, 10, 180] },
    { kind: 'weavePoles', at: [13, 11, 190] },
    { at: [4, 11, 230] },
  ]);
  const line = likelyLine(course, { runner: runnerWith() });
  if (!line) throw new Error('no line');
  const { remarks } = readCourse({ course, line, thresholds: usual, skills: undefined });
  expect(only(remarks, 'sideChange')).toEqual([]);
});

test('a circle has no natural side change', () => {
  const circle = courseOf(
    Array.from({ length: 8 }, (_, i) => {
      const a = (i * Math.PI) / 4;
      return { at: [20 + 8 * Math.cos(a), 10 + 8 * Math.sin(a), ((i * 45 + 270) % 360) - 180] as const };
    }),
  );
  expect(only(read(circle), 'sideChange')).toEqual([]);
});

test('equipment never met, ways longer than she is sent, her stay and her words for turns', () => {
  const skills = {
    neverMet: ['seeSaw', 'table'],
    sentMetres: 5.5,
    stay: { done: 2, tried: 10 },
    verbalTurns: { left: false },
  };
  const remarks = read(demoCourse(), { skills });
  expect(only(remarks, 'neverMet').map((r) => [r.kind, r.numbers])).toEqual([['seeSaw', [15]]]);
  expect(only(remarks, 'sent')[0]?.numbers).toContain(4);
  expect(only(remarks, 'start')[0]?.stay).toEqual({ done: 2, tried: 10 });
  const turns = only(remarks, 'way').filter((w) => w.turnsOnWord !== undefined);
  expect(turns.length).toBeGreaterThan(2);
  expect(turns.every((w) => w.turnDegrees >= usual.turnFrom && w.turnsOnWord === false)).toBe(true);
});

test('every remark has a weight, numbers of the course and pieces that exist', () => {
  const course = demoCourse();
  const remarks = read(course, { skills: { sentMetres: 1, neverMet: ['tunnel'] } });
  const ids = new Set(course.obstacles.map((o) => o.id));
  const order = remarks.map((r) => r.numbers[0] ?? 0);
  expect(order).toEqual(order.toSorted((a, b) => a - b));
  JSON.stringify(remarks, (key, value: unknown) => {
    if (typeof value === 'number') expect(Number.isFinite(value), key).toBe(true);
    return value;
  });
  for (const r of remarks) {
    expect(r.weight).toBeGreaterThan(0);
    expect(r.weight).toBeLessThanOrEqual(1);
    expect(r.numbers.length).toBeGreaterThan(0);
    expect(r.highlight.obstacleIds.every((id) => ids.has(id))).toBe(true);
  }
});

test('half a course, an empty one and a line for another course are read as far as they go', () => {
  const half = courseOf([{ at: [0, 0] }, {}, { at: [5, 0] }, { at: [10, 0] }]);
  expect(only(read(half), 'way').map((w) => [w.from, w.to])).toEqual([
    [1, 3],
    [3, 4],
  ]);
  expect(read(courseOf([]))).toEqual([]);
  const other = plainLine(row(3, 5));
  expect(readCourse({ course: courseOf([]), line: other, thresholds: usual }).remarks).toEqual([]);
});

test('on her likely line a wing hides the poles, and opens them where she is said to land farther on', () => {
  const demo = demoCourse();
  const aside = { x: 26.4, y: 4.6, headingDegrees: 45 };
  const course: Course = {
    ...demo,
    obstacles: [...demo.obstacles, { id: 'aside', kind: 'barJump', nickname: '', stand: aside }],
    steps: demo.steps.filter((s) => s.number >= 5 && s.number <= 8),
  };
  const seenFrom = (landings?: ReadonlyMap<number, { x: number; y: number }>) => {
    const line = likelyLine(course, { runner: runnerWith(), ...(landings ? { landings } : {}) });
    if (!line) throw new Error('there is no line');
    const { remarks } = readCourse({ course, line, thresholds: usual });
    const landed = line.steps.find((s) => s.number === 6)?.exit;
    return { landed, sight: only(remarks, 'sight').find((s) => s.from === 6) };
  };
  const { landed, sight } = seenFrom();
  expect(sight).toMatchObject({ inView: true, seen: false, poles: { first: false, second: false } });
  expect(sight?.hiddenBy[0]).toEqual({ obstacleId: 'aside', part: 'wing' });
  if (!landed) throw new Error('she never lands');
  const farther = seenFrom(new Map([[6, { x: landed.x, y: landed.y - 0.4 }]]));
  expect(farther.landed?.y).toBeCloseTo(landed.y - 0.4, 6);
  expect(farther.sight).toMatchObject({ seen: true, poles: { first: true, second: true } });
});
