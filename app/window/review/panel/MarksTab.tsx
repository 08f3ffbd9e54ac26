import { memo, useEffect, useMemo, useRef } from 'react';
import type { Analysis, Taken } from '../../../../src/review/analysis.ts';
import { clockReading, figure } from '../../../../src/words/figures.ts';
import {
  edgeWord,
  eventName,
  obstacleName,
  sentenceCase,
  warningSentence,
} from '../../../../src/words/review.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { Button } from '../../look/Button.tsx';
import { useAnalysis, usePreferences } from '../../stores/react.ts';
import { useDesk, useDeskView, useOpenReview } from '../DeskContext.ts';
import { MarkCard } from './MarkCard.tsx';
import styles from './MarksTab.module.css';

const words = reviewScreenWords.marks;

/** Everything that was marked, as a list: obstacles taken, events, and the chosen mark to be changed. */
export function MarksTab() {
  const { marks, footage } = useOpenReview();
  const analysis = useAnalysis();
  const nothingYet = marks.length === 0;
  if (nothingYet && footage.length === 0) return <NothingToWatch />;
  if (!analysis || nothingYet) return <WatchFirst />;
  return (
    <>
      <MarkCard />
      {analysis.tries.map((attempt) => (
        <TakenTable key={attempt} attempt={attempt} analysis={analysis} />
      ))}
      <Events analysis={analysis} />
      <Warnings analysis={analysis} />
    </>
  );
}

/** A run that is planned and not filmed yet. */
function NothingToWatch() {
  const { watch } = reviewScreenWords;
  return (
    <div className={styles['watch']}>
      <p className={styles['watchTitle']}>{watch.nothing}</p>
      <p>{watch.nothingNext}</p>
    </div>
  );
}

/** Before anything is marked: watch the run once, hands off. Asked for once, never in the way. */
function WatchFirst() {
  const { desk } = useDesk();
  const watched = useDeskView((v) => v.watched);
  const { watch } = reviewScreenWords;
  return (
    <div className={styles['watch']}>
      <p className={styles['watchTitle']}>{watched ? reviewScreenWords.marks.obstacles : watch.title}</p>
      <p>{watched ? words.howTo : watch.text}</p>
      {!watched && (
        <p className={styles['watchActs']}>
          <Button
            kind="main"
            act="review.play"
            onClick={() => {
              desk.toEnd('first');
              desk.play();
            }}
          >
            {watch.watch}
          </Button>
          <Button
            kind="quiet"
            onClick={() => {
              desk.set({ watched: true });
            }}
          >
            {watch.mark}
          </Button>
        </p>
      )}
    </div>
  );
}

function TakenTable({ attempt, analysis }: { readonly attempt: number; readonly analysis: Analysis }) {
  const taken = analysis.taken.filter((t) => t.try === attempt);
  const dialect = usePreferences((p) => p.dialect);
  if (taken.length === 0) return null;
  return (
    <table className={styles['table']}>
      <caption>
        {analysis.tries.length > 1 ? words.try(attempt, attempt === analysis.countedTry) : words.obstacles}
      </caption>
      <thead>
        <tr>
          <th scope="col">{words.number}</th>
          <th scope="col">{words.name}</th>
          <th scope="col" className={styles['figure']}>
            {words.at}
          </th>
          <th scope="col" className={styles['figure']}>
            {words.on}
          </th>
        </tr>
      </thead>
      <tbody>
        {taken.map((t) => (
          <TakenRow
            key={t.place}
            place={t.place}
            name={obstacleName(t, dialect)}
            inId={t.in?.markId ?? null}
            outId={t.out?.markId ?? null}
            at={readingOf(t)}
            on={onOf(t)}
            inWord={edgeWord(t.kind, t.single ? 'whole' : 'in')}
            outWord={edgeWord(t.kind, t.single ? 'whole' : 'out')}
          />
        ))}
      </tbody>
    </table>
  );
}

function readingOf(t: Taken): string {
  const edge = t.in ?? t.out;
  return edge ? clockReading(edge.at.value) : '';
}

function onOf(t: Taken): string {
  if (t.on) return figure({ ...t.on, unit: '1' });
  if (t.single) return words.single;
  if (!t.out) return words.outMissing(edgeWord(t.kind, 'out'));
  return words.outMissing(edgeWord(t.kind, 'in'));
}

interface TakenRowProps {
  readonly place: number;
  readonly name: string;
  readonly inId: string | null;
  readonly outId: string | null;
  readonly at: string;
  readonly on: string;
  readonly inWord: string;
  readonly outWord: string;
}

/** A row is drawn anew only where its own words change, so that thousands of marks stay smooth. */
const TakenRow = memo(function TakenRow(row: TakenRowProps) {
  const { desk } = useDesk();
  const chosen = useDeskView(
    (v) => v.selected !== null && (v.selected === row.inId || v.selected === row.outId),
  );
  const line = useRef<HTMLTableRowElement>(null);
  useEffect(() => {
    if (chosen) line.current?.scrollIntoView({ block: 'nearest' });
  }, [chosen]);
  const go = (id: string | null) => () => {
    if (id !== null) desk.goToMark(id);
  };
  return (
    <tr ref={line} className={styles['row']} data-chosen={chosen}>
      <th scope="row">{row.place}</th>
      <td className={styles['name']} title={row.name}>
        {row.name}
      </td>
      <td className={styles['figure']}>
        <button
          type="button"
          className={styles['go']}
          aria-label={words.goIn(row.inWord, row.place, row.at)}
          onClick={go(row.inId ?? row.outId)}
        >
          {row.at}
        </button>
      </td>
      <td className={styles['figure']}>
        <button
          type="button"
          className={styles['go']}
          aria-label={`${words.goOut(row.outWord, row.place)}: ${row.on}`}
          onClick={go(row.outId ?? row.inId)}
        >
          {row.on}
        </button>
      </td>
    </tr>
  );
});

function Events({ analysis }: { readonly analysis: Analysis }) {
  const rows = useMemo(
    () =>
      analysis.events.map((e) => ({
        id: e.mark.id,
        at: clockReading(e.moment.at.value),
        name: eventName(e.mark, e.ownLabel),
        place: e.place,
        note: e.mark.note,
      })),
    [analysis],
  );
  return (
    <section>
      <h3 className={styles['heading']}>{words.events}</h3>
      {rows.length === 0 && <p className={styles['soft']}>{words.noEvents}</p>}
      <ul>
        {rows.map((row) => (
          <EventRow key={row.id} {...row} />
        ))}
      </ul>
    </section>
  );
}

interface EventRowProps {
  readonly id: string;
  readonly at: string;
  readonly name: string;
  readonly place: number | null;
  readonly note: string;
}

const EventRow = memo(function EventRow({ id, at, name, place, note }: EventRowProps) {
  const { desk } = useDesk();
  const chosen = useDeskView((v) => v.selected === id);
  return (
    <li className={styles['event']} data-chosen={chosen}>
      <button
        type="button"
        className={styles['eventGo']}
        onClick={() => {
          desk.goToMark(id);
        }}
      >
        <span className={styles['eventPlace']}>{place ?? ''}</span>
        <span className={styles['eventName']}>
          {sentenceCase(name)}
          {note !== '' && <span className={styles['note']}>{note}</span>}
        </span>
        <span>{at}</span>
      </button>
    </li>
  );
});

function Warnings({ analysis }: { readonly analysis: Analysis }) {
  const { desk } = useDesk();
  if (analysis.warnings.length === 0) return null;
  const shown = analysis.warnings.slice(0, 30);
  return (
    <section>
      <h3 className={styles['heading']}>{words.warnings}</h3>
      <ul>
        {shown.map((w, i) => (
          <li key={i} className={styles['warning']}>
            {'place' in w ? (
              <button
                type="button"
                className={styles['eventGo']}
                onClick={() => {
                  desk.goToPlace(w.place);
                }}
              >
                {warningSentence(w)}
              </button>
            ) : (
              warningSentence(w)
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
