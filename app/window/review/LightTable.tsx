import { obstacleAt } from '../../../src/course/course.ts';
import { crossSentence, crossVerdictWords, sentenceCase } from '../../../src/words/review.ts';
import { reviewScreenWords } from '../../../src/words/reviewScreen.ts';
import { crossWords } from '../../../src/words/trade.ts';
import { KeyCap } from '../keys/Key.tsx';
import { useWorkbench } from '../stores/react.ts';
import { useDesk, useOpenReview } from './DeskContext.ts';
import styles from './LightTable.module.css';
import { momentsOf } from './panel/momentsOf.ts';
import { Still } from './panel/Still.tsx';
import { useCrossLookedAt, useMovingPart } from './useLookedAt.ts';

const words = reviewScreenWords.table;

/** The frames of a cross side by side where the picture was, in the order in which they happened. */
export function LightTable() {
  const { desk } = useDesk();
  const { keyboard } = useWorkbench();
  const { course } = useOpenReview();
  const cross = useCrossLookedAt();
  const kind = (cross ? obstacleAt(course, cross.place)?.kind : undefined) ?? 'unknown';
  const moments = cross ? momentsOf(cross, kind) : [];
  const part = useMovingPart(moments);
  const close = (): void => {
    desk.set({ table: false });
  };
  return (
    <div className={styles['table']} role="group" aria-label={words.label}>
      <p className={styles['head']}>
        {cross ? (
          <>
            <strong>
              {sentenceCase(reviewScreenWords.keys.cross(crossWords[cross.kind], cross.place))}:{' '}
              {crossVerdictWords[cross.verdict]}.
            </strong>
            <span>{crossSentence(cross, kind)}</span>
          </>
        ) : (
          <strong>{words.empty}</strong>
        )}
        <button type="button" className={styles['close']} onClick={close}>
          <KeyCap name={keyboard.keyFor('review.table')} /> {words.close}
        </button>
      </p>
      <ul className={styles['frames']} data-columns={moments.length <= 4 ? 2 : moments.length <= 6 ? 3 : 4}>
        {moments.map((m) => (
          <Still
            key={m.moment.markId}
            what={m.what}
            moment={m.moment}
            lead={m.lead}
            part={part}
            onGo={close}
          />
        ))}
      </ul>
    </div>
  );
}
