import { obstacleAt } from '../../../src/course/course.ts';
import type { StretchRow } from '../../../src/review/compare/sideBySide.ts';
import type { Quantity } from '../../../src/time/quantity.ts';
import {
  compareWords,
  differenceTold,
  letterOf,
  partlyWithheld,
  withheldSentence,
} from '../../../src/words/compare.ts';
import { figure, signedFigure } from '../../../src/words/figures.ts';
import { obstacleName } from '../../../src/words/review.ts';
import { usePreferences } from '../stores/react.ts';
import type { DetailsProps } from './Details.tsx';
import styles from './Details.module.css';

const words = compareWords.table;

/** Every stretch in every run, what lies between them, and where that went. */
export function StretchTable({ runs, side, measured, course, parts, onParts }: DetailsProps) {
  const { rows } = side;
  const letter = letterOf(parts);
  const without = [0, parts].filter((i) => measured !== null && !measured[i]);
  const parted = rows.some((row) => row.parts[parts]?.distance);
  if (rows.length === 0)
    return (
      <section className={styles['stretches']}>
        <h2>{words.title}</h2>
        <p>{words.empty}</p>
      </section>
    );
  return (
    <section className={styles['stretches']} tabIndex={0} aria-label={words.title}>
      <div className={styles['title']}>
        <h2>{words.title}</h2>
        {runs.length > 2 && (
          <span className={styles['choice']} role="group" aria-label={words.partsOf}>
            {runs.slice(1).map((run, i) => (
              <button
                key={run.id}
                type="button"
                aria-pressed={parts === i + 1}
                onClick={() => {
                  onParts(i + 1);
                }}
              >
                {words.difference(letterOf(i + 1))}
              </button>
            ))}
          </span>
        )}
      </div>
      {without.length > 0 && (
        <p className={styles['soft']}>
          {withheldSentence(without.map((i) => runs[i]?.state.header.title ?? ''))}
        </p>
      )}
      <table className={styles['table']}>
        <thead>
          <tr>
            <th scope="col">{words.stretch}</th>
            {runs.map((run, i) => (
              <th key={run.id} scope="col" className={styles['figure']} title={run.state.header.title}>
                {letterOf(i)}
              </th>
            ))}
            <th scope="col" className={styles['figure']}>
              {words.difference(letter)}
            </th>
            {parted && (
              <>
                <th scope="col" className={styles['figure']}>
                  {words.distance}
                </th>
                <th scope="col" className={styles['figure']}>
                  {words.speed}
                </th>
              </>
            )}
            <th scope="col">{words.quickest}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Row key={row.to} row={row} runs={runs} course={course} parts={parts} parted={parted} />
          ))}
        </tbody>
      </table>
      <p className={styles['soft']}>{words.note}</p>
      {parted && <p className={styles['soft']}>{words.partsNote}</p>}
      {parted && without.length === 0 && <p className={styles['soft']}>{partlyWithheld}</p>}
    </section>
  );
}

type RowProps = Pick<DetailsProps, 'runs' | 'course' | 'parts'> & {
  readonly row: StretchRow;
  readonly parted: boolean;
};

function Row({ row, runs, course, parts, parted }: RowProps) {
  const dialect = usePreferences((p) => p.dialect);
  const [first] = runs;
  const name = first ? obstacleName(obstacleAt(first.state.course, row.to), dialect) : '';
  const stretch = `${row.from ?? words.fromStart} – ${row.to}`;
  const two = row.parts[parts];
  const difference = two && differenceTold(two.difference);
  return (
    <tr>
      <th scope="row">
        <button
          type="button"
          className={styles['go']}
          aria-label={words.goTo(`${stretch} ${name}`.trim())}
          onClick={() => {
            course.goToPlace(row.from ?? row.to);
          }}
        >
          <span className={styles['numbers']}>{stretch}</span>
          <span className={styles['name']}>{name}</span>
        </button>
      </th>
      {row.times.map((time, i) => (
        <td key={runs[i]?.id} className={styles['figure']} data-quickest={row.quickest === i}>
          {time ? figure({ ...time, unit: '1' }) : <span className={styles['soft']}>{words.notMarked}</span>}
        </td>
      ))}
      <td className={styles['figure']} data-sure={difference?.sure ?? false}>
        {difference ? (
          <>
            {difference.figure} <span className={styles['word']}>{difference.word}</span>
          </>
        ) : (
          <span className={styles['soft']}>{words.notMarked}</span>
        )}
      </td>
      {parted && (
        <>
          <Part part={two?.distance ?? null} />
          <Part part={two?.speed ?? null} />
        </>
      )}
      <td data-sure={row.quickest !== null}>
        {row.quickest === null ? words.cannotTell : letterOf(row.quickest)}
      </td>
    </tr>
  );
}

function Part({ part }: { readonly part: Quantity | null }) {
  const told = part && differenceTold(part);
  return (
    <td className={styles['figure']} data-sure={told?.sure ?? false}>
      {part && told ? (
        <>
          {signedFigure({ ...part, unit: '1' })}
          {!told.sure && <span className={styles['word']}> {told.word}</span>}
        </>
      ) : (
        words.withheld
      )}
    </td>
  );
}
