import { Exercise, mostExercises } from '../../../src/review/exercise.ts';
import { workThemes } from '../../../src/review/workOn.ts';
import {
  exerciseCautions,
  exerciseListWords as words,
  usualExercises,
  workThemeWords,
} from '../../../src/words/exercises.ts';
import { Button } from '../look/Button.tsx';
import { KeptArea, KeptField, Tick } from '../look/Field.tsx';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import styles from './Exercises.module.css';

/** The coach's list of exercises, over the usual cautions. */
export function Exercises() {
  const { preferences, notices } = useWorkbench();
  const own = usePreferences((p) => p.exercises);
  const list = own ?? usualExercises;
  // Two fields may be changed before the library has kept the first.
  const change = (next: (now: readonly Exercise[]) => readonly Exercise[]): void => {
    void preferences.change({ exercises: [...next(preferences.getState().exercises ?? usualExercises)] });
  };
  const set = (id: string, part: Partial<Exercise>, refused: string): void => {
    const now = list.find((e) => e.id === id);
    const read = Exercise.safeParse({ ...now, ...part });
    if (read.success) change((all) => all.map((e) => (e.id === id ? read.data : e)));
    else notices.getState().say(refused);
  };
  return (
    <section className={styles['section']}>
      <div className={styles['head']}>
        <h2>{words.title}</h2>
        <Button
          disabled={own === undefined}
          onClick={() => {
            void preferences.change({ exercises: undefined });
          }}
        >
          {words.usual}
        </Button>
      </div>
      <p className={styles['soft']}>{list.length === 0 ? words.none : words.intro}</p>
      <ul className={styles['list']}>
        {list.map((e, i) => (
          <li key={e.id}>
            <details>
              <summary className={styles['one']}>
                <strong>{e.title}</strong>{' '}
                <span className={styles['soft']}>{e.themes.map((t) => workThemeWords[t]).join(', ')}</span>
              </summary>
              <div className={styles['fields']}>
                <KeptField
                  label={words.one}
                  maxLength={120}
                  value={e.title}
                  onKeep={(title) => {
                    set(e.id, { title }, words.needsTitle);
                  }}
                />
                <KeptArea
                  label={words.how}
                  maxLength={2000}
                  value={e.how}
                  onKeep={(how) => {
                    set(e.id, { how }, words.needsTitle);
                  }}
                />
                <fieldset className={styles['themes']}>
                  <legend>{words.helps}</legend>
                  {workThemes.map((theme) => (
                    <Tick
                      key={theme}
                      label={workThemeWords[theme]}
                      checked={e.themes.includes(theme)}
                      onChange={(on) => {
                        const others = e.themes.filter((t) => t !== theme);
                        set(e.id, { themes: on ? [...others, theme] : others }, words.needsTheme);
                      }}
                    />
                  ))}
                </fieldset>
                <div className={styles['row']}>
                  <Button
                    kind="quiet"
                    disabled={i === 0}
                    aria-label={words.up(e.title)}
                    onClick={() => {
                      change((all) => movedUp(all, e.id));
                    }}
                  >
                    {words.upShort}
                  </Button>
                  <Button
                    kind="quiet"
                    aria-label={words.remove(e.title)}
                    onClick={() => {
                      change((all) => all.filter((other) => other.id !== e.id));
                    }}
                  >
                    {words.removeShort}
                  </Button>
                </div>
              </div>
            </details>
          </li>
        ))}
      </ul>
      <div>
        <Button
          onClick={() => {
            if (list.length >= mostExercises) notices.getState().say(words.full(mostExercises));
            else
              // Last, so that an empty one takes no other's place.
              change((all) => [
                ...all,
                { id: crypto.randomUUID(), themes: [workThemes[0]], title: words.newTitle, how: '' },
              ]);
          }}
        >
          {words.add}
        </Button>
      </div>
      <ul className={styles['cautions']}>
        {exerciseCautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}

function movedUp(all: readonly Exercise[], id: string): readonly Exercise[] {
  const at = all.findIndex((e) => e.id === id);
  const [one, before] = [all[at], all[at - 1]];
  return one && before ? [...all.slice(0, at - 1), one, before, ...all.slice(at + 1)] : all;
}
