import { z } from 'zod';
import { ruleBookWords } from '../../words/ruleBook.ts';

/**
 * How well a value is known: read in its source; read and worked out again; worked out here from read values;
 * remembered and not read; common practice of the trade; stated by whoever wrote the book.
 */
export const entryStatuses = ['seen', 'recomputed', 'derived', 'memory', 'practice', 'stated'] as const;
export type EntryStatus = (typeof entryStatuses)[number];

/** What kind of text a value was taken from: the regulations, a national body, somebody retelling them, our own. */
export const sourceKinds = ['original', 'nationalBody', 'secondary', 'own'] as const;

/** Which edition the source speaks of, seen from the book that the entry stands in. */
export const sourceEditions = ['this', 'earlier', 'otherBody', 'unstated'] as const;

/** Where a value comes from. The text names no section that nobody read. */
export const Source = z.strictObject({
  text: z.string().trim().min(1).max(300),
  kind: z.enum(sourceKinds).default('own'),
  edition: z.enum(sourceEditions).default('this'),
});
export type Source = z.infer<typeof Source>;

/** Where a value comes from and how well it is known. */
export interface Provenance {
  readonly source: Source;
  readonly status: EntryStatus;
  /** What a reader of the value has to know beside it. */
  readonly remark?: string | undefined;
}

/** A value of a rule book with where it comes from. */
export interface Entry<T> extends Provenance {
  readonly value: T;
}

/** The schema of an entry around the schema of its value. */
export const entryOf = <T extends z.ZodType>(value: T) =>
  z.strictObject({
    value,
    source: Source,
    status: z.enum(entryStatuses).default('stated'),
    remark: z.string().max(500).optional(),
  });

/** An identity within a book: short, plain, safe to show. */
export const BookId = z.string().regex(/^[\p{L}\p{N}][\p{L}\p{N} ._-]{0,39}$/u);

const length = z.number().min(0).max(10_000);
const ordered = (r: { least: number; most: number }): boolean => r.least <= r.most;
const outOfOrder = { error: ruleBookWords.leastOverMost };

/** A range of lengths, both ends allowed. Its unit is that of the entry it stands in: cm for equipment, m for ground. */
export const Range = z.strictObject({ least: length, most: length }).refine(ordered, outOfOrder);
export type Range = z.infer<typeof Range>;

/** Ranges that differ by height category; a category that is not named has none. */
export const RangeByCategory = z
  .array(z.strictObject({ category: BookId, least: length, most: length }).refine(ordered, outOfOrder))
  .min(1)
  .max(20);
export type RangeByCategory = z.infer<typeof RangeByCategory>;
