import { Trash2 } from 'lucide-react';
import { useEffect, useState } from 'react';
import type { CopiesAbout } from '../../../src/host/contract/shapes.ts';
import { copyWords } from '../../../src/words/copies.ts';
import { Button } from '../look/Button.tsx';
import { KeptField } from '../look/Field.tsx';
import { useLibrary, usePreferences, useWorkbench } from '../stores/react.ts';
import styles from './Folders.module.css';

const words = copyWords.store;

/** What the working copies take up, how much they may, and a way to be rid of them. */
export function Copies() {
  const { host, preferences, notices } = useWorkbench();
  const most = usePreferences((p) => p.copiesMost);
  const clips = useLibrary((view) => view.clips);
  const [about, setAbout] = useState<CopiesAbout | null>(null);
  useEffect(() => {
    let gone = false;
    host.call('copies.about', {}).then(
      (answer) => {
        if (!gone) setAbout(answer);
      },
      (error: unknown) => {
        if (!gone) notices.getState().trouble(error);
      },
    );
    return () => {
      gone = true;
    };
  }, [host, notices, clips, most]);

  const keep = (text: string): void => {
    const wanted = Number(text.trim());
    if (Number.isInteger(wanted) && wanted >= 1 && wanted <= 100_000) {
      void preferences.change({ copiesMost: wanted });
    } else notices.getState().say(words.bad);
  };
  const clear = (): void => {
    host.call('copies.clear', {}).then(
      (left) => {
        setAbout(left);
        notices.getState().say(words.cleared(left.count));
      },
      (error: unknown) => {
        notices.getState().trouble(error);
      },
    );
  };

  return (
    <section className={styles['section']}>
      <h2>{words.title}</h2>
      <p className={styles['soft']}>{words.intro}</p>
      <KeptField label={words.most} value={String(most)} inputMode="numeric" onKeep={keep} />
      {about && <p role="status">{words.held(about.count, about.bytes)}</p>}
      {about !== null && about.count > 0 && (
        <div>
          <Button icon={<Trash2 aria-hidden />} onClick={clear}>
            {words.clear}
          </Button>
          <p className={styles['soft']}>{words.clearHint}</p>
        </div>
      )}
    </section>
  );
}
