import { useRef } from 'react';
import type { NearPicture } from '../../../../src/course/underlay.ts';
import type { KnownPoint } from './knownPoints.ts';
import styles from './LayPicture.module.css';

interface KnownPointHandleProps {
  readonly point: KnownPoint;
  readonly name: string;
  readonly pointAt: (event: { clientX: number; clientY: number }) => NearPicture;
  /** Width of the picture over its height. */
  readonly shape: number;
  readonly onMove: (at: NearPicture) => void;
}

/** One press of an arrow key moves a point by this part of the picture's width. */
const keyStep = 1 / 1000;
const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** A known point of the picture: dragged, or moved by arrow keys (with Shift by more). */
export function KnownPointHandle({ point, name, pointAt, shape, onMove }: KnownPointHandleProps) {
  const dragging = useRef(false);
  return (
    <button
      type="button"
      className={styles['handle']}
      style={{ left: `${point.at.x * 100}%`, top: `${point.at.y * 100}%` }}
      data-is={point.is}
      data-set={point.set}
      aria-label={name}
      onClick={(event) => {
        // The click that ends a drag is no new place for another point.
        event.stopPropagation();
      }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        dragging.current = true;
      }}
      onPointerMove={(event) => {
        if (dragging.current) onMove(pointAt(event));
      }}
      onPointerUp={() => {
        dragging.current = false;
      }}
      onPointerCancel={() => {
        dragging.current = false;
      }}
      onKeyDown={(event) => {
        const by = arrows[event.key];
        if (!by) return;
        event.preventDefault();
        event.stopPropagation();
        const step = keyStep * (event.shiftKey ? 20 : 1);
        onMove({ x: point.at.x + by[0] * step, y: point.at.y + by[1] * step * shape });
      }}
    />
  );
}
