import { Film } from 'lucide-react';
import { useStore } from 'zustand';
import { libraryWords, percent } from '../../../src/words/library.ts';
import { Button } from '../look/Button.tsx';
import { useLibrary, useWorkbench } from '../stores/react.ts';
import type { IntakeItem } from './intake.ts';
import styles from './IntakeList.module.css';

const words = libraryWords.form;

interface IntakeListProps {
  readonly itemIds: readonly number[];
  readonly clipIds: readonly string[];
}

/** The videos a form is about: those that are in, and those on their way with how far they are. */
export function IntakeList({ itemIds, clipIds }: IntakeListProps) {
  const { intake } = useWorkbench();
  const items = useStore(intake, (view) => view.items).filter((item) => itemIds.includes(item.id));
  const clips = useLibrary((view) => view.clips);
  return (
    <section>
      <h3>{words.videos}</h3>
      <ul className={styles['list']}>
        {clipIds.map((id) => (
          <li key={id} className={styles['item']}>
            <Film aria-hidden />
            <span className={styles['name']}>{clips.get(id)?.name ?? id}</span>
          </li>
        ))}
        {items.map((item) => (
          <Item
            key={item.id}
            item={item}
            onStop={() => {
              intake.stop(item.id);
            }}
          />
        ))}
      </ul>
    </section>
  );
}

function Item({ item, onStop }: { readonly item: IntakeItem; readonly onStop: () => void }) {
  const atWork = item.stage === 'handingOver' || item.stage === 'reading';
  const known = item.total !== null && item.total > 0;
  return (
    <li className={styles['item']}>
      <Film aria-hidden />
      <span className={styles['name']}>{item.name}</span>
      <span className={item.stage === 'failed' ? styles['failed'] : styles['soft']}>
        {words.stages[item.stage]}
        {atWork && known && ` ${percent(item.done, item.total ?? 0)}`}
      </span>
      {atWork && (
        <Button kind="quiet" aria-label={words.stopNamed(item.name)} onClick={onStop}>
          {words.stop}
        </Button>
      )}
      {atWork && (
        <progress
          className={styles['bar']}
          aria-label={item.name}
          {...(known ? { value: item.done, max: item.total ?? 0 } : {})}
        />
      )}
      {item.trouble !== null && <p className={styles['trouble']}>{item.trouble}</p>}
    </li>
  );
}
