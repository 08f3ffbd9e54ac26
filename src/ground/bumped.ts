import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { chiSquareBound, onceInAThousand } from './chiSquare.ts';
import type { Fit } from './fit.ts';
import type { PlanePoint } from './homography.ts';
import { put, type Sighting } from './model.ts';

/** Whether a camera still stands as it stood when it was fitted. */
export interface Bump {
  /**
   * `still`: what was clicked again lies where the fit expects it. `moved`: it does not, and no single click explains
   * that. `onePoint`: one click contradicts all others. `unclear`: something is off, but one or two clicks cannot tell
   * what. `notAsked`: nothing was clicked again.
   */
  readonly verdict: 'still' | 'moved' | 'onePoint' | 'unclear' | 'notAsked';
  /** By how much the picture as a whole has shifted, pixels, and what that may be off (95 %, per axis). */
  readonly shift: PlanePoint;
  readonly shiftPlusMinus: PlanePoint;
  /** The click that contradicts the others. */
  readonly id: string | null;
}

const nothing = { x: 0, y: 0 };

/**
 * Holds points that were clicked again on a later frame against the fit: their distances from where it puts them, with
 * the noise of the clicks and the covariance of the fit, which all of them share (chi-square test at one in a thousand).
 */
export function bumped(fit: Fit, again: readonly Sighting[]): Bump {
  const told = again.filter((s) => put(fit.frame, fit.numbers, s.ground).depth > 0);
  if (told.length === 0) return { verdict: 'notAsked', shift: nothing, shiftPlusMinus: nothing, id: null };
  const all = held(fit, told);
  const { shift, shiftPlusMinus } = all;
  if (all.agrees) return { verdict: 'still', shift, shiftPlusMinus, id: null };
  if (told.length < 3) {
    const both = told.length === 2 && told.every((s) => !held(fit, [s]).agrees);
    return { verdict: both ? 'moved' : 'unclear', shift, shiftPlusMinus, id: null };
  }
  const without = told
    .map((s) => ({
      s,
      rest: held(
        fit,
        told.filter((o) => o !== s),
      ),
    }))
    .reduce((best, one) => (one.rest.excess < best.rest.excess ? one : best));
  return without.rest.agrees
    ? {
        verdict: 'onePoint',
        shift: without.rest.shift,
        shiftPlusMinus: without.rest.shiftPlusMinus,
        id: without.s.id,
      }
    : { verdict: 'moved', shift, shiftPlusMinus, id: null };
}

interface Held {
  readonly agrees: boolean;
  readonly excess: number;
  readonly shift: PlanePoint;
  readonly shiftPlusMinus: PlanePoint;
}

function held(fit: Fit, again: readonly Sighting[]): Held {
  const n = 2 * again.length;
  const numbers = fit.numbers.length;
  const slopes = Matrix.zeros(n, numbers);
  const off = Matrix.zeros(n, 1);
  const whole = Matrix.zeros(n, 2);
  again.forEach((s, i) => {
    const at = put(fit.frame, fit.numbers, s.ground);
    for (let k = 0; k < numbers; k++) {
      slopes.set(2 * i, k, at.dx[k] ?? 0);
      slopes.set(2 * i + 1, k, at.dy[k] ?? 0);
    }
    off.set(2 * i, 0, s.pixel.x - at.x);
    off.set(2 * i + 1, 0, s.pixel.y - at.y);
    whole.set(2 * i, 0, 1);
    whole.set(2 * i + 1, 1, 1);
  });
  const covariance = new Matrix(fit.covariance.map((row) => [...row]));
  const spread = slopes.mmul(covariance).mmul(slopes.transpose());
  spread.add(Matrix.eye(n).mul(fit.noise.pixels ** 2));
  const cholesky = new CholeskyDecomposition(symmetric(spread));
  const squares = off.transpose().mmul(cholesky.solve(off)).get(0, 0);
  // The shift of all points by generalised least squares.
  const weight = whole.transpose().mmul(cholesky.solve(whole));
  const pull = whole.transpose().mmul(cholesky.solve(off));
  const sure = new CholeskyDecomposition(symmetric(weight));
  const shift = sure.solve(pull);
  const unsure = sure.solve(Matrix.eye(2));
  return {
    agrees: squares <= chiSquareBound(n, onceInAThousand),
    excess: squares,
    shift: { x: shift.get(0, 0), y: shift.get(1, 0) },
    shiftPlusMinus: { x: 1.96 * Math.sqrt(unsure.get(0, 0)), y: 1.96 * Math.sqrt(unsure.get(1, 1)) },
  };
}

/** Without the dust that sets the two halves of a product apart. */
const symmetric = (m: Matrix): Matrix => Matrix.add(m, m.transpose()).mul(0.5);
