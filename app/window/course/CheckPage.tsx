import type { DrawingFinding } from '../../../src/course/drawingFindings.ts';
import { drawingWords } from '../../../src/words/drawing.ts';
import { Button } from '../look/Button.tsx';
import { useBoard } from './BoardContext.ts';
import { choose, choosePlace } from './board/choosing.ts';
import styles from './CheckPage.module.css';
import { useCourse } from './useCourse.ts';
import { useDrawingFindings } from './useDrawingFindings.ts';

const words = drawingWords.check;

/** What does not fit in the drawing, each with the way to it. */
export function CheckPage() {
  const board = useBoard();
  const { state } = useCourse();
  const { course } = state;
  const findings = useDrawingFindings(course);
  const drawn = course.obstacles.some((o) => o.stand);
  const show = (f: DrawingFinding): void => {
    if ('ids' in f) choose(board, f.ids);
    else if ('number' in f) choosePlace(board, f.number);
    else board.setState({ chosen: [], place: null, line: f.line });
  };
  return (
    <section className={styles['page']}>
      <h2>{words.title}</h2>
      {findings.length === 0 && <p>{drawn ? words.none : words.notDrawn}</p>}
      <ul className={styles['list']}>
        {findings.map((f, i) => (
          <li key={i}>
            <span>{words.finding(f, (id) => board.desk.nameOf(course, id), board.desk.unit())}</span>
            <Button
              kind="quiet"
              onClick={() => {
                show(f);
              }}
            >
              {words.show}
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}
