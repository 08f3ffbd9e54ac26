import { FolderPlus } from 'lucide-react';
import { useState } from 'react';
import { settingsWords } from '../../../src/words/settings.ts';
import { Button } from '../look/Button.tsx';
import { TextField } from '../look/Field.tsx';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import styles from './Folders.module.css';

const words = settingsWords.folders;

const isFull = (path: string): boolean => path.startsWith('/') || /^[A-Za-z]:[\\/]/.test(path);

/** Opens one more folder by its full path. */
export function AddFolder() {
  const { preferences } = useWorkbench();
  const added = usePreferences((p) => p.allowedFolders);
  const [path, setPath] = useState('');
  const [asked, setAsked] = useState(false);
  const bad = asked && !isFull(path.trim());
  return (
    <form
      className={styles['add']}
      onSubmit={(event) => {
        event.preventDefault();
        const full = path.trim();
        setAsked(true);
        if (!isFull(full)) return;
        setAsked(false);
        setPath('');
        if (!added.includes(full)) void preferences.change({ allowedFolders: [...added, full] });
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
  );
}
