import type { ReactNode } from 'react';
import { useDesk } from './DeskContext.ts';
import styles from './GoToTime.module.css';

/** Words that lead to the frame they speak of. @param at seconds of the run */
export function GoToTime({ at, children }: { readonly at: number; readonly children: ReactNode }) {
  const { desk } = useDesk();
  return (
    <button
      type="button"
      className={styles['go']}
      onClick={() => {
        desk.pause();
        desk.goToTime(at);
      }}
    >
      {children}
    </button>
  );
}
