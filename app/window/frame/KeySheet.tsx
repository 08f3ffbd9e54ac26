import { windowWords } from '../../../src/words/window.ts';
import { actsByRoom } from '../keys/act.ts';
import { allActs } from '../keys/allActs.ts';
import { KeyCap } from '../keys/Key.tsx';
import { keysOf } from '../keys/keyTable.ts';
import { Button } from '../look/Button.tsx';
import { usePreferences } from '../stores/react.ts';
import { Dialog } from './Dialog.tsx';
import styles from './KeySheet.module.css';

const words = windowWords.keySheet;

/** The sheet of keys: every act with its key, one key away. */
export function KeySheet({ open, onClose }: { readonly open: boolean; readonly onClose: () => void }) {
  const changed = usePreferences((p) => p.keys);
  return (
    <Dialog open={open} title={words.title} wide onClose={onClose}>
      <p className={styles['intro']}>{words.intro}</p>
      <div className={styles['rooms']}>
        {[...actsByRoom(allActs)].map(([room, acts]) => (
          <section key={room} className={styles['room']}>
            <h3>{words.places[room] ?? room}</h3>
            <dl className={styles['acts']}>
              {acts.map((act) => (
                <div key={act.name} className={styles['act']}>
                  <dt>{act.label}</dt>
                  <dd>
                    <Keys names={keysOf(act, changed)} />
                  </dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
      </div>
      <p className={styles['end']}>
        <a href="#/settings" onClick={onClose}>
          {words.toSettings}
        </a>
        <Button kind="main" data-first="" onClick={onClose}>
          {words.close}
        </Button>
      </p>
    </Dialog>
  );
}

function Keys({ names }: { readonly names: readonly string[] }) {
  if (names.length === 0) return <>{words.none}</>;
  return names.map((name, i) => (
    <span key={name}>
      {i > 0 && ` ${words.and} `}
      <KeyCap name={name} spoken />
    </span>
  ));
}
