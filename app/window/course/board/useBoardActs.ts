import { useEffect } from 'react';
import { useStore } from 'zustand';
import { obstacleKinds } from '../../../../src/course/kinds.ts';
import type { ActName } from '../../keys/allActs.ts';
import { keyName } from '../../keys/keyName.ts';
import { useActs, type ActHandlers } from '../../keys/useActs.ts';
import { useWorkbench } from '../../stores/react.ts';
import { putActs } from '../acts.ts';
import { grids, type Board } from './board.ts';
import { choose, chooseAll, choosePiece, takeTool } from './choosing.ts';
import { giveChosen, nextWrap, otherWay, takeOff, toggleBackside } from './numbers.ts';
import { align, bend, duplicate, mirror, nudge, put, putLine, remove, turn } from './verbs.ts';

/** Keys of the drawing board while it is there. What cannot be done now is asleep. */
export function useBoardActs(board: Board, onGrid: (grid: (typeof grids)[number]) => void): void {
  const { keyboard } = useWorkbench();
  const any = useStore(board, (v) => v.chosen.length > 0);
  const line = useStore(board, (v) => v.line !== null);
  const wheel = useStore(board, (v) => v.tool.name === 'wheel');
  const place = useStore(board, (v) => v.place !== null);
  const something = any || line;
  const puts: ActHandlers = {};
  for (const kind of obstacleKinds) {
    if (kind === 'unknown') continue;
    puts[putActs[kind]] = () => {
      put(board, kind, board.pointer() ?? undefined);
    };
  }
  const when = (yes: boolean, run: () => void): (() => void) | undefined => (yes ? run : undefined);
  useActs({
    ...puts,
    'course.placeNumbers': () => {
      takeTool(board, { name: 'number' });
    },
    'course.give': when(any, () => {
      giveChosen(board);
    }),
    'course.otherWay': when(place, () => {
      otherWay(board);
    }),
    'course.backside': when(place, () => {
      toggleBackside(board);
    }),
    'course.wrap': when(place, () => {
      nextWrap(board);
    }),
    'course.takeOff': when(place, () => {
      takeOff(board);
    }),
    'course.left': () => {
      nudge(board, -1, 0);
    },
    'course.right': () => {
      nudge(board, 1, 0);
    },
    'course.up': () => {
      nudge(board, 0, 1);
    },
    'course.down': () => {
      nudge(board, 0, -1);
    },
    'course.nextPiece': () => {
      choosePiece(board, 1);
    },
    'course.previousPiece': () => {
      choosePiece(board, -1);
    },
    'course.nextToo': () => {
      choosePiece(board, 1, true);
    },
    'course.all': () => {
      chooseAll(board);
    },
    'course.turnLeft': when(something, () => {
      turn(board, 15);
    }),
    'course.turnRight': when(something, () => {
      turn(board, -15);
    }),
    'course.turnLeftFine': when(something, () => {
      turn(board, 1);
    }),
    'course.turnRightFine': when(something, () => {
      turn(board, -1);
    }),
    'course.bendLeft': when(any, () => {
      bend(board, 15);
    }),
    'course.bendRight': when(any, () => {
      bend(board, -15);
    }),
    'course.mirror': when(any, () => {
      mirror(board);
    }),
    'course.row': when(any, () => {
      align(board, 'row');
    }),
    'course.heading': when(any, () => {
      align(board, 'heading');
    }),
    'course.evenly': when(any, () => {
      align(board, 'evenly');
    }),
    'course.duplicate': when(any, () => {
      duplicate(board);
    }),
    'course.remove': when(something || wheel, () => {
      remove(board);
    }),
    'course.wheel': () => {
      takeTool(board, { name: 'wheel' });
    },
    'course.start': () => {
      putLine(board, 'start');
    },
    'course.finish': () => {
      putLine(board, 'finish');
    },
    'course.grid': () => {
      const { grid } = board.getState();
      const next = grids[(grids.indexOf(grid) + 1) % grids.length] ?? 'snap';
      board.setState({ grid: next });
      onGrid(next);
    },
    'course.fit': () => {
      board.fit();
    },
    'course.zoomIn': () => {
      board.zoom(1.25);
    },
    'course.zoomOut': () => {
      board.zoom(0.8);
    },
    'course.leave': () => {
      if (board.getState().tool.name !== 'choose') takeTool(board, { name: 'choose' });
      else choose(board, []);
    },
  });

  useEffect(() => {
    // What keys moved is kept before another key means something: undo then takes back the move just made.
    const keep = (event: KeyboardEvent): void => {
      const key = keyName(event);
      if (key !== null && !movingActs.some((name) => keyboard.keyFor(name) === key)) board.settle();
    };
    window.addEventListener('keydown', keep, { capture: true });
    return () => {
      window.removeEventListener('keydown', keep, { capture: true });
    };
  }, [board, keyboard]);
}

/** Acts that are put together into one while they go on. */
const movingActs: readonly ActName[] = [
  'course.left',
  'course.right',
  'course.up',
  'course.down',
  'course.turnLeft',
  'course.turnRight',
  'course.turnLeftFine',
  'course.turnRightFine',
  'course.bendLeft',
  'course.bendRight',
];
