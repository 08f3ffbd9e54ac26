import { expect, test } from 'vitest';
import { Pace } from '../../../src/plan/plan.ts';
import { notAPace, paceLabel, paceShown, typedPace } from '../../../src/words/handlerPace.ts';

test('a pace is shown and typed in the coach’s unit of length', () => {
  expect(paceLabel('topSpeed', 'metres')).toBe('Top speed, m/s');
  expect(paceLabel('pickUp', 'feet')).toBe('Picking up speed, ft/s²');
  expect(paceLabel('turnSeconds', 'feet')).toBe('Turning about, s');
  // The international foot is 0.3048 m exactly.
  expect(paceShown('topSpeed', 5, 'feet')).toBe('16.4');
  expect(paceShown('turnSeconds', 0.6, 'feet')).toBe('0.6');
  expect(typedPace('topSpeed', '16,4', 'feet')).toBeCloseTo(16.4 * 0.3048, 9);
  expect(typedPace('topSpeed', ' 5 ', 'metres')).toBe(5);
  expect(typedPace('turnSeconds', '0', 'feet')).toBe(0);
});

test('what is no pace is refused, with the bounds in the same unit', () => {
  for (const text of ['fast', '-1', '0', '1e9', 'NaN', '5 m/s'])
    expect(typedPace('topSpeed', text, 'feet'), text).toBeNull();
  expect(typedPace('topSpeed', '', 'feet')).toBeUndefined();
  expect(notAPace('topSpeed', 'feet')).toBe(
    '“Top speed” takes a number from 1.64 to 39.37 ft/s. It was left as it was.',
  );
  // The bounds as they are shown can be typed and are kept.
  const most = typedPace('topSpeed', '39.37', 'feet');
  expect(Pace.safeParse({ topSpeed: most, pickUp: 3, turnSeconds: 0 }).success).toBe(true);
});
