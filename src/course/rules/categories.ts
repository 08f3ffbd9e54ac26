import type { Category, RuleBook } from './book.ts';
import { named, type RuleNamed } from './entries.ts';

/** The height category of a dog, or why there is none. */
export type CategoryFound =
  | { readonly found: true; readonly category: Category; readonly rule: RuleNamed }
  | { readonly found: false; readonly why: 'notAHeight' | 'noEntry' | 'outside' };

/** The height category of a dog of so many centimetres at the withers. The edge belongs to the higher category. */
export function categoryOf(book: RuleBook, withers: number): CategoryFound {
  if (!Number.isFinite(withers) || withers <= 0 || withers > 200) return { found: false, why: 'notAHeight' };
  const entry = book.categories;
  if (!entry) return { found: false, why: 'noEntry' };
  const category = entry.value.find((c) => withers >= c.from && (c.below === null || withers < c.below));
  return category
    ? { found: true, category, rule: named('categories', entry) }
    : { found: false, why: 'outside' };
}
