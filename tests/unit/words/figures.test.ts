import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockReading, figure, signedFigure, supportedDigits } from '../../../src/words/figures.ts';

const s = (value: number, plusMinus: number) => ({ value, plusMinus, unit: 's' as const });

describe('figures', () => {
  it('show no more digits than are known', () => {
    expect(figure(s(0.41667, 0.0167))).toBe('0.417 s ± 0.017');
    expect(figure(s(0.41667, 0.0334))).toBe('0.42 s ± 0.04');
    expect(figure(s(12.3456, 0.5))).toBe('12.3 s ± 0.5');
    expect(figure(s(-0.1, 1 / 30))).toBe('−0.10 s ± 0.04');
    expect(figure(s(0, 0))).toBe('0.00 s ± 0.00');
  });

  it('never claim a narrower range than is known', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 50, noNaN: true }), (plusMinus) => {
        const printed = Number(figure(s(1, plusMinus)).split('± ')[1]);
        expect(printed).toBeGreaterThanOrEqual(plusMinus - 1e-9);
        expect(supportedDigits(plusMinus)).toBeLessThanOrEqual(3);
      }),
    );
  });

  it('sign differences and never print a minus nought', () => {
    expect(signedFigure(s(0.25, 0.03))).toBe('+0.25 s ± 0.03');
    expect(figure(s(-0.0001, 0.03))).toBe('0.00 s ± 0.03');
  });

  it('read a clock', () => {
    expect(clockReading(41.238)).toBe('41.24');
    expect(clockReading(61.5)).toBe('1:01.50');
    expect(clockReading(59.999)).toBe('1:00.00');
    expect(clockReading(-0.5)).toBe('−0.50');
  });
});
