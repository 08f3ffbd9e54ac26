import { describe, expect, it, test } from 'vitest';
import { drawnWays } from '../../../src/track/draws.ts';
import {
  endsOf,
  offLine,
  placeAt,
  speedAt,
  curvatureAt,
  lengthBetween,
  waysOf,
} from '../../../src/track/figures.ts';
import { entry, identity, mat } from '../../../src/track/matrices.ts';
import { realLine } from '../../../src/track/realLine.ts';
import type { GroundReading, LineReading } from '../../../src/track/readings.ts';
import { whereAt } from '../../../src/track/whereAt.ts';
import { lineThrough, reading, readingsOf } from './lines.ts';

const straight = (t: number) => ({ x: 6 * t, y: 2 });
const circle = (t: number) => ({ x: 4 * Math.sin(t * 1.25), y: 4 - 4 * Math.cos(t * 1.25) });

const at = (line: ReturnType<typeof lineThrough>, t: number) => {
  const here = whereAt(line, t);
  if (!here) throw new Error('nowhere');
  return here;
};

describe('a line through readings', () => {
  it('goes straight on at one speed where they do', () => {
    const line = lineThrough({ readings: readingsOf(straight, 0, 4), push: 1 });
    const here = at(line, 1.7);
    expect(here.x).toBeCloseTo(10.2, 2);
    expect(here.y).toBeCloseTo(2, 6);
    expect(speedAt(line, 1.7)?.value).toBeCloseTo(6, 2);
    expect(lengthBetween(waysOf(line, 1), 1, 3)?.value).toBeCloseTo(12, 0);
  });

  it('is the same in whatever order they come', () => {
    const readings = readingsOf(circle, 0, 3);
    const [a, b] = [lineThrough({ readings }), lineThrough({ readings: readings.toReversed() })];
    expect(at(a, 1.3)).toEqual(at(b, 1.3));
  });

  it('says the same between stored states as where a state is stored there', () => {
    const readings = readingsOf(circle, 0, 3);
    const wide = lineThrough({ readings, push: 5, step: 10 });
    const fine = lineThrough({ readings, push: 5, step: 0.05 });
    for (const t of [0.05, 0.55, 1.31, 2.9]) {
      expect(at(wide, t).x).toBeCloseTo(at(fine, t).x, 7);
      at(wide, t).cov.v.forEach((v, i) => expect(v).toBeCloseTo(at(fine, t).cov.v[i] ?? NaN, 7));
    }
  });

  it('is surest at a reading, and less sure the longer none was', () => {
    const readings = [...readingsOf(straight, 0, 2), ...readingsOf(straight, 5, 7)];
    const line = lineThrough({ readings, push: 5 });
    const spread = (t: number) => entry(at(line, t).cov, 0, 0);
    expect(spread(1.2)).toBeLessThan(spread(1.4));
    expect(spread(3.5)).toBeGreaterThan(100 * spread(1.4));
    expect(line.gaps).toEqual([{ from: 2, to: 5 }]);
  });

  it('takes two readings of one spread as one with half its variance (hand value)', () => {
    const once = lineThrough({ readings: [reading(0, 0, 0), reading(1, 5, 0)], push: 1 });
    const twice = lineThrough({ readings: [reading(0, 0, 0), reading(0, 0, 0), reading(1, 5, 0)], push: 1 });
    // At an end of a line with far other readings only its own count: 0.0004 and 0.0002 square metres.
    expect(entry(at(once, 0).cov, 0, 0)).toBeCloseTo(0.0004, 5);
    expect(entry(at(twice, 0).cov, 0, 0)).toBeCloseTo(0.0002, 5);
  });

  it('allows more along the way, and not across it, where the moment is off', () => {
    const readings = readingsOf(straight, 0, 4).map((r) => ({ ...r, unsure: 0.05 }));
    const { cov } = at(lineThrough({ readings, push: 5 }), 2);
    expect(entry(cov, 0, 0)).toBeGreaterThan(20 * entry(cov, 1, 1));
  });

  it('pushes a body that turns and brakes more than one that goes straight on', () => {
    const calm = lineThrough({ readings: readingsOf(straight, 0, 6) });
    const wild = lineThrough({
      readings: readingsOf((t) => ({ x: 3 * Math.sin(2.2 * t), y: 2 * Math.cos(3 * t) }), 0, 6),
    });
    expect(wild.push).toBeGreaterThan(4 * calm.push);
  });
});

describe('in flight', () => {
  const readings = [...readingsOf(circle, 0, 1.6), ...readingsOf((t) => circle(t - 0.4), 2.4, 4)];
  const flight = { from: 1.5, to: 2.3, unsure: 0.01 };
  const line = lineThrough({ readings, flights: [flight] });

  it('she goes straight on at one speed', () => {
    const [a, b, c] = [at(line, 1.5), at(line, 1.9), at(line, 2.3)];
    expect(Math.atan2(b.vy, b.vx)).toBeCloseTo(Math.atan2(a.vy, a.vx), 2);
    expect(Math.hypot(c.vx, c.vy)).toBeCloseTo(Math.hypot(a.vx, a.vy), 1);
    const off = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
    expect(Math.abs(off) / Math.hypot(c.x - a.x, c.y - a.y)).toBeLessThan(0.005);
  });

  it('take-off and landing are told with what their moments may be off', () => {
    const sure = placeAt(line, 1.5)?.band.long ?? NaN;
    expect(endsOf(line, flight)?.takeOff.band.long).toBeGreaterThan(sure);
    expect(endsOf(line, { from: 9, to: 10 })).toBeNull();
  });

  it('needs no reading, so that it is no gap', () => {
    expect(lineThrough({ readings: [reading(0, 0, 0), reading(1.2, 6, 0)] }).gaps).toHaveLength(1);
    const flown = lineThrough({
      readings: [reading(0, 0, 0), reading(1.2, 6, 0)],
      flights: [{ from: 0.2, to: 0.9 }],
    });
    expect(flown.gaps).toEqual([]);
  });

  it('a mark in the air tells how far aside she is and nothing of how far away', () => {
    // A camera far below looks along +y: a point 0.5 m up lands metres behind where she is.
    const mark: LineReading = { contact: 'air', at: 1, x: 6, y: 9, along: Math.PI / 2, aside: 0.03 };
    const ends = [...readingsOf(straight, 0, 0.8), ...readingsOf(straight, 1.2, 2)];
    const withAir = lineThrough({ readings: [...ends, mark], push: 20 });
    const without = lineThrough({ readings: ends, push: 20 });
    expect(at(withAir, 1).y).toBeCloseTo(at(without, 1).y, 6);
    expect(entry(at(withAir, 1).cov, 1, 1)).toBeCloseTo(entry(at(without, 1).cov, 1, 1), 6);
    expect(entry(at(withAir, 1).cov, 0, 0)).toBeLessThan(0.8 * entry(at(without, 1).cov, 0, 0));
    const ground = { readings: [...ends, reading(1, 6, 9)], push: 20 } as const;
    expect(Math.abs(at(lineThrough({ ...ground, contradictions: 'keep' }), 1).y - 2)).toBeGreaterThan(1);
    expect(lineThrough(ground).against).toEqual([{ place: 6, why: 'others' }]);
  });
});

describe('the error of the fit', () => {
  // One parameter that moves everything along x, one metre a unit; it is off by 0.3.
  const fit = { cov: mat([[0.09]]) };
  const readings = readingsOf(circle, 0, 3).map((r): GroundReading => ({ ...r, byFit: [[1], [0]] }));
  const line = lineThrough({ readings, push: 5, fit });
  const exact = lineThrough({ readings: readingsOf(circle, 0, 3), push: 5 });

  it('is shared by all places, so that more readings do not make it smaller', () => {
    for (const t of [0.1, 1.5, 2.9]) {
      expect(entry(at(line, t).cov, 0, 0) - entry(at(exact, t).cov, 0, 0)).toBeCloseTo(0.09, 6);
      expect(entry(at(line, t).cov, 1, 1)).toBeCloseTo(entry(at(exact, t).cov, 1, 1), 9);
    }
  });

  it('moves places and leaves speeds and lengths', () => {
    expect(speedAt(line, 1.5)?.plusMinus).toBeCloseTo(speedAt(exact, 1.5)?.plusMinus ?? NaN, 6);
    const [a, b] = [line, exact].map((l) => lengthBetween(waysOf(l, 4, 400), 0.5, 2.5));
    expect(a?.value).toBeCloseTo(b?.value ?? NaN, 1);
    expect(a?.plusMinus).toBeLessThan(0.25);
    expect(placeAt(line, 1)?.band.long).toBeGreaterThan(0.7);
  });
});

describe('ways drawn at random', () => {
  const line = lineThrough({ readings: readingsOf(circle, 0, 2), push: 5, step: 0.2 });

  it('are the same for the same seed', () => {
    expect(drawnWays(line, 2, 7)).toEqual(drawnWays(line, 2, 7));
    expect(drawnWays(line, 1, 7)).not.toEqual(drawnWays(line, 1, 8));
  });

  it('spread as the states do', () => {
    const ways = drawnWays(line, 4000, 5);
    const i = line.times.findIndex((t) => t > 0.5);
    const state = line.smoothed.states[i];
    const xs = ways.map((w) => w[4 * i] ?? NaN);
    const mean = xs.reduce((a, b) => a + b, 0) / xs.length;
    const variance = xs.reduce((a, b) => a + (b - mean) ** 2, 0) / xs.length;
    if (!state) throw new Error('no state');
    expect(mean).toBeCloseTo(entry(state.mean, 0, 0), 2);
    expect(variance / entry(state.cov, 0, 0)).toBeGreaterThan(0.9);
    expect(variance / entry(state.cov, 0, 0)).toBeLessThan(1.1);
  });
});

describe('figures of a line', () => {
  const line = lineThrough({ readings: readingsOf(circle, 0, 4, 0.2, 0.005), push: 20 });
  const ways = waysOf(line, 1);

  it('a circle of 4 m turns by a quarter a metre, to the left', () => {
    const bend = curvatureAt(ways, 2);
    expect(bend?.value).toBeCloseTo(0.25, 2);
    expect(bend?.plusMinus).toBeGreaterThan(0);
    expect(curvatureAt(ways, 9)).toBeNull();
  });

  it('its length is that of the arc to one in a hundred', () => {
    // 5 m/s for 2 s.
    const length = lengthBetween(ways, 1, 3);
    expect(Math.abs((length?.value ?? NaN) - 10)).toBeLessThan(0.1);
    expect(length?.plusMinus).toBeLessThan(0.3);
    expect(lengthBetween(ways, 8, 9)).toBeNull();
  });

  it('over a time in which nothing was seen it is that of the plainest way, with a band that owns up to it', () => {
    const round = (t: number) => (t <= 2 ? straight(t) : straight(t - 2.5));
    const torn = lineThrough({ readings: [...readingsOf(round, 0, 2), ...readingsOf(round, 5, 7)], push: 8 });
    const drawn = waysOf(torn, 3);
    const [seen, unseen] = [lengthBetween(drawn, 0, 2), lengthBetween(drawn, 2, 5)];
    expect(seen?.plusMinus).toBeLessThan(0.5);
    // Straight on it is 3 m; in three seconds she may have run about.
    const [least, most] = [-1, 1].map((k) => (unseen?.value ?? NaN) + k * (unseen?.plusMinus ?? NaN));
    expect(least).toBeLessThan(4);
    expect(most).toBeGreaterThan(6);
  });

  it('lies so far to the left or right of another line (hand values)', () => {
    const run = lineThrough({ readings: readingsOf(straight, 0, 2), push: 1 });
    const below = [
      { x: -5, y: 0.5 },
      { x: 20, y: 0.5 },
    ];
    expect(offLine(run, 1, below)?.value).toBeCloseTo(1.5, 3);
    expect(offLine(run, 1, below.toReversed())?.value).toBeCloseTo(-1.5, 3);
    expect(offLine(run, 1, below)?.along).toBeCloseTo(11, 2);
    expect(offLine(run, 1, [{ x: 0, y: 0 }])).toBeNull();
    expect(offLine(run, 1, [])).toBeNull();
  });
});

describe('bad input', () => {
  const good = readingsOf(straight, 0, 2);

  test.each<[string, GroundReading]>([
    ['a place that is no number', { ...reading(1, NaN, 0) }],
    ['a moment that is no number', { ...reading(NaN, 1, 0) }],
    ['a covariance that is no number', { ...reading(1, 1, 0), spread: [NaN, 0, 1] }],
    ['a covariance that cannot be', { ...reading(1, 1, 0), spread: [1, 2, 1] }],
    ['a covariance of nothing', { ...reading(1, 1, 0), spread: [0, 0, 0] }],
    ['a place beyond all measure', reading(1, 1e300, 0)],
    ['a slope of the fit that is no number', { ...reading(1, 1, 0), byFit: [[Infinity], [0]] }],
  ])('%s is left out and told', (_, bad) => {
    const line = lineThrough({ readings: [...good.slice(0, 2), bad, ...good.slice(2)], push: 1 });
    expect(line.leftOut).toEqual([2]);
    expect(at(line, 1).x).toBeCloseTo(6, 2);
  });

  it('one mark, or marks of one moment, make no line', () => {
    expect(realLine({ who: 'dog', readings: [] })).toBeNull();
    expect(realLine({ who: 'dog', readings: [reading(1, 0, 0)] })).toBeNull();
    expect(realLine({ who: 'dog', readings: [reading(1, 0, 0), reading(1, 3, 0)] })).toBeNull();
  });

  it('two marks make one, and nothing is said outside of it', () => {
    const line = lineThrough({ readings: [reading(1, 0, 0), reading(2, 6, 0)] });
    expect(Math.abs(at(line, 1.5).x - 3)).toBeLessThan(0.1);
    expect(whereAt(line, 0.99)).toBeNull();
    expect(whereAt(line, 2.01)).toBeNull();
    expect(whereAt(line, NaN)).toBeNull();
  });

  it('flights the wrong way round, over each other or outside change nothing that was seen', () => {
    const line = lineThrough({
      readings: good,
      flights: [
        { from: 1.5, to: 1.2 },
        { from: 0.3, to: 0.9 },
        { from: 0.5, to: 1.1 },
        { from: 7, to: 8 },
      ],
    });
    expect(at(line, 0.7).x).toBeCloseTo(4.2, 1);
  });

  it('a mark hours away does not make the store of states endless', () => {
    const line = lineThrough({ readings: [...good, reading(90_000, 0, 0)] });
    expect(line.times.length).toBeLessThan(40_000);
  });

  it('a fit without slopes at a reading moves it by nothing', () => {
    const line = lineThrough({ readings: good, push: 1, fit: { cov: identity(2) } });
    expect(entry(at(line, 1).cov, 0, 0)).toBeLessThan(0.01);
  });
});
