import { describe, expect, it } from 'vitest';
import { emptyCourse, type Course, type Obstacle } from '../../../src/course/course.ts';
import { obstacleKinds } from '../../../src/course/kinds.ts';
import { knownPoints } from '../../../src/ground/knownPoints.ts';
import { Part } from '../../../src/ground/parts.ts';

const stand = { x: 10, y: 20, headingDegrees: 90 };
const withPieces = (...obstacles: readonly Partial<Obstacle>[]): Course => ({
  ...emptyCourse(),
  obstacles: obstacles.map((o, i) => ({ id: `o${i}`, kind: 'barJump', nickname: '', stand, ...o })),
});
const names = (course: Course): readonly string[] => knownPoints(course).map((p) => p.name);
const placeOf = (course: Course, part: string) => knownPoints(course).find((p) => p.part.part === part)?.at;

describe('what the map knows and a picture shows', () => {
  it('is named by number and nickname', () => {
    const gate: Course = {
      ...withPieces({ nickname: 'the gate' }),
      steps: [
        { number: 12, obstacleId: 'o0', direction: 'forward' },
        { number: 4, obstacleId: 'o0', direction: 'forward' },
      ],
    };
    expect(names({ ...gate, steps: gate.steps.slice(1) })).toContain('left wing foot of 4, the gate');
    expect(names(gate)).toContain('right upright foot of 4 and 12, the gate');
    expect(names(withPieces({ nickname: 'the gate' }))).toContain('left wing foot of the gate');
    expect(names(withPieces({ kind: 'tyre' }))).toEqual(['left foot of the tyre', 'right foot of the tyre']);
    expect(knownPoints(withPieces({ kind: 'tyre' }), 'american')[0]?.name).toBe('left foot of the tire');
    expect(names(withPieces({ kind: 'weavePoles', sizes: { poles: 6 } }))[5]).toBe(
      'base of pole 6 of the weave poles',
    );
  });

  it('lies where the piece stands: left of a dog that runs up the ring is toward x = 0', () => {
    const jump = withPieces({ sizes: { barWidth: 1.2 } });
    expect(placeOf(jump, 'leftUpright')?.x).toBeCloseTo(9.4, 9);
    expect(placeOf(jump, 'rightUpright')?.x).toBeCloseTo(10.6, 9);
    expect(placeOf(jump, 'leftWing')?.x).toBeCloseTo(8.9, 9);
    expect(placeOf(withPieces({ sizes: { wings: false } }), 'leftWing')).toBeUndefined();
    const bend = [
      { x: 3, y: 5 },
      { x: 6, y: 5 },
    ];
    const tunnel = withPieces({ kind: 'tunnel', stand: { ...stand, bend } });
    expect(placeOf(tunnel, 'firstMouthLeft')).toEqual({ x: 3, y: 5.3 });
    expect(placeOf(tunnel, 'secondMouthRight')).toEqual({ x: 6, y: 4.7 });
  });

  it('keeps its identity when the piece is moved, turned and renumbered', () => {
    const before = withPieces({ kind: 'aFrame' });
    const after: Course = {
      ...withPieces({ kind: 'aFrame', stand: { x: 3, y: 4, headingDegrees: -30 } }),
      steps: [{ number: 1, obstacleId: 'o0', direction: 'reverse' }],
    };
    expect(knownPoints(after).map((p) => p.id)).toEqual(knownPoints(before).map((p) => p.id));
    expect(placeOf(after, 'upLeft')).not.toEqual(placeOf(before, 'upLeft'));
  });

  it('of a see-saw only the end that lies on the ground', () => {
    expect(knownPoints(withPieces({ kind: 'seeSaw' })).map((p) => p.part.part)).toEqual([
      'upLeft',
      'upRight',
    ]);
  });

  it('has the ring’s corners and the posts of the lines, and nothing of pieces that are not drawn', () => {
    const course: Course = {
      ...withPieces({ stand: undefined }, { kind: 'unknown' }),
      ring: { width: 20, length: 40 },
      startLine: { from: { x: 1, y: 2 }, to: { x: 3, y: 4 } },
      finishLine: { from: { x: 5, y: 6 }, to: { x: 7, y: 8 } },
    };
    expect(names(course)).toHaveLength(8);
    expect(names(course)).toContain('upper right corner of the ring');
    expect(names(course)).toContain('second post of the finish line');
    expect(names(emptyCourse())).toEqual([]);
  });

  it('can all be stored, each once', () => {
    const all = knownPoints({
      ...withPieces(...obstacleKinds.map((kind) => ({ kind }))),
      ring: { width: 20, length: 40 },
    });
    expect(new Set(all.map((p) => p.id)).size).toBe(all.length);
    for (const { part } of all) expect(Part.parse(part)).toEqual(part);
    expect(all.length).toBeGreaterThan(50);
  });
});
