import { CourseHead } from '../../../../src/course/course.ts';
import type { RuleBook } from '../../../../src/course/rules/book.ts';
import { disciplines, type Discipline } from '../../../../src/course/rules/runRules.ts';
import { rulesPageWords as words } from '../../../../src/words/rulesPage.ts';
import { SelectField } from '../../look/Field.tsx';
import { useCourse } from '../useCourse.ts';
import { asksFor } from './asksFor.ts';
import styles from './RulesPage.module.css';
import { withTiming } from './timing.ts';

/** What the book has to know of the class: height category, level, discipline. Only what it asks for is shown. */
export function HeadFields({ book }: { readonly book: RuleBook }) {
  const { state, changeCourse } = useCourse();
  const { course } = state;
  const head = (
    name: 'heightCategory' | 'level',
    label: string,
    known: readonly (readonly [string, string])[],
  ) => {
    const now = course.head?.[name] ?? '';
    return (
      <SelectField
        label={label}
        value={now}
        options={[
          ['', words.unsaid],
          ...known,
          ...(now === '' || known.some(([id]) => id === now) ? [] : [[now, words.notInBook(now)] as const]),
        ]}
        onChange={(id) => {
          changeCourse(words.labels.head(label), (c) => ({
            ...c,
            head: CourseHead.parse({ ...c.head, [name]: id }),
          }));
        }}
      />
    );
  };
  const { categories, scoring } = book;
  return (
    <div className={styles['fields']}>
      {categories &&
        head(
          'heightCategory',
          words.category,
          categories.value.map((c) => [c.id, c.id === c.name ? c.name : `${c.id}, ${c.name}`] as const),
        )}
      {scoring.levels.length > 0 &&
        head(
          'level',
          words.level,
          scoring.levels.map((l) => [l.value.id, l.value.name] as const),
        )}
      {asksFor(book).discipline && (
        <SelectField<Discipline | ''>
          label={words.discipline}
          value={course.timing?.discipline ?? ''}
          options={[['', words.unsaid], ...disciplines.map((d) => [d, words.disciplines[d]] as const)]}
          onChange={(discipline) => {
            changeCourse(words.labels.head(words.discipline), (c) =>
              withTiming(c, { discipline: discipline === '' ? undefined : discipline }),
            );
          }}
        />
      )}
    </div>
  );
}
