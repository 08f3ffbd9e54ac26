import { useEffect, useState } from 'react';
import type { RuleBook } from '../../../src/course/rules/book.ts';
import { heightCautions } from '../../../src/words/cautions.ts';
import { ruleBookWords } from '../../../src/words/ruleBook.ts';
import { ruleBooksWords as words } from '../../../src/words/ruleBooks.ts';
import { bookTold, type EntryTold } from '../../../src/words/ruleEntries.ts';
import { Dialog } from '../frame/Dialog.tsx';
import { Button } from '../look/Button.tsx';
import { TextField, Tick } from '../look/Field.tsx';
import { usePreferences, useRuleBooks, useWorkbench } from '../stores/react.ts';
import { ruleBookIn } from '../stores/ruleBooks.ts';
import styles from './RuleBookDialog.module.css';

interface RuleBookDialogProps {
  /** The book to look into; null while the dialog is shut. */
  readonly id: string | null;
  readonly onClose: () => void;
}

/** A look into a rule book: every entry with what it says, where that is from, and how well it is known. */
export function RuleBookDialog({ id, onClose }: RuleBookDialogProps) {
  const { ruleBooks } = useWorkbench();
  const { summary, book } = ruleBookIn(
    useRuleBooks((view) => view),
    id ?? undefined,
  );
  useEffect(() => {
    if (id !== null) ruleBooks.want(id);
  }, [ruleBooks, id, summary]);
  return (
    <Dialog open={id !== null} wide title={summary?.name ?? words.title} onClose={onClose}>
      {book ? <Entries key={book.id} book={book} /> : <p role="status">{words.reading}</p>}
      <div className={styles['foot']}>
        <Button onClick={onClose}>{words.close}</Button>
      </div>
    </Dialog>
  );
}

function Entries({ book }: { readonly book: RuleBook }) {
  const dialect = usePreferences((p) => p.dialect);
  const [find, setFind] = useState('');
  const [memory, setMemory] = useState(false);
  const wanted = find.trim().toLocaleLowerCase();
  const shown = (e: EntryTold): boolean =>
    (!memory || e.rule.status === 'memory') &&
    [e.label, e.rule.name, ...e.told].some((text) => text.toLocaleLowerCase().includes(wanted));
  const groups = bookTold(book, dialect)
    .map((group) => ({ ...group, entries: group.entries.filter(shown) }))
    .filter(({ entries }) => entries.length > 0);
  return (
    <div className={styles['book']}>
      {book.about !== '' && <p>{book.about}</p>}
      <p className={styles['soft']}>{words.book(book.id)}</p>
      <div className={styles['find']}>
        <TextField data-first label={words.find} type="search" value={find} onChange={setFind} />
        <Tick label={words.onlyMemory} checked={memory} onChange={setMemory} />
      </div>
      {groups.length === 0 && <p role="status">{words.noneFound}</p>}
      {groups.map(({ title, entries }) => (
        <section key={title} className={styles['group']}>
          <h3>{title}</h3>
          {entries.some((e) => e.rule.name === 'bars') && (
            <ul className={styles['caution']}>
              {heightCautions.map((text) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          )}
          <table className={styles['entries']}>
            <thead>
              <tr>
                <th scope="col">{words.rule}</th>
                <th scope="col">{words.says}</th>
                <th scope="col">{words.from}</th>
              </tr>
            </thead>
            <tbody>
              {entries.map((e) => (
                <tr key={e.rule.name}>
                  <th scope="row">{e.label}</th>
                  <td>
                    {e.told.map((line) => (
                      <p key={line}>{line}</p>
                    ))}
                  </td>
                  <td className={styles['soft']}>
                    {e.rule.status === 'memory' && (
                      <p className={styles['memory']}>{ruleBookWords.status.memory}</p>
                    )}
                    <p>
                      {e.rule.status === 'memory'
                        ? ruleBookWords.from(e.rule.source)
                        : ruleBookWords.provenance(e.rule)}
                    </p>
                    {e.rule.remark !== undefined && <p>{e.rule.remark}</p>}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ))}
    </div>
  );
}
