// Published: README of the npm package kalman-filter 2.3.0 (MIT), "1D Smoothing Usage", result as printed. Libraries: that
// package's filter, ml-matrix 6 for the joint normal distribution that filter and smoother must both agree with, and
// SciPy 1.17.1 for the smoothing spline that the smoother must be.
import { KalmanFilter } from 'kalman-filter';
import { Matrix, inverse } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { bells } from '../../../src/track/draws.ts';
import { entry, identity, mat, zeros, type Mat } from '../../../src/track/matrices.ts';
import { onward, pushed } from '../../../src/track/motion.ts';
import { smoothed, type Stage } from '../../../src/track/smoother.ts';

const rows = (m: Mat): number[][] =>
  Array.from({ length: m.rows }, (_, i) => Array.from({ length: m.cols }, (_, j) => entry(m, i, j)));

/** Uneven moments, places of a body that turns, each click with a covariance of its own. */
const push = 7;
const moments = [0, 0.04, 0.41, 0.43, 1.5, 1.51, 2.2, 4, 4.3, 4.75];
const bell = bells(3);
const clicks = moments.map((t) => ({
  x: 10 * Math.sin(t / 2) + 0.1 * bell(),
  y: 6 * Math.cos(t / 2) + 0.2 * bell(),
  spread: [
    [0.01 + 0.01 * t, 0.004],
    [0.004, 0.04],
  ],
}));
const firstMean = [1, 5, 2, -1];
const firstCov = [
  [4, 0.3, 0, 0],
  [0.3, 5, 0, 0],
  [0, 0, 20, 1],
  [0, 0, 1, 30],
];
const by = [
  [1, 0, 0, 0],
  [0, 1, 0, 0],
];
const step = (i: number): number => (moments[i] ?? 0) - (moments[i - 1] ?? 0);

const ours = smoothed(
  moments.map((_, i): Stage => ({
    move: onward(step(i)),
    shake: pushed(push, step(i)),
    readings: [
      {
        by: mat(by),
        noise: mat(clicks[i]?.spread ?? []),
        value: mat([[clicks[i]?.x ?? NaN], [clicks[i]?.y ?? NaN]]),
      },
    ],
  })),
  { mean: mat(firstMean.map((v) => [v])), cov: mat(firstCov) },
);

function near(a: number[][], b: number[][], digits: number): void {
  expect(a.map((row) => row.length)).toEqual(b.map((row) => row.length));
  expect(a.flat().length).toBeGreaterThan(0);
  a.forEach((row, i) => row.forEach((v, j) => expect(v).toBeCloseTo(b[i]?.[j] ?? NaN, digits)));
}

describe('the forward filter', () => {
  it('gives what the package prints for its first example', () => {
    const printed = [
      0, 0.06666665555510715, 0.3374999890620582, 0.25238094852592136, 1.9509090885288296, 3.2173611101031616,
      2.4649867370240965, 1.5595744679428254, 1.831772445766021, 2.5537767922925685, 4.065625882212133,
      5.26113483436549,
    ];
    const observed = [0, 0.1, 0.5, 0.2, 3, 4, 2, 1, 2, 3, 5, 6];
    // Its defaults: a place that stands, every covariance 1, before the first a place within ±1000 at 0.
    const result = smoothed(
      observed.map((v) => ({
        move: identity(1),
        shake: identity(1),
        readings: [{ by: identity(1), noise: identity(1), value: mat([[v]]) }],
      })),
      { mean: zeros(1, 1), cov: mat([[1e6 + 1]]) },
    );
    result.filtered.forEach(({ mean }, i) => expect(entry(mean, 0, 0)).toBeCloseTo(printed[i] ?? NaN, 6));
  });

  it('agrees with the package at uneven moments, means and covariances', () => {
    const theirs = new KalmanFilter({
      observation: {
        dimension: 2,
        stateProjection: by,
        covariance: ({ index }) => clicks[index]?.spread ?? [],
      },
      dynamic: {
        dimension: 4,
        init: { mean: firstMean.map((v) => [v]), covariance: firstCov, index: -1 },
        transition: ({ index }) => rows(onward(step(index))),
        covariance: ({ index }) => rows(pushed(push, step(index))),
      },
    });
    let last: ReturnType<typeof theirs.predict> | undefined;
    clicks.forEach(({ x, y }, i) => {
      const predicted = theirs.predict({ previousCorrected: last });
      last = theirs.correct({ predicted, observation: [x, y] });
      const here = ours.filtered[i];
      if (!here) throw new Error('no state');
      near(last.mean, rows(here.mean), 8);
      near(last.covariance, rows(here.cov), 8);
    });
  });
});

describe('the backward smoother', () => {
  // All states and clicks at once: the states' joint covariance given the clicks is (prior⁻¹ + Σ Hᵀ R⁻¹ H)⁻¹.
  const n = moments.length;
  const precision = Matrix.zeros(4 * n, 4 * n);
  const pull = Matrix.zeros(4 * n, 1);
  const add = (block: Matrix, i: number, j: number): void => {
    for (let a = 0; a < block.rows; a++)
      for (let b = 0; b < block.columns; b++)
        precision.set(4 * i + a, 4 * j + b, precision.get(4 * i + a, 4 * j + b) + block.get(a, b));
  };
  const pullBy = (column: Matrix, i: number): void => {
    for (let a = 0; a < 4; a++) pull.set(4 * i + a, 0, pull.get(4 * i + a, 0) + column.get(a, 0));
  };
  const firstInverse = inverse(new Matrix(firstCov));
  add(firstInverse, 0, 0);
  pullBy(firstInverse.mmul(Matrix.columnVector(firstMean)), 0);
  for (let i = 1; i < n; i++) {
    const f = new Matrix(rows(onward(step(i))));
    const q = inverse(new Matrix(rows(pushed(push, step(i)))));
    add(q, i, i);
    add(f.transpose().mmul(q).mmul(f), i - 1, i - 1);
    add(Matrix.mul(q.mmul(f), -1), i, i - 1);
    add(Matrix.mul(f.transpose().mmul(q), -1), i - 1, i);
  }
  clicks.forEach(({ x, y, spread }, i) => {
    const h = new Matrix(by);
    const r = inverse(new Matrix(spread));
    add(h.transpose().mmul(r).mmul(h), i, i);
    pullBy(
      h
        .transpose()
        .mmul(r)
        .mmul(Matrix.columnVector([x, y])),
      i,
    );
  });
  const joint = inverse(precision);
  const means = joint.mmul(pull);

  it('agrees with the joint distribution of all states, means and covariances', () => {
    ours.states.forEach(({ mean, cov }, i) => {
      near(rows(mean), means.subMatrix(4 * i, 4 * i + 3, 0, 0).to2DArray(), 6);
      near(rows(cov), joint.subMatrix(4 * i, 4 * i + 3, 4 * i, 4 * i + 3).to2DArray(), 6);
    });
  });

  it('carries back from state to state what the joint distribution has between them', () => {
    ours.back.forEach((gain, i) => {
      const next = ours.states[i + 1];
      if (!next) throw new Error('no state');
      const crossed = new Matrix(rows(gain)).mmul(new Matrix(rows(next.cov)));
      near(crossed.to2DArray(), joint.subMatrix(4 * i, 4 * i + 3, 4 * i + 4, 4 * i + 7).to2DArray(), 6);
    });
  });
});

// What goes on as it goes but for white noise of intensity q in its acceleration is, once smoothed, the cubic spline that
// makes the sum of (value - spline)² / variance plus 1/q times the integral of its second derivative squared least (Wahba
// 1978; Reinsch 1967). The numbers: scipy.interpolate.make_smoothing_spline(t, x, w=1/sigma**2, lam=1/q).
describe('the smoother against SciPy’s smoothing spline', () => {
  const t = [0, 0.4, 0.83, 1.21, 1.6, 2.05, 2.4, 2.83, 3.2, 3.65];
  const x = [0.03, 2.31, 4.72, 6.6, 8.35, 9.62, 10.21, 9.98, 9.05, 7.4];
  const sigma = [0.05, 0.08, 0.05, 0.12, 0.05, 0.09, 0.2, 0.06, 0.05, 0.1];
  const places = [
    0.0299690324, 2.3147746721, 4.7170628897, 6.6290408511, 8.3443213801, 9.6359374134, 10.1635835542,
    9.9752107253, 9.0503475871, 7.4108005933,
  ];
  const speeds = [
    5.7100321701, 5.7159779581, 5.3218027164, 4.8049468308, 3.7517243819, 2.1297132681, 0.7296278324,
    -1.6263524814, -3.2060137332, -3.8621497792,
  ];
  const between = [
    1.1720745628, 3.5371057001, 5.697602525, 7.53802571, 9.0813675219, 9.9610142216, 10.1960310816,
    9.5858384891, 8.2674817428,
  ];
  const moments = t.flatMap((at, i) => {
    const next = t[i + 1];
    return next === undefined ? [at] : [at, (at + next) / 2];
  });
  const line = smoothed(
    moments.map((at, i): Stage => {
      const k = t.indexOf(at);
      const long = at - (moments[i - 1] ?? at);
      const reading = {
        by: mat([[1, 0, 0, 0]]),
        noise: mat([[(sigma[k] ?? NaN) ** 2]]),
        value: mat([[x[k] ?? NaN]]),
      };
      return { move: onward(long), shake: pushed(6, long), readings: k < 0 ? [] : [reading] };
    }),
    // So little is known before that it does not show in the sixth digit.
    {
      mean: zeros(4, 1),
      cov: mat([1e6, 1e6, 1e6, 1e6].map((v, i) => [0, 1, 2, 3].map((k) => (k === i ? v : 0)))),
    },
  );
  const of = (at: number, row: number): number => {
    const state = line.states[moments.indexOf(at)];
    return state ? entry(state.mean, row, 0) : NaN;
  };

  it('the same places and speeds at the readings, and the same places between them', () => {
    t.forEach((at, i) => {
      expect(Math.abs(of(at, 0) - (places[i] ?? NaN))).toBeLessThan(1e-6);
      expect(Math.abs(of(at, 2) - (speeds[i] ?? NaN))).toBeLessThan(1e-5);
    });
    between.forEach((value, i) => {
      expect(Math.abs(of(((t[i] ?? NaN) + (t[i + 1] ?? NaN)) / 2, 0) - value)).toBeLessThan(1e-6);
    });
  });
});
