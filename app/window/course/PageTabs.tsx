import { useRef, type KeyboardEvent } from 'react';
import { drawingWords } from '../../../src/words/drawing.ts';
import styles from './PageTabs.module.css';

const words = drawingWords.pages;

export const pages = ['numbers', 'draw', 'course', 'check', 'rules', 'read', 'plan', 'dog'] as const;
export type Page = (typeof pages)[number];

interface PageTabsProps {
  readonly page: Page;
  readonly onPage: (page: Page) => void;
  /** How many things there are to look at on a page; shown with its name where there are any. */
  readonly counts: Readonly<Partial<Record<Page, number>>>;
}

/** The pages beside the drawing. */
export function PageTabs({ page, onPage, counts }: PageTabsProps) {
  const list = useRef<HTMLDivElement>(null);
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
    if (by === 0) return;
    event.preventDefault();
    event.stopPropagation();
    const next = pages[(pages.indexOf(page) + by + pages.length) % pages.length] ?? 'numbers';
    onPage(next);
    list.current?.querySelector<HTMLElement>(`#course-tab-${next}`)?.focus();
  };
  return (
    <div ref={list} className={styles['tabs']} role="tablist" aria-label={words.label}>
      {pages.map((name) => (
        <button
          key={name}
          type="button"
          role="tab"
          id={`course-tab-${name}`}
          className={styles['tab']}
          aria-selected={name === page}
          aria-controls="course-page"
          tabIndex={name === page ? 0 : -1}
          onKeyDown={onKeyDown}
          onClick={() => {
            onPage(name);
          }}
        >
          {words[name]}
          {(counts[name] ?? 0) > 0 && (
            <>
              {' '}
              <span className={styles['count']}>{counts[name]}</span>
            </>
          )}
        </button>
      ))}
    </div>
  );
}
