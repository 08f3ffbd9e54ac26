import { describe, expect, test } from 'vitest';
import { figureBounds, runnerFigures } from '../../../src/line/dog.ts';
import { dogWords, typedCount, typedFigure } from '../../../src/words/dog.ts';
import { obstacleWords } from '../../../src/words/trade.ts';

describe('a typed figure', () => {
  test('is taken with point or comma, in metres or feet; nothing is as assumed', () => {
    expect(typedFigure('landing', ' 1,8 ', 'metres')).toBe(1.8);
    expect(typedFigure('landing', '6', 'feet')).toBeCloseTo(1.8288, 9);
    expect(typedFigure('topSpeed', '20', 'feet')).toBeCloseTo(6.096, 9);
    expect(typedFigure('grip', '26', 'feet')).toBeCloseTo(7.9248, 9);
    expect(typedFigure('sliceMost', '40', 'feet')).toBe(40);
    expect(typedFigure('grip', '  ', 'metres')).toBeUndefined();
  });

  test.each(['x', '1e9', '-1', 'NaN', 'Infinity', '1 2', '0x10'])('%s is none', (text) => {
    expect(typedFigure('landing', text, 'metres')).toBeNull();
  });

  test('the bounds may be typed as they are shown, and stay bounds', () => {
    for (const figure of runnerFigures)
      for (const unit of ['metres', 'feet'] as const)
        for (const bound of ['lowest', 'highest'] as const) {
          const value = figureBounds(figure)[bound];
          const typed = typedFigure(figure, dogWords.shown(figure, value, unit), unit);
          expect(typed).toBeGreaterThanOrEqual(figureBounds(figure).lowest);
          expect(typed).toBeLessThanOrEqual(figureBounds(figure).highest);
        }
  });
});

test.each<[string, unknown]>([
  ['3 of 10', { done: 3, tried: 10 }],
  ['3/10', { done: 3, tried: 10 }],
  [' 0 0 ', { done: 0, tried: 0 }],
  ['', undefined],
  ['11 of 10', null],
  ['3', null],
  ['3.5 of 10', null],
  ['1 of 99999', null],
  ['-1 of 3', null],
])('the count “%s”', (text, expected) => {
  expect(typedCount(text)).toEqual(expected);
});

test('every figure is in one group, and says what it is, what is assumed and why', () => {
  expect(dogWords.groups.flatMap(([, figures]) => figures).toSorted()).toEqual(runnerFigures.toSorted());
  expect(dogWords.figure('seeSawSpeed', obstacleWords.american, 'metres')).toBe('Speed, teeter, m/s');
  expect(dogWords.figure('seeSawSpeed', obstacleWords.american, 'feet')).toBe('Speed, teeter, ft/s');
  expect(dogWords.figure('grip', obstacleWords.british, 'feet')).toBe('Grip in a turn, ft/s²');
  expect(dogWords.assumed('topSpeed', 'feet')).toBe('as assumed: 20.34 (17.06 to 23.62)');
  expect(dogWords.assumed('landing', 'metres')).toBe('as assumed: 1.4 (1 to 2)');
  expect(dogWords.own('landing', 2.4, 'metres')).toContain('outside the usual 1 to 2');
  expect(dogWords.own('landing', 1.6, 'metres')).not.toContain('outside');
});

test('small numbers look small: the fewer tries, the wider the spread', () => {
  expect(dogWords.spread(0, 0)).toBe('none tried yet');
  expect(dogWords.spread(3, 10)).toBe('11 to 60 in 100');
  expect(dogWords.spread(30, 100)).toBe('22 to 40 in 100');
});
