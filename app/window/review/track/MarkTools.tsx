import { useEffect, useId, useRef } from 'react';
import { dogPoints, handlerPoints } from '../../../../src/track/track.ts';
import { bodyPointWords, realLineWords } from '../../../../src/words/realLine.ts';
import { Button } from '../../look/Button.tsx';
import { SelectField } from '../../look/Field.tsx';
import { useDesk, useDeskView, useOpenReview, useTrack } from '../DeskContext.ts';
import styles from './LinePage.module.css';
import { isPaw, stepBounds } from './trackHands.ts';
import { Leave } from '../Leave.tsx';

const words = realLineWords.tools;

/** What is being marked: whose line, which point, how it touches, and how far on the next frame comes. */
export function MarkTools() {
  const { track } = useDesk();
  const playing = useDeskView((v) => v.playing);
  const { who, dogPoint, handlerPoint, during, contact } = useTrack((v) => v);
  useOpenReview();
  useDeskView((v) => v.frame);
  useDeskView((v) => v.footageId);
  const id = useId();
  const top = useRef<HTMLElement>(null);
  useEffect(() => {
    top.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  const marks = track.track()?.marks.length ?? 0;
  const here = track.here();
  const touching = contact ?? here?.contact ?? track.expected();
  const wait = during === 'wait';
  return (
    <section ref={top} className={styles['tools']} aria-label={words.label}>
      <div className={styles['head']}>
        <h3>{wait ? words.titleWait : words.title}</h3>
        <Leave kind="main">{words.done}</Leave>
      </div>
      <p className={styles['soft']}>{wait ? words.howWait : words.how}</p>
      {!wait && (
        <div className={styles['row']} role="group" aria-label={words.who}>
          <Button
            act="review.track.dog"
            pressed={who === 'dog'}
            onClick={() => {
              track.set({ who: 'dog' });
            }}
          >
            {words.dog}
          </Button>
          <Button
            act="review.track.handler"
            pressed={who === 'handler'}
            onClick={() => {
              track.set({ who: 'handler' });
            }}
          >
            {words.handler}
          </Button>
        </div>
      )}
      {who === 'dog' ? (
        <SelectField
          label={words.point}
          value={dogPoint}
          options={dogPoints
            .filter((p) => !wait || isPaw(p) || p === 'nose')
            .map((p) => [p, bodyPointWords[p]] as const)}
          onChange={(point) => {
            track.set({ dogPoint: point });
          }}
        />
      ) : (
        <SelectField
          label={words.point}
          value={handlerPoint}
          options={handlerPoints.map((p) => [p, bodyPointWords[p]] as const)}
          onChange={(point) => {
            track.set({ handlerPoint: point });
          }}
        />
      )}
      {!wait && (
        <div className={styles['row']} role="group" aria-label={words.contact}>
          <Button
            act="review.track.ground"
            pressed={touching === 'ground'}
            onClick={() => {
              track.touch('ground');
            }}
          >
            {words.ground}
          </Button>
          <Button
            act="review.track.air"
            pressed={touching === 'air'}
            onClick={() => {
              track.touch('air');
            }}
          >
            {words.air}
          </Button>
        </div>
      )}
      {!wait && (
        <div className={styles['step']}>
          <label htmlFor={id}>{words.step}</label>
          <input
            id={id}
            type="number"
            min={stepBounds.least}
            max={stepBounds.most}
            step={0.01}
            value={track.stepSeconds().toFixed(2)}
            onChange={(event) => {
              const { valueAsNumber } = event.target;
              if (Number.isFinite(valueAsNumber)) track.setStep(valueAsNumber);
            }}
            onKeyDown={(event) => {
              if (event.key === 'Enter' || event.key === 'Escape') event.currentTarget.blur();
            }}
          />
          <span>{words.seconds}</span>
        </div>
      )}
      <p className={styles['soft']} data-figure="marks">
        {words.count(marks, here !== undefined)}
      </p>
      <div className={styles['row']}>
        <Button act="review.track.back" onClick={track.back}>
          {words.back}
        </Button>
        <Button act="review.track.skip" onClick={track.skip}>
          {words.skip}
        </Button>
        {here && (
          <Button act="review.track.remove" onClick={track.remove}>
            {words.remove}
          </Button>
        )}
      </div>
      {playing && <p className={styles['soft']}>{words.playing}</p>}
    </section>
  );
}
