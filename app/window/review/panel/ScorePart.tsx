import { useMemo } from 'react';
import { checkCourse } from '../../../../src/course/checkCourse.ts';
import type { RuleBook } from '../../../../src/course/rules/book.ts';
import { inUnits } from '../../../../src/course/rules/hundredths.ts';
import type { Analysis } from '../../../../src/review/analysis.ts';
import { runKinds, type Header } from '../../../../src/review/document.ts';
import { scoreOfRun } from '../../../../src/review/runScore.ts';
import { reportWords } from '../../../../src/words/report.ts';
import { rulesPageWords } from '../../../../src/words/rulesPage.ts';
import { scoreWords } from '../../../../src/words/score.ts';
import { scorePartWords as words } from '../../../../src/words/scorePart.ts';
import { SelectField } from '../../look/Field.tsx';
import { bookChoice, useBookOf, withBook } from '../../stores/bookOf.ts';
import { useHeader } from '../../stores/header.ts';
import { useRuleBooks, useWorkbench } from '../../stores/react.ts';
import { addressOf } from '../../stores/route.ts';
import { useDesk, useOpenReview } from '../DeskContext.ts';
import styles from './ScorePart.module.css';

/** What the marks of the run come to under the rule book of its course. */
export function ScorePart({ analysis }: { readonly analysis: Analysis }) {
  const { review } = useWorkbench();
  const { id, course } = useOpenReview();
  const { header, change } = useHeader();
  const books = useRuleBooks((v) => v.books);
  const known = useRuleBooks((v) => v.known);
  const { summary, book } = useBookOf(course);
  const { usable, options, name } = bookChoice(course, books, words.noBook);
  return (
    <section className={styles['part']} aria-label={words.title}>
      <h3>{words.title}</h3>
      <div className={styles['fields']}>
        <SelectField
          label={words.book}
          value={course.ruleBook ?? ''}
          options={options}
          onChange={(chosen) => {
            const found = usable.find((b) => b.id === chosen);
            const label = found ? rulesPageWords.labels.book(found.name) : rulesPageWords.labels.noBook;
            const now = review.getState().state?.course ?? course;
            void review.apply(label, [{ kind: 'course', id, body: withBook(now, found) }]);
          }}
        />
        <SelectField<Header['runKind']>
          label={words.run}
          value={header.runKind}
          options={runKinds.map((kind) => [kind, reportWords.run.kinds[kind]])}
          onChange={(runKind) => {
            change(reportWords.labels.run, { runKind });
          }}
        />
      </div>
      {course.ruleBook === undefined && <p className={styles['soft']}>{words.choose}</p>}
      {course.ruleBook !== undefined && known && !summary && <p role="status">{words.notHere(name)}</p>}
      {summary && !book && summary.content !== null && <p role="status">{words.reading}</p>}
      {book && <Scored book={book} analysis={analysis} />}
    </section>
  );
}

function Scored({ book, analysis }: { readonly book: RuleBook; readonly analysis: Analysis }) {
  const { desk } = useDesk();
  const { id, course, header } = useOpenReview();
  const level = course.head?.level.trim() ?? '';
  const { score, between, onlyNoted, outside } = useMemo(() => {
    const { times } = checkCourse(course, book);
    return scoreOfRun(book, {
      analysis,
      run: header.runKind,
      level: level === '' ? undefined : level,
      times,
    });
  }, [book, course, analysis, header.runKind, level]);
  const tries = Math.max(analysis.countedTry, analysis.startLine.length);
  const go = (place: number | undefined): void => {
    if (place !== undefined) desk.goToPlace(place);
  };
  return (
    <>
      <p className={styles['told']} data-figure="score">
        {scoreWords.told(score)}
      </p>
      {between && <p data-figure="score-between">{words.between(between.fastest, between.slowest)}</p>}
      {score.counted.length > 0 && (
        <>
          <h4>{words.counted}</h4>
          <ul>
            {score.counted.map((c, i) => (
              <li key={i} className={styles['line']}>
                <button
                  type="button"
                  className={styles['go']}
                  disabled={c.event.place === undefined}
                  onClick={() => {
                    go(c.event.place);
                  }}
                >
                  {scoreWords.event(c.event)}
                </button>
                <span className={styles['figure']}>{words.faults(inUnits(c.faults).toFixed(2))}</span>
              </li>
            ))}
          </ul>
        </>
      )}
      {score.notCounted.length > 0 && (
        <>
          <h4>{words.notCounted}</h4>
          <ul className={styles['soft']}>
            {score.notCounted.map((n, i) => (
              <li key={i}>{scoreWords.notCounted(n)}</li>
            ))}
          </ul>
        </>
      )}
      <p className={styles['soft']}>
        {[
          words.tries(tries),
          onlyNoted.length > 0 ? words.onlyNoted(onlyNoted.length) : '',
          outside.length > 0 ? words.outside(outside.length) : '',
          score.maximumUnknown ? scoreWords.maximumUnknown : '',
          words.unofficial,
        ]
          .filter((s) => s !== '')
          .join(' ')}
      </p>
      <p className={styles['soft']}>
        <a href={addressOf({ screen: 'course', reviewId: id })}>{words.toRules}</a>
      </p>
    </>
  );
}
