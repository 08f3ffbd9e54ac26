import { Flag, Grid3x3, Hash, Maximize, Minus, MousePointer2, Plus, Ruler, Timer } from 'lucide-react';
import { useStore } from 'zustand';
import { nextNumber } from '../../../src/course/drawing/numbering.ts';
import { drawingWords } from '../../../src/words/drawing.ts';
import { Button } from '../look/Button.tsx';
import { useWorkbench } from '../stores/react.ts';
import { useBoard } from './BoardContext.ts';
import styles from './BoardTools.module.css';
import { takeTool } from './board/choosing.ts';
import { useCourse } from './useCourse.ts';

const words = drawingWords.tools;

/** The tools over the drawing, each with its key, and what the one in hand does. */
export function BoardTools() {
  const board = useBoard();
  const { keyboard } = useWorkbench();
  const tool = useStore(board, (v) => v.tool);
  const line = useStore(board, (v) => v.line);
  const act = (name: Parameters<typeof keyboard.do>[0]) => (): void => {
    keyboard.do(name);
  };
  return (
    <div className={styles['tools']} role="toolbar" aria-label={words.label}>
      <Button
        icon={<MousePointer2 aria-hidden />}
        act="course.leave"
        pressed={tool.name === 'choose'}
        onClick={() => {
          if (tool.name !== 'choose') takeTool(board, { name: 'choose' });
        }}
      >
        {words.choose}
      </Button>
      <Button
        icon={<Hash aria-hidden />}
        act="course.placeNumbers"
        pressed={tool.name === 'number'}
        onClick={act('course.placeNumbers')}
      >
        {words.number}
      </Button>
      <Button
        icon={<Ruler aria-hidden />}
        act="course.wheel"
        pressed={tool.name === 'wheel'}
        onClick={act('course.wheel')}
      >
        {words.wheel}
      </Button>
      <Button
        icon={<Timer aria-hidden />}
        act="course.start"
        pressed={line === 'start'}
        onClick={act('course.start')}
      >
        {words.start}
      </Button>
      <Button
        icon={<Flag aria-hidden />}
        act="course.finish"
        pressed={line === 'finish'}
        onClick={act('course.finish')}
      >
        {words.finish}
      </Button>
    </div>
  );
}

/** How the drawing is looked at. */
export function ViewTools() {
  const board = useBoard();
  const { keyboard } = useWorkbench();
  const grid = useStore(board, (v) => v.grid);
  const act = (name: Parameters<typeof keyboard.do>[0]) => (): void => {
    keyboard.do(name);
  };
  return (
    <div className={styles['tools']} role="group" aria-label={words.view}>
      <Button kind="quiet" icon={<Grid3x3 aria-hidden />} act="course.grid" onClick={act('course.grid')}>
        {words.grid[grid]}
      </Button>
      <Button kind="quiet" icon={<Maximize aria-hidden />} act="course.fit" onClick={act('course.fit')}>
        {words.fit}
      </Button>
      <Button
        kind="quiet"
        icon={<Plus aria-hidden />}
        act="course.zoomIn"
        aria-label={drawingWords.acts.zoomIn}
        onClick={act('course.zoomIn')}
      >
        {''}
      </Button>
      <Button
        kind="quiet"
        icon={<Minus aria-hidden />}
        act="course.zoomOut"
        aria-label={drawingWords.acts.zoomOut}
        onClick={act('course.zoomOut')}
      >
        {''}
      </Button>
    </div>
  );
}

/** What a press on the board does now, in words. Its line is always there, so that the board below keeps its place. */
export function ToolHint() {
  const board = useBoard();
  const { state } = useCourse();
  const tool = useStore(board, (v) => v.tool);
  const next = nextNumber(state.course);
  const drawn = state.course.obstacles.some((o) => o.stand);
  const text = (): string => {
    switch (tool.name) {
      case 'choose':
        return drawn ? '' : drawingWords.board.empty;
      case 'number':
        return next === null ? words.numberedOut : words.numbering(next);
      case 'wheel':
        return words.wheeling;
      case 'put':
        return words.putting(board.desk.kindName(tool.kind));
      case 'line':
        return words.lining(tool.which);
    }
  };
  return <p className={styles['hint']}>{text()}</p>;
}
