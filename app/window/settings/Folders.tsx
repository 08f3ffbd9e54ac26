import { FolderPlus, X } from 'lucide-react';
import { useState } from 'react';
import { settingsWords } from '../../../src/words/settings.ts';
import { Button } from '../look/Button.tsx';
import { TextField } from '../look/Field.tsx';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import styles from './Folders.module.css';

const words = settingsWords.folders;

const isFull = (path: string): boolean => path.startsWith('/') || /^[A-Za-z]:[\\/]/.test(path);

/** Folders whose files a window on loopback may list. */
export function Folders() {
  const { preferences } = useWorkbench();
  const folders = usePreferences((p) => p.allowedFolders);
  const [path, setPath] = useState('');
  const [asked, setAsked] = useState(false);
  const bad = asked && !isFull(path.trim());
  return (
    <section className={styles['section']}>
      <h2>{words.title}</h2>
      <p className={styles['soft']}>{words.intro}</p>
      {folders.length === 0 && <p className={styles['soft']}>{words.none}</p>}
      <ul>
        {folders.map((folder) => (
          <li key={folder} className={styles['folder']}>
            <span>{folder}</span>
            <Button
              kind="quiet"
              icon={<X aria-hidden />}
              aria-label={words.removeNamed(folder)}
              onClick={() => void preferences.change({ allowedFolders: folders.filter((f) => f !== folder) })}
            >
              {words.remove}
            </Button>
          </li>
        ))}
      </ul>
      <form
        className={styles['add']}
        onSubmit={(event) => {
          event.preventDefault();
          const full = path.trim();
          setAsked(true);
          if (!isFull(full)) return;
          setAsked(false);
          setPath('');
          if (!folders.includes(full)) void preferences.change({ allowedFolders: [...folders, full] });
        }}
      >
        <TextField
          label={words.path}
          hint={bad ? words.notFull : words.pathHint}
          aria-invalid={bad}
          value={path}
          onChange={setPath}
        />
        <Button type="submit" icon={<FolderPlus aria-hidden />}>
          {words.add}
        </Button>
      </form>
    </section>
  );
}
