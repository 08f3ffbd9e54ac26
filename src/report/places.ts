import { obstacleAt } from '../course/course.ts';
import { edgeWords } from '../words/verdicts.ts';
import { mannerOf, type Manner } from '../course/kinds.ts';
import type { ReviewState } from '../review/entities.ts';
import { obstacleWords } from '../words/trade.ts';
import type { Mask } from './names.ts';
import { written, type Line } from './pieces.ts';

export type Dialect = keyof typeof obstacleWords;

/** How obstacles are called in this report. */
export interface Places {
  /** "7 (weave poles)" as a line; the bare number where neither kind nor nickname is known. */
  named(place: number): Line;
  /** Kind and nickname without the number; empty where neither is known. */
  what(place: number): Line;
  manner(place: number): Manner;
  edges(place: number): { readonly in: string; readonly out: string };
}

export function placesOf(review: ReviewState, dialect: Dialect, mask: Mask): Places {
  const what = (place: number): Line => {
    const obstacle = obstacleAt(review.course, place);
    if (!obstacle) return [];
    const kind = obstacle.kind === 'unknown' ? '' : obstacleWords[dialect][obstacle.kind];
    const nickname = obstacle.nickname.trim();
    if (nickname === '') return kind === '' ? [] : [kind];
    const name = written(mask(nickname));
    // "the red tunnel" says what it is: no need to say it twice.
    const said = nickname.toLocaleLowerCase().includes(kind.toLocaleLowerCase());
    return kind === '' || said ? [name] : [kind, ', ', name];
  };
  const manner = (place: number): Manner => mannerOf(obstacleAt(review.course, place)?.kind ?? 'unknown');
  return {
    what,
    manner,
    edges: (place) => edgeWords[manner(place)],
    named(place) {
      const rest = what(place);
      return rest.length === 0 ? [String(place)] : [`${place} (`, ...rest, ')'];
    },
  };
}
