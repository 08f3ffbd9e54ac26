import { useState } from 'react';
import { useStore } from 'zustand';
import { courseWords as words } from '../../../src/words/course.ts';
import { useActs } from '../keys/useActs.ts';
import { KeptField } from '../look/Field.tsx';
import { BoardContext } from './BoardContext.ts';
import { choosePlace } from './board/choosing.ts';
import { CheckPage } from './CheckPage.tsx';
import styles from './CourseScreen.module.css';
import { DogPage } from './dog/DogPage.tsx';
import { DrawPage } from './DrawPage.tsx';
import { highest, withCount } from './edit.ts';
import { HandOver } from './export/HandOver.tsx';
import { FieldsPage } from './FieldsPage.tsx';
import { MapPane } from './MapPane.tsx';
import { NoNumbers } from './NoNumbers.tsx';
import { ObstacleTable } from './ObstacleTable.tsx';
import { pages, PageTabs, type Page } from './PageTabs.tsx';
import { LinesContext } from './lines/LinesContext.ts';
import { ReadPage } from './lines/ReadPage.tsx';
import { useNewLines } from './lines/useNewLines.ts';
import { PlanPage } from './plan/PlanPage.tsx';
import { RulesPage } from './rules/RulesPage.tsx';
import { useCountOff } from './rules/useCountOff.ts';
import { useDrawingFindings } from './useDrawingFindings.ts';
import { useCourse } from './useCourse.ts';
import { useNewBoard } from './useNewBoard.ts';

/** The Course: drawn, numbered and named, or only counted; its map and what is planned there. */
export default function CourseScreen() {
  const { state, changeCourse } = useCourse();
  const { course } = state;
  const board = useNewBoard();
  const lines = useNewLines(board);
  const place = useStore(board, (v) => v.place);
  const [page, setPage] = useState<Page>('numbers');
  const selected = course.steps.some((step) => step.number === place) ? place : null;
  const select = (n: number | null): void => {
    choosePlace(board, n);
  };
  const step = (by: 1 | -1) => (): void => {
    const numbers = course.steps.map((s) => s.number);
    const at = selected === null ? (by > 0 ? -1 : numbers.length) : numbers.indexOf(selected);
    select(numbers[Math.min(numbers.length - 1, Math.max(0, at + by))] ?? null);
  };
  const add = (): void => {
    const next = highest(course) + 1;
    changeCourse(words.labels.add(next), (c) => withCount(c, highest(c) + 1));
    select(next);
  };
  const any = course.steps.length > 0;
  const turn = (by: 1 | -1) => (): void => {
    setPage(pages[(pages.indexOf(page) + by + pages.length) % pages.length] ?? 'numbers');
  };
  useActs({
    'course.addObstacle': add,
    'course.nextNumber': any ? step(1) : undefined,
    'course.previousNumber': any ? step(-1) : undefined,
    'course.nextPage': turn(1),
    'course.previousPage': turn(-1),
  });
  const rules = useCountOff(course);
  const drawing = useDrawingFindings(course).length;

  return (
    <BoardContext value={board}>
      <LinesContext value={lines}>
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
            <PageTabs page={page} onPage={setPage} counts={{ check: drawing, rules }} />
            <div
              id="course-page"
              className={page === 'numbers' ? styles['numbers'] : styles['page']}
              role="tabpanel"
              aria-labelledby={`course-tab-${page}`}
              tabIndex={page === 'numbers' ? undefined : 0}
            >
              {page === 'numbers' &&
                (any ? (
                  <ObstacleTable selected={selected} onSelect={select} onAdd={add} />
                ) : (
                  <NoNumbers onPage={setPage} />
                ))}
              {page === 'draw' && <DrawPage />}
              {page === 'course' && (
                <>
                  <FieldsPage />
                  <HandOver />
                </>
              )}
              {page === 'check' && <CheckPage />}
              {page === 'rules' && <RulesPage />}
              {page === 'read' && <ReadPage selected={selected} onSelect={select} />}
              {page === 'plan' && <PlanPage selected={selected} onSelect={select} />}
              {page === 'dog' && <DogPage />}
            </div>
          </div>
          <MapPane selected={selected} onSelect={select} />
        </div>
      </LinesContext>
    </BoardContext>
  );
}
