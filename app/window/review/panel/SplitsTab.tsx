import type { Analysis } from '../../../../src/review/analysis.ts';
import { figure } from '../../../../src/words/figures.ts';
import { clockSentence, obstacleName } from '../../../../src/words/review.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { obstacleAt } from '../../../../src/course/course.ts';
import { useAnalysis, usePreferences } from '../../stores/react.ts';
import { useDesk, useOpenReview } from '../DeskContext.ts';
import { Empty } from './Empty.tsx';
import { KindsPart } from './KindsPart.tsx';
import { OfficialPart } from './OfficialPart.tsx';
import { ScorePart } from './ScorePart.tsx';
import { SectionsPart } from './SectionsPart.tsx';
import { SpeedsPart } from './SpeedsPart.tsx';
import styles from './SplitsTab.module.css';

const words = reviewScreenWords.splits;

/** The time of the run and of each stretch, with its plus or minus. */
export function SplitsTab() {
  const analysis = useAnalysis();
  if (!analysis || analysis.taken.length === 0) return <Empty title={words.stretch} text={words.empty} />;
  return (
    <>
      <RunTime analysis={analysis} />
      <ScorePart analysis={analysis} />
      <Splits analysis={analysis} />
      <p className={styles['soft']}>{words.outToOut}</p>
      <SectionsPart analysis={analysis} />
      <KindsPart analysis={analysis} />
      <SpeedsPart analysis={analysis} />
      <OfficialPart analysis={analysis} />
    </>
  );
}

function RunTime({ analysis }: { readonly analysis: Analysis }) {
  const { clock } = analysis;
  return (
    <section className={styles['clock']}>
      <h3>{words.runTime}</h3>
      {clock ? (
        <>
          <p className={styles['time']} data-figure="runTime">
            {figure(clock.time)}
            {!clock.complete && <span className={styles['soft']}> {words.soFar}</span>}
          </p>
          <p className={styles['soft']}>{clockSentence(clock)}</p>
        </>
      ) : (
        <p className={styles['soft']}>{words.noClock}</p>
      )}
    </section>
  );
}

function Splits({ analysis }: { readonly analysis: Analysis }) {
  const { desk } = useDesk();
  const { course } = useOpenReview();
  const dialect = usePreferences((p) => p.dialect);
  const last = Math.max(...analysis.taken.filter((t) => t.try === analysis.countedTry).map((t) => t.place));
  const numbers = course.steps.map((s) => s.number).filter((n) => n <= last);
  const bySplit = new Map(analysis.splits.map((s) => [s.to, s]));
  return (
    <table className={styles['table']}>
      <thead>
        <tr>
          <th scope="col">{words.stretch}</th>
          <th scope="col" className={styles['figure']}>
            {words.time}
          </th>
        </tr>
      </thead>
      <tbody>
        {numbers.map((n) => {
          const split = bySplit.get(n);
          const from = split ? (split.from ?? words.fromStart) : '';
          return (
            <tr key={n} data-open={!split}>
              <th scope="row">
                <button
                  type="button"
                  className={styles['go']}
                  onClick={() => {
                    desk.goToPlace(n);
                  }}
                >
                  <span className={styles['numbers']}>{split ? `${from} – ${n}` : n}</span>
                  <span className={styles['name']}>{obstacleName(obstacleAt(course, n), dialect)}</span>
                </button>
              </th>
              <td className={styles['figure']} data-figure={`split-${n}`}>
                {split ? figure({ ...split.time, unit: '1' }) : words.notMarked}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
