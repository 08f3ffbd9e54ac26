import { describe, expect, it } from 'vitest';
import { crossKinds, PlanSheet, type CrossKind, type Side } from '../../../src/plan/plan.ts';
import { changesSide, sideAlong, sidesOf } from '../../../src/plan/sides.ts';
import { sideSentence } from '../../../src/words/plan.ts';

const sheet = (
  sides: [number, Side][],
  crosses: [number, CrossKind, CrossKind?][],
  supports: number[] = [],
): PlanSheet =>
  PlanSheet.parse({
    sides: sides.map(([after, side]) => ({ after, side })),
    crosses: crosses.map(([place, kind, secondChoice], i) => ({ id: `c${i}`, place, kind, secondChoice })),
    supports: supports.map((place, i) => ({ id: `s${i}`, place, until: 'in' })),
  });

const seen = (plan: PlanSheet, numbers: number, atStart?: Side) =>
  sidesOf(plan, numbers, atStart)
    .stretches.map((s) => s.side?.charAt(0) ?? '-')
    .join('');
const told = (plan: PlanSheet, numbers: number, atStart?: Side) =>
  sidesOf(plan, numbers, atStart).findings.map(sideSentence);

describe('the side on each stretch', () => {
  it('is carried from the start and changed by front, blind, rear and lead-out pivot (common practice)', () => {
    expect(crossKinds.filter(changesSide)).toEqual(['front', 'blind', 'rear', 'leadOutPivot']);
    const plan = sheet(
      [[0, 'left']],
      [
        [2, 'front'],
        [3, 'serpentine'],
        [4, 'rear'],
        [5, 'threadle'],
      ],
    );
    expect(seen(plan, 6)).toBe('llrrlll');
    expect(told(plan, 6)).toEqual([]);
  });

  it('is unknown where nothing tells it, and is carried back from the first statement', () => {
    expect(seen(sheet([], [[2, 'front']]), 3)).toBe('----');
    expect(seen(sheet([[3, 'left']], [[2, 'front']]), 3)).toBe('rrll');
    expect(told(sheet([[3, 'left']], [[2, 'front']]), 3)).toEqual([]);
  });

  it('follows from where the handler stands beside the way', () => {
    // Running along +x, a handler at y = 1 is on the left of the way, so the dog is on her right.
    expect(sideAlong({ x: 5, y: 1 }, { x: 0, y: 0 }, { x: 9, y: 0 })).toBe('right');
    expect(sideAlong({ x: 5, y: -1 }, { x: 0, y: 0 }, { x: 9, y: 0 })).toBe('left');
    expect(sideAlong({ x: 5, y: 0 }, { x: 0, y: 0 }, { x: 9, y: 0 })).toBeNull();
    expect(seen(sheet([], [[1, 'blind']]), 2, 'right')).toBe('rll');
  });
});

describe('what does not agree', () => {
  it('is told once, with the cross that speaks against it, and the statement is carried on', () => {
    const plan = sheet(
      [
        [0, 'left'],
        [6, 'left'],
      ],
      [[5, 'front']],
    );
    expect(told(plan, 8)).toEqual([
      'After 6 you state the dog on your left, but the front cross at 5 puts her on your right.',
    ]);
    expect(seen(plan, 8)).toBe('lllllrlll');
  });

  it('is told where no cross changes the side', () => {
    expect(
      told(
        sheet(
          [
            [0, 'left'],
            [2, 'right'],
          ],
          [],
        ),
        3,
      ),
    ).toEqual([
      'After 2 you state the dog on your right, but she is on your left from the start on and no cross changes that.',
    ]);
    expect(
      told(
        sheet(
          [
            [1, 'left'],
            [2, 'right'],
          ],
          [],
        ),
        3,
      )[0],
    ).toContain('from 1 on');
  });

  it('covers the lead-out, two changes at one number, choices that differ, and two statements', () => {
    expect(told(sheet([[0, 'left']], []), 1, 'right')[0]).toMatch(/lead out to, she comes on your right/);
    expect(
      told(
        sheet(
          [[0, 'left']],
          [
            [2, 'front'],
            [2, 'rear'],
          ],
        ),
        3,
      )[0],
    ).toMatch(/at 2: they take each other/);
    expect(told(sheet([], [[2, 'front', 'serpentine']]), 3)[0]).toMatch(
      /At 2 a front cross and a serpentine/,
    );
    expect(told(sheet([], [[2, 'front', 'rear']]), 3)).toEqual([]);
    expect(
      told(
        sheet(
          [
            [1, 'left'],
            [1, 'right'],
          ],
          [],
        ),
        3,
      )[0],
    ).toMatch(/After 1 the side is stated twice/);
  });

  it('covers numbers that are gone, and a course without numbers', () => {
    expect(told(sheet([[9, 'left']], [[9, 'front']], [9]), 3)).toEqual([
      'A cross is planned at 9, but the course has numbers 1 to 3.',
      'A support is planned at 9, but the course has numbers 1 to 3.',
      'A side is stated after 9, but the course has numbers 1 to 3.',
    ]);
    expect(told(sheet([], [[1, 'front']]), 0)).toEqual([
      'A cross is planned at 1, but the course has no numbers.',
    ]);
    expect(seen(sheet([], [[1, 'front']]), 0)).toBe('-');
  });
});
