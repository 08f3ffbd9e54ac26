import { createStore, type StoreApi } from 'zustand/vanilla';
import type { RuleBook } from '../../../src/course/rules/book.ts';
import type { Link } from '../../../src/host/contract/link.ts';
import type { RuleBookSummary } from '../../../src/host/contract/shapes.ts';
import type { NoticesStore } from './notices.ts';

/** The rule books that courses can be built by, as the host last told. */
export interface RuleBooksView {
  /** False until the host has answered the first time. */
  readonly known: boolean;
  readonly books: readonly RuleBookSummary[];
  /** Books that were read, by their content. */
  readonly read: ReadonlyMap<string, RuleBook>;
}

export interface RuleBooksStore extends StoreApi<RuleBooksView> {
  /** Has a book read, where it is not yet. Why it cannot be read is told as a notice. */
  want(id: string): void;
}

/** Follows the list of rule books for as long as the window lives. */
export function createRuleBooks(host: Link, notices: NoticesStore): RuleBooksStore {
  const store = createStore<RuleBooksView>()(() => ({ known: false, books: [], read: new Map() }));
  const underWay = new Set<string>();
  host.subscribe('ruleBooks', {}, ({ books }) => {
    store.setState({ known: true, books });
  });
  return Object.assign(store, {
    want(id: string) {
      const { books, read } = store.getState();
      const content = books.find((b) => b.id === id)?.content;
      const key = `${id} ${content ?? ''}`;
      if (content === undefined || (content !== null && read.has(content)) || underWay.has(key)) return;
      underWay.add(key);
      host
        .call('ruleBook.read', { id })
        .then(
          (answer) => {
            store.setState((view) => ({ read: new Map(view.read).set(answer.content, answer.book) }));
          },
          (error: unknown) => {
            notices.getState().trouble(error);
          },
        )
        .finally(() => underWay.delete(key));
    },
  });
}

/** A book of the list with its entries, as far as they were read. */
export function ruleBookIn(
  { books, read }: RuleBooksView,
  id: string | undefined,
): { readonly summary: RuleBookSummary | undefined; readonly book: RuleBook | undefined } {
  const summary = books.find((b) => b.id === id);
  return { summary, book: summary?.content ? read.get(summary.content) : undefined };
}
