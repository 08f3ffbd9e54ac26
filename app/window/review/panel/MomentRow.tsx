import { ChevronLeft, ChevronRight } from 'lucide-react';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { useDesk, useDeskView } from '../DeskContext.ts';
import styles from './MomentRow.module.css';

const words = reviewScreenWords.crosses;

/** A moment with its time: touch it to go there, or move it by single frames. */
export function MomentRow({
  markId,
  what,
  reading,
}: {
  readonly markId: string;
  readonly what: string;
  readonly reading: string;
}) {
  const { desk } = useDesk();
  const chosen = useDeskView((v) => v.selected === markId);
  return (
    <li className={styles['row']} data-chosen={chosen}>
      <button
        type="button"
        className={styles['go']}
        onClick={() => {
          desk.goToMark(markId);
        }}
      >
        <span>{what}</span>
        <span className={styles['reading']}>{reading}</span>
      </button>
      <Nudges markId={markId} what={what} />
    </li>
  );
}

/** One frame back, one frame on. */
export function Nudges({ markId, what }: { readonly markId: string; readonly what: string }) {
  const { hands } = useDesk();
  return (
    <span className={styles['nudges']}>
      {([-1, 1] as const).map((by) => {
        const label = by < 0 ? words.nudgeBack(what) : words.nudgeOn(what);
        return (
          <button
            key={by}
            type="button"
            className={styles['nudge']}
            aria-label={label}
            title={label}
            onClick={() => {
              hands.nudge(by, markId);
            }}
          >
            {by < 0 ? <ChevronLeft aria-hidden /> : <ChevronRight aria-hidden />}
          </button>
        );
      })}
    </span>
  );
}
