import { useState } from 'react';
import { courseWords as words } from '../../../src/words/course.ts';
import { useActs } from '../keys/useActs.ts';
import { KeptField } from '../look/Field.tsx';
import styles from './CourseScreen.module.css';
import { highest, withCount } from './edit.ts';
import { MapPane } from './MapPane.tsx';
import { NoNumbers } from './NoNumbers.tsx';
import { ObstacleTable } from './ObstacleTable.tsx';
import { PlanPane } from './PlanPane.tsx';
import { useCourse } from './useCourse.ts';

/** The Course: how many obstacles, what they are called, where they stand on the map, what is planned there. */
export default function CourseScreen() {
  const { state, changeCourse } = useCourse();
  const { course } = state;
  const [chosen, setChosen] = useState<number | null>(course.steps[0]?.number ?? null);
  const selected = course.steps.some((step) => step.number === chosen) ? chosen : null;
  const step = (by: 1 | -1) => (): void => {
    const numbers = course.steps.map((s) => s.number);
    const at = selected === null ? (by > 0 ? -1 : numbers.length) : numbers.indexOf(selected);
    setChosen(numbers[Math.min(numbers.length - 1, Math.max(0, at + by))] ?? null);
  };
  const add = (): void => {
    const next = highest(course) + 1;
    changeCourse(words.labels.add(next), (c) => withCount(c, highest(c) + 1));
    setChosen(next);
  };
  const any = course.steps.length > 0;
  useActs({
    'course.addObstacle': add,
    'course.nextNumber': any ? step(1) : undefined,
    'course.previousNumber': any ? step(-1) : undefined,
  });

  return (
    <div className={styles['screen']}>
      <div className={styles['left']}>
        <header className={styles['head']}>
          <h1>{words.title}</h1>
          <p className={styles['of']}>{state.header.title}</p>
        </header>
        <div className={styles['name']}>
          <KeptField
            label={words.name}
            placeholder={words.namePlaceholder}
            value={course.name}
            maxLength={120}
            onKeep={(name) => {
              changeCourse(words.labels.name, (c) => ({ ...c, name: name.trim() }));
            }}
          />
        </div>
        {any ? (
          <>
            <ObstacleTable selected={selected} onSelect={setChosen} onAdd={add} />
            <PlanPane selected={selected} />
          </>
        ) : (
          <NoNumbers />
        )}
      </div>
      <MapPane selected={selected} onSelect={setChosen} />
    </div>
  );
}
