import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { put, type Covariance, type Frame, type Numbers, type Sighting } from './model.ts';

/** Numbers that put the points nearest to where they were clicked. */
export interface Refined {
  readonly numbers: Numbers;
  /** Sum of the squared distances, square pixels. */
  readonly squares: number;
  /** Covariance of the numbers for clicks that are off by one pixel per axis. */
  readonly perPixel: Covariance;
}

const most = 60;

/**
 * Least squares of the distances in the picture by Levenberg (1944) and Marquardt (1963), damping as in Nielsen 1999
 * (IMM-REP-1999-05). The matrix of the last step is what the covariance follows from: (JᵀJ)⁻¹.
 * @returns null where the points do not fix the numbers
 */
export function refined(frame: Frame, sightings: readonly Sighting[], start: Numbers): Refined | null {
  let numbers = start;
  let here = stand(frame, sightings, numbers);
  let damping = 1e-3;
  let grows = 2;
  for (let i = 0; i < most && here.squares > 0; i++) {
    const damped = here.normal.clone();
    for (let k = 0; k < numbers.length; k++) damped.set(k, k, here.normal.get(k, k) * (1 + damping));
    const cholesky = new CholeskyDecomposition(damped);
    if (!cholesky.isPositiveDefinite()) return null;
    const step = cholesky.solve(here.gradient).to1DArray();
    const next = numbers.map((v, k) => v + (step[k] ?? 0));
    const there = stand(frame, sightings, next);
    const moved = Math.max(...step.map(Math.abs));
    const promised = step.reduce(
      (all, s, k) => all + s * (damping * here.normal.get(k, k) * s + here.gradient.get(k, 0)),
      0,
    );
    // Near the end differences of the sums are dust: a step so small is taken as it is.
    const gain =
      moved < 1e-9 && there.squares < here.squares * (1 + 1e-9)
        ? 1
        : (here.squares - there.squares) / promised;
    if (gain > 0) {
      numbers = next;
      here = there;
      damping *= Math.max(1 / 3, 1 - (2 * gain - 1) ** 3);
      grows = 2;
      if (moved < 1e-13) break;
    } else {
      if (!(moved > 1e-13)) break;
      damping *= grows;
      grows *= 2;
    }
  }
  const perPixel = inverse(here.normal);
  return perPixel && Number.isFinite(here.squares) ? { numbers, squares: here.squares, perPixel } : null;
}

interface Stand {
  readonly squares: number;
  /** JᵀJ, and Jᵀ times what is left. */
  readonly normal: Matrix;
  readonly gradient: Matrix;
}

function stand(frame: Frame, sightings: readonly Sighting[], numbers: Numbers): Stand {
  const n = numbers.length;
  const normal = Matrix.zeros(n, n);
  const gradient = Matrix.zeros(n, 1);
  let squares = 0;
  for (const { ground, pixel } of sightings) {
    const { x, y, dx, dy } = put(frame, numbers, ground);
    const [ex, ey] = [pixel.x - x, pixel.y - y];
    squares += ex * ex + ey * ey;
    for (let i = 0; i < n; i++) {
      const [ix, iy] = [dx[i] ?? 0, dy[i] ?? 0];
      gradient.set(i, 0, gradient.get(i, 0) + ix * ex + iy * ey);
      for (let k = 0; k <= i; k++) {
        const v = normal.get(i, k) + ix * (dx[k] ?? 0) + iy * (dy[k] ?? 0);
        normal.set(i, k, v);
        normal.set(k, i, v);
      }
    }
  }
  return { squares, normal, gradient };
}

/** Below this share of the largest a number of the fit counts as not fixed by the points. */
const dust = 1e-14;

function inverse(normal: Matrix): Covariance | null {
  const cholesky = new CholeskyDecomposition(normal);
  if (!cholesky.isPositiveDefinite()) return null;
  const diagonal = cholesky.lowerTriangularMatrix.diagonal();
  if (!(Math.min(...diagonal) ** 2 > dust * Math.max(...diagonal) ** 2)) return null;
  const solved = cholesky.solve(Matrix.eye(normal.rows));
  return Matrix.add(solved, solved.transpose()).mul(0.5).to2DArray();
}
