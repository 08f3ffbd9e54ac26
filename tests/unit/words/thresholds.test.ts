import { expect, test } from 'vitest';
import { foot } from '../../../src/course/grid.ts';
import { ReadingThresholds, readingThresholds } from '../../../src/line/reading/thresholds.ts';
import { thresholdOrder, thresholdWords as words, typedThreshold } from '../../../src/words/thresholds.ts';

const usual = ReadingThresholds.parse({});

test('every threshold is told once, with a name of its own, what it means, and its usual value', () => {
  expect(thresholdOrder.toSorted()).toEqual(Object.keys(usual).toSorted());
  const names = thresholdOrder.map(words.name);
  expect(new Set(names).size).toBe(names.length);
  expect(words.label('trapReach', 'feet')).toBe('How far ahead a wrong obstacle counts, ft');
  expect(words.hint('trapReach', 'metres')).toContain('Usual: 9 m (our choice).');
  expect(words.hint('trapReach', 'feet')).toContain('Usual: 29.53 ft (our choice).');
  expect(words.hint('seenShare', 'metres')).toContain('Usual: 50 % (our choice).');
  expect(words.hint('sliceFrom', 'metres')).toContain('Usual: 15° (common practice).');
});

test('what is typed is kept in metres, shares and degrees, whatever the unit it is shown in', () => {
  expect(typedThreshold('trapReach', ' 7,5 ', 'metres')).toBe(7.5);
  expect(typedThreshold('trapReach', '20', 'feet')).toBeCloseTo(20 * foot, 12);
  expect(typedThreshold('seenShare', '70', 'feet')).toBeCloseTo(0.7, 12);
  expect(typedThreshold('viewHalf', '60', 'feet')).toBe(60);
  expect(typedThreshold('fewTries', '20', 'metres')).toBe(20);
  expect(typedThreshold('viewHalf', '  ', 'metres')).toBeUndefined();
});

test.each(['x', 'NaN', 'Infinity', '-Infinity', '1e9', '-1', '0', '1 2', '45°'])(
  '“%s” is no view',
  (text) => {
    expect(typedThreshold('viewHalf', text, 'metres')).toBeNull();
  },
);

test('half a try is none', () => {
  expect(typedThreshold('fewTries', '7.5', 'metres')).toBeNull();
  expect(words.refused('fewTries', 10, 'metres')).toBe(
    '“Fewer tries than this are few” takes a whole number from 2 to 100 tries. It was left at 10 tries.',
  );
});

test('bounds may be typed as they are shown, in either unit, and what is typed is always kept within', () => {
  for (const name of thresholdOrder) {
    for (const unit of ['metres', 'feet'] as const) {
      for (const bound of ['least', 'usual', 'most'] as const) {
        const typed = typedThreshold(name, words.shown(name, readingThresholds[name][bound], unit), unit);
        expect(ReadingThresholds.safeParse({ [name]: typed }).success, `${name} ${bound} ${unit}`).toBe(true);
      }
    }
  }
  expect(words.refused('eyeHeight', 0.5, 'feet')).toContain('from 0.49 to 2.95 ft. It was left at 1.64 ft.');
});
