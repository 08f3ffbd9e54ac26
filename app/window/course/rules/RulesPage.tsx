import { useMemo } from 'react';
import { checkCourse } from '../../../../src/course/checkCourse.ts';
import type { RuleBook } from '../../../../src/course/rules/book.ts';
import type { RuleBookSummary } from '../../../../src/host/contract/shapes.ts';
import { rulesPageWords as words } from '../../../../src/words/rulesPage.ts';
import { Button } from '../../look/Button.tsx';
import { SelectField } from '../../look/Field.tsx';
import { usePreferences, useRuleBooks } from '../../stores/react.ts';
import { useBoard } from '../BoardContext.ts';
import { useCourse } from '../useCourse.ts';
import { Findings } from './Findings.tsx';
import { HeadFields } from './HeadFields.tsx';
import { LengthsAndTimes } from './LengthsAndTimes.tsx';
import styles from './RulesPage.module.css';
import { TimingFields } from './TimingFields.tsx';
import { bookChoice, useBookOf, withBook } from '../../stores/bookOf.ts';
import { useCourseInHand } from './useCourseInHand.ts';

/** The course held against a rule book: which one, what it makes of the course, lengths and course times. */
export function RulesPage() {
  const { state, changeCourse } = useCourse();
  const { course } = state;
  const view = useRuleBooks((v) => v);
  const { summary, book } = useBookOf(course);
  const chooseBook = (chosen: RuleBookSummary | undefined): void => {
    const label = chosen ? words.labels.book(chosen.name) : words.labels.noBook;
    changeCourse(label, (c) => withBook(c, chosen));
  };
  const then = course.ruleBookChosen;
  const { usable, options, name } = bookChoice(course, view.books, words.noBook);
  const [first] = usable;

  return (
    <div className={styles['page']}>
      <section className={styles['part']}>
        <h2>{words.title}</h2>
        <SelectField
          label={words.book}
          value={course.ruleBook ?? ''}
          options={options}
          onChange={(id) => {
            chooseBook(usable.find((b) => b.id === id));
          }}
        />
        {course.ruleBook === undefined && (
          <>
            <p className={styles['soft']}>{words.choose}</p>
            {first && (
              <div>
                <Button
                  kind="main"
                  onClick={() => {
                    chooseBook(first);
                  }}
                >
                  {words.use(first.name)}
                </Button>
              </div>
            )}
            <p className={styles['soft']}>{words.more}</p>
          </>
        )}
        {course.ruleBook !== undefined && view.known && !summary && (
          <p role="status">{words.notHere(name)}</p>
        )}
        {summary && then && summary.content !== then.content && (
          <div className={styles['asked']} role="status">
            <p>{words.differs(summary.name)}</p>
            <Button
              onClick={() => {
                chooseBook(summary);
              }}
            >
              {words.goByIt}
            </Button>
          </div>
        )}
      </section>
      {summary && !book && summary.content !== null && <p role="status">{words.reading}</p>}
      {book && <Checked book={book} />}
    </div>
  );
}

/** What is typed stands apart from what is measured: only that is drawn anew while something is dragged. */
function Checked({ book }: { readonly book: RuleBook }) {
  return (
    <>
      <HeadFields book={book} />
      <Measured book={book} />
      <TimingFields book={book} />
      <p className={styles['soft']}>{words.unofficial}</p>
    </>
  );
}

function Measured({ book }: { readonly book: RuleBook }) {
  const board = useBoard();
  const { state } = useCourse();
  const course = useCourseInHand(board, state.course);
  const lengths = usePreferences((p) => p.lengths);
  const unit = course.unit ?? lengths;
  const check = useMemo(() => checkCourse(course, book), [course, book]);
  return (
    <>
      <Findings findings={check.findings} unit={unit} book={book} />
      <LengthsAndTimes check={check} unit={unit} book={book} />
    </>
  );
}
