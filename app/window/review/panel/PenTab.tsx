import { frameAt } from '../../../../src/time/frameTable.ts';
import { pts } from '../../../../src/time/units.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { Button } from '../../look/Button.tsx';
import { useReview } from '../../stores/react.ts';
import { useDesk, useDeskView, useOpenReview } from '../DeskContext.ts';
import type { Ink } from '../desk/view.ts';
import styles from './PenTab.module.css';
import { Leave } from '../Leave.tsx';

const words = reviewScreenWords.pen;
const order: readonly Ink[] = ['persimmon', 'chalk', 'sky', 'sun'];

/** The pen: four inks, and the stills that were drawn on. */
export function PenTab() {
  const { desk, hands } = useDesk();
  const { drawings } = useOpenReview();
  const clocks = useReview((v) => v.clocks);
  const ink = useDeskView((v) => v.ink);
  const stills = drawings
    .flatMap((d) => {
      const clock = clocks.get(d.footageId);
      return clock ? [{ ...d, frame: frameAt(clock.table, pts(d.pts)) }] : [];
    })
    .sort((a, b) => a.pts - b.pts);
  return (
    <div className={styles['pen']}>
      <h2 className={styles['title']}>{reviewScreenWords.keys.pen}</h2>
      <p className={styles['soft']}>{reviewScreenWords.picture.drawHere}</p>
      <div className={styles['inks']} role="group" aria-label={words.ink}>
        {order.map((name) => (
          <button
            key={name}
            type="button"
            className={styles['ink']}
            aria-pressed={name === ink}
            onClick={() => {
              desk.set({ ink: name });
            }}
          >
            <span className={styles['dot']} style={{ background: `var(--ink-${name})` }} />
            {words.inks[name]}
          </button>
        ))}
      </div>
      <div className={styles['acts']}>
        <Button
          act="review.pen.back"
          onClick={() => {
            hands.strokeBack();
          }}
        >
          {reviewScreenWords.keys.strokeBack}
        </Button>
        <Button
          act="review.pen.clear"
          onClick={() => {
            hands.clearDrawing();
          }}
        >
          {reviewScreenWords.keys.clear}
        </Button>
        <Leave kind="main">{words.done}</Leave>
      </div>
      <p className={styles['soft']}>{words.hint}</p>
      <h3 className={styles['title']}>{words.drawn}</h3>
      {stills.length === 0 && <p className={styles['soft']}>{words.none}</p>}
      <ul>
        {stills.map((s) => (
          <li key={s.id}>
            <button
              type="button"
              className={styles['go']}
              onClick={() => {
                desk.goTo(s.footageId, s.frame);
              }}
            >
              {reviewScreenWords.play.frame(s.frame)}
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}
