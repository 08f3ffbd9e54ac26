import { useMemo } from 'react';
import { checkCourse } from '../../../src/course/checkCourse.ts';
import { CourseHead } from '../../../src/course/course.ts';
import type { CourseFinding } from '../../../src/course/courseFindings.ts';
import { courseCheckWords } from '../../../src/words/courseCheck.ts';
import { drawingWords } from '../../../src/words/drawing.ts';
import { Button } from '../look/Button.tsx';
import { SelectField } from '../look/Field.tsx';
import { useBoard } from './BoardContext.ts';
import { choosePlace } from './board/choosing.ts';
import styles from './CheckPage.module.css';
import { useCourse } from './useCourse.ts';
import { useRuleBook, useRuleBooks } from './useRuleBooks.ts';

const words = drawingWords.rules;
const labels = drawingWords.labels;

/** The course held against the rule book that it is built by: each finding with the entry it goes by. */
export function RulesCheck() {
  const { state, changeCourse } = useCourse();
  const { course } = state;
  const board = useBoard();
  const books = useRuleBooks();
  const book = useRuleBook(course.ruleBook);
  const check = useMemo(() => (book ? checkCourse(course, book) : null), [course, book]);
  const unit = board.desk.unit();
  const categories = book?.categories?.value ?? [];
  const chosen = course.head?.heightCategory ?? '';

  const choose = (id: string): void => {
    const summary = books.find((b) => b.id === id);
    changeCourse(labels.ruleBook, ({ ruleBook: _, ruleBookChosen: __, ...rest }) =>
      summary
        ? {
            ...rest,
            ruleBook: id,
            ...(summary.content === null
              ? {}
              : { ruleBookChosen: { name: summary.name, content: summary.content } }),
          }
        : rest,
    );
  };
  return (
    <section className={styles['page']}>
      <h2>{words.title}</h2>
      <div className={styles['choices']}>
        <SelectField
          label={words.book}
          value={course.ruleBook ?? ''}
          options={[['', words.noBook], ...bookOptions(books, course.ruleBook)]}
          onChange={choose}
        />
        {book && (
          <SelectField
            label={words.category}
            value={categories.some((c) => c.id === chosen) ? chosen : ''}
            options={[['', words.noCategory], ...categories.map((c) => [c.id, c.name] as const)]}
            onChange={(heightCategory) => {
              changeCourse(labels.head(words.category), (c) => ({
                ...c,
                head: CourseHead.parse({ ...c.head, heightCategory }),
              }));
            }}
          />
        )}
      </div>
      {check && book && (
        <>
          <ul className={styles['facts']}>
            <li>{courseCheckWords.length('centres', check.lengths.centres, unit)}</li>
            <li>{courseCheckWords.length('wheelPath', check.lengths.wheelPath, unit)}</li>
            <li>{courseCheckWords.time('standard', check.times.standard)}</li>
            <li>{courseCheckWords.time('maximum', check.times.maximum)}</li>
          </ul>
          <Findings list={check.findings.filter((f) => isOff(f))} />
          <Folded
            title={words.open}
            list={check.findings.filter((f) => f.judgement.verdict === 'cannotTell')}
          />
          <Folded title={words.held} list={check.findings.filter((f) => f.judgement.verdict === 'holds')} />
          <p className={styles['soft']}>{words.unofficial}</p>
        </>
      )}
    </section>
  );
}

/** True of a finding that the rule book does not allow. */
export const isOff = ({ judgement }: CourseFinding): boolean =>
  judgement.verdict === 'below' || judgement.verdict === 'above';

/** The books as choices; one that the course names and this library does not have stays in the list. */
function bookOptions(
  books: readonly { readonly id: string; readonly name: string }[],
  now: string | undefined,
): readonly (readonly [string, string])[] {
  const known = books.map(({ id, name }) => [id, name] as const);
  return now === undefined || books.some((b) => b.id === now) ? known : [...known, [now, now]];
}

function Folded({
  title,
  list,
}: {
  readonly title: (n: number) => string;
  readonly list: readonly CourseFinding[];
}) {
  if (list.length === 0) return null;
  return (
    <details>
      <summary>{title(list.length)}</summary>
      <Findings list={list} />
    </details>
  );
}

function Findings({ list }: { readonly list: readonly CourseFinding[] }) {
  const board = useBoard();
  return (
    <ul className={styles['list']}>
      {list.map((f, i) => {
        const [first] = f.numbers;
        return (
          <li key={i}>
            <span>
              {courseCheckWords.told(f, board.desk.unit())}
              <span className={styles['by']}>{courseCheckWords.by(f.rule)}</span>
            </span>
            {first !== undefined && f.numbers.length < 4 && (
              <Button
                kind="quiet"
                onClick={() => {
                  choosePlace(board, first);
                }}
              >
                {drawingWords.check.show}
              </Button>
            )}
          </li>
        );
      })}
    </ul>
  );
}
