import { X } from 'lucide-react';
import { useEffect, useState } from 'react';
import { settingsWords } from '../../../src/words/settings.ts';
import { Button } from '../look/Button.tsx';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import { AddFolder } from './AddFolder.tsx';
import styles from './Folders.module.css';

const words = settingsWords.folders;

/**
 * Folders whose files a window in the browser may list. Such a window can close folders but not open new ones,
 * else it could let itself in anywhere; the desktop window can do both.
 */
export function Folders() {
  const { preferences, host, shell, notices } = useWorkbench();
  const added = usePreferences((p) => p.allowedFolders);
  const [open, setOpen] = useState<readonly string[]>([]);
  const browser = shell.kind === 'loopback';
  useEffect(() => {
    if (!browser) return;
    let gone = false;
    host.call('files.roots', {}).then(
      ({ folders }) => {
        if (!gone) setOpen(folders.map((folder) => folder.path));
      },
      (error: unknown) => {
        if (!gone) notices.getState().trouble(error);
      },
    );
    return () => {
      gone = true;
    };
  }, [host, notices, browser, added]);
  const fromStart = open.filter((folder) => !added.includes(folder));

  return (
    <section className={styles['section']}>
      <h2>{words.title}</h2>
      <p className={styles['soft']}>{words.intro}</p>
      {added.length + fromStart.length === 0 && <p className={styles['soft']}>{words.none}</p>}
      <ul>
        {fromStart.map((folder) => (
          <li key={folder} className={styles['folder']}>
            <span>{folder}</span>
            <span className={styles['soft']}>{words.fromStart}</span>
          </li>
        ))}
        {added.map((folder) => (
          <li key={folder} className={styles['folder']}>
            <span>{folder}</span>
            <Button
              kind="quiet"
              icon={<X aria-hidden />}
              aria-label={words.removeNamed(folder)}
              onClick={() => void preferences.change({ allowedFolders: added.filter((f) => f !== folder) })}
            >
              {words.remove}
            </Button>
          </li>
        ))}
      </ul>
      {browser ? <p className={styles['soft']}>{words.fromHere}</p> : <AddFolder />}
    </section>
  );
}
