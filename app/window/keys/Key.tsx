import { keyWord } from '../../../src/words/window.ts';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import type { ActName } from './allActs.ts';
import styles from './Key.module.css';
import { keyParts } from './keyName.ts';

/** The key that does an act now, shown where the act is. Nothing where the coach switched it off. */
export function Key({ act }: { readonly act: ActName }) {
  const { keyboard } = useWorkbench();
  usePreferences((p) => p.keys);
  return <KeyCap name={keyboard.keyFor(act)} />;
}

/** A key by its name, as a cap. Read out with the control it stands in only where `spoken`. */
export function KeyCap({ name, spoken = false }: { readonly name: string; readonly spoken?: boolean }) {
  if (name === '') return null;
  return (
    <kbd className={styles['key']} aria-hidden={!spoken}>
      {keyParts(name).map(keyWord).join(' + ')}
    </kbd>
  );
}
