import { BookOpen, Download, FilePlus, Trash2 } from 'lucide-react';
import { useState } from 'react';
import { ruleBooksWords as words } from '../../../src/words/ruleBooks.ts';
import { Button } from '../look/Button.tsx';
import { useRuleBooks } from '../stores/react.ts';
import folders from './Folders.module.css';
import { RuleBookDialog } from './RuleBookDialog.tsx';
import styles from './RuleBooks.module.css';
import { useRuleBookHands } from './useRuleBookHands.ts';

/** The rule books of the library: look into one, take one in, save a copy, remove one. */
export function RuleBooks() {
  const books = useRuleBooks((view) => view.books);
  const hands = useRuleBookHands();
  const [open, setOpen] = useState<string | null>(null);
  const { differing } = hands;
  const there = differing && books.find((b) => b.id === differing.book.id);
  return (
    <section className={folders['section']}>
      <h2>{words.title}</h2>
      <p className={folders['soft']}>{words.intro}</p>
      <ul aria-label={words.list}>
        {books.map((book) => (
          <li key={book.id} className={styles['book']}>
            <p className={styles['name']}>
              {book.name}
              {book.worked && <span className={folders['soft']}> {words.worked}</span>}
            </p>
            <p className={folders['soft']}>
              {book.content === null ? words.damaged : words.facts(book.entries, book.fromMemory)}
            </p>
            <div className={styles['acts']}>
              {book.content !== null && (
                <>
                  <Button
                    kind="quiet"
                    icon={<BookOpen aria-hidden />}
                    aria-label={words.lookNamed(book.name)}
                    onClick={() => {
                      setOpen(book.id);
                    }}
                  >
                    {words.look}
                  </Button>
                  <Button
                    kind="quiet"
                    icon={<Download aria-hidden />}
                    aria-label={words.saveNamed(book.name)}
                    onClick={() => {
                      hands.save(book);
                    }}
                  >
                    {words.save}
                  </Button>
                </>
              )}
              {!book.worked && (
                <Button
                  kind="quiet"
                  icon={<Trash2 aria-hidden />}
                  aria-label={words.removeNamed(book.name)}
                  onClick={() => {
                    hands.remove(book);
                  }}
                >
                  {words.remove}
                </Button>
              )}
            </div>
          </li>
        ))}
      </ul>
      {differing && (
        <div role="alert" className={styles['asked']}>
          <p>{words.other(there?.name ?? differing.book.name, differing.book.id, differing.file.name)}</p>
          <div className={styles['acts']}>
            <Button onClick={hands.replace}>{words.replace}</Button>
            <Button onClick={hands.leave}>{words.leave}</Button>
          </div>
        </div>
      )}
      <div>
        <Button icon={<FilePlus aria-hidden />} onClick={hands.take}>
          {words.take}
        </Button>
      </div>
      <RuleBookDialog
        id={open}
        onClose={() => {
          setOpen(null);
        }}
      />
    </section>
  );
}
