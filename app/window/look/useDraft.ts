import { useEffect, useRef, useState } from 'react';

/** What is being typed and not kept yet. */
export interface Draft {
  /** What to show: what is being typed, else what is kept. */
  readonly text: string;
  type(text: string): void;
  /** Keeps what was typed, where it differs. */
  commit(): void;
  /** Goes back to what is kept. */
  drop(): void;
}

/**
 * Text that is kept when the field is left, after a pause in typing, or when the screen goes away: never at each
 * letter (that would fill undo) and never lost. `pause` in milliseconds, 0 for no keeping while typing.
 */
export function useDraft(kept: string, onCommit: (text: string) => void, pause = 0): Draft {
  const [draft, setDraft] = useState<string | null>(null);
  const newest = useRef({ draft, kept, onCommit });
  useEffect(() => {
    newest.current = { draft, kept, onCommit };
  });

  const commit = (): void => {
    const now = newest.current;
    if (now.draft !== null && now.draft !== now.kept) now.onCommit(now.draft);
    newest.current = { ...now, draft: null };
    setDraft(null);
  };

  useEffect(() => {
    if (draft === null || pause === 0) return;
    const timer = setTimeout(() => {
      const now = newest.current;
      if (now.draft !== null && now.draft !== now.kept) now.onCommit(now.draft);
    }, pause);
    return () => {
      clearTimeout(timer);
    };
  }, [draft, pause]);

  useEffect(
    () => () => {
      const now = newest.current;
      if (now.draft !== null && now.draft !== now.kept) now.onCommit(now.draft);
    },
    [],
  );

  return {
    text: draft ?? kept,
    type: (text) => {
      newest.current = { ...newest.current, draft: text };
      setDraft(text);
    },
    commit,
    drop: () => {
      newest.current = { ...newest.current, draft: null };
      setDraft(null);
    },
  };
}
