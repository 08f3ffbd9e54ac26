import { useMemo } from 'react';
import { timesByKind } from '../../../src/review/compare/byKind.ts';
import { speedsByTurn } from '../../../src/review/compare/byTurn.ts';
import { compareWords, kindWord, letterOf, withheldSentence } from '../../../src/words/compare.ts';
import { figure } from '../../../src/words/figures.ts';
import { sentenceCase } from '../../../src/words/review.ts';
import { useActs } from '../keys/useActs.ts';
import { addressOf } from '../stores/route.ts';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import styles from './DifferentCourses.module.css';
import { Head } from './Head.tsx';
import { useMeasured } from './useMeasured.ts';
import type { ComparedRun } from './useRuns.ts';

const words = compareWords.differ;

/** Runs of different courses: why they are not matched, and the little that can be shared. */
export function DifferentCourses({
  runs,
  note,
}: {
  readonly runs: readonly ComparedRun[];
  readonly note: string | null;
}) {
  const { route } = useWorkbench();
  const dialect = usePreferences((p) => p.dialect);
  const measured = useMeasured(runs, true);
  const kinds = useMemo(() => timesByKind(runs.map((r) => r.analysis)), [runs]);
  const turns = useMemo(
    () =>
      speedsByTurn(
        runs.map(({ analysis }, i) => {
          const line = measured?.[i];
          return line ? { analysis, ...line } : null;
        }),
      ),
    [runs, measured],
  );
  const without = runs.filter((_, i) => measured !== null && !measured[i]);
  useActs({
    'compare.choose': () => {
      route.go({ screen: 'compare', reviewIds: runs.slice(0, 1).map((r) => r.id) });
    },
  });
  return (
    <div className={styles['screen']}>
      <Head runs={runs} note={note} />
      <div className={styles['body']}>
        <h2>{words.title}</h2>
        <p>{words.shared}</p>
        <ul className={styles['runs']}>
          {runs.map((run, i) => (
            <li key={run.id}>
              <b>{letterOf(i)}</b>{' '}
              <a href={addressOf({ screen: 'review', reviewId: run.id })}>{run.state.header.title}</a>
            </li>
          ))}
        </ul>
        <h2>{words.kinds}</h2>
        {kinds.length === 0 ? (
          <p className={styles['soft']}>{words.kindsNone}</p>
        ) : (
          <Shared
            first={words.kind}
            runs={runs}
            rows={kinds.map((row) => ({
              name: sentenceCase(kindWord(row.kind, dialect)),
              cells: row.runs.map((r) => (r ? words.kindCell(figure(r.mean), r.count) : words.none)),
            }))}
          />
        )}
        <h2>{words.turns}</h2>
        {turns.length > 0 && (
          <Shared
            first={words.turn}
            runs={runs}
            rows={turns.map((row) => ({
              name: sentenceCase(words.turnWords[row.turn]),
              cells: row.runs.map((r) => (r ? words.turnCell(figure(r.speed), r.stretches) : words.none)),
            }))}
          />
        )}
        {turns.length === 0 && without.length === 0 && <p className={styles['soft']}>{words.turnsNone}</p>}
        {without.length > 0 && (
          <p className={styles['soft']}>{withheldSentence(without.map((r) => r.state.header.title))}</p>
        )}
      </div>
    </div>
  );
}

interface SharedProps {
  readonly first: string;
  readonly runs: readonly ComparedRun[];
  readonly rows: readonly { readonly name: string; readonly cells: readonly string[] }[];
}

function Shared({ first, runs, rows }: SharedProps) {
  return (
    <table className={styles['table']}>
      <thead>
        <tr>
          <th scope="col">{first}</th>
          {runs.map((run, i) => (
            <th key={run.id} scope="col" title={run.state.header.title}>
              {letterOf(i)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, cells }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            {cells.map((cell, i) => (
              <td key={runs[i]?.id}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
