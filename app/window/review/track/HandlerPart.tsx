import { useMemo } from 'react';
import type { Analysis } from '../../../../src/review/analysis.ts';
import { middle } from '../../../../src/time/bracket.ts';
import { lengthSeen } from '../../../../src/track/figures.ts';
import { unsureOf } from '../../../../src/track/flights.ts';
import { handlerWhen, pathsCrossed, type HandlerThen } from '../../../../src/track/pairs.ts';
import { pairOf } from '../../../../src/track/runLines.ts';
import { clockReading, figure } from '../../../../src/words/figures.ts';
import { realLineWords } from '../../../../src/words/realLine.ts';
import {
  aheadSentence,
  crossedSentence,
  unseenSentence,
  wayWord,
} from '../../../../src/words/realLineSentences.ts';
import { useAnalysis } from '../../stores/react.ts';
import { useLines, useOpenReview } from '../DeskContext.ts';
import { GoToTime } from '../GoToTime.tsx';
import { uprightTurn } from '../panel/turned.ts';
import styles from './LinePage.module.css';
import { useWays } from './useWays.ts';

const words = realLineWords.handler;

/** The moment at which a dog had to commit: where the coach marked it, else take-off or entry. */
interface Commitment {
  readonly place: number;
  readonly at: number;
  readonly unsure: number;
  readonly marked: boolean;
}

function commitments(analysis: Analysis): readonly Commitment[] {
  return analysis.taken.flatMap((t): Commitment[] => {
    if (t.try !== analysis.countedTry || !t.in) return [];
    const marked = analysis.crosses.find((c) => c.place === t.place)?.parts.committed;
    const bracket = (marked ?? t.in).bracket;
    return [{ place: t.place, at: middle(bracket), unsure: unsureOf(bracket), marked: marked !== undefined }];
  });
}

/** The handler's path, where it crosses the dog's, and where she was whenever the dog had to commit. */
export function HandlerPart() {
  const lines = useLines((v) => v.lines);
  const turn = uprightTurn(useOpenReview().course);
  const analysis = useAnalysis();
  const pair = useMemo(() => pairOf(lines), [lines]);
  const ways = useWays(lines.handler?.line ?? null);
  const crossed = useMemo(() => (pair ? pathsCrossed(pair) : []), [pair]);
  const rows = useMemo(
    () =>
      pair && analysis
        ? commitments(analysis).flatMap((c) => {
            const then = handlerWhen(pair, c.at, c.unsure);
            return then ? [{ ...c, then }] : [];
          })
        : [],
    [pair, analysis],
  );
  if (!lines.handler?.line)
    return (
      <section className={styles['part']} aria-label={words.title}>
        <h3>{words.title}</h3>
        <p className={styles['soft']}>{words.none}</p>
      </section>
    );
  const length = ways && lengthSeen(ways);
  const start = analysis?.clock ? middle(analysis.clock.start.bracket) : 0;
  const clock = (at: number): string => clockReading(at - start);
  const { gaps } = lines.handler.line;
  return (
    <section className={styles['part']} aria-label={words.title}>
      <h3>{words.title}</h3>
      <p>
        {words.path} <span data-figure="handler-length">{length ? figure(length) : words.working}</span>
      </p>
      {gaps.length > 0 && (
        <>
          <p>{words.unmarked}</p>
          <ul className={styles['row']}>
            {gaps.map(({ from, to }) => (
              <li key={from}>
                <GoToTime at={from}>{words.unmarkedFrom(clock(from), clock(to))}</GoToTime>
              </li>
            ))}
          </ul>
          <p className={styles['soft']}>{words.stands}</p>
        </>
      )}
      <h4>{words.crossings}</h4>
      {crossed.length === 0 && <p className={styles['soft']}>{words.noCrossings}</p>}
      <ul>
        {crossed.map((c) => (
          <li key={c.handlerAt.value}>
            <GoToTime at={c.handlerAt.value}>{crossedSentence(c, clock)}</GoToTime>
          </li>
        ))}
      </ul>
      <h4>{words.commitments}</h4>
      {rows.length === 0 && <p className={styles['soft']}>{words.noCommitments}</p>}
      <ul className={styles['cards']}>
        {rows.map(({ place, at, marked, then }) => (
          <li key={place} className={styles['card']}>
            <GoToTime at={at}>{words.commitment(place, marked)}</GoToTime>
            {then.unseen && <p className={styles['soft']}>{unseenSentence(then.unseen, clock)}</p>}
            {then.unseen?.who !== 'handler' && <Then then={then} turn={turn} />}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Then({ then, turn }: { readonly then: HandlerThen; readonly turn: number }) {
  return (
    <dl className={styles['figures']}>
      {!then.unseen && then.ahead && (
        <div>
          <dt>{words.ahead}</dt>
          <dd>{aheadSentence(then.ahead)}</dd>
        </div>
      )}
      {!then.unseen && then.apart && (
        <div>
          <dt>{words.apart}</dt>
          <dd>{figure(then.apart)}</dd>
        </div>
      )}
      <div>
        <dt>{words.speed}</dt>
        <dd>{figure(then.speed)}</dd>
      </div>
      <div>
        <dt>{words.way}</dt>
        <dd>{wayWord(then.heading && { ...then.heading, value: then.heading.value + turn })}</dd>
      </div>
    </dl>
  );
}
