import { Download, Trash2, Undo2 } from 'lucide-react';
import type { KeptDog } from '../../../../src/host/contract/shapes.ts';
import { dogWords as words } from '../../../../src/words/dog.ts';
import { dogFileWords } from '../../../../src/words/dogFile.ts';
import { useSaveCopy } from '../../handOver/useSaveCopy.ts';
import { Button } from '../../look/Button.tsx';
import { KeptArea } from '../../look/Field.tsx';
import { useDogs, useWorkbench } from '../../stores/react.ts';
import styles from './DogPage.module.css';
import type { DogDesk } from './useDogDesk.ts';

/** What is noted beside the figures, her file to hand over, and the way out of the library. */
export function Keeping({ desk, kept }: { readonly desk: DogDesk; readonly kept: KeptDog }) {
  const { host, dogs: store } = useWorkbench();
  const saveCopy = useSaveCopy();
  const save = (): void => {
    void saveCopy(host.call('dog.write', { id: kept.id }), dogFileWords.saved(kept.name));
  };
  return (
    <section className={styles['part']}>
      {kept.dog && (
        <KeptArea
          label={words.notes}
          hint={words.notesHint}
          rows={3}
          maxLength={8000}
          value={kept.dog.notes}
          onKeep={(notes) => {
            desk.change(words.labels.notes, (d) => ({ ...d, notes }));
          }}
        />
      )}
      <div className={styles['row']}>
        {kept.dog && (
          <Button icon={<Download aria-hidden />} onClick={save}>
            {dogFileWords.save(kept.name)}
          </Button>
        )}
        <Button kind="quiet" icon={<Trash2 aria-hidden />} onClick={() => void store.remove(kept)}>
          {words.remove(kept.name)}
        </Button>
      </div>
    </section>
  );
}

/** Takes the last change of her back; stays in sight, whatever part of the page is looked at. */
export function UndoLast({ kept }: { readonly kept: KeptDog }) {
  const { dogs: store } = useWorkbench();
  const last = useDogs((view) => view.acts)
    .get(kept.id)
    ?.at(-1);
  if (!last) return null;
  return (
    <div className={styles['undo']}>
      <Button kind="quiet" icon={<Undo2 aria-hidden />} onClick={() => void store.undo(kept.id)}>
        {words.undoLast(last.label)}
      </Button>
    </div>
  );
}
