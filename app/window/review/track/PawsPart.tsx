import { useMemo } from 'react';
import { stepTold, triesStayed } from '../../../../src/review/pawsStayed.ts';
import { realLineWords } from '../../../../src/words/realLine.ts';
import { movedSentence, stayedSentence } from '../../../../src/words/realLineSentences.ts';
import { Button } from '../../look/Button.tsx';
import { KeptField } from '../../look/Field.tsx';
import { useAnalysis, usePreferences, useReview, useWorkbench } from '../../stores/react.ts';
import { useDesk, useDeskView, useLines, useOpenReview, useTrack } from '../DeskContext.ts';
import styles from './LinePage.module.css';
import { MarkTools } from './MarkTools.tsx';

const words = realLineWords.paws;

/** How far her paws moved while she waited, in centimetres, held against what the coach counts as a step. */
export function PawsPart() {
  const { track } = useDesk();
  const review = useOpenReview();
  const analysis = useAnalysis();
  const clocks = useReview((v) => v.clocks);
  const footageId = useDeskView((v) => v.footageId);
  const marking = useDeskView((v) => v.mode.name === 'track');
  const waiting = useTrack((v) => v.during === 'wait');
  const ground = useLines((v) => v.ground);
  const need = useLines((v) => v.need);
  const countsFrom = usePreferences((p) => p.realLine.stepCounts);
  const clock = footageId === null ? undefined : clocks.get(footageId);
  const tries = useMemo(
    () =>
      ground && clock && footageId !== null
        ? triesStayed(review, footageId, clock, ground, analysis?.startLine ?? [], countsFrom)
        : [],
    [review, footageId, clock, ground, analysis, countsFrom],
  );
  const told = useMemo(() => ground && stepTold(ground, 0.05, countsFrom), [ground, countsFrom]);
  const marked = review.tracks.some((t) => t.during === 'wait' && t.footageId === footageId);
  return (
    <section className={styles['part']} aria-label={words.title}>
      <h3>{words.title}</h3>
      {marking && waiting && <MarkTools />}
      {need !== 'clip' && !(marking && waiting) && (
        <div className={styles['row']}>
          <Button
            act="review.start.paws"
            onClick={() => {
              track.open('wait');
            }}
          >
            {words.mark}
          </Button>
        </div>
      )}
      {need === 'course' || need === 'fit' ? (
        <p className={styles['soft']}>
          {realLineWords.page.needs[need].title} {words.needsGround}
        </p>
      ) : (
        !marked && <p className={styles['soft']}>{words.none}</p>
      )}
      {tries.map((t) => (
        <div key={t.try} className={styles['card']} data-stayed={t.verdict}>
          <h4>{words.try(t.try)}</h4>
          <p>{stayedSentence(t)}</p>
          {!t.released && <p className={styles['soft']}>{words.noRelease}</p>}
          <dl className={styles['figures']}>
            {t.moved.map((m) => (
              <div key={m.point}>
                <dt>{realLineWords.points[m.point]}</dt>
                <dd data-paw={m.point}>{movedSentence(m)}</dd>
              </div>
            ))}
          </dl>
        </div>
      ))}
      {ground && <Criterion countsFrom={countsFrom} />}
      {ground && (
        <p className={styles['soft']}>{told ? words.told(told.across, told.along) : words.cameraUnknown}</p>
      )}
    </section>
  );
}

/** From how many centimetres on a paw has stepped. */
function Criterion({ countsFrom }: { readonly countsFrom: number }) {
  const { preferences } = useWorkbench();
  const look = usePreferences((p) => p.realLine);
  return (
    <KeptField
      label={words.criterion}
      hint={words.criterionHint}
      inputMode="decimal"
      value={String(Math.round(countsFrom * 1000) / 10)}
      onKeep={(text) => {
        const centimetres = Number(text.replace(',', '.'));
        if (!(centimetres >= 0.5 && centimetres <= 50)) return;
        void preferences.change({ realLine: { ...look, stepCounts: centimetres / 100 } });
      }}
    />
  );
}
