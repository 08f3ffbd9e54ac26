import { expect, test } from 'vitest';
import { wilson } from '../../../src/progress/spread.ts';

/**
 * Newcombe, R. G. (1998): Two-sided confidence intervals for the single proportion: comparison of seven methods.
 * Statistics in Medicine 17, 857-872, table I, method 3 (Wilson's score without continuity correction). Its figures
 * are given to four places and were written down here from memory.
 */
test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])('%i of %i', (done, tried, least, most) => {
  const spread = wilson(done, tried);
  expect(spread?.least).toBeCloseTo(least, 4);
  expect(spread?.most).toBeCloseTo(most, 4);
});

test('nothing tried tells nothing; the mirrored count has the mirrored spread', () => {
  expect(wilson(0, 0)).toBeUndefined();
  expect(wilson(20, 20)?.least).toBeCloseTo(1 - 0.1611, 4);
  expect(wilson(20, 20)?.most).toBe(1);
});
