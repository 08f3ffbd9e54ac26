import { useState } from 'react';
import { settingsWords } from '../../../src/words/settings.ts';
import { keyWord, windowWords } from '../../../src/words/window.ts';
import { actsByRoom, type Act } from '../keys/act.ts';
import { allActs } from '../keys/allActs.ts';
import { KeyCap } from '../keys/Key.tsx';
import { keyIsKept, keyName, keyParts } from '../keys/keyName.ts';
import { actHolding, keyConflicts, keyOf } from '../keys/keyTable.ts';
import { Button } from '../look/Button.tsx';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import styles from './KeySettings.module.css';

const words = settingsWords.keys;

const spelt = (key: string): string => keyParts(key).map(keyWord).join(' + ');

/** Every act with its key: change it, take it away, give back the first one. A key in use is refused and named. */
export function KeySettings() {
  const { preferences, notices } = useWorkbench();
  const changed = usePreferences((p) => p.keys);
  const [waiting, setWaiting] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<{ readonly act: string; readonly why: string } | null>(null);
  const conflicts = keyConflicts(allActs, changed);

  const set = (act: Act, key: string | null): void => {
    const { [act.name]: _, ...rest } = changed;
    const keys = key === null || key === act.key ? rest : { ...rest, [act.name]: key };
    setRefusal(null);
    setWaiting(null);
    void preferences.change({ keys });
  };
  const take = (act: Act, key: string): void => {
    if (keyIsKept(key)) {
      setRefusal({ act: act.name, why: words.kept(spelt(key)) });
      return;
    }
    const holder = actHolding(allActs, changed, act, key);
    if (holder) {
      setRefusal({ act: act.name, why: words.held(spelt(key), holder.label) });
      return;
    }
    set(act, key);
    const hands = keyParts(key).length > 1 ? ` ${words.twoHands}` : '';
    notices.getState().say(`${words.changed(act.label, spelt(key))}${hands}`);
  };

  return (
    <section className={styles['section']}>
      <div className={styles['head']}>
        <h2>{words.title}</h2>
        <Button
          disabled={Object.keys(changed).length === 0}
          onClick={() => {
            setRefusal(null);
            setWaiting(null);
            void preferences.change({ keys: {} });
          }}
        >
          {words.resetAll}
        </Button>
      </div>
      <p className={styles['soft']}>{words.intro}</p>
      {conflicts.map(({ key, acts: [one, other] }) => (
        <p key={`${one.name} ${other.name}`} className={styles['conflict']} role="alert">
          {words.conflict(spelt(key), one.label, other.label)}
        </p>
      ))}
      {[...actsByRoom(allActs)].map(([room, acts]) => (
        <section key={room}>
          <h3 className={styles['room']}>{windowWords.keySheet.places[room] ?? room}</h3>
          <ul>
            {acts.map((act) => (
              <li key={act.name} className={styles['act']}>
                <span className={styles['label']}>{act.label}</span>
                <span className={styles['key']}>
                  {keyOf(act, changed) === '' ? (
                    <span className={styles['soft']}>{words.off}</span>
                  ) : (
                    <KeyCap name={keyOf(act, changed)} spoken />
                  )}
                </span>
                <Button
                  data-own-keys={waiting === act.name ? '' : undefined}
                  aria-label={
                    waiting === act.name ? words.pressNamed(act.label) : words.changeNamed(act.label)
                  }
                  pressed={waiting === act.name}
                  onClick={() => {
                    setRefusal(null);
                    setWaiting(waiting === act.name ? null : act.name);
                  }}
                  onBlur={() => {
                    if (waiting === act.name) setWaiting(null);
                  }}
                  onKeyDown={(event) => {
                    if (waiting !== act.name) return;
                    const key = keyName(event);
                    if (key === null || key === 'Tab' || key === 'Shift+Tab') return;
                    event.preventDefault();
                    event.stopPropagation();
                    if (key === 'Escape') setWaiting(null);
                    else take(act, key);
                  }}
                >
                  {waiting === act.name ? words.press : words.change}
                </Button>
                <Button
                  kind="quiet"
                  aria-label={words.noneNamed(act.label)}
                  disabled={keyOf(act, changed) === ''}
                  onClick={() => {
                    set(act, '');
                  }}
                >
                  {words.none}
                </Button>
                {changed[act.name] !== undefined && (
                  <Button
                    kind="quiet"
                    aria-label={words.resetNamed(act.label)}
                    onClick={() => {
                      const holder = actHolding(allActs, changed, act, act.key);
                      if (holder)
                        setRefusal({ act: act.name, why: words.held(spelt(act.key), holder.label) });
                      else set(act, null);
                    }}
                  >
                    {words.reset}
                  </Button>
                )}
                {refusal?.act === act.name && (
                  <p className={styles['conflict']} role="alert">
                    {refusal.why}
                  </p>
                )}
              </li>
            ))}
          </ul>
        </section>
      ))}
    </section>
  );
}
