import { createContext, use, useEffect } from 'react';
import type { LinesDesk, LinesOf } from './linesDesk.ts';

/** The lines of the open course and the dog they are worked out for. */
export interface Lines {
  readonly desk: LinesDesk;
  readonly of: () => LinesOf;
}

export const LinesContext = createContext<Lines | null>(null);

export function useLines(): Lines {
  const lines = use(LinesContext);
  if (!lines) throw new Error('A page of lines was drawn outside of the Course screen.');
  return lines;
}

/** The same for a page that shows the lines: only while one is in front are they worked out. */
export function useRunningLines(): Lines {
  const lines = useLines();
  const { desk } = lines;
  useEffect(() => desk.start(), [desk]);
  return lines;
}
