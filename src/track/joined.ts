import { mat } from './matrices.ts';
import type { FitError } from './realLine.ts';
import type { LineReading } from './readings.ts';

/**
 * The shared errors of several fits as one: what one camera has wrong tells nothing of the other, so that each keeps
 * parameters of its own.
 */
export interface JoinedErrors {
  readonly error: FitError | null;
  /** A reading that was made through the view at `index`, with its parameters where the joined error has them. */
  placed(reading: LineReading, index: number): LineReading;
}

/** @param errors of each view, in order; null: a view without error has no parameters */
export function joinedErrors(errors: readonly (FitError | null)[]): JoinedErrors {
  const [only] = errors;
  if (errors.length === 1) return { error: only ?? null, placed: (reading) => reading };
  const starts: number[] = [];
  let size = 0;
  for (const e of errors) {
    starts.push(size);
    size += e?.cov.rows ?? 0;
  }
  const rows = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  errors.forEach((e, k) => {
    const [start = 0, n = 0] = [starts[k], e?.cov.rows];
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        const row = rows[start + i];
        if (row) row[start + j] = e?.cov.v[i * n + j] ?? 0;
      }
  });
  return {
    error: size > 0 ? { cov: mat(rows) } : null,
    placed(reading, index) {
      const wide = (by: readonly number[]): readonly number[] => [
        ...new Array<number>(starts[index] ?? 0).fill(0),
        ...by,
      ];
      if (!reading.byFit) return reading;
      return reading.contact === 'ground'
        ? { ...reading, byFit: [wide(reading.byFit[0]), wide(reading.byFit[1])] }
        : { ...reading, byFit: wide(reading.byFit) };
    },
  };
}
