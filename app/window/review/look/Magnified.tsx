import { useEffect, useRef, type PointerEvent, type ReactNode } from 'react';
import { useDesk, useDeskView, useLook } from '../DeskContext.ts';
import { middleFor, placeUnder, shiftTo, type Fit, type Place } from './magnifier.ts';
import styles from './Magnified.module.css';
import { useLit } from './PictureLight.tsx';

/** A press this near to where it began is a touch, not a drag. Pixels. */
const still = 4;

/**
 * The picture under the magnifier: it is itself enlarged, so that nothing lies over the dog, and what is drawn on it
 * with it. A drag moves it, the wheel brings it nearer, a touch plays or stops.
 */
export function Magnified({
  shape,
  children,
  over,
}: {
  /** Height of the upright picture over its width. */
  readonly shape: number;
  /** The picture; it is lit. */
  readonly children: ReactNode;
  /** What lies over it in its own colours. */
  readonly over: ReactNode;
}) {
  const { desk, look } = useDesk();
  const pen = useDeskView((v) => v.mode.name === 'pen');
  useLook((v) => v.magnifiers);
  const box = useRef<HTMLDivElement>(null);
  const field = useRef<HTMLDivElement>(null);
  const fit = useRef<Fit>({ width: 0, height: 0, shape });
  const drag = useRef<{
    readonly x: number;
    readonly y: number;
    readonly under: Place;
    moved: boolean;
  } | null>(null);
  const lit = useLit();
  const near = look.magnifier().zoom > 1;

  // Past React: while it follows the dog, the picture moves at every frame of playback.
  useEffect(() => {
    const outer = box.current;
    if (!outer) return;
    const move = (): void => {
      const inner = field.current;
      if (!inner) return;
      const { scale, x, y } = shiftTo(fit.current, look.magnifier().zoom, look.place());
      inner.style.transform = scale === 1 ? '' : `translate(${x}px, ${y}px) scale(${scale})`;
    };
    const measure = (): void => {
      fit.current = { width: outer.clientWidth, height: outer.clientHeight, shape };
      move();
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(outer);
    const stops = [desk.store.subscribe(move), look.store.subscribe(move)];
    // React listens to the wheel passively, which cannot keep the page from scrolling.
    const onWheel = (event: WheelEvent): void => {
      event.preventDefault();
      const factor = Math.exp(-Math.max(-100, Math.min(100, event.deltaY)) / 400);
      look.zoomAbout(factor, fit.current, pointIn(outer, event));
    };
    outer.addEventListener('wheel', onWheel, { passive: false });
    return () => {
      watch.disconnect();
      for (const stop of stops) stop();
      outer.removeEventListener('wheel', onWheel);
    };
  }, [desk, look, shape]);

  const start = (event: PointerEvent<HTMLDivElement>): void => {
    drag.current = null;
    if (pen || event.button !== 0) return;
    const point = pointIn(event.currentTarget, event);
    const shift = shiftTo(fit.current, look.magnifier().zoom, look.place());
    drag.current = { ...point, under: placeUnder(fit.current, shift, point), moved: false };
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const go = (event: PointerEvent<HTMLDivElement>): void => {
    const began = drag.current;
    if (!began || !near) return;
    const point = pointIn(event.currentTarget, event);
    if (Math.hypot(point.x - began.x, point.y - began.y) > still) began.moved = true;
    if (began.moved) look.moveTo(middleFor(fit.current, look.magnifier().zoom, began.under, point));
  };
  const end = (event: PointerEvent<HTMLDivElement>): void => {
    const began = drag.current;
    drag.current = null;
    if (began && !began.moved && event.type === 'pointerup') desk.play();
  };

  return (
    <div
      ref={box}
      className={styles['box']}
      data-near={near}
      data-pen={pen}
      onPointerDown={start}
      onPointerMove={go}
      onPointerUp={end}
      onPointerCancel={end}
    >
      <div ref={field} className={styles['field']} data-magnified>
        <div className={styles['lit']} style={lit} data-lit>
          {children}
        </div>
        {over}
      </div>
    </div>
  );
}

function pointIn(box: HTMLElement, event: { readonly clientX: number; readonly clientY: number }): Place {
  const { left, top } = box.getBoundingClientRect();
  return { x: event.clientX - left, y: event.clientY - top };
}
