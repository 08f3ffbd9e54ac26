import type { RuleBook } from './book.ts';
import type { Provenance } from './entry.ts';

/** An entry of a rule book as findings and scores name it: where it stands, and where its value comes from. */
export interface RuleNamed extends Provenance {
  /** The way to it in the book, e.g. "course.spacing". */
  readonly name: string;
}

/** Names an entry without its value. */
export function named(name: string, { source, status, remark }: Provenance): RuleNamed {
  return remark === undefined ? { name, source, status } : { name, source, status, remark };
}

/** Every entry of a book, in the order of the book, with its value. */
export function entriesOf(book: RuleBook): (RuleNamed & { readonly value: unknown })[] {
  const found: (RuleNamed & { readonly value: unknown })[] = [];
  const walk = (part: unknown, path: readonly string[]): void => {
    if (typeof part !== 'object' || part === null) return;
    if (isEntry(part)) found.push({ ...named(path.join('.'), part), value: part.value });
    else for (const [key, inner] of Object.entries(part)) walk(inner, [...path, key]);
  };
  walk(book, []);
  return found;
}

function isEntry(part: object): part is Provenance & { readonly value: unknown } {
  return 'value' in part && 'source' in part && 'status' in part;
}
