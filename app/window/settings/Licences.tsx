import { useState } from 'react';
import { settingsWords } from '../../../src/words/settings.ts';
import { Dialog } from '../frame/Dialog.tsx';
import { Button } from '../look/Button.tsx';
import styles from './Licences.module.css';

const words = settingsWords.licences;

/** The notices made from the tree of packages; asked for only when somebody wants to read them. */
const notices = import.meta.glob<string>('../../THIRD-PARTY-NOTICES.txt', {
  query: '?raw',
  import: 'default',
});

export function Licences() {
  const [open, setOpen] = useState(false);
  const [text, setText] = useState<string>(words.reading);
  const show = (): void => {
    setOpen(true);
    const [read] = Object.values(notices);
    (read ? read() : Promise.reject(new Error(words.none))).then(setText, () => {
      setText(words.none);
    });
  };
  return (
    <section className={styles['section']}>
      <h2>{words.title}</h2>
      <p>{words.intro}</p>
      <dl className={styles['list']}>
        {words.list.map(([what, licence]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>{licence}</dd>
          </div>
        ))}
      </dl>
      <p>
        <Button onClick={show}>{words.show}</Button>
      </p>
      <Dialog
        open={open}
        title={words.title}
        wide
        onClose={() => {
          setOpen(false);
        }}
      >
        <pre className={styles['text']} tabIndex={0} data-first="">
          {text}
        </pre>
      </Dialog>
    </section>
  );
}
