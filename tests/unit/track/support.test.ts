import { describe, expect, it } from 'vitest';
import { realLine } from '../../../src/track/realLine.ts';
import { supportBeside } from '../../../src/track/support.ts';
import { supportWords } from '../../../src/words/support.ts';
import { lineThrough, readingsOf } from './lines.ts';

const stand = { x: 10, y: 0 };
const dog = lineThrough({ readings: readingsOf((t) => ({ x: 5 * t, y: 1 }), 0, 4) });
const handlerBy = (x: (t: number) => number) => {
  const line = realLine({ who: 'handler', readings: readingsOf((t) => ({ x: x(t), y: 4 }), 0, 4), push: 4 });
  if (!line) throw new Error('no line');
  return { dog, handler: line };
};

describe('support beside a run-by', () => {
  // She stands 4 m beside the jump until 1 s, then goes on at 3 m/s along x: at 2 s she is 3 m along and 4 m aside.
  const left = handlerBy((t) => 10 + 3 * Math.max(0, t - 1));

  it('says how far off the handler was and that she had left, by hand', () => {
    const told = supportBeside(left, stand, 2);
    expect(told?.from.value).toBeCloseTo(5, 1);
    // Of 3 m/s along x three fifths lead away from the jump.
    expect(told?.leaving.value).toBeCloseTo(1.8, 1);
    expect(told?.leftFor).toBeGreaterThan(0.4);
    expect(told?.leftFor).toBeLessThan(1.1);
    expect(told && supportWords.told(told)).toMatch(
      /from the obstacle, .* from the dog, leaving it at 1\.\d+ m\/s/,
    );
  });

  it('says that she stayed, and that she came', () => {
    const stayed = supportBeside(
      handlerBy(() => 10),
      stand,
      2,
    );
    expect(stayed?.leftFor).toBeNull();
    expect(stayed && supportWords.told(stayed)).toContain('neither leaving it nor coming to it');
    const came = supportBeside(
      handlerBy((t) => 2 + 2 * t),
      stand,
      2,
    );
    expect(came?.leaving.value).toBeLessThan(-1);
    expect(came && supportWords.told(came)).toContain('coming to it');
  });

  it('says nothing of a time in which she is not marked', () => {
    expect(supportBeside(left, stand, 9)).toBeNull();
    const torn = realLine({
      who: 'handler',
      readings: [
        ...readingsOf(() => ({ x: 10, y: 4 }), 0, 1),
        ...readingsOf(() => ({ x: 10, y: 4 }), 3.5, 4),
      ],
    });
    if (!torn) throw new Error('no line');
    expect(supportBeside({ dog, handler: torn }, stand, 2)).toBeNull();
    expect(supportWords.planned(null)).toBe('No support planned here.');
    expect(supportWords.planned('committed')).toBe('Support planned until she is committed to it.');
  });

  it('has no direction to fear where she stands on the very spot', () => {
    const on = realLine({ who: 'handler', readings: readingsOf(() => stand, 0, 4), push: 1e-6 });
    if (!on) throw new Error('no line');
    const told = supportBeside({ dog, handler: on }, stand, 2);
    expect(Number.isFinite(told?.from.value)).toBe(true);
    expect(Number.isFinite(told?.leaving.value)).toBe(true);
  });
});
