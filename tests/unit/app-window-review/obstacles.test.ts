import { describe, expect, it } from 'vitest';
import type { Course } from '../../../src/course/course.ts';
import { emptyCourse } from '../../../src/course/course.ts';
import type { TakenMark } from '../../../src/review/marks.ts';
import { bench, emptyReview, type Bench } from './bench.ts';

const taken = (b: Bench): string[] =>
  b
    .review()
    .marks.filter((m): m is TakenMark => m.kind === 'taken')
    .map((m) => `${m.place} ${m.edge} ${m.pts / 2}${m.try > 1 ? ` try ${m.try}` : ''}`);

const drawn: Course = {
  name: '',
  ring: { width: 20, length: 40 },
  obstacles: [
    { id: 'a', kind: 'barJump', nickname: 'the blue one', stand: { x: 1, y: 1, headingDegrees: 0 } },
    { id: 'b', kind: 'tunnel', nickname: '', stand: { x: 5, y: 1, headingDegrees: 0 } },
  ],
  steps: [
    { number: 1, obstacleId: 'a', direction: 'forward' },
    { number: 2, obstacleId: 'b', direction: 'forward' },
    { number: 3, obstacleId: 'a', direction: 'reverse' },
  ],
};

describe('marking a run', () => {
  it('takes two presses an obstacle and never a number', () => {
    const b = bench();
    for (let n = 0; n < 5; n++) {
      b.at(100 + n * 100);
      b.hands.take('in');
      b.at(130 + n * 100);
      b.hands.take('out');
    }
    expect(taken(b)).toEqual(
      [1, 2, 3, 4, 5].flatMap((n) => [`${n} in ${n * 100}`, `${n} out ${n * 100 + 30}`]),
    );
    expect(b.labels).toHaveLength(10);
  });

  it('takes one press an obstacle where one mark stands for both', () => {
    const b = bench();
    for (const frame of [100, 200, 300]) {
      b.at(frame);
      b.hands.take('whole');
    }
    expect(taken(b)).toEqual(['1 whole 100', '2 whole 200', '3 whole 300']);
  });

  it('speaks the trade for each kind of obstacle', () => {
    const b = bench(emptyReview(drawn));
    for (const [i, edge] of (['in', 'out', 'in', 'out'] as const).entries()) {
      b.at(100 * (i + 1));
      b.hands.take(edge);
    }
    expect(b.labels).toEqual(['take-off at 1', 'landing at 1', 'entry at 2', 'exit at 2']);
  });

  it('goes on after an out that was missed, and after an in that was missed', () => {
    const b = bench();
    b.at(100);
    b.hands.take('in');
    b.at(200);
    b.hands.take('in');
    b.at(230);
    b.hands.take('out');
    b.at(330);
    b.hands.take('out');
    expect(taken(b)).toEqual(['1 in 100', '2 in 200', '2 out 230', '3 out 330']);
  });

  it('corrects a press when it is made again a few frames on', () => {
    const b = bench();
    b.at(100);
    b.hands.take('in');
    b.at(104);
    b.hands.take('in');
    b.at(130);
    b.hands.take('out');
    b.at(128);
    b.hands.take('out');
    expect(taken(b)).toEqual(['1 in 104', '1 out 128']);
    expect(b.labels[1]).toBe('in at 1, moved');
  });

  it('knows where it is wherever the coach goes back to', () => {
    const b = bench();
    for (const n of [1, 2, 3]) {
      b.at(n * 100);
      b.hands.take('in');
      b.at(n * 100 + 30);
      b.hands.take('out');
    }
    b.at(195);
    b.hands.take('in');
    expect(taken(b)).toContain('2 in 195');
    expect(taken(b)).not.toContain('2 in 200');
    b.at(600);
    expect(b.desk.hand()).toMatchObject({ place: 4, expects: 'in' });
  });

  it('takes a typed number, of two digits too, and goes on from it', () => {
    const b = bench(emptyReview({ ...emptyReview().course, ...bigCourse(19) }));
    b.at(100);
    b.hands.typeDigit(1);
    b.hands.typeDigit(2);
    expect(b.desk.hand()).toMatchObject({ place: 12, typed: true });
    b.hands.take('in');
    b.at(130);
    b.hands.take('out');
    b.at(200);
    b.hands.take('in');
    expect(taken(b)).toEqual(['12 in 100', '12 out 130', '13 in 200']);
  });

  it('keeps both entries where an obstacle was missed and taken again', () => {
    const b = bench();
    b.at(100);
    b.hands.take('in');
    b.at(400);
    b.hands.typeDigit(1);
    b.hands.take('in');
    b.at(460);
    b.hands.take('out');
    expect(taken(b)).toEqual(['1 in 100', '1 in 400', '1 out 460']);
  });

  it('lets one mark replace two and two replace one', () => {
    const b = bench();
    b.at(100);
    b.hands.take('whole');
    b.hands.typeDigit(1);
    b.at(90);
    b.hands.take('in');
    expect(taken(b)).toEqual(['1 in 90']);
    b.hands.typeDigit(1);
    b.at(101);
    b.hands.take('whole');
    expect(taken(b)).toEqual(['1 whole 101']);
  });

  it('says so when all numbers of a drawn course are taken, and marks nothing', () => {
    const b = bench(emptyReview(drawn));
    for (let n = 1; n <= 3; n++) {
      b.at(n * 100);
      b.hands.take('in');
      b.at(n * 100 + 30);
      b.hands.take('out');
    }
    b.at(500);
    b.hands.take('in');
    expect(taken(b)).toHaveLength(6);
    expect(b.desk.store.getState().said.text).toContain('All 3');
    b.hands.typeDigit(7);
    expect(b.desk.store.getState().said.text).toContain('There is no 7');
    expect(b.desk.store.getState().typed.place).toBeNull();
  });

  it('makes a bare count longer with the mark that needs it, in one act', () => {
    const b = bench(emptyReview(emptyCourse()));
    for (let n = 1; n <= 3; n++) {
      b.at(n * 100);
      b.hands.take('whole');
    }
    expect(b.review().course.steps.map((s) => s.number)).toEqual([1, 2, 3]);
    expect(b.labels).toHaveLength(3);
    expect(new Set(b.review().course.obstacles.map((o) => o.id)).size).toBe(3);
  });

  it('marks the frame on the screen while it plays, and owns that a press lags', () => {
    const b = bench();
    b.desk.play();
    b.desk.played(100);
    b.hands.take('in');
    expect(b.review().marks[0]).toMatchObject({ pts: 200, unsure: 10 });
    b.desk.faster(-1);
    b.desk.faster(-1);
    b.desk.played(130);
    b.hands.take('out');
    // A fifth of a second at a quarter of the speed is 50 ms of film: 2.5 frames of 20 ms, rounded up.
    expect(b.review().marks[1]).toMatchObject({ pts: 260, unsure: 3 });
    b.desk.pause();
    b.at(200);
    b.hands.take('in');
    expect(b.review().marks[2]).toMatchObject({ pts: 400, unsure: 0 });
  });

  it('does nothing, and does not fall over, where there is no footage', () => {
    const b = bench({ ...emptyReview(), footage: [] }, new Map());
    b.hands.take('in');
    b.hands.openCross();
    b.hands.openEvents();
    b.hands.startMoment('setUp');
    b.hands.move();
    b.hands.nudge(1);
    b.desk.play();
    b.desk.toggleLoop();
    b.desk.zoom(0.5);
    expect(b.review().marks).toEqual([]);
  });
});

describe('tries', () => {
  it('go by the marks before the playhead, once another was begun', () => {
    const b = bench();
    b.at(50);
    b.hands.startMoment('setUp');
    b.at(80);
    b.hands.startMoment('step');
    b.hands.nextTry();
    b.at(200);
    b.hands.startMoment('setUp');
    b.at(260);
    b.hands.startMoment('release');
    b.at(300);
    b.hands.take('in');
    expect(b.review().marks.map((m) => 'try' in m && m.try)).toEqual([1, 1, 2, 2, 2]);
    expect(taken(b)).toEqual(['1 in 300 try 2']);
    b.at(60);
    expect(b.desk.hand().try).toBe(1);
  });
});

function bigCourse(count: number): Pick<Course, 'obstacles' | 'steps'> {
  return {
    obstacles: Array.from({ length: count }, (_, i) => ({
      id: `x${i}`,
      kind: 'barJump' as const,
      nickname: '',
    })),
    steps: Array.from({ length: count }, (_, i) => ({
      number: i + 1,
      obstacleId: `x${i}`,
      direction: 'forward' as const,
    })),
  };
}
