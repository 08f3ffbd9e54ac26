import { useEffect, useMemo, useRef, useState, type PointerEvent } from 'react';
import { ptsOf } from '../../../src/time/frameTable.ts';
import { frameIndex } from '../../../src/time/units.ts';
import { reviewScreenWords } from '../../../src/words/reviewScreen.ts';
import { useDesk, useDeskView, useLook, useOpenReview } from './DeskContext.ts';
import styles from './DrawingOverlay.module.css';
import { useFitted } from './look/useFitted.ts';
import { paintStrokes } from '../../../src/review/paintStrokes.ts';
import { penWidth, shapesOn, simplified, type Shape } from '../../../src/review/penStrokes.ts';

const words = reviewScreenWords.picture;

/** What is drawn on the frame on the screen, laid exactly over the picture; takes the pen while it is out. */
export function DrawingOverlay({ shape }: { readonly shape: number }) {
  const { desk, hands } = useDesk();
  const { drawings } = useOpenReview();
  const frame = useDeskView((v) => v.frame);
  const footageId = useDeskView((v) => v.footageId);
  const playing = useDeskView((v) => v.playing);
  const pen = useDeskView((v) => v.mode.name === 'pen');
  const ink = useDeskView((v) => v.ink);
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const size = useFitted(box, shape);
  const scale = window.devicePixelRatio * useSharpness(size.width * window.devicePixelRatio);
  const stroke = useRef<number[] | null>(null);
  const [drawing, setDrawing] = useState(0);

  const clock = desk.clock();
  const pts = clock && frame < clock.table.pts.length ? ptsOf(clock.table, frameIndex(frame)) : null;
  const shapes = useMemo(
    () => (playing ? [] : shapesOn(drawings, footageId, pts)),
    [drawings, footageId, pts, playing],
  );

  useEffect(() => {
    const paper = canvas.current?.getContext('2d');
    if (!paper || !canvas.current) return;
    const { width, height } = canvas.current;
    paper.clearRect(0, 0, width, height);
    const now: Shape[] = stroke.current
      ? [{ shape: 'stroke', ink, width: penWidth, points: stroke.current }]
      : [];
    paintStrokes(paper, [...shapes, ...now], width, height);
  }, [shapes, size, drawing, ink, scale]);

  const at = (event: PointerEvent<HTMLCanvasElement>): readonly [number, number] => {
    const { left, top, width, height } = event.currentTarget.getBoundingClientRect();
    return [(event.clientX - left) / width, (event.clientY - top) / height];
  };
  const end = (event: PointerEvent<HTMLCanvasElement>): void => {
    const points = stroke.current;
    stroke.current = null;
    if (event.currentTarget.hasPointerCapture(event.pointerId)) {
      event.currentTarget.releasePointerCapture(event.pointerId);
    }
    if (points && event.type === 'pointerup') hands.addStroke(simplified(points, shape));
    setDrawing((n) => n + 1);
  };

  return (
    <div ref={box} className={styles['box']} data-pen={pen}>
      <canvas
        ref={canvas}
        className={styles['paper']}
        role={shapes.length > 0 ? 'img' : undefined}
        aria-label={shapes.length > 0 ? words.drawing : undefined}
        width={Math.max(1, Math.round(size.width * scale))}
        height={Math.max(1, Math.round(size.height * scale))}
        style={{ width: size.width, height: size.height }}
        onPointerDown={(event) => {
          if (!pen || event.button !== 0) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          stroke.current = [...at(event)];
          setDrawing((n) => n + 1);
        }}
        onPointerMove={(event) => {
          if (!stroke.current) return;
          stroke.current.push(...at(event));
          setDrawing((n) => n + 1);
        }}
        onPointerUp={end}
        onPointerCancel={end}
      />
    </div>
  );
}

/** Widest the drawing is painted. Pixels. */
const widest = 4096;

/** How many times finer than the screen the drawing is to be painted, so that it stays sharp under the magnifier. */
function useSharpness(width: number): number {
  const { look } = useDesk();
  useLook((v) => v.magnifiers);
  return Math.max(1, Math.min(Math.ceil(look.magnifier().zoom), Math.floor(widest / Math.max(1, width))));
}
