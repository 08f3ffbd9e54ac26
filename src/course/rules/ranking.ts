import type { RuleBook } from './book.ts';
import { named, type RuleNamed } from './entries.ts';
import type { Score } from './score.ts';
import type { RankingKey } from './runRules.ts';

/** A run in a list to rank. */
export interface ToRank {
  readonly id: string;
  readonly score: Score;
}

/** A place in the list. Eliminated and open runs have none and stand last, in the order they came in. */
export interface Placed {
  readonly id: string;
  readonly place: number | null;
  /** How many runs have this place, this one counted. */
  readonly sharedBy: number;
}

export type Ranking =
  | {
      readonly ranked: true;
      readonly places: readonly Placed[];
      readonly rule: RuleNamed;
      /** What the book says where runs share a place. */
      readonly ties: 'equalPlace' | 'runOff' | 'equalPlaceOrRunOff';
    }
  | { readonly ranked: false; readonly why: 'noEntry' };

/** Ranks runs of one class. Runs that are equal in every key share a place; the next place counts them all. */
export function rank(book: RuleBook, runs: readonly ToRank[]): Ranking {
  const entry = book.scoring.ranking;
  if (!entry) return { ranked: false, why: 'noEntry' };
  const rows = runs.flatMap(({ id, score }) =>
    score.outcome === 'scored' ? [{ id, keys: entry.value.keys.map((key) => keyOf(score, key)) }] : [],
  );
  rows.sort((a, b) => compare(a.keys, b.keys));
  const groups: (typeof rows)[] = [];
  for (const row of rows) {
    const group = groups.at(-1);
    if (group?.[0] && compare(group[0].keys, row.keys) === 0) group.push(row);
    else groups.push([row]);
  }
  let place = 1;
  const places = groups.flatMap((group) => {
    const from = place;
    place += group.length;
    return group.map(({ id }): Placed => ({ id, place: from, sharedBy: group.length }));
  });
  const unplaced = runs
    .filter(({ score }) => score.outcome !== 'scored')
    .map(({ id }): Placed => ({ id, place: null, sharedBy: 1 }));
  return {
    ranked: true,
    places: [...places, ...unplaced],
    rule: named('scoring.ranking', entry),
    ties: entry.value.ties,
  };
}

type ScoredRun = Extract<Score, { outcome: 'scored' }>;

function keyOf(score: ScoredRun, key: RankingKey): number {
  return score[key];
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (const [i, value] of a.entries()) {
    const difference = value - (b[i] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
