import type { WorkSaid } from '../../../src/review/coachSays.ts';
import { lostAfter } from '../../../src/report/runFacts.ts';
import { whereSeen } from '../../../src/report/toTrain.ts';
import { exerciseFor, type Exercise } from '../../../src/review/exercise.ts';
import { workOn, type WorkItem, type WorkTheme } from '../../../src/review/workOn.ts';
import { coachingReport } from '../../../src/words/coachingReport.ts';
import { exerciseCautions, usualExercises, workThemeWords } from '../../../src/words/exercises.ts';
import { reportWords } from '../../../src/words/report.ts';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import { useAnalysis, usePreferences, useReview, useWorkbench } from '../stores/react.ts';
import { addressOf } from '../stores/route.ts';
import { useHeader } from '../stores/header.ts';
import { useRunFacts } from './useRunFacts.ts';
import styles from './WorkOnPart.module.css';

const words = reportWords.workOn;

/** The last of them stands under every report, and so below this part. */
const ownCautions = exerciseCautions.slice(0, -1);

/** What the run says to work on, one or two things with an exercise each; one act puts it in the coach's words. */
export function WorkOnPart() {
  const analysis = useAnalysis();
  const { header, change, changeWords } = useHeader();
  const list = usePreferences((p) => p.exercises) ?? usualExercises;
  const facts = useRunFacts(
    useReview((view) => view.state),
    analysis,
  );
  const found = analysis && workOn(analysis, header.stage, lostAfter(facts), header.work);
  const say = (theme: WorkTheme, first: boolean): void => {
    const { first: firsts, notNow } = without(header.work, theme);
    const work = first
      ? { first: [theme, ...firsts], notNow }
      : { first: firsts, notNow: [...notNow, theme] };
    change(words.say, { work });
  };
  const lineOf = (item: WorkItem): string => lineWith(item, exerciseFor(item.theme, list));
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
            exercise={exerciseFor(item.theme, list)}
            onPut={put}
            onNotNow={() => {
              say(item.theme, false);
            }}
          />
        ))}
      </ol>
      {found.also.length > 0 && (
        <>
          <p className={styles['soft']}>{words.onlyNoted}</p>
          <ul className={styles['also']}>
            {found.also.map((item) => (
              <li key={item.theme} className={styles['row']}>
                <span>{`${workThemeWords[item.theme]} ${whereSeen(item)}`.trim()}</span>
                <Button
                  kind="quiet"
                  aria-label={`${words.putFirst}: ${workThemeWords[item.theme]}`}
                  onClick={() => {
                    say(item.theme, true);
                  }}
                >
                  {words.putFirst}
                </Button>
              </li>
            ))}
          </ul>
        </>
      )}
      {header.work && (
        <div className={styles['row']}>
          <span className={styles['soft']}>{words.yourWord}</span>
          <Button
            kind="quiet"
            onClick={() => {
              change(words.say, { work: undefined });
            }}
          >
            {words.byTheRun}
          </Button>
        </div>
      )}
      <p className={styles['soft']}>
        <a href={addressOf({ screen: 'settings' })}>{words.toExercises}</a>
      </p>
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
  readonly exercise: Exercise | null;
  readonly onPut: (item: WorkItem) => void;
  readonly onNotNow: () => void;
}

function Item({ item, isIn, isNext, exercise, onPut, onNotNow }: ItemProps) {
  const { route, lookAt } = useWorkbench();
  const reviewId = useReview((view) => view.id);
  const seen = item.instances.find((i) => i.moment);
  return (
    <li className={styles['item']}>
      <h3>
        {workThemeWords[item.theme]} <span className={styles['soft']}>{whereSeen(item)}</span>
        {item.surelyLost > 0 && (
          <span className={styles['soft']}>{`, ${coachingReport.trainLost(item.surelyLost)}`}</span>
        )}
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
        <Button kind="quiet" aria-label={`${words.notNow}: ${workThemeWords[item.theme]}`} onClick={onNotNow}>
          {words.notNow}
        </Button>
      </div>
    </li>
  );
}

/** What is put in the coach's words. */
function lineWith(item: WorkItem, exercise: Exercise | null): string {
  const what = `${workThemeWords[item.theme]} ${whereSeen(item)}`.trim();
  return exercise ? `${what}: ${exercise.title}. ${exercise.how}` : `${what}.`;
}

/** What was said of all other themes. */
function without(said: WorkSaid | undefined, theme: WorkTheme): WorkSaid {
  const others = (themes: readonly WorkTheme[] = []): WorkTheme[] => themes.filter((t) => t !== theme);
  return { first: others(said?.first), notNow: others(said?.notNow) };
}
