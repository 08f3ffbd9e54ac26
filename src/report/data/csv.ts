import { stringify } from 'csv-stringify/sync';

/** What stands in a cell: a figure with all its digits, words, or nothing. */
export type Cell = number | string | boolean | null;

/** A table with names for its columns. */
export interface Table {
  readonly name: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

/**
 * A table as comma-separated values (RFC 4180): UTF-8 with its mark, lines ended by CR LF, names of the columns first.
 * A text that a spreadsheet would take for a formula gets an apostrophe before it; figures never do.
 */
export const csvOf = ({ columns, rows }: Table): string =>
  stringify([[...columns], ...rows.map((row) => [...row])], {
    bom: true,
    escape_formulas: true,
    record_delimiter: 'windows',
    cast: { boolean: (value) => (value ? 'yes' : 'no'), number: String },
  });
