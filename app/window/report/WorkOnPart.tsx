import { exerciseFor } from '../../../src/review/exercise.ts';
import { workOn, type WorkItem } from '../../../src/review/workOn.ts';
import { exerciseCautions, usualExercises, workThemeWords } from '../../../src/words/exercises.ts';
import { reportWords } from '../../../src/words/report.ts';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import { useAnalysis, useReview, useWorkbench } from '../stores/react.ts';
import { useHeader } from '../stores/header.ts';
import styles from './WorkOnPart.module.css';

const words = reportWords.workOn;

/** The last of them stands under every report, and so below this part. */
const ownCautions = exerciseCautions.slice(0, -1);

/** What the run says to work on, one or two things with an exercise each; one act puts it in the coach's words. */
export function WorkOnPart() {
  const analysis = useAnalysis();
  const { header, changeWords } = useHeader();
  const found = analysis && workOn(analysis, header.stage);
  const { toTrain } = header.words;
  const open = found?.first.filter((item) => !toTrain.includes(lineOf(item)));
  const put = (item: WorkItem): void => {
    const before = toTrain.trimEnd();
    changeWords(words.put, { toTrain: before === '' ? lineOf(item) : `${before}\n${lineOf(item)}` });
  };
  const [next] = open ?? [];
  useActs({
    'report.toTrain': next
      ? () => {
          put(next);
        }
      : undefined,
  });
  if (!found || (found.first.length === 0 && found.also.length === 0)) return null;
  return (
    <section className={styles['part']}>
      <h2>{words.title}</h2>
      <p className={styles['soft']}>{words.intro}</p>
      <ol className={styles['items']}>
        {found.first.map((item) => (
          <Item
            key={item.theme}
            item={item}
            isIn={!open?.includes(item)}
            isNext={item === next}
            onPut={put}
          />
        ))}
      </ol>
      {found.also.length > 0 && (
        <p className={styles['soft']}>
          {words.onlyNoted}{' '}
          {found.also.map((item) => `${workThemeWords[item.theme]} ${whereOf(item)}`.trim()).join('; ')}.
        </p>
      )}
      <ul className={styles['cautions']}>
        {ownCautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}

interface ItemProps {
  readonly item: WorkItem;
  readonly isIn: boolean;
  readonly isNext: boolean;
  readonly onPut: (item: WorkItem) => void;
}

function Item({ item, isIn, isNext, onPut }: ItemProps) {
  const { route, lookAt } = useWorkbench();
  const reviewId = useReview((view) => view.id);
  const exercise = exerciseFor(item.theme, usualExercises);
  const seen = item.instances.find((i) => i.moment);
  return (
    <li className={styles['item']}>
      <h3>
        {workThemeWords[item.theme]} <span className={styles['soft']}>{whereOf(item)}</span>
      </h3>
      {exercise && (
        <p>
          <strong>{exercise.title}.</strong> {exercise.how}
        </p>
      )}
      <div className={styles['row']}>
        {isIn ? (
          <span className={styles['soft']}>{words.isIn}</span>
        ) : (
          <Button
            {...(isNext ? { act: 'report.toTrain' as const } : {})}
            onClick={() => {
              onPut(item);
            }}
          >
            {reportWords.acts.toTrain}
          </Button>
        )}
        {seen?.moment && reviewId !== null && (
          <Button
            kind="quiet"
            onClick={() => {
              if (seen.moment) lookAt.ask(seen.moment.markId);
              route.go({ screen: 'review', reviewId });
            }}
          >
            {words.look}
          </Button>
        )}
      </div>
    </li>
  );
}

function whereOf(item: WorkItem): string {
  const tries = item.instances.flatMap(({ of }) => (of.what === 'try' ? [of.try.try] : []));
  if (tries.length > 0) return words.tries(tries);
  const places = [...new Set(item.instances.flatMap(({ place }) => place ?? []))];
  return words.at(places);
}

/** What is put in the coach's words. */
function lineOf(item: WorkItem): string {
  const exercise = exerciseFor(item.theme, usualExercises);
  const what = `${workThemeWords[item.theme]} ${whereOf(item)}`.trim();
  return exercise ? `${what}: ${exercise.title}. ${exercise.how}` : `${what}.`;
}
