import { describe, expect, it } from 'vitest';
import { lengthSeen, waysOf } from '../../../src/track/figures.ts';
import { aheadAt, apartAt, handlerWhen, pathsCrossed } from '../../../src/track/pairs.ts';
import { mat } from '../../../src/track/matrices.ts';
import type { GroundReading } from '../../../src/track/readings.ts';
import { crossedSentence } from '../../../src/words/realLineSentences.ts';
import { lineThrough, readingsOf } from './lines.ts';

// The dog runs along +x at 6 m/s on y = 0; the handler across it toward +y at 3 m/s on x = 9, on y = 0 at 1 s.
const dog = lineThrough({ readings: readingsOf((t) => ({ x: 6 * t, y: 0 }), 0, 4), push: 1 });
const handler = lineThrough({
  who: 'handler',
  readings: readingsOf((t) => ({ x: 9, y: 3 * (t - 1) }), 0, 4),
  push: 1,
});
const pair = { dog, handler };

describe('dog and handler', () => {
  it('are so far apart (hand value: 3, 4, 5)', () => {
    // At 1 s: dog (6, 0), handler (9, 0). At 2 + 1/3 s: dog (14, 0), handler (9, 4).
    expect(apartAt(pair, 1)?.value).toBeCloseTo(3, 2);
    expect(apartAt(pair, 7 / 3)?.value).toBeCloseTo(Math.hypot(5, 4), 2);
    expect(apartAt(pair, 1)?.plusMinus).toBeLessThan(0.1);
    expect(apartAt(pair, 5)).toBeNull();
  });

  it('who is ahead, along the way the dog runs', () => {
    expect(aheadAt(pair, 1)).toMatchObject({ who: 'handler' });
    expect(aheadAt(pair, 1)?.value).toBeCloseTo(3, 2);
    expect(aheadAt(pair, 3)).toMatchObject({ who: 'dog' });
    expect(aheadAt(pair, 1.5)).toMatchObject({ who: 'cannotTell' });
  });

  it('a dog that stands is not on a way', () => {
    const still = lineThrough({ readings: readingsOf(() => ({ x: 0, y: 0 }), 0, 4), push: 0.01 });
    expect(aheadAt({ dog: still, handler }, 1)).toBeNull();
  });

  it('the handler crosses the way of the dog before her, onto its left', () => {
    const [crossed, ...more] = pathsCrossed(pair);
    expect(more).toEqual([]);
    expect(crossed?.handlerAt.value).toBeCloseTo(1, 2);
    expect(crossed?.dogAt.value).toBeCloseTo(1.5, 2);
    expect(crossed).toMatchObject({ first: 'handler', onto: 'left' });
    expect(crossed?.place.x).toBeCloseTo(9, 2);
    // Off by 2 cm at 3 m/s: some hundredths of a second.
    expect(crossed?.handlerAt.plusMinus).toBeGreaterThan(0.003);
    expect(crossed?.handlerAt.plusMinus).toBeLessThan(0.03);
  });

  it('behind her, and too near to tell', () => {
    const late = (seconds: number) =>
      lineThrough({
        who: 'handler',
        readings: readingsOf((t) => ({ x: 9, y: 3 * (t - seconds) }), 0, 4),
        push: 1,
      });
    expect(pathsCrossed({ dog, handler: late(2) })[0]?.first).toBe('dog');
    expect(pathsCrossed({ dog, handler: late(1.5) })[0]?.first).toBe('cannotTell');
  });

  it('where she was and which way she went when the dog had to commit', () => {
    const then = handlerWhen(pair, 1, 0.02);
    expect(then?.heading?.value).toBeCloseTo(90, 1);
    expect(then?.speed.value).toBeCloseTo(3, 2);
    expect(then?.place.band.long).toBeGreaterThan(handlerWhen(pair, 1)?.place.band.long ?? NaN);
    expect(handlerWhen(pair, 9)).toBeNull();
    const stands = lineThrough({ readings: readingsOf(() => ({ x: 9, y: 1 }), 0, 4), push: 0.5 });
    expect(handlerWhen({ dog, handler: stands }, 1)?.heading).toBeNull();
  });
});

describe('where the handler was not marked', () => {
  const way = readingsOf((t) => ({ x: 9, y: 3 * (t - 1) }), -2, 4);
  // No mark from 0 to 2.4 s, in which she crosses.
  const loose = lineThrough({
    who: 'handler',
    readings: way.filter((r) => r.at < 0.1 || r.at > 2.3),
    push: 1,
  });
  const torn = { dog, handler: loose };

  it('a crossing is named once, and nothing more is told of it than where marks are wanted', () => {
    const [crossed, ...more] = pathsCrossed(torn);
    expect(more).toEqual([]);
    expect(crossed?.unseen).toMatchObject({ who: 'handler' });
    expect(crossed?.unseen?.from).toBeCloseTo(0, 6);
    expect(crossed && crossedSentence(crossed, (t) => t.toFixed(1))).toBe(
      'About 1.0 s: cannot tell. The handler is not marked from 0.0 to 2.4 s: 2 more marks there would tell.',
    );
    expect(pathsCrossed(pair)[0]?.unseen).toBeNull();
  });

  it('nor of where she was then', () => {
    expect(handlerWhen(torn, 1)?.unseen).toMatchObject({ who: 'handler' });
    expect(handlerWhen(torn, 3)?.unseen).toBeNull();
  });

  it('her path is measured where it is marked', () => {
    const seen = lengthSeen(waysOf(loose, 1));
    // 3 m/s over the 2 s before the gap and the 1.6 s after it.
    expect(seen.value).toBeCloseTo(3 * (2 + 1.6), 1);
    expect(Math.abs(seen.value - 10.8)).toBeLessThan(seen.plusMinus);
    expect(seen.plusMinus).toBeLessThan(0.5);
  });

  it('a dog that was there long before is another part of the run', () => {
    const late = lineThrough({
      who: 'handler',
      readings: readingsOf((t) => ({ x: 9, y: 3 * (t - 8) }), 5, 10),
      push: 1,
    });
    expect(pathsCrossed({ dog, handler: late })).toEqual([]);
  });

  it('a crossing along her path says no time', () => {
    const [crossed] = pathsCrossed(pair);
    if (!crossed) throw new Error('no crossing');
    const flat = { ...crossed, handlerAt: { ...crossed.handlerAt, plusMinus: 1.8 } };
    expect(crossedSentence(flat, (t) => t.toFixed(1))).toBe(
      'About 1.0 s: cannot tell, the handler goes along the dog’s path.',
    );
  });
});

describe('the error of the fit', () => {
  const shifted = (r: GroundReading): GroundReading => ({ ...r, byFit: [[1], [0]] });
  const fit = { cov: mat([[0.25]]) };
  const lines = (fitOfHandler: { cov: typeof fit.cov }) => ({
    dog: lineThrough({ readings: readingsOf((t) => ({ x: 6 * t, y: 0 }), 0, 4).map(shifted), push: 1, fit }),
    handler: lineThrough({
      readings: readingsOf(() => ({ x: 9, y: 0 }), 0, 4).map(shifted),
      push: 1,
      fit: fitOfHandler,
    }),
  });

  it('falls out of distances on one clip, and counts twice on two', () => {
    expect(apartAt(lines(fit), 1)?.plusMinus).toBeLessThan(0.1);
    expect(apartAt(lines({ cov: fit.cov }), 1)?.plusMinus).toBeCloseTo(1.96 * Math.sqrt(0.5), 1);
  });
});
