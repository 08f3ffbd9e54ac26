import { carried, identity, inverseOf, plus, times, timesTransposed, type Mat } from './matrices.ts';

/** Something measured of a state: value = by · state + noise. A second column and so on: see `smoothed`. */
export interface Reading {
  readonly by: Mat;
  readonly noise: Mat;
  readonly value: Mat;
}

/** A moment at which the state is wanted. */
export interface Stage {
  /** From the state before to this one, and the covariance of what is added on the way. Not used at the first. */
  readonly move: Mat;
  readonly shake: Mat;
  readonly readings: readonly Reading[];
}

/** A state with its covariance. */
export interface Estimate {
  readonly mean: Mat;
  readonly cov: Mat;
}

export interface Smoothed {
  /** As all readings have it. */
  readonly states: readonly Estimate[];
  /** As the readings up to and with each moment have it. */
  readonly filtered: readonly Estimate[];
  /** As the readings before each moment have it. */
  readonly predicted: readonly Estimate[];
  /** How much of what is learnt of a state carries back to the one before; one less than states. */
  readonly back: readonly Mat[];
  readonly logLikelihood: number;
}

/**
 * The states of a linear system from its readings: forward filter (Kalman 1960; the covariance in Joseph's form, which
 * stays symmetric), backward smoother (Rauch, Tung and Striebel 1965). n states, c columns: the first column of means
 * and values is the system itself. Because all is linear in the values, further columns can carry their derivatives by
 * something that shifts many of them at once; the means then hold the derivatives of the states. They have no part in
 * covariances and likelihood.
 * @param prior the state at the first moment before any reading: mean n × c
 * @throws RangeError where a covariance is not positive definite or a number is not finite
 */
export function smoothed(stages: readonly Stage[], prior: Estimate): Smoothed {
  const predicted: Estimate[] = [];
  const filtered: Estimate[] = [];
  let logLikelihood = 0;
  let now = prior;
  stages.forEach((stage, i) => {
    if (i > 0)
      now = { mean: times(stage.move, now.mean), cov: plus(carried(stage.move, now.cov), stage.shake) };
    predicted.push(now);
    for (const reading of stage.readings) {
      const learnt = updated(now, reading);
      now = learnt.now;
      logLikelihood += learnt.logLikelihood;
    }
    filtered.push(now);
  });
  if (!Number.isFinite(logLikelihood)) throw new RangeError('a reading is not a finite number');
  const { states, back } = backward(stages, predicted, filtered);
  return { states, filtered, predicted, back, logLikelihood };
}

/** The logarithm of the density of all readings, without the way back. Errors as for smoothed. */
export function logLikelihoodOf(stages: readonly Stage[], prior: Estimate): number {
  let sum = 0;
  let now = prior;
  stages.forEach((stage, i) => {
    if (i > 0)
      now = { mean: times(stage.move, now.mean), cov: plus(carried(stage.move, now.cov), stage.shake) };
    for (const reading of stage.readings) {
      const learnt = updated(now, reading);
      now = learnt.now;
      sum += learnt.logLikelihood;
    }
  });
  return sum;
}

function updated(before: Estimate, { by, noise, value }: Reading): { now: Estimate; logLikelihood: number } {
  const across = timesTransposed(before.cov, by);
  const spread = inverseOf(plus(times(by, across), noise));
  if (!spread) throw new RangeError('the covariance of a reading is not positive definite');
  const gain = times(across, spread.inverse);
  const off = plus(value, times(by, before.mean), -1);
  const kept = plus(identity(before.cov.rows), times(gain, by), -1);
  let distance = 0;
  for (let i = 0; i < off.rows; i++)
    for (let j = 0; j < off.rows; j++)
      distance +=
        (off.v[i * off.cols] ?? 0) * (spread.inverse.v[i * off.rows + j] ?? 0) * (off.v[j * off.cols] ?? 0);
  return {
    now: {
      mean: plus(before.mean, times(gain, off)),
      cov: plus(carried(kept, before.cov), carried(gain, noise)),
    },
    logLikelihood: -0.5 * (distance + spread.logDeterminant + off.rows * Math.log(2 * Math.PI)),
  };
}

function backward(
  stages: readonly Stage[],
  predicted: readonly Estimate[],
  filtered: readonly Estimate[],
): { states: Estimate[]; back: Mat[] } {
  const last = filtered.at(-1);
  if (!last) return { states: [], back: [] };
  const states: Estimate[] = [last];
  const back: Mat[] = [];
  let after = last;
  for (let i = stages.length - 2; i >= 0; i--) {
    const here = filtered[i];
    const next = predicted[i + 1];
    const stage = stages[i + 1];
    if (!here || !next || !stage) break;
    const spread = inverseOf(next.cov);
    if (!spread) throw new RangeError('the covariance of a state is not positive definite');
    const gain = times(timesTransposed(here.cov, stage.move), spread.inverse);
    after = {
      mean: plus(here.mean, times(gain, plus(after.mean, next.mean, -1))),
      cov: plus(here.cov, carried(gain, plus(after.cov, next.cov, -1))),
    };
    states.push(after);
    back.push(gain);
  }
  return { states: states.reverse(), back: back.reverse() };
}
