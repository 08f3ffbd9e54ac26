import { describe, expect, it } from 'vitest';
import { waysOf } from '../../../src/track/figures.ts';
import { overLine } from '../../../src/track/overLine.ts';
import { realLine } from '../../../src/track/realLine.ts';
import type { LineReading } from '../../../src/track/readings.ts';

/** Marks a tenth of a second apart, each known to a centimetre. */
function line(at: (t: number) => readonly [number, number], seconds: number) {
  const readings = Array.from({ length: seconds * 10 + 1 }, (_, i): LineReading => {
    const [x, y] = at(i / 10);
    return { contact: 'ground', at: i / 10, x, y, spread: [1e-4, 0, 1e-4] };
  });
  const made = realLine({ who: 'dog', readings, step: 0.05 });
  if (!made) throw new Error('no line');
  return waysOf(made, 1);
}

const time = { value: 4, plusMinus: 0.02, unit: 's' } as const;

describe('the way over the wanted line', () => {
  it('is a whole circle, 2 π r, where she runs one on her way, and the seconds by her own speed', () => {
    const r = 2;
    const speed = (2 * Math.PI * r) / 4;
    const ways = line((t) => {
      if (t < 1) return [speed * (t - 1), 0];
      if (t > 5) return [speed * (t - 5), 0];
      const angle = ((t - 1) * Math.PI) / 2;
      return [r * Math.sin(angle), r * (1 - Math.cos(angle))];
    }, 6);
    const wanted = [
      { x: -20, y: 0 },
      { x: 20, y: 0 },
    ];
    const over = overLine(ways, 0.5, 5.5, wanted, { ...time, value: 5 });
    const truth = 2 * Math.PI * r;
    expect(over?.metres.value).toBeGreaterThan(truth - 0.3);
    expect(over?.metres.value).toBeLessThan(truth + 0.3);
    // Four of the five seconds were the circle.
    expect(over?.seconds.value).toBeCloseTo(4, 1);
    expect(over?.seconds.unit).toBe('s');
    expect(over?.seconds.plusMinus).toBeGreaterThan(0);
  });

  it('is nothing, by its plus or minus, on the wanted line itself, and less than nothing on a shorter way', () => {
    const ways = line((t) => [4 * t, 0], 6);
    const along = [
      { x: -5, y: 0 },
      { x: 30, y: 0 },
    ];
    const none = overLine(ways, 1, 5, along, time);
    expect(Math.abs(none?.metres.value ?? NaN)).toBeLessThan(0.05);
    const round = [
      { x: -5, y: 0 },
      { x: 6, y: 0 },
      { x: 12, y: 5 },
      { x: 18, y: 0 },
      { x: 30, y: 0 },
    ];
    expect(overLine(ways, 1, 5, round, time)?.metres.value).toBeLessThan(-3);
  });

  it('is not told where her line or the wanted one does not have all of it, nor for no time at all', () => {
    const ways = line((t) => [4 * t, 0], 6);
    const short = [
      { x: 6, y: 0 },
      { x: 12, y: 0 },
    ];
    const long = [
      { x: -5, y: 0 },
      { x: 30, y: 0 },
    ];
    expect(overLine(ways, 1, 5, short, time)).toBeNull();
    expect(overLine(ways, 1, 7, long, time)).toBeNull();
    expect(overLine(ways, -1, 3, long, time)).toBeNull();
    expect(overLine(ways, 3, 3, long, time)).toBeNull();
    expect(overLine(ways, 1, 5, [], time)).toBeNull();
    expect(overLine(ways, NaN, 5, long, time)).toBeNull();
  });
});
