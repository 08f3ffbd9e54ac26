import { CornerLeftUp, File as FileIcon, Folder } from 'lucide-react';
import { useEffect, useState } from 'react';
import type { FileEntry } from '../../../src/host/contract/shapes.ts';
import { libraryWords } from '../../../src/words/library.ts';
import { fileSize } from '../../../src/words/locale.ts';
import { Dialog } from './Dialog.tsx';
import { Button } from '../look/Button.tsx';
import { whyOf } from '../stores/notices.ts';
import { useWorkbench } from '../stores/react.ts';
import styles from './HostFilesDialog.module.css';

const words = libraryWords.files;

interface HostFilesProps {
  readonly open: boolean;
  readonly title: string;
  readonly several: boolean;
  readonly onChoose: (paths: readonly string[]) => void;
  /** A second way: the browser's own file dialog. */
  readonly onElsewhere?: () => void;
  readonly onClose: () => void;
}

/** Files of the machine that Walkback runs on, within the folders the coach allowed. Nothing is copied. */
export function HostFilesDialog({ open, title, onClose, ...rest }: HostFilesProps) {
  return (
    <Dialog open={open} title={title} wide onClose={onClose}>
      <Files onClose={onClose} {...rest} />
    </Dialog>
  );
}

function Files({ several, onChoose, onElsewhere, onClose }: Omit<HostFilesProps, 'open' | 'title'>) {
  const { host } = useWorkbench();
  const [way, setWay] = useState<readonly FileEntry[]>([]);
  const [entries, setEntries] = useState<readonly FileEntry[] | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const here = way.at(-1);

  useEffect(() => {
    let gone = false;
    const ask = here
      ? host.call('files.list', { folder: here.path }).then((answer) => answer.entries)
      : host.call('files.roots', {}).then((answer) => answer.folders);
    ask.then(
      (found) => {
        if (gone) return;
        setTrouble(null);
        setEntries(found);
      },
      (error: unknown) => {
        if (!gone) setTrouble(whyOf(error).why);
      },
    );
    return () => {
      gone = true;
    };
  }, [host, here]);

  const go = (to: readonly FileEntry[]): void => {
    setWay(to);
    setEntries(null);
    setChosen(new Set());
  };
  const choose = (paths: readonly string[]): void => {
    onClose();
    onChoose(paths);
  };
  const toggle = (path: string): void => {
    setChosen((before) => {
      const after = new Set(several ? before : []);
      if (before.has(path)) after.delete(path);
      else after.add(path);
      return after;
    });
  };

  return (
    <>
      <p className={styles['intro']}>{words.intro}</p>
      <nav className={styles['way']} aria-label={words.roots}>
        <Button
          kind="quiet"
          onClick={() => {
            go([]);
          }}
        >
          {words.roots}
        </Button>
        {way.map((folder, i) => (
          <span key={folder.path}>
            {'/'}
            <Button
              kind="quiet"
              onClick={() => {
                go(way.slice(0, i + 1));
              }}
            >
              {folder.name}
            </Button>
          </span>
        ))}
      </nav>
      {trouble !== null && <p role="alert">{trouble}</p>}
      <ul className={styles['list']}>
        {here && (
          <li>
            <button
              type="button"
              className={styles['entry']}
              onClick={() => {
                go(way.slice(0, -1));
              }}
            >
              <CornerLeftUp aria-hidden />
              <span>{words.up}</span>
            </button>
          </li>
        )}
        {entries?.map((entry) => (
          <li key={entry.path}>
            {entry.folder ? (
              <button
                type="button"
                className={styles['entry']}
                onClick={() => {
                  go([...way, entry]);
                }}
              >
                <Folder aria-hidden />
                <span>{entry.name}</span>
              </button>
            ) : (
              <label className={styles['entry']}>
                <input
                  type={several ? 'checkbox' : 'radio'}
                  name="file"
                  checked={chosen.has(entry.path)}
                  onChange={() => {
                    toggle(entry.path);
                  }}
                  onKeyDown={(event) => {
                    if (event.key === 'Enter') choose(chosen.size > 0 ? [...chosen] : [entry.path]);
                  }}
                />
                <FileIcon aria-hidden />
                <span>{entry.name}</span>
                <span className={styles['size']}>{entry.bytes === null ? '' : fileSize(entry.bytes)}</span>
              </label>
            )}
          </li>
        ))}
      </ul>
      {entries?.length === 0 && <p className={styles['intro']}>{here ? words.empty : words.noRoots}</p>}
      <div className={styles['end']}>
        {onElsewhere && (
          <Button
            onClick={() => {
              onClose();
              onElsewhere();
            }}
          >
            {words.upload}
          </Button>
        )}
        <span className={styles['space']} />
        <Button onClick={onClose}>{words.cancel}</Button>
        <Button
          kind="main"
          disabled={chosen.size === 0}
          onClick={() => {
            choose([...chosen]);
          }}
        >
          {!several ? words.chooseOne : chosen.size === 0 ? words.chooseNone : words.choose(chosen.size)}
        </Button>
      </div>
    </>
  );
}
