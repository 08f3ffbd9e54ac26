import { useEffect, useId, useRef, type ReactNode } from 'react';
import { useStore } from 'zustand';
import { drawingWords as words } from '../../../../src/words/drawing.ts';
import { useTheme } from '../../look/useTheme.ts';
import type { Board } from './board.ts';
import { lineLength, type MeasureElements } from './carry.ts';
import styles from './DrawingBoard.module.css';
import { createHand, type Hand } from './hand.ts';
import { createOverlayPainter } from './paintOverlay.ts';
import { createScreenPainter } from './screenPainter.ts';

interface DrawingBoardProps {
  readonly board: Board;
  /** Anything by which the drawing looks different; a new value paints it again. */
  readonly seen: readonly unknown[];
  /** What lies under the drawing. */
  readonly under?: ReactNode;
}

/** The sheet that the course is drawn on: two canvases, and the hand over them. */
export function DrawingBoard({ board, seen, under }: DrawingBoardProps) {
  const box = useRef<HTMLDivElement>(null);
  const ground = useRef<HTMLCanvasElement>(null);
  const over = useRef<HTMLCanvasElement>(null);
  const hand = useRef<HTMLCanvasElement>(null);
  const told = useRef<HTMLDivElement>(null);
  const theme = useTheme();
  const worn = useRef(theme);
  const repaint = useRef<() => void>(() => undefined);
  const said = useStore(board, (v) => v.said);
  const tool = useStore(board, (v) => v.tool.name);
  const how = useId();
  const count = board.shown().steps.length;

  useEffect(() => {
    const element = box.current;
    if (!element || !ground.current || !over.current || !hand.current) return;
    const painter = createScreenPainter(
      board,
      ground.current,
      hand.current,
      measuresIn(told.current),
      () => worn.current,
    );
    const overlay = createOverlayPainter(over.current, () => ({
      shapes: board.overlay().shapes,
      camera: board.camera(),
      size: board.size(),
      theme: worn.current,
      unit: board.desk.unit(),
      numbers: painter.numbers(),
    }));
    const ask = (): void => {
      painter.ask();
      overlay.ask();
    };
    repaint.current = ask;
    const watch = new ResizeObserver(([entry]) => {
      const { width = 0, height = 0 } = entry?.contentRect ?? {};
      board.setSize({ width, height });
    });
    watch.observe(element);
    const stopPaint = board.onPaint(ask);
    const stopHand = followPointer(element, board, createHand(board));
    ask();
    return () => {
      stopPaint();
      stopHand();
      watch.disconnect();
      painter.stop();
      overlay.stop();
      board.settle();
    };
  }, [board]);
  const grip = useStore(board, (v) => v.grip);
  useEffect(() => {
    // What is in hand is moved by the keys of the board.
    if (grip !== null) box.current?.focus({ preventScroll: true });
  }, [grip]);
  useEffect(() => {
    worn.current = theme;
    repaint.current();
  });
  useEffect(() => {
    repaint.current();
    // eslint-disable-next-line react-hooks/exhaustive-deps -- The values themselves are the reason to paint.
  }, seen);

  return (
    <div className={styles['frame']}>
      <div
        ref={box}
        className={styles['box']}
        role="application"
        tabIndex={0}
        aria-label={words.board.label(count)}
        aria-describedby={how}
        data-tool={tool}
      >
        {under}
        <canvas ref={ground} className={styles['sheet']} aria-hidden />
        <canvas ref={over} className={styles['sheet']} aria-hidden hidden />
        <canvas ref={hand} className={styles['hand']} aria-hidden hidden />
        <div ref={told} aria-hidden>
          {[0, 1].map((i) => (
            <div key={i}>
              <i className={styles['measure']} style={{ width: lineLength }} hidden />
              <b className={styles['length']} hidden />
            </div>
          ))}
        </div>
      </div>
      <p id={how} className={styles['unseen']}>
        {words.board.how}
      </p>
      <p className={styles['said']} role="status">
        {said}
      </p>
    </div>
  );
}

/** The elements that tell distances while something is carried. */
function measuresIn(told: HTMLElement | null): readonly MeasureElements[] {
  return [...(told?.children ?? [])].flatMap(({ children: [line, label] }) =>
    line instanceof HTMLElement && label instanceof HTMLElement ? [{ line, label }] : [],
  );
}

/** Joins pointer events of an element to the hand; two fingers push and zoom the sheet. */
function followPointer(element: HTMLElement, board: Board, hand: Hand): () => void {
  const fingers = new Map<number, { x: number; y: number }>();
  const listen = new AbortController();
  const place = (event: MouseEvent): { x: number; y: number } => {
    const { left, top } = element.getBoundingClientRect();
    return { x: event.clientX - left - element.clientLeft, y: event.clientY - top - element.clientTop };
  };
  const on = <K extends keyof HTMLElementEventMap>(
    name: K,
    run: (event: HTMLElementEventMap[K]) => void,
  ): void => {
    element.addEventListener(name, run, { signal: listen.signal, passive: false });
  };
  on('pointerdown', (event) => {
    element.setPointerCapture(event.pointerId);
    element.focus({ preventScroll: true });
    const at = place(event);
    fingers.set(event.pointerId, at);
    if (fingers.size > 1) hand.cancel();
    else hand.press(at.x, at.y, { more: event.shiftKey || event.ctrlKey, push: event.button !== 0 });
  });
  on('pointermove', (event) => {
    const at = place(event);
    const before = fingers.get(event.pointerId);
    if (fingers.size === 2 && before) {
      const [other] = [...fingers].flatMap(([id, p]) => (id === event.pointerId ? [] : [p]));
      fingers.set(event.pointerId, at);
      if (!other) return;
      const spread = (p: { x: number; y: number }): number => Math.hypot(p.x - other.x, p.y - other.y);
      board.push((at.x - before.x) / 2, (at.y - before.y) / 2);
      board.zoom(spread(at) / Math.max(1, spread(before)), (at.x + other.x) / 2, (at.y + other.y) / 2);
      return;
    }
    hand.move(at.x, at.y);
    if (fingers.size === 0) {
      const over = hand.over(at.x, at.y);
      if (element.dataset['over'] !== over) element.dataset['over'] = over;
    }
  });
  const lift = (event: PointerEvent): void => {
    const alone = fingers.size === 1;
    fingers.delete(event.pointerId);
    if (alone && event.type === 'pointerup') hand.release();
    else hand.cancel();
  };
  on('pointerup', lift);
  on('pointercancel', lift);
  on('pointerleave', () => {
    board.setPointer(null);
  });
  on('contextmenu', (event) => {
    event.preventDefault();
  });
  on('wheel', (event) => {
    event.preventDefault();
    const at = place(event);
    board.zoom(Math.exp(-event.deltaY * 0.0015), at.x, at.y);
  });
  return () => {
    listen.abort();
  };
}
