import { useEffect, useEffectEvent, useRef, useState } from 'react';
import { obstacleAt } from '../../../src/course/course.ts';
import type { PicturePoint } from '../../../src/course/points.ts';
import { courseWords } from '../../../src/words/course.ts';
import { obstacleName } from '../../../src/words/review.ts';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import boardStyles from '../map/NumberBoard.module.css';
import { usePreferences } from '../stores/react.ts';
import { nextUnplaced, withPlace } from './edit.ts';
import styles from './PictureNumbers.module.css';
import { useCourse } from './useCourse.ts';

const words = courseWords.picture;
const labels = courseWords.labels;

interface PictureNumbersProps {
  readonly url: string;
  /** True while clicks on the picture put numbers down. */
  readonly placing: boolean;
  readonly selected: number | null;
  readonly onSelect: (place: number) => void;
  /** Told when the last number has been put down. */
  readonly onPlaced: () => void;
}

/** A number that is being moved and not kept yet. */
interface Moving {
  readonly number: number;
  readonly at: PicturePoint;
}

/** One press of an arrow key moves a number by this part of the picture's width. */
const keyStep = 1 / 300;
/** Milliseconds without another press until a number moved by keys is kept: one undo for one move. */
const keyPause = 600;
/** Pixels a pointer must go before a press counts as a drag. */
const dragFrom = 3;

/** The picture of the judge's map, on which numbers are clicked into place, dragged, and moved by arrow keys. */
export function PictureNumbers({ url, placing, selected, onSelect, onPlaced }: PictureNumbersProps) {
  const { state, changeCourse } = useCourse();
  const { course } = state;
  const dialect = usePreferences((p) => p.dialect);
  const sheet = useRef<HTMLDivElement>(null);
  const [moving, setMoving] = useState<Moving | null>(null);
  const [skipped, setSkipped] = useState<ReadonlySet<number>>(new Set());
  const size = course.mapPicture ?? { width: 4, height: 3 };

  const waiting = course.steps.filter((step) => !step.onPicture && !skipped.has(step.number));
  const next = placing ? (waiting[0]?.number ?? nextUnplaced(course)) : undefined;
  const standing = course.steps.filter((step) => step.onPicture).length;
  const nextName = next === undefined ? '' : obstacleName(obstacleAt(course, next), dialect);

  const pointAt = (event: { clientX: number; clientY: number }): PicturePoint => {
    const box = sheet.current?.getBoundingClientRect();
    if (!box || box.width === 0 || box.height === 0) return { x: 0.5, y: 0.5 };
    return { x: (event.clientX - box.left) / box.width, y: (event.clientY - box.top) / box.height };
  };
  const keep = (number: number, at: PicturePoint): void => {
    const label = course.steps.some((s) => s.number === number && s.onPicture)
      ? labels.move(number)
      : labels.place(number);
    changeCourse(label, (c) => withPlace(c, number, at));
  };
  const put = (at: PicturePoint): void => {
    if (next === undefined) return;
    keep(next, at);
    onSelect(next);
    if (waiting.length <= 1) onPlaced();
  };

  const settle = (): void => {
    if (moving) keep(moving.number, moving.at);
    setMoving(null);
  };
  const settleAfterPause = useEffectEvent(settle);
  const byKeys = useRef(false);
  useEffect(() => {
    if (!moving || !byKeys.current) return;
    const timer = setTimeout(() => {
      settleAfterPause();
    }, keyPause);
    return () => {
      clearTimeout(timer);
    };
  }, [moving]);
  const unfinished = useRef(moving);
  useEffect(() => {
    unfinished.current = moving;
  });
  const keepUnfinished = useEffectEvent(() => {
    if (unfinished.current) keep(unfinished.current.number, unfinished.current.at);
  });
  useEffect(
    () => () => {
      keepUnfinished();
    },
    [],
  );

  const nudge = (dx: number, dy: number) => (): void => {
    if (selected === null) return;
    if (moving && moving.number !== selected) settle();
    const step = course.steps.find((s) => s.number === selected);
    const from = moving?.number === selected ? moving.at : (step?.onPicture ?? { x: 0.5, y: 0.5 });
    const clamp = (v: number): number => Math.min(1, Math.max(0, v));
    byKeys.current = true;
    setMoving({
      number: selected,
      at: { x: clamp(from.x + dx * keyStep), y: clamp(from.y + (dy * keyStep * size.width) / size.height) },
    });
  };
  const movable = selected !== null;
  useActs({
    'course.left': movable ? nudge(-1, 0) : undefined,
    'course.right': movable ? nudge(1, 0) : undefined,
    'course.up': movable ? nudge(0, -1) : undefined,
    'course.down': movable ? nudge(0, 1) : undefined,
  });

  return (
    <>
      <p className={styles['say']} role="status">
        {next === undefined
          ? standing === course.steps.length
            ? words.all
            : `${words.stands(standing, course.steps.length)} ${words.keyboard}`
          : words.next(next, nextName)}
        {next !== undefined && (
          <Button
            kind="quiet"
            onClick={() => {
              setSkipped((before) => new Set([...before, next]));
            }}
          >
            {words.skip}
          </Button>
        )}
      </p>
      <div className={styles['frame']}>
        <div
          ref={sheet}
          className={styles['sheet']}
          data-placing={next !== undefined}
          style={{ '--shape': size.width / size.height } as React.CSSProperties}
        >
          <img
            className={styles['picture']}
            src={url}
            alt={courseWords.map.pictureAlt}
            draggable={false}
            onClick={(event) => {
              put(pointAt(event));
            }}
          />
          {course.steps.map(({ number, onPicture }) => {
            const at = moving?.number === number ? moving.at : onPicture;
            if (!at) return null;
            return (
              <Board
                key={number}
                number={number}
                at={at}
                selected={number === selected}
                onSelect={onSelect}
                onDrag={(event) => {
                  byKeys.current = false;
                  const { x, y } = pointAt(event);
                  setMoving({
                    number,
                    at: { x: Math.min(1, Math.max(0, x)), y: Math.min(1, Math.max(0, y)) },
                  });
                }}
                onDrop={settle}
              />
            );
          })}
        </div>
      </div>
    </>
  );
}

interface BoardProps {
  readonly number: number;
  readonly at: PicturePoint;
  readonly selected: boolean;
  readonly onSelect: (place: number) => void;
  readonly onDrag: (event: React.PointerEvent) => void;
  readonly onDrop: () => void;
}

function Board({ number, at, selected, onSelect, onDrag, onDrop }: BoardProps) {
  const from = useRef<{ x: number; y: number; dragged: boolean } | null>(null);
  return (
    <button
      type="button"
      className={`${boardStyles['board']} ${boardStyles['standing']} ${styles['board']}`}
      style={{ left: `${at.x * 100}%`, top: `${at.y * 100}%` }}
      data-selected={selected}
      aria-pressed={selected}
      aria-label={words.boardOf(number)}
      onFocus={() => {
        onSelect(number);
      }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        from.current = { x: event.clientX, y: event.clientY, dragged: false };
        onSelect(number);
      }}
      onPointerMove={(event) => {
        const start = from.current;
        if (!start) return;
        const way = Math.hypot(event.clientX - start.x, event.clientY - start.y);
        if (way >= dragFrom) start.dragged = true;
        if (start.dragged) onDrag(event);
      }}
      onPointerUp={() => {
        const dragged = from.current?.dragged === true;
        from.current = null;
        if (dragged) onDrop();
      }}
      onPointerCancel={() => {
        from.current = null;
        onDrop();
      }}
    >
      {number}
    </button>
  );
}
