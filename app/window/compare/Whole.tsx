import { compareWords, differenceTold, letterOf } from '../../../src/words/compare.ts';
import { figure } from '../../../src/words/figures.ts';
import type { DetailsProps } from './Details.tsx';
import styles from './Details.module.css';

const words = compareWords.summary;
const best = compareWords.best;

/** The run times, what the runs differ by as a whole, and the quickest stretches put together. */
export function Whole({ runs, side }: DetailsProps) {
  return (
    <section className={styles['whole']}>
      <h2>{words.title}</h2>
      <dl className={styles['times']}>
        {runs.map(({ id, analysis: { clock } }, i) => (
          <div key={id}>
            <dt>{letterOf(i)}</dt>
            <dd>
              {clock ? figure(clock.time) : words.none}
              {clock && !clock.complete && <span className={styles['soft']}> {words.soFar}</span>}
            </dd>
          </div>
        ))}
      </dl>
      {side.together.map((all, i) => {
        if (!all) return null;
        const told = differenceTold(all.difference);
        const ran = side.rows.filter((row) => row.parts[i]).length;
        return (
          <div key={runs[i]?.id} className={styles['together']}>
            <p className={styles['soft']}>{words.together(letterOf(0), letterOf(i), ran)}</p>
            <p data-sure={told.sure}>
              <b>{told.figure}</b> {told.word}
            </p>
            {all.distance && all.speed && (
              <p>
                {differenceTold(all.distance).figure} {words.distance}, {differenceTold(all.speed).figure}{' '}
                {words.speed}
              </p>
            )}
          </div>
        );
      })}
      <Best runs={runs} side={side} />
    </section>
  );
}

function Best({ runs, side }: Pick<DetailsProps, 'runs' | 'side'>) {
  if (!side.best) return null;
  const { rows, sum, complete } = side.best;
  const from = runs.flatMap((_, i) => {
    const n = rows.filter((row) => row.run === i).length;
    return n > 0 ? [best.of(n, letterOf(i))] : [];
  });
  return (
    <>
      <h2>{best.title}</h2>
      <p>
        <b>{figure(sum)}</b> <span className={styles['soft']}>{from.join(', ')}</span>
      </p>
      <p className={styles['soft']}>{best.caution}</p>
      {!complete && <p className={styles['soft']}>{best.incomplete}</p>}
    </>
  );
}
