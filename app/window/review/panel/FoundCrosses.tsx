import { crossFoundWords as words } from '../../../../src/words/aroundCross.ts';
import { sentenceCase } from '../../../../src/words/review.ts';
import { crossWords } from '../../../../src/words/trade.ts';
import { Button } from '../../look/Button.tsx';
import { useAnalysis } from '../../stores/react.ts';
import { GoToTime } from '../GoToTime.tsx';
import { markedAs } from '../track/foundCrosses.ts';
import styles from './AroundCross.module.css';
import { useFoundCrosses, useRunReading, useTakeFound } from './useFoundCrosses.ts';

/** Crosses that the two paths show and nobody has marked: the coach takes them over or does not. */
export function FoundCrosses() {
  const found = useFoundCrosses();
  const crosses = useAnalysis()?.crosses ?? [];
  const take = useTakeFound();
  const read = useRunReading();
  const open = found.filter((f) => !markedAs(f, crosses));
  if (open.length === 0) return null;
  return (
    <section className={styles['found']} aria-label={words.title}>
      <h3>{words.title}</h3>
      {open.map((f) => (
        <div key={f.crossed.handlerAt.value} className={styles['found']} data-found={f.place}>
          <GoToTime at={f.crossed.handlerAt.value}>{sentenceCase(words.told(f))}</GoToTime>
          <span>{words.crossed(f.crossed, read)}</span>
          <Button
            aria-label={words.takeOne(crossWords[f.kind], f.place)}
            onClick={() => {
              take(f, null);
            }}
          >
            {words.take}
          </Button>
        </div>
      ))}
      <p className={styles['soft']}>{words.hint}</p>
    </section>
  );
}
