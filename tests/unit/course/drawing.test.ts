import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  Course,
  countedCourse,
  courseProblems,
  emptyCourse,
  mostObstacles,
} from '../../../src/course/course.ts';
import {
  bendMoved,
  bentBy,
  evenly,
  inARow,
  mirrored,
  movedBy,
  sameHeading,
  turnedBy,
  withTunnelLength,
} from '../../../src/course/drawing/arrange.ts';
import {
  likelyDirection,
  nextNumber,
  numbered,
  withoutNumber,
  withStep,
} from '../../../src/course/drawing/numbering.ts';
import { duplicated, withFacts, withoutPieces, withPiece } from '../../../src/course/drawing/pieces.ts';
import { withSizes } from '../../../src/course/drawing/sizes.ts';
import { drawingFindings } from '../../../src/course/drawingFindings.ts';
import type { ObstacleKind } from '../../../src/course/kinds.ts';
import { distance, lengthOf } from '../../../src/course/pose.ts';
import { tunnelLine, turnOf } from '../../../src/course/tunnelLine.ts';
import { drawnSteps, orderLine } from '../../../src/course/sequence.ts';
import { templateNames, withTemplate } from '../../../src/course/templates.ts';

type At = readonly [id: string, x: number, y: number, heading?: number, kind?: ObstacleKind];

const drawn = (pieces: readonly At[], order: readonly string[] = []): Course => {
  const base = pieces.reduce<Course>(
    (c, [id, x, y, headingDegrees = 0, kind = 'barJump']) =>
      withPiece(c, { id, kind, stand: { x, y, headingDegrees } }),
    emptyCourse(),
  );
  return order.reduce((c, id, i) => numbered(c, i + 1, id, 'forward'), base);
};
const at = (course: Course, id: string) => {
  const stand = course.obstacles.find((o) => o.id === id)?.stand;
  if (!stand) throw new Error(`${id} does not stand`);
  return stand;
};
const sequence = (course: Course): string =>
  course.steps.map((s) => `${s.number}${s.direction === 'reverse' ? '<' : ''}:${s.obstacleId}`).join(' ');

describe('arranging', () => {
  const three = drawn([
    ['a', 2, 2, 0],
    ['b', 5, 3.5, 30],
    ['c', 12, 2, 60],
  ]);
  const all = ['a', 'b', 'c'];

  it('moves, turns about the middle and mirrors, and four quarter turns are none', () => {
    expect(at(movedBy(three, ['b'], 1, -0.5), 'b')).toEqual({ x: 6, y: 3, headingDegrees: 30 });
    let turned = three;
    for (let i = 0; i < 4; i++) turned = turnedBy(turned, ['b'], 90);
    expect(at(turned, 'b')).toEqual(at(three, 'b'));
    expect(at(mirrored(three, ['b']), 'b')).toEqual({ x: 5, y: 3.5, headingDegrees: 150 });
    const twice = mirrored(mirrored(three, all), all);
    for (const id of all) expect(distance(at(twice, id), at(three, id))).toBeLessThan(0.003);
  });

  it('swaps a wrap with the mirror', () => {
    const wrapped = withStep(numbered(three, 1, 'a', 'forward'), 1, { wrap: 'left' });
    expect(mirrored(wrapped, ['a']).steps[0]?.wrap).toBe('right');
    expect(mirrored(wrapped, ['b']).steps[0]?.wrap).toBe('left');
  });

  it('keeps distances between pieces when they are turned together', () => {
    fc.assert(
      fc.property(fc.integer({ min: -360, max: 360 }), (degrees) => {
        const turned = turnedBy(three, all, degrees);
        expect(distance(at(turned, 'a'), at(turned, 'c'))).toBeCloseTo(
          distance(at(three, 'a'), at(three, 'c')),
          2,
        );
        expect(Course.safeParse(turned).success).toBe(true);
      }),
    );
  });

  it('lines up in a row, to the heading of the first, at equal distances', () => {
    expect(at(inARow(three, all), 'b')).toMatchObject({ x: 5, y: 2 });
    expect(at(sameHeading(three, ['c', 'a', 'b']), 'a').headingDegrees).toBe(60);
    expect(at(evenly(inARow(three, all), all), 'b')).toMatchObject({ x: 7, y: 2 });
    expect(at(evenly(three, all), 'b')).toMatchObject({ x: 7, y: 3.5 });
  });

  it('does nothing to nothing', () => {
    for (const act of [inARow, sameHeading, evenly, mirrored]) expect(act(three, [])).toEqual(three);
    expect(turnedBy(three, ['gone'], 10)).toEqual(three);
  });

  it('moves a bent tunnel with all of its line', () => {
    const tunnel = bentBy(drawn([['t', 5, 5, 0, 'tunnel']]), ['t'], 90);
    const bend = at(tunnel, 't').bend ?? [];
    expect(bend.length).toBe(5);
    const moved = at(movedBy(tunnel, ['t'], 2, 1), 't').bend ?? [];
    moved.forEach((p, i) => {
      expect(p.x - (bend[i]?.x ?? NaN)).toBeCloseTo(2, 3);
      expect(p.y - (bend[i]?.y ?? NaN)).toBeCloseTo(1, 3);
    });
    expect(at(bentBy(tunnel, ['t'], -90), 't').bend).toBeUndefined();
  });
});

describe('a tunnel of another length', () => {
  it('keeps its middle and its bend, and grows', () => {
    const bent = bentBy(drawn([['t', 10, 10, 0, 'tunnel']]), ['t'], 90);
    const longer = withTunnelLength(bent, 't', 6);
    expect(lengthOf(tunnelLine(at(longer, 't'), 6))).toBeCloseTo(6, 1);
    expect(distance(at(longer, 't'), at(bent, 't'))).toBeLessThan(0.01);
    expect(turnOf(at(longer, 't'), 6)).toBeCloseTo(90, 0);
    expect(withTunnelLength(longer, 't', null).obstacles[0]?.sizes).toBeUndefined();
    expect(at(withTunnelLength(drawn([['t', 10, 10, 0, 'tunnel']]), 't', 4), 't').bend).toBeUndefined();
  });
});

describe('a tunnel whose bend is dragged', () => {
  it('goes where its points go, and stands in their middle', () => {
    const bend = [
      { x: 5, y: 5 },
      { x: 7.5, y: 6.0004 },
      { x: 10, y: 5 },
    ];
    const tunnel = at(bendMoved(drawn([['t', 7.5, 5, 0, 'tunnel']]), 't', bend), 't');
    expect(tunnel).toEqual({ x: 7.5, y: 6, headingDegrees: 0, bend: [bend[0], { x: 7.5, y: 6 }, bend[2]] });
    expect(bendMoved(drawn([['t', 7.5, 5, 0, 'tunnel']]), 't', [])).toEqual(
      drawn([['t', 7.5, 5, 0, 'tunnel']]),
    );
  });
});

describe('numbering', () => {
  const row = drawn([
    ['a', 5, 5],
    ['b', 10, 5, 180],
    ['c', 15, 5, 90],
    ['t', 25, 5, 0, 'tunnel'],
  ]);
  const obstacle = (id: string) => {
    const o = row.obstacles.find((x) => x.id === id);
    if (!o) throw new Error(id);
    return o;
  };

  it('goes on with the next number and guesses the way the dog comes', () => {
    const one = numbered(row, 1, 'a', 'forward');
    expect(nextNumber(one)).toBe(2);
    expect(likelyDirection(one, 2, obstacle('b'))).toBe('reverse');
    expect(likelyDirection(one, 2, obstacle('t'))).toBe('forward');
    expect(likelyDirection(one, 2, obstacle('t'), { x: 27, y: 5 })).toBe('reverse');
  });

  it('puts several numbers on one piece, either way', () => {
    const twice = numbered(numbered(numbered(row, 1, 'a', 'forward'), 2, 'b', 'reverse'), 3, 'a', 'reverse');
    expect(sequence(twice)).toBe('1:a 2<:b 3<:a');
    expect(courseProblems(twice)).toEqual([]);
  });

  it('takes waiting numbers over from a bare count with their names and places on the picture', () => {
    const counted = {
      ...countedCourse(3),
      obstacles: countedCourse(3).obstacles.map((o, i) => (i === 0 ? { ...o, nickname: 'the blue one' } : o)),
      steps: countedCourse(3).steps.map((s) => ({ ...s, onPicture: { x: 0.5, y: 0.5 } })),
    };
    const placed = withPiece(counted, { id: 'a', kind: 'wall', stand: { x: 1, y: 1, headingDegrees: 0 } });
    expect(nextNumber(placed)).toBe(1);
    const next = numbered(placed, 1, 'a', 'forward');
    expect(next.obstacles.find((o) => o.id === 'a')?.nickname).toBe('the blue one');
    expect(next.steps[0]).toEqual({
      number: 1,
      obstacleId: 'a',
      direction: 'forward',
      onPicture: { x: 0.5, y: 0.5 },
    });
    expect(next.obstacles.map((o) => o.id)).toEqual(['o2', 'o3', 'a']);
    expect(nextNumber(next)).toBe(2);
  });

  it('closes up behind a number that goes, but keeps one on which marks stand', () => {
    const full = drawn(
      [
        ['a', 1, 1],
        ['b', 5, 1],
        ['c', 9, 1],
      ],
      ['a', 'b', 'c'],
    );
    expect(sequence(withoutNumber(full, 2, 0, 'bare'))).toBe('1:a 2:c');
    const kept = withoutNumber(full, 2, 3, 'bare');
    expect(sequence(kept)).toBe('1:a 2:bare 3:c');
    expect(courseProblems(kept)).toEqual([]);
    expect(sequence(withoutPieces(full, ['a', 'b'], 0))).toBe('1:c');
    const waiting = withoutPieces(full, ['b'], 3);
    expect(sequence(waiting)).toBe('1:a 2:b 3:c');
    expect(waiting.obstacles.find((o) => o.id === 'b')?.stand).toBeUndefined();
    expect(drawingFindings(waiting)).toContainEqual({ finding: 'waitingNumber', number: 2 });
  });

  it('never leaves a hole, whatever is numbered, taken off and deleted', () => {
    const act = fc.oneof(
      fc.record({ act: fc.constant('number' as const), piece: fc.integer({ min: 0, max: 3 }) }),
      fc.record({ act: fc.constant('off' as const), piece: fc.integer({ min: 1, max: 6 }) }),
      fc.record({ act: fc.constant('delete' as const), piece: fc.integer({ min: 0, max: 3 }) }),
    );
    fc.assert(
      fc.property(fc.array(act, { maxLength: 20 }), fc.integer({ min: 0, max: 4 }), (acts, kept) => {
        let id = 0;
        let course = row;
        for (const { act: what, piece } of acts) {
          const on = ['a', 'b', 'c', 't'][piece] ?? 'a';
          const next = nextNumber(course);
          if (what === 'number' && next !== null) course = numbered(course, next, on, 'forward');
          if (what === 'off') course = withoutNumber(course, piece, kept, `bare${id++}`);
          if (what === 'delete') course = withoutPieces(course, [on], kept);
          expect(courseProblems(course)).toEqual([]);
        }
      }),
    );
  });

  it('says backside, wrap and the other way, and unsays them', () => {
    const one = numbered(row, 1, 'a', 'forward');
    const said = withStep(one, 1, { backside: true, wrap: 'left', direction: 'reverse' });
    expect(said.steps[0]).toMatchObject({ backside: true, wrap: 'left', direction: 'reverse' });
    expect(withStep(said, 1, { backside: undefined, wrap: undefined, direction: 'forward' })).toEqual(one);
  });

  it('leads the order round a wing to a backside', () => {
    const two = withStep(numbered(numbered(row, 1, 'a', 'forward'), 2, 'b', 'forward'), 2, {
      backside: true,
    });
    const [, round] = orderLine(drawnSteps(two));
    expect(Math.abs((round?.y ?? 5) - 5)).toBeGreaterThan(1.15);
  });
});

describe('pieces', () => {
  it('are copied without numbers and deleted', () => {
    const course = drawn([['a', 5, 5, 30]], ['a']);
    const two = duplicated(course, ['a'], ['copy'], 1);
    expect(at(two, 'copy')).toEqual({ x: 6, y: 4, headingDegrees: 30 });
    expect(sequence(two)).toBe('1:a');
  });

  it('lose sizes that another kind does not have', () => {
    const weave = withSizes(drawn([['a', 5, 5, 0, 'weavePoles']]), ['a'], { poles: 6, barWidth: 1.2 });
    expect(weave.obstacles[0]?.sizes).toEqual({ poles: 6 });
    expect(withFacts(weave, 'a', { kind: 'barJump' }).obstacles[0]).not.toHaveProperty('sizes');
    expect(withSizes(weave, ['a'], { poles: undefined }).obstacles[0]).not.toHaveProperty('sizes');
  });

  it('stop where a course is full', () => {
    let course: Course = { ...emptyCourse(), obstacles: [] };
    course = {
      ...course,
      obstacles: Array.from({ length: mostObstacles }, (_, i) => ({
        id: `x${i}`,
        kind: 'barJump',
        nickname: '',
      })),
    };
    expect(withPiece(course, { id: 'y', kind: 'wall', stand: { x: 1, y: 1, headingDegrees: 0 } })).toBe(
      course,
    );
    expect(duplicated(course, ['x1'], ['z'], 1).obstacles.length).toBe(mostObstacles);
  });
});

describe('checks as you go', () => {
  it('find pieces on each other and outside, but let a tunnel lie under a dog walk', () => {
    const course = drawn([
      ['a', 10, 10],
      ['b', 10.1, 10],
      ['w', 20, 10, 0, 'dogWalk'],
      ['t', 20, 10, 90, 'tunnel'],
      ['o', 39.9, 10, 90],
    ]);
    expect(drawingFindings(course)).toEqual([
      { finding: 'overlap', ids: ['a', 'b'] },
      { finding: 'outside', ids: ['o'] },
    ]);
  });

  it('find a tunnel that no tunnel is long enough for, and lines outside', () => {
    const course = {
      ...drawn([['t', 10, 10, 0, 'tunnel']]),
      startLine: { from: { x: -3, y: 1 }, to: { x: 2, y: 1 } },
    };
    const long = withSizes(course, ['t'], { tunnelLength: 9 });
    expect(drawingFindings(long).map((f) => f.finding)).toEqual(['tunnelLength', 'lineOutside']);
  });

  it('say nothing of a course that is only numbers', () => {
    expect(drawingFindings(countedCourse(20))).toEqual([]);
  });

  it('are quick enough for a thousand pieces', () => {
    const many = drawn(
      Array.from({ length: 400 }, (_, i): At => [`p${i}`, (i % 20) * 2, Math.floor(i / 20), 90]),
    );
    expect(drawingFindings(many).filter((f) => f.finding === 'overlap').length).toBeGreaterThan(300);
  });
});

describe('templates', () => {
  it.each(templateNames)('%s fits its ring, overlaps nowhere and has whole numbers', (name) => {
    let n = 0;
    const course = withTemplate(emptyCourse(), name, () => `n${n++}`);
    expect(Course.safeParse(course).success).toBe(true);
    expect(courseProblems(course)).toEqual([]);
    expect(drawingFindings(course)).toEqual([]);
    const steps = drawnSteps(course);
    for (const [i, step] of steps.entries()) {
      const before = steps[i - 1];
      // Between consecutive obstacles: 4 m at the least (FCI changes from 2012, small dogs; 5 m for the others).
      if (before)
        expect(distance(before.exit, step.entry), `${name} ${step.step.number}`).toBeGreaterThan(3.9);
    }
  });

  it('take up numbers that wait, and add only pieces to a drawing', () => {
    let n = 0;
    const newId = (): string => `n${n++}`;
    const counted = withTemplate(countedCourse(6), 'straightLine', newId);
    expect(counted.steps.length).toBe(6);
    expect(nextNumber(counted)).toBe(5);
    const more = withTemplate(counted, 'square', newId);
    expect(more.steps).toEqual(counted.steps);
    expect(more.ring).toEqual(counted.ring);
    expect(more.obstacles.length).toBe(counted.obstacles.length + 4);
  });
});
