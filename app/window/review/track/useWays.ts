import { useEffect, useState } from 'react';
import { waysOf, type Ways } from '../../../../src/track/figures.ts';
import type { RealLine } from '../../../../src/track/realLine.ts';

/** Ways drawn for bands of lengths and bends: enough for bands that are right to a tenth of themselves. */
const count = 150;
/** Drawn once the hand rests this long, milliseconds. */
const restFor = 250;

/** Ways that the marks of a line leave open; null until they are drawn. Always drawn alike, so that figures stay. */
export function useWays(line: RealLine | null): Ways | null {
  const [ways, setWays] = useState<Ways | null>(null);
  useEffect(() => {
    if (!line) {
      setWays(null);
      return;
    }
    const timer = setTimeout(() => {
      setWays(waysOf(line, 1, count));
    }, restFor);
    return () => {
      clearTimeout(timer);
    };
  }, [line]);
  return ways?.line === line ? ways : null;
}
