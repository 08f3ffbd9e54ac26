/**
 * Small dense matrices in one flat list, row by row. Written here because a line has thousands of 4 × 4 products: a
 * general library was measured to be some hundred times slower. Plain lists, since making a short typed array takes
 * longer than a product.
 */
export interface Mat {
  readonly rows: number;
  readonly cols: number;
  readonly v: number[];
}

export const zeros = (rows: number, cols: number): Mat => ({ rows, cols, v: blank(rows * cols) });

/**
 * Lists of noughts to copy from. A list that is filled with whole numbers is stored anew by the engine when the first
 * broken one is put into it; one that has held broken numbers, and every copy of it, is not.
 */
const blanks = new Map<number, readonly number[]>();

function blank(size: number): number[] {
  let its = blanks.get(size);
  if (!its) {
    its = new Array<number>(size).fill(0.5).fill(0);
    if (size <= 64) blanks.set(size, its);
  }
  return its.slice();
}

/** A matrix of the given rows; all must be of one length. */
export function mat(rows: readonly (readonly number[])[]): Mat {
  const cols = rows[0]?.length ?? 0;
  if (rows.some((r) => r.length !== cols)) throw new RangeError('rows of different lengths');
  const m = zeros(rows.length, cols);
  let at = 0;
  for (const row of rows) for (const value of row) m.v[at++] = value;
  return m;
}

export const entry = (m: Mat, row: number, col: number): number => m.v[row * m.cols + col] ?? 0;

export function identity(n: number): Mat {
  const m = zeros(n, n);
  for (let i = 0; i < n; i++) m.v[i * n + i] = 1;
  return m;
}

/** a · b */
export function times(a: Mat, b: Mat): Mat {
  const m = zeros(a.rows, b.cols);
  for (let i = 0; i < a.rows; i++)
    for (let k = 0; k < a.cols; k++) {
      const x = a.v[i * a.cols + k] ?? 0;
      if (x === 0) continue;
      for (let j = 0; j < b.cols; j++)
        m.v[i * b.cols + j] = (m.v[i * b.cols + j] ?? 0) + x * (b.v[k * b.cols + j] ?? 0);
    }
  return m;
}

/** a · bᵀ */
export function timesTransposed(a: Mat, b: Mat): Mat {
  const m = zeros(a.rows, b.rows);
  for (let i = 0; i < a.rows; i++)
    for (let j = 0; j < b.rows; j++) {
      let sum = 0;
      for (let k = 0; k < a.cols; k++) sum += (a.v[i * a.cols + k] ?? 0) * (b.v[j * b.cols + k] ?? 0);
      m.v[i * b.rows + j] = sum;
    }
  return m;
}

/** a · s · aᵀ */
export const carried = (a: Mat, s: Mat): Mat => timesTransposed(times(a, s), a);

/** a + factor · b */
export function plus(a: Mat, b: Mat, factor = 1): Mat {
  const m = zeros(a.rows, a.cols);
  for (let i = 0; i < m.v.length; i++) m.v[i] = (a.v[i] ?? 0) + factor * (b.v[i] ?? 0);
  return m;
}

export function transposed(a: Mat): Mat {
  const m = zeros(a.cols, a.rows);
  for (let i = 0; i < a.rows; i++)
    for (let j = 0; j < a.cols; j++) m.v[j * a.rows + i] = a.v[i * a.cols + j] ?? 0;
  return m;
}

/**
 * The lower triangle L with L · Lᵀ = a, for a symmetric matrix that is not below zero in any direction. A direction
 * without any spread gets none.
 */
export function cholesky(a: Mat): Mat {
  const n = a.rows;
  const l = zeros(n, n);
  for (let j = 0; j < n; j++) {
    let left = entry(a, j, j);
    for (let k = 0; k < j; k++) left -= entry(l, j, k) ** 2;
    const root = left > 1e-14 * Math.abs(entry(a, j, j)) ? Math.sqrt(left) : 0;
    l.v[j * n + j] = root;
    for (let i = j + 1; i < n; i++) {
      let sum = entry(a, i, j);
      for (let k = 0; k < j; k++) sum -= entry(l, i, k) * entry(l, j, k);
      l.v[i * n + j] = root > 0 ? sum / root : 0;
    }
  }
  return l;
}

/**
 * The inverse of a symmetric positive definite matrix and the logarithm of its determinant; null where it is none.
 */
export function inverseOf(a: Mat): { readonly inverse: Mat; readonly logDeterminant: number } | null {
  const n = a.rows;
  const l = cholesky(a);
  let logDeterminant = 0;
  for (let i = 0; i < n; i++) {
    const d = entry(l, i, i);
    if (!(d > 0) || !Number.isFinite(d)) return null;
    logDeterminant += 2 * Math.log(d);
  }
  const inverse = zeros(n, n);
  for (let column = 0; column < n; column++) {
    const y = blank(n);
    for (let i = 0; i < n; i++) {
      let sum = i === column ? 1 : 0;
      for (let k = 0; k < i; k++) sum -= entry(l, i, k) * (y[k] ?? 0);
      y[i] = sum / entry(l, i, i);
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = y[i] ?? 0;
      for (let k = i + 1; k < n; k++) sum -= entry(l, k, i) * entry(inverse, k, column);
      inverse.v[i * n + column] = sum / entry(l, i, i);
    }
  }
  return { inverse, logDeterminant };
}
