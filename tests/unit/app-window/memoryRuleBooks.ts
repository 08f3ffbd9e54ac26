import type { RuleBook } from '../../../src/course/rules/book.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { contentOf, summaryOf } from '../../../src/host/ruleBooks.ts';

interface Named {
  readonly id: string;
}

/** The rule books of a host in memory: the worked one and those that a test puts in. */
export function memoryRuleBooks(changed: () => void) {
  let books: readonly RuleBook[] = [fci2023];
  const before: (readonly RuleBook[])[] = [];
  const of = (id: string): RuleBook => {
    const book = books.find((b) => b.id === id);
    if (!book) throw Object.assign(new Error('There is no such rule book.'), { code: 'notFound' });
    return book;
  };
  /** Files by the path under which the window is handed them. */
  const files = new Map<string, RuleBook>();
  const set = (next: readonly RuleBook[]): number => {
    before.push(books);
    books = next;
    changed();
    return before.length;
  };
  return {
    put: (book: RuleBook): void => void set([...books.filter((b) => b.id !== book.id), book]),
    file: (path: string, book: RuleBook): void => void files.set(path, book),
    event: () => ({ books: books.map(summaryOf) }),
    answers: {
      'ruleBook.read': ({ id }: Named) => ({ book: of(id), content: contentOf(of(id)) }),
      'ruleBook.take': (args: { source: object; replace: boolean }) => {
        const path = 'path' in args.source ? String(args.source.path) : '';
        const book = files.get(path);
        if (!book) throw Object.assign(new Error(`“${path}” is not a rule book.`), { code: 'badInput' });
        const there = books.find((b) => b.id === book.id);
        const same = there !== undefined && contentOf(there) === contentOf(book);
        if (same) return { was: 'same', act: null, book: summaryOf(book) };
        if (there && !args.replace) return { was: 'other', act: null, book: summaryOf(book) };
        const act = set([...books.filter((b) => b !== there), book]);
        return { was: there ? 'replaced' : 'new', act, book: summaryOf(book) };
      },
      'ruleBook.remove': ({ id }: Named) => ({ act: set(books.filter((b) => b !== of(id))) }),
      'ruleBook.takeBack': ({ act }: { readonly act: number }) => {
        set(before[act - 1] ?? books);
        return {};
      },
      'ruleBook.write': ({ id }: Named) => ({
        ...{ mediaId: `rules-${id}`, path: `/home/coach/Walkback/reports/${id}.rules.json` },
        ...{ name: `${id}.rules.json`, bytes: 9000 },
      }),
    },
  };
}
