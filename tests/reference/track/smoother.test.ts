// Published: README of the npm package kalman-filter 2.3.0 (MIT), "1D Smoothing Usage", result as printed. Libraries: that
// package's filter, and ml-matrix 6 for the joint normal distribution that filter and smoother must both agree with.
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
