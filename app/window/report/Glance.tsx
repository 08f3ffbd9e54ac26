import type { Analysis } from '../../../src/review/analysis.ts';
import { coachingReport } from '../../../src/words/coachingReport.ts';
import { figure } from '../../../src/words/figures.ts';
import { reportWords } from '../../../src/words/report.ts';
import { clockSentence, stayVerdictWords } from '../../../src/words/review.ts';
import { useAnalysis, useReview } from '../stores/react.ts';
import { addressOf } from '../stores/route.ts';
import styles from './Glance.module.css';

const words = reportWords.glance;

/** The figures that the report will open with, as they stand now. */
export function Glance() {
  const analysis = useAnalysis();
  const id = useReview((view) => view.id) ?? '';
  const numbers = useReview((view) => view.state?.course.steps.length ?? 0);
  const marks = useReview((view) => view.state?.marks.length ?? 0);
  const filmed = useReview((view) => (view.state?.footage.length ?? 0) > 0);
  return (
    <section className={styles['glance']}>
      <h2>{words.title}</h2>
      {marks === 0 ? (
        <p className={styles['soft']}>{filmed ? words.nothing : words.noFootage}</p>
      ) : analysis ? (
        <Figures analysis={analysis} numbers={numbers} />
      ) : (
        <p className={styles['soft']}>{words.none}</p>
      )}
      <p>
        <a href={addressOf({ screen: 'review', reviewId: id })}>{words.toReview}</a>
      </p>
    </section>
  );
}

function Figures({ analysis, numbers }: { readonly analysis: Analysis; readonly numbers: number }) {
  const { clock, countedTry, crosses, startLine, events, warnings } = analysis;
  const taken = new Set(analysis.taken.filter((t) => t.try === countedTry).map((t) => t.place)).size;
  const inTime = crosses.filter((cross) => cross.verdict === 'inTime').length;
  return (
    <>
      <dl className={styles['figures']}>
        <dt>{words.clock}</dt>
        <dd>
          {clock ? figure(clock.time) : words.noClock}
          {clock && <span className={styles['soft']}>{clockSentence(clock)}</span>}
        </dd>
        <dt>{words.taken}</dt>
        <dd>{coachingReport.takenOf(taken, numbers)}</dd>
        <dt>{words.crosses}</dt>
        <dd>{crosses.length > 0 ? coachingReport.crossCount(inTime, crosses.length) : words.noCrosses}</dd>
        <dt>{words.stay}</dt>
        <dd>
          {startLine.length === 0
            ? words.noStay
            : startLine
                .map(
                  (t) =>
                    (startLine.length > 1 ? `${coachingReport.tryNamed(t.try)}: ` : '') +
                    stayVerdictWords[t.verdict],
                )
                .join('; ')}
        </dd>
        <dt>{words.events}</dt>
        <dd>{words.eventCount(events.length)}</dd>
      </dl>
      {warnings.length > 0 && <p className={styles['soft']}>{words.warnings(warnings.length)}</p>}
    </>
  );
}
