import { useEffect, useState } from 'react';
import type { RuleBookSummary } from '../../../src/host/contract/shapes.ts';
import type { RuleBook } from '../../../src/course/rules/book.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { useWorkbench } from '../stores/react.ts';

/** The rule books that a course can be built by, as the host lists them; the worked one is always there. */
export function useRuleBooks(): readonly RuleBookSummary[] {
  const { host, notices } = useWorkbench();
  const [books, setBooks] = useState<readonly RuleBookSummary[]>([]);
  useEffect(
    () =>
      host.subscribe(
        'ruleBooks',
        {},
        (event) => {
          setBooks(event.books);
        },
        (trouble) => {
          notices.getState().say(trouble.message);
        },
      ),
    [host, notices],
  );
  return books;
}

/** The rule book of an id; null while it is fetched, where it cannot be had, or where none is chosen. */
export function useRuleBook(id: string | undefined): RuleBook | null {
  const { host, notices } = useWorkbench();
  const [found, setFound] = useState<RuleBook | null>(null);
  useEffect(() => {
    if (id === undefined || id === fci2023.id) return;
    let gone = false;
    host.call('ruleBook.read', { id }).then(
      ({ book }) => {
        if (!gone) setFound(book);
      },
      (error: unknown) => {
        if (!gone) notices.getState().trouble(error);
      },
    );
    return () => {
      gone = true;
    };
  }, [host, notices, id]);
  if (id === fci2023.id) return fci2023;
  return found?.id === id ? found : null;
}
