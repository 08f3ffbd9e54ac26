import { useStore } from 'zustand';
import { obstacleKinds, type ObstacleKind } from '../../../src/course/kinds.ts';
import { drawingWords } from '../../../src/words/drawing.ts';
import { obstacleWords } from '../../../src/words/trade.ts';
import type { ActName } from '../keys/allActs.ts';
import { Button } from '../look/Button.tsx';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import { putActs } from './acts.ts';
import { useBoard } from './BoardContext.ts';
import { takeTool } from './board/choosing.ts';
import styles from './DrawPage.module.css';
import { PieceFacts } from './PieceFacts.tsx';
import { useCourse } from './useCourse.ts';

const words = drawingWords;

const kinds = obstacleKinds.filter((kind): kind is Exclude<ObstacleKind, 'unknown'> => kind !== 'unknown');

/** What can be put on the grass, and what can be done with what is chosen there. */
export function DrawPage() {
  const board = useBoard();
  const { state } = useCourse();
  const dialect = usePreferences((p) => p.dialect);
  const tool = useStore(board, (v) => v.tool);
  const chosen = useStore(board, (v) => v.chosen);
  useStore(board, (v) => v.draft);
  const there = board.shown().obstacles.filter((o) => o.stand && chosen.includes(o.id));
  const [only] = there;
  return (
    <div className={styles['page']} key={state.id}>
      <section>
        <h2 className={styles['head']}>{words.palette.title}</h2>
        <div className={styles['palette']}>
          {kinds.map((kind) => (
            <Button
              key={kind}
              act={putActs[kind]}
              pressed={tool.name === 'put' && tool.kind === kind}
              onClick={() => {
                takeTool(board, { name: 'put', kind });
              }}
            >
              {obstacleWords[dialect][kind]}
            </Button>
          ))}
        </div>
        <p className={styles['soft']}>{words.palette.hint}</p>
      </section>
      <section>
        <h2 className={styles['head']}>
          {there.length === 0
            ? words.piece.title
            : there.length === 1 && only
              ? board.desk.nameOf(board.shown(), only.id)
              : words.say.several(there.length)}
        </h2>
        {there.length === 0 && <p className={styles['soft']}>{words.piece.none}</p>}
        {there.length === 1 && only && <PieceFacts key={only.id} piece={only} />}
        {there.length > 0 && (
          <ChosenActs tunnel={there.some((o) => o.kind === 'tunnel')} several={there.length > 1} />
        )}
      </section>
    </div>
  );
}

/** Buttons for what keys do with what is chosen. */
function ChosenActs({ tunnel, several }: { readonly tunnel: boolean; readonly several: boolean }) {
  const { keyboard } = useWorkbench();
  const acts: readonly (readonly [ActName, string])[] = [
    ['course.turnLeft', words.acts.turnLeft],
    ['course.turnRight', words.acts.turnRight],
    ...(tunnel
      ? ([
          ['course.bendLeft', words.acts.bendLeft],
          ['course.bendRight', words.acts.bendRight],
        ] as const)
      : []),
    ...(several
      ? ([
          ['course.row', words.acts.row],
          ['course.heading', words.acts.heading],
          ['course.evenly', words.acts.evenly],
        ] as const)
      : []),
    ['course.mirror', words.acts.mirror],
    ['course.duplicate', words.acts.duplicate],
    ['course.remove', words.acts.remove],
  ];
  return (
    <div className={styles['acts']} role="group" aria-label={words.piece.acts}>
      {acts.map(([name, label]) => (
        <Button
          key={name}
          kind="quiet"
          act={name}
          onClick={() => {
            keyboard.do(name);
          }}
        >
          {label}
        </Button>
      ))}
    </div>
  );
}
