import { useEffect, useRef } from 'react';
import { obstacleAt } from '../../../../src/course/course.ts';
import type { Mark } from '../../../../src/review/marks.ts';
import { markName, sentenceCase } from '../../../../src/words/review.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { Button } from '../../look/Button.tsx';
import { useReview } from '../../stores/react.ts';
import { useDesk, useDeskView, useOpenReview } from '../DeskContext.ts';
import { unsureSteps } from '../marking/edit.ts';
import { frameOf } from '../desk/desk.ts';
import styles from './MarkCard.module.css';

const words = reviewScreenWords.mark;

/** The chosen mark: how sure it is, its number, its note. Everything here has a key as well. */
export function MarkCard() {
  const selected = useDeskView((v) => v.selected);
  const { marks } = useOpenReview();
  const mark = marks.find((m) => m.id === selected);
  return mark ? <Card key={mark.id} mark={mark} /> : null;
}

function Card({ mark }: { readonly mark: Mark }) {
  const { desk, hands } = useDesk();
  const review = useOpenReview();
  const clocks = useReview((v) => v.clocks);
  const editing = useDeskView((v) => v.editing);
  const note = useRef<HTMLTextAreaElement>(null);
  const place = placeOf(mark, review.crosses);
  const own =
    mark.kind === 'event' ? review.header.ownEvents.find((e) => e.id === mark.event)?.label : undefined;
  const kind = (place === null ? undefined : obstacleAt(review.course, place)?.kind) ?? 'unknown';
  const name = markName(mark, kind, own ?? null);
  const frame = frameOf(mark, clocks);

  useEffect(() => {
    if (editing) note.current?.focus();
  }, [editing]);

  return (
    <section className={styles['card']} aria-label={words.title} data-keeps-focus={editing ? '' : undefined}>
      <h3 className={styles['title']}>
        <span>{sentenceCase(words.at(name, place))}</span>
        {frame !== null && <span className={styles['frame']}>{reviewScreenWords.play.frame(frame)}</span>}
      </h3>
      <div className={styles['unsure']} role="group" aria-label={words.unsure}>
        <span>{words.unsure}</span>
        {unsureSteps.map((n) => (
          <button
            key={n}
            type="button"
            className={styles['step']}
            aria-pressed={mark.unsure === n}
            onClick={() => {
              hands.setUnsure(mark, n);
            }}
          >
            {n}
          </button>
        ))}
        <span>{words.frames}</span>
      </div>
      {mark.unsure > 3 && <p className={styles['soft']}>{words.unsurePlaying(mark.unsure)}</p>}
      {(editing || mark.note !== '') && (
        <label className={styles['note']}>
          {words.note}
          <textarea
            ref={note}
            rows={2}
            maxLength={2000}
            defaultValue={mark.note}
            onBlur={(event) => {
              hands.setNote(mark, event.target.value);
            }}
            onKeyDown={(event) => {
              if (event.key === 'Escape') event.currentTarget.value = mark.note;
              if (event.key !== 'Escape' && (event.key !== 'Enter' || event.shiftKey)) return;
              event.preventDefault();
              event.currentTarget.blur();
              desk.set({ editing: false });
            }}
          />
        </label>
      )}
      {editing && (mark.kind === 'taken' || mark.kind === 'event') && (
        <NumberField mark={mark} place={place} />
      )}
      {editing && (
        <Button
          kind="quiet"
          onClick={() => {
            desk.set({ editing: false });
          }}
        >
          {words.done}
        </Button>
      )}
    </section>
  );
}

function NumberField({ mark, place }: { readonly mark: Mark; readonly place: number | null }) {
  const { desk, hands } = useDesk();
  return (
    <div className={styles['number']}>
      <label>
        {words.number}
        <input
          key={place}
          inputMode="numeric"
          size={3}
          maxLength={3}
          defaultValue={place ?? ''}
          onBlur={(event) => {
            const n = Number(event.target.value);
            if (event.target.value.trim() === '') hands.setPlace(mark, undefined);
            else if (Number.isInteger(n)) hands.setPlace(mark, n);
            event.target.value = String(place ?? '');
          }}
          onKeyDown={(event) => {
            if (event.key === 'Escape') event.currentTarget.value = String(place ?? '');
            if (event.key !== 'Enter' && event.key !== 'Escape') return;
            event.preventDefault();
            event.currentTarget.blur();
            desk.set({ editing: false });
          }}
        />
      </label>
      {mark.kind === 'taken' && (
        <>
          <Button
            kind="quiet"
            onClick={() => {
              hands.shift(mark, 1);
            }}
          >
            {words.shiftUp}
          </Button>
          <Button
            kind="quiet"
            onClick={() => {
              hands.shift(mark, -1);
            }}
          >
            {words.shiftDown}
          </Button>
        </>
      )}
    </div>
  );
}

function placeOf(
  mark: Mark,
  crosses: readonly { readonly id: string; readonly place: number }[],
): number | null {
  if (mark.kind === 'start') return null;
  if (mark.kind === 'cross') return crosses.find((c) => c.id === mark.crossId)?.place ?? null;
  return mark.place ?? null;
}
