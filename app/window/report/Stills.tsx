import { useEffect, useState } from 'react';
import { stillsOffered, type StillWanted } from '../../../src/report/stills.ts';
import { noSays } from '../../../src/review/coachSays.ts';
import type { Analysis } from '../../../src/review/analysis.ts';
import type { ReviewState } from '../../../src/review/entities.ts';
import { frameAt } from '../../../src/time/frameTable.ts';
import { pts } from '../../../src/time/units.ts';
import { reportWords } from '../../../src/words/report.ts';
import { Tick } from '../look/Field.tsx';
import { useHeader } from '../stores/header.ts';
import { useReview, useWorkbench } from '../stores/react.ts';
import styles from './Stills.module.css';
import { useSmallStill } from './useSmallStill.ts';

const words = reportWords.pictures;

interface StillsProps {
  readonly state: ReviewState;
  readonly analysis: Analysis;
  /** What each still shows, by the id of its mark. */
  readonly named: ReadonlyMap<string, string>;
}

/** The stills that the report can show, each to be kept or left out. */
export function Stills({ state, analysis, named }: StillsProps) {
  const { header, change } = useHeader();
  const says = header.report ?? noSays;
  const offered = stillsOffered(state, analysis);
  const without = new Set(says.without);
  const kept = offered.filter(({ id }) => !without.has(id)).length;
  const set = (id: string, isKept: boolean): void => {
    const others = says.without.filter((other) => other !== id);
    change(words.act, { report: { ...says, without: isKept ? others : [...others, id] } });
  };
  return (
    <section className={styles['part']}>
      <h2>{words.title}</h2>
      <p className={styles['soft']}>
        {offered.length === 0 ? words.none : `${words.kept(kept, offered.length)}. ${words.intro}`}
      </p>
      <ul className={styles['stills']}>
        {offered.map((still) => (
          <One
            key={still.id}
            still={still}
            what={named.get(still.id) ?? words.drawing}
            isKept={!without.has(still.id)}
            onKeep={(isKept) => {
              set(still.id, isKept);
            }}
          />
        ))}
      </ul>
    </section>
  );
}

interface OneProps {
  readonly still: StillWanted;
  readonly what: string;
  readonly isKept: boolean;
  readonly onKeep: (isKept: boolean) => void;
}

function One({ still, what, isKept, onKeep }: OneProps) {
  const { host } = useWorkbench();
  const clipId = useReview((v) => v.state?.footage.find((f) => f.id === still.footageId)?.clipId);
  const table = useReview((v) => v.clocks.get(still.footageId)?.table);
  const frame = table ? frameAt(table, pts(still.pts)) : null;
  const [near, setNear] = useState<HTMLLIElement | null>(null);
  const [seen, setSeen] = useState(false);
  useEffect(() => {
    if (!near) return;
    const eye = new IntersectionObserver((all) => {
      if (all.some((one) => one.isIntersecting)) setSeen(true);
    });
    eye.observe(near);
    return () => {
      eye.disconnect();
    };
  }, [near]);
  const picture = useSmallStill(
    host,
    seen && clipId !== undefined && frame !== null ? { clipId, frame } : null,
  );
  return (
    <li ref={setNear} className={styles['still']} data-kept={isKept}>
      <div className={styles['picture']}>
        {picture === 'missing' ? (
          <span>{words.missing}</span>
        ) : picture === null ? null : (
          <img src={picture.address} alt="" />
        )}
      </div>
      <Tick
        label={frame === null ? what : `${what}, ${words.frame(frame)}`}
        checked={isKept}
        onChange={onKeep}
      />
    </li>
  );
}
