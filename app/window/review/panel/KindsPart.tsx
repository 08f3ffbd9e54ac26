import type { Analysis } from '../../../../src/review/analysis.ts';
import { timesOnKinds } from '../../../../src/review/compare/byKind.ts';
import { figure } from '../../../../src/words/figures.ts';
import { sentenceCase } from '../../../../src/words/review.ts';
import { splitPartWords } from '../../../../src/words/splitParts.ts';
import { obstacleWords } from '../../../../src/words/trade.ts';
import { usePreferences } from '../../stores/react.ts';
import styles from './SplitParts.module.css';

const words = splitPartWords.kinds;

/** The mean time on each kind of obstacle. */
export function KindsPart({ analysis }: { readonly analysis: Analysis }) {
  const dialect = usePreferences((p) => p.dialect);
  const kinds = [...timesOnKinds(analysis)];
  return (
    <section className={styles['part']} aria-label={words.title}>
      <h3>{words.title}</h3>
      {kinds.length === 0 && <p className={styles['soft']}>{words.none}</p>}
      <dl className={styles['figures']}>
        {kinds.map(([kind, { count, mean }]) => (
          <div key={kind}>
            <dt>
              {sentenceCase(obstacleWords[dialect][kind])}{' '}
              <span className={styles['soft']}>{words.count(count)}</span>
            </dt>
            <dd data-figure={`kind-${kind}`}>{figure(mean)}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
