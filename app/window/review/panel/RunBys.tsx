import { useMemo } from 'react';
import { obstacleAt } from '../../../../src/course/course.ts';
import type { EventRow } from '../../../../src/review/analysis.ts';
import { middle } from '../../../../src/time/bracket.ts';
import { unsureOf } from '../../../../src/track/flights.ts';
import { pairOf } from '../../../../src/track/runLines.ts';
import { supportBeside } from '../../../../src/track/support.ts';
import { obstacleName } from '../../../../src/words/review.ts';
import { supportWords as words } from '../../../../src/words/support.ts';
import { useAnalysis, usePreferences } from '../../stores/react.ts';
import { useLines, useOpenReview } from '../DeskContext.ts';
import { GoToTime } from '../GoToTime.tsx';
import styles from './AroundCross.module.css';
import { useRunReading } from './useFoundCrosses.ts';

/** Every run-by that is marked, with the support that the plan has there and what the handler did. */
export function RunBys() {
  const events = useAnalysis()?.events ?? [];
  const runBys = events.filter(({ mark }) => mark.event === 'refusal' && mark.refusal === 'ranBy');
  if (runBys.length === 0) return null;
  return (
    <section className={styles['found']} aria-label={words.title}>
      <h3>{words.title}</h3>
      {runBys.map((row) => row.place !== null && <RunBy key={row.mark.id} row={row} place={row.place} />)}
    </section>
  );
}

function RunBy({ row: { moment }, place }: { readonly row: EventRow; readonly place: number }) {
  const { course, plan } = useOpenReview();
  const dialect = usePreferences((p) => p.dialect);
  const lines = useLines((v) => v.lines);
  const read = useRunReading();
  const at = middle(moment.bracket);
  const obstacle = obstacleAt(course, place);
  const stand = obstacle?.stand;
  const unsure = unsureOf(moment.bracket);
  const support = useMemo(() => {
    const pair = pairOf(lines);
    return pair && stand ? supportBeside(pair, stand, at, unsure) : null;
  }, [lines, stand, at, unsure]);
  return (
    <div className={styles['found']}>
      <GoToTime at={at}>{words.at(place, obstacleName(obstacle, dialect), read(at))}</GoToTime>
      <span>{words.planned(plan.supports.find((s) => s.place === place)?.until ?? null)}</span>
      <span data-figure={`run-by-${place}`}>{support ? words.told(support) : words.unmarked}</span>
    </div>
  );
}
