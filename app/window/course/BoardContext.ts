import { createContext, useContext } from 'react';
import type { Board } from './board/board.ts';

/** The drawing board of the open course. */
export const BoardContext = createContext<Board | null>(null);

export function useBoard(): Board {
  const board = useContext(BoardContext);
  if (!board) throw new Error('A page of the course was drawn without its board.');
  return board;
}
