import { useEffect, useRef, type PointerEvent, type ReactNode } from 'react';
import { useDesk, useDeskView, useLook } from '../DeskContext.ts';
import { middleFor, placeUnder, shiftTo, type Fit, type Place, type Shift } from './magnifier.ts';
import styles from './Magnified.module.css';
import { useLit } from './PictureLight.tsx';

/** A press this near to where it began is a touch, not a drag. Pixels. */
const still = 4;

/** A thing on the picture that is dragged in place of the picture itself. */
export interface Grip {
  /** Whether a press there begins on the thing; `reach` is how near counts, as fractions of the picture's sides. */
  take(place: Place, reach: Place): boolean;
  drag(place: Place): void;
  /** The end of a drag; null where it was broken off. */
  drop(place: Place | null): void;
}

/** A press this near to a thing is a press on it. Pixels of the screen. */
const near = 14;

/**
 * The picture under the magnifier: it is itself enlarged, so that nothing lies over the dog, and what is drawn on it
 * with it. A drag moves it, the wheel brings it nearer, a touch plays or stops.
 */
export function Magnified({
  shape,
  children,
  over,
  onTouch,
  onOver,
  grip,
}: {
  /** Height of the upright picture over its width. */
  readonly shape: number;
  /** The picture; it is lit. */
  readonly children: ReactNode;
  /** What lies over it in its own colours. */
  readonly over: ReactNode;
  /** What a touch does at a place of the picture, in place of playing or stopping. */
  readonly onTouch?: ((place: Place) => void) | undefined;
  /** Told where the mouse is over the picture. */
  readonly onOver?: ((place: Place) => void) | undefined;
  readonly grip?: Grip | undefined;
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
    readonly gripped: boolean;
    moved: boolean;
  } | null>(null);
  const lit = useLit();
  const enlarged = look.magnifier().zoom > 1;

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
    const under = placeUnder(fit.current, shift, point);
    drag.current = {
      ...point,
      under,
      gripped: grip?.take(under, reachOf(fit.current, shift)) === true,
      moved: false,
    };
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const placeOf = (event: PointerEvent<HTMLDivElement>): Place =>
    placeUnder(
      fit.current,
      shiftTo(fit.current, look.magnifier().zoom, look.place()),
      pointIn(event.currentTarget, event),
    );
  const go = (event: PointerEvent<HTMLDivElement>): void => {
    const began = drag.current;
    if (!began) {
      if (event.pointerType === 'mouse') onOver?.(placeOf(event));
      return;
    }
    if (!enlarged && !began.gripped) return;
    const point = pointIn(event.currentTarget, event);
    if (Math.hypot(point.x - began.x, point.y - began.y) > still) began.moved = true;
    if (!began.moved) return;
    if (began.gripped) grip?.drag(placeOf(event));
    else look.moveTo(middleFor(fit.current, look.magnifier().zoom, began.under, point));
  };
  const end = (event: PointerEvent<HTMLDivElement>): void => {
    const began = drag.current;
    drag.current = null;
    const done = event.type === 'pointerup';
    if (began?.gripped && began.moved) grip?.drop(done ? placeOf(event) : null);
    if (!began || began.moved || !done) return;
    if (onTouch) onTouch(began.under);
    else desk.play();
  };

  return (
    <div
      ref={box}
      className={styles['box']}
      data-near={enlarged}
      data-pen={pen}
      data-touch={onTouch !== undefined}
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

/** How near to a thing a press counts as on it, as fractions of the picture's sides. */
function reachOf(fit: Fit, shift: Shift): Place {
  const [here, there] = [
    placeUnder(fit, shift, { x: 0, y: 0 }),
    placeUnder(fit, shift, { x: near, y: near }),
  ];
  return { x: there.x - here.x, y: there.y - here.y };
}

function pointIn(box: HTMLElement, event: { readonly clientX: number; readonly clientY: number }): Place {
  const { left, top } = box.getBoundingClientRect();
  return { x: event.clientX - left, y: event.clientY - top };
}
