import { describe, expect, it } from 'vitest';
import { Course, courseProblems, mostObstacles } from '../../../src/course/course.ts';

const jump = (id: string) => ({
  id,
  kind: 'barJump',
  nickname: '',
  stand: { x: 1, y: 1, headingDegrees: 0 },
});

/** A course with everything that version 4 of the review file brought. */
const full = {
  name: 'Evening',
  head: {
    class: 'agility',
    level: '2',
    judge: 'R. Fell',
    place: 'the lower field',
    date: '2026-05-02',
    heightCategory: 'L',
  },
  ruleBook: 'fci-2023',
  unit: 'feet',
  ring: { width: 20, length: 40 },
  obstacles: [
    { ...jump('a'), sizes: { barWidth: 1.2, wings: false, height: 0.6 } },
    { id: 'b', kind: 'weavePoles', nickname: '', sizes: { poles: 6 } },
  ],
  steps: [
    { number: 1, obstacleId: 'a', direction: 'reverse', backside: true, wrap: 'left' },
    { number: 2, obstacleId: 'b', direction: 'forward' },
  ],
  startLine: { from: { x: 1, y: 2 }, to: { x: 5, y: 2 } },
  finishLine: { from: { x: 9, y: 2 }, to: { x: 15, y: 2 } },
  wheelPath: [
    { x: 1, y: 2 },
    { x: 4, y: 6 },
  ],
  underlay: {
    corners: [
      { x: 0.1, y: 0.9 },
      { x: 0.9, y: 0.95 },
      { x: 0.8, y: -0.1 },
      { x: 0.2, y: 0.1 },
    ],
    shape: 0.5,
    known: [
      { onPicture: { x: 0.1, y: 0.9 }, onGround: { x: 0, y: 0 } },
      { onPicture: { x: 0.8, y: -0.1 }, onGround: { x: 20, y: 40 } },
    ],
    strength: 0.4,
  },
};

describe('a course', () => {
  it('keeps all that is drawn on it', () => {
    expect(Course.parse(JSON.parse(JSON.stringify(full)))).toEqual(full);
  });

  it('is still valid with nothing but numbers', () => {
    const bare = Course.parse({
      obstacles: [{ id: 'o1', kind: 'unknown' }],
      steps: [{ number: 1, obstacleId: 'o1' }],
    });
    expect(bare).toEqual({
      name: '',
      obstacles: [{ id: 'o1', kind: 'unknown', nickname: '' }],
      steps: [{ number: 1, obstacleId: 'o1', direction: 'forward' }],
    });
    expect(courseProblems(bare)).toEqual([]);
  });

  it('refuses ten thousand obstacles and says how many there may be', () => {
    const list = (n: number) => ({ obstacles: Array.from({ length: n }, (_, i) => jump(`o${i}`)) });
    expect(Course.safeParse(list(mostObstacles)).success).toBe(true);
    const refused = Course.safeParse(list(10_000));
    expect(refused.error?.issues.map((i) => i.message)).toEqual([
      'a course can have 1000 obstacles at the most; this one has more',
    ]);
  });

  it.each([
    [
      'a point that is no number',
      {
        wheelPath: [
          { x: NaN, y: 0 },
          { x: 1, y: 1 },
        ],
      },
    ],
    ['an endless point', { startLine: { from: { x: Infinity, y: 0 }, to: { x: 1, y: 1 } } }],
    ['a wheel path of one point', { wheelPath: [{ x: 1, y: 1 }] }],
    ['an unknown unit', { unit: 'furlongs' }],
    ['a ring of no size', { ring: { width: 0, length: 40 } }],
    ['a size that no equipment has', { obstacles: [{ ...jump('a'), sizes: { barWidth: 40 } }] }],
    ['half a pole', { obstacles: [{ ...jump('a'), sizes: { poles: 5.5 } }] }],
    ['an unknown size', { obstacles: [{ ...jump('a'), sizes: { colour: 'blue' } }] }],
    ['a wrap to nowhere', { steps: [{ number: 1, obstacleId: 'a', wrap: 'up' }] }],
    ['a day that is none', { head: { date: '2nd of May' } }],
    [
      'known points that lie on each other',
      { underlay: { known: [full.underlay.known[0], full.underlay.known[0]] } },
    ],
    ['corners without a shape', { underlay: { ...full.underlay, shape: undefined } }],
    [
      'corners that cross over',
      { underlay: { ...full.underlay, corners: [0, 2, 1, 3].map((i) => full.underlay.corners[i]) } },
    ],
    ['a very long name', { name: 'x'.repeat(10_000) }],
    ['what it does not know', { colour: 'blue' }],
  ])('refuses %s', (_, part) => {
    expect(Course.safeParse({ ...full, ...part }).success).toBe(false);
  });

  it('takes no harm from a key that means something to JavaScript', () => {
    const hostile = JSON.parse('{"__proto__": {"name": "x"}, "name": "a"}') as unknown;
    const read = Course.safeParse(hostile);
    expect(read.success && read.data.name).not.toBe('x');
    expect(({} as Record<string, unknown>)['name']).toBeUndefined();
  });
});
