import { useEffect, useMemo, useState } from 'react';
import { createRangeSession } from '../../../../src/line/likelyLine.ts';
import { runnerWith } from '../../../../src/line/runner.ts';
import { wishOf } from '../../../../src/plan/lineWish.ts';
import type { Analysis } from '../../../../src/review/analysis.ts';
import { likelyLengths, stretchSpeeds, type RealSpeed } from '../../../../src/review/stretchSpeeds.ts';
import type { Quantity } from '../../../../src/time/quantity.ts';
import { stretchFigures } from '../../../../src/track/stretches.ts';
import { figure } from '../../../../src/words/figures.ts';
import { splitPartWords } from '../../../../src/words/splitParts.ts';
import { useDogOf } from '../../stores/dogOf.ts';
import { useLines, useOpenReview } from '../DeskContext.ts';
import { useWays } from '../track/useWays.ts';
import styles from './SplitParts.module.css';

const words = splitPartWords.speeds;
const nothing: ReadonlyMap<number, Quantity> = new Map();
const unmeasured: ReadonlyMap<number, RealSpeed> = new Map();

/** How fast she was on each stretch: over the real line where it was measured, else over the likely line. */
export function SpeedsPart({ analysis }: { readonly analysis: Analysis }) {
  const real = useRealSpeeds(analysis);
  const likely = useLikelyLengths();
  const rows = useMemo(() => stretchSpeeds(analysis.splits, real, likely), [analysis.splits, real, likely]);
  return (
    <section className={styles['part']} aria-label={words.title}>
      <h3>{words.title}</h3>
      <p className={styles['soft']}>{rows.length === 0 ? words.none : words.how}</p>
      <dl className={styles['figures']}>
        {rows.map(({ from, to, speed, over }) => (
          <div key={to} data-over={over}>
            <dt>
              {from} – {to} <span className={styles['soft']}>{words[over]}</span>
            </dt>
            <dd data-figure={`speed-${to}`}>{figure(speed)}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

function useRealSpeeds(analysis: Analysis): ReadonlyMap<number, RealSpeed> {
  const line = useLines((v) => v.lines.dog?.line ?? null);
  const ways = useWays(line);
  return useMemo(() => {
    if (!ways) return unmeasured;
    const taken = analysis.taken
      .filter((t) => t.try === analysis.countedTry)
      .toSorted((a, b) => a.place - b.place);
    return new Map(
      stretchFigures(ways, taken, new Map()).flatMap(({ from, to, speed, gap }) =>
        speed && from === to - 1 ? [[to, { speed, gap }] as const] : [],
      ),
    );
  }, [ways, analysis]);
}

/** Worked out after the page is drawn: three lines through a course take a moment. */
function useLikelyLengths(): ReadonlyMap<number, Quantity> {
  const review = useOpenReview();
  const { dog } = useDogOf(review);
  const built = useLines((v) => v.course);
  const { wait, landings } = review.plan;
  const [lengths, setLengths] = useState(nothing);
  useEffect(() => {
    if (!built) {
      setLengths(nothing);
      return;
    }
    const timer = setTimeout(() => {
      const range = createRangeSession()(built, wishOf({ wait, landings }, runnerWith(dog?.runner)));
      setLengths(range ? likelyLengths(range) : nothing);
    });
    return () => {
      clearTimeout(timer);
    };
  }, [built, wait, landings, dog]);
  return lengths;
}
