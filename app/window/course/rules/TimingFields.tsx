import type { CourseTiming } from '../../../../src/course/course.ts';
import type { RuleBook } from '../../../../src/course/rules/book.ts';
import { rulesPageWords as words } from '../../../../src/words/rulesPage.ts';
import { KeptField } from '../../look/Field.tsx';
import { useWorkbench } from '../../stores/react.ts';
import { useCourse } from '../useCourse.ts';
import { asksFor } from './asksFor.ts';
import styles from './RulesPage.module.css';
import { typedNumber, withTiming } from './timing.ts';

/** What course times follow from beside the length: only what the book asks for, and what a judge may state. */
export function TimingFields({ book }: { readonly book: RuleBook }) {
  const asks = asksFor(book);
  return (
    <div className={styles['fields']}>
      {asks.judgesSpeed && <TimingField name="judgesSpeed" label={words.speed} least={0.1} most={20} />}
      {asks.bestTime && <TimingField name="bestTime" label={words.bestTime} least={0.01} most={10_000} />}
      <TimingField name="statedStandard" label={words.standard} least={0.01} most={10_000} />
      <TimingField name="statedMaximum" label={words.maximum} least={0.01} most={10_000} />
    </div>
  );
}

interface TimingFieldProps {
  readonly name: Exclude<keyof CourseTiming, 'discipline'>;
  readonly label: string;
  readonly least: number;
  readonly most: number;
}

/** One number that course times follow from. */
function TimingField({ name, label, least, most }: TimingFieldProps) {
  const { notices } = useWorkbench();
  const { state, changeCourse } = useCourse();
  const value = state.course.timing?.[name];
  return (
    <KeptField
      label={label}
      inputMode="decimal"
      value={value === undefined ? '' : String(value)}
      onKeep={(text) => {
        const typed = typedNumber(text, least, most);
        if (typed === null) notices.getState().say(words.notANumber(label, least, most));
        else changeCourse(words.labels.head(label), (c) => withTiming(c, { [name]: typed }));
      }}
    />
  );
}
