import { useMemo } from 'react';
import type { CrossAnalysis } from '../../../../src/review/analysis.ts';
import { middle } from '../../../../src/time/bracket.ts';
import { around, footfallsIn, gapLeft, spanOf, type Span } from '../../../../src/track/aroundCross.ts';
import { readingsFrom } from '../../../../src/track/fromMarks.ts';
import { handlerWhen, pathsCrossed, toldCrossed, type Pair } from '../../../../src/track/pairs.ts';
import { pairOf } from '../../../../src/track/runLines.ts';
import { aroundCrossWords as words, crossFoundWords } from '../../../../src/words/aroundCross.ts';
import { figure } from '../../../../src/words/figures.ts';
import { crossedSentence } from '../../../../src/words/realLineSentences.ts';
import { Button } from '../../look/Button.tsx';
import { useAnalysis, useReview } from '../../stores/react.ts';
import { useDeskView, useLines, useOpenReview } from '../DeskContext.ts';
import { markedAs } from '../track/foundCrosses.ts';
import styles from './AroundCross.module.css';
import { CrossSketch } from './CrossSketch.tsx';
import { useFoundCrosses, useRunReading, useTakeFound } from './useFoundCrosses.ts';

/** What the marked paths say of a cross: steps with the way they face, the gap to the dog's way, where it was crossed. */
export function AroundCross({ cross }: { readonly cross: CrossAnalysis }) {
  const lines = useLines((v) => v.lines);
  const pair = useMemo(() => pairOf(lines), [lines]);
  const span = useMemo(() => spanOf(cross), [cross]);
  // With nothing marked there is nothing to read off.
  if (!span) return null;
  return (
    <section className={styles['part']} aria-label={words.title}>
      <h4>{words.title}</h4>
      {pair ? (
        <Facts cross={cross} pair={pair} span={span} />
      ) : (
        <p className={styles['soft']}>
          {words.missing[lines.dog?.line ? 'handler' : lines.handler?.line ? 'dog' : 'both']}
        </p>
      )}
    </section>
  );
}

function Facts({
  cross,
  pair,
  span,
}: {
  readonly cross: CrossAnalysis;
  readonly pair: Pair;
  readonly span: Span;
}) {
  const { plan } = useOpenReview();
  const feet = useFeet();
  const read = useRunReading();
  const crossed = useMemo(
    () =>
      pathsCrossed(pair).find(
        ({ handlerAt: { value } }) => value >= span.from - around && value <= span.to + around,
      ) ?? null,
    [pair, span],
  );
  const steps = useMemo(() => footfallsIn(pair, feet, span.from, span.to), [pair, feet, span]);
  const gap = useMemo(() => gapLeft(pair, span, crossed), [pair, span, crossed]);
  // As far as where the two ways cross, so that this is seen too.
  const shown = useMemo(() => {
    const times = crossed && toldCrossed(crossed) ? [crossed.handlerAt.value, crossed.dogAt.value] : [];
    return { from: Math.min(span.from, ...times), to: Math.max(span.to, ...times) };
  }, [span, crossed]);
  const support = plan.supports.find((s) => s.place === cross.place);
  const committed = cross.parts.committed ?? cross.parts.takeOff ?? cross.deadline;
  const then = support && committed ? handlerWhen(pair, middle(committed.bracket)) : null;
  return (
    <>
      <CrossSketch pair={pair} span={shown} steps={steps} place={cross.place} />
      <dl className={styles['facts']}>
        <div>
          <dt>{words.steps}</dt>
          <dd data-figure={`steps-${cross.place}`}>{words.stepsTold(steps)}</dd>
        </div>
        <div>
          <dt>{words.crossed}</dt>
          <dd data-figure={`crossed-${cross.place}`}>
            {crossed ? crossedSentence(crossed, read) : words.notCrossed}
          </dd>
        </div>
        <div>
          <dt>{words.gap}</dt>
          <dd data-figure={`gap-${cross.place}`}>
            {gap ? words.gapTold(gap, read(gap.at)) : words.gapUnknown}
          </dd>
        </div>
        {support && (
          <div>
            <dt>{words.support}</dt>
            <dd data-figure={`support-${cross.place}`}>
              {words.supportTold(
                support.until,
                cross.parts.committed ? 'committed' : 'takeOff',
                then?.apart && !then.unseen ? figure(then.apart) : null,
              )}
            </dd>
          </div>
        )}
      </dl>
      {!cross.parts.cueEnds && <Finish cross={cross} />}
    </>
  );
}

/** Offers the frame on which the path says that the cross is finished. */
function Finish({ cross }: { readonly cross: CrossAnalysis }) {
  const crosses = useAnalysis()?.crosses ?? [];
  const take = useTakeFound();
  const read = useRunReading();
  const found = useFoundCrosses().find((f) => markedAs(f, crosses)?.id === cross.id);
  if (!found) return null;
  return (
    <div className={styles['found']}>
      <p className={styles['soft']}>{crossFoundWords.finishHint(read(found.finished.value))}</p>
      <Button
        onClick={() => {
          take(found, cross.id);
        }}
      >
        {crossFoundWords.finish}
      </Button>
    </div>
  );
}

/** Every touch of either foot with the ground that is marked on the clip at hand, brought to the ground. */
function useFeet() {
  const { tracks } = useOpenReview();
  const ground = useLines((v) => v.ground);
  const footageId = useDeskView((v) => v.footageId);
  const clock = useReview((v) => (footageId === null ? undefined : v.clocks.get(footageId)));
  return useMemo(() => {
    if (!ground || !clock) return [];
    return tracks.flatMap((t) => {
      if (t.who !== 'handler' || t.during !== 'run' || t.footageId !== footageId) return [];
      if (t.point !== 'leftFoot' && t.point !== 'rightFoot') return [];
      const foot = t.point === 'leftFoot' ? ('left' as const) : ('right' as const);
      const marks = t.marks.filter((m) => ground.holds(m.pts));
      return readingsFrom({ marks }, clock, ground.view).readings.flatMap((reading) =>
        reading.contact === 'ground' ? [{ foot, reading }] : [],
      );
    });
  }, [tracks, footageId, ground, clock]);
}
