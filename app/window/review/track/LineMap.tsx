import { useCallback, useMemo, useRef, type PointerEvent } from 'react';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { nearestSample } from '../../../../src/track/samples.ts';
import { figure } from '../../../../src/words/figures.ts';
import { speedAt } from '../../../../src/track/figures.ts';
import { realLineWords } from '../../../../src/words/realLine.ts';
import { CourseMap, type MapGround } from '../../map/CourseMap.tsx';
import { useDesk, useDeskView, useLines, useOpenReview } from '../DeskContext.ts';
import { frameShownAt } from '../../../../src/review/cells.ts';
import { upright, uprightPoint } from '../panel/turned.ts';
import { GroundLines } from './GroundLines.tsx';
import styles from './LineMap.module.css';
import { Now } from './TrackOverlay.tsx';
import { useExpectedLines } from './useExpectedLines.ts';

const words = realLineWords.map;

/** How near the line a hand must be to take hold of it, pixels. */
const reach = 40;

/** The course with the lines on it. A hand on the line takes the footage along, and the dot follows the footage. */
export function LineMap() {
  const { desk } = useDesk();
  const { course } = useOpenReview();
  const sheet = useMemo(() => upright(course), [course]);
  const turn = useMemo(() => uprightPoint(course), [course]);
  return (
    <div className={styles['map']}>
      <CourseMap
        course={sheet}
        onSelect={(n) => {
          desk.goToPlace(n);
        }}
        over={(ground) => <Over ground={ground} turn={turn} />}
      />
    </div>
  );
}

function Over({
  ground: { width, height, pixel, at },
  turn,
}: {
  readonly ground: MapGround;
  readonly turn: (p: GroundPoint) => GroundPoint;
}) {
  const { desk } = useDesk();
  const samples = useLines((v) => v.samples.dog);
  const others = useLines((v) => v.samples.handler);
  const expected = useExpectedLines();
  const drag = useRef<{ readonly about: number } | null>(null);
  const corner = at({ x: 0, y: 0 });
  // The same map gives the same places, so that the lines are not painted anew at each frame.
  const place = useCallback(
    (p: GroundPoint): GroundPoint => {
      const { x, y } = turn(p);
      return { x: corner.x + x, y: corner.y - y };
    },
    [turn, corner.x, corner.y],
  );
  const goTo = (event: PointerEvent<SVGSVGElement>, about: number | null): number | null => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = ((event.clientX - box.left) / box.width) * width;
    const y = ((event.clientY - box.top) / box.height) * height;
    const far = (s: GroundPoint): number => {
      const p = place(s);
      return (p.x - x) ** 2 + (p.y - y) ** 2;
    };
    const near = nearestSample(samples.length > 0 ? samples : others, far, about);
    if (!near || (about === null && Math.sqrt(far(near)) > reach * pixel)) return null;
    desk.pause();
    desk.goToTime(near.at);
    return near.at;
  };
  return (
    <svg
      className={styles['over']}
      viewBox={`0 0 ${width} ${height}`}
      data-line-map
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        const about = goTo(event, null);
        if (about === null) return;
        drag.current = { about };
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        if (!drag.current) return;
        const about = goTo(event, drag.current.about);
        if (about !== null) drag.current = { about };
      }}
      onPointerUp={() => {
        drag.current = null;
      }}
      onPointerCancel={() => {
        drag.current = null;
      }}
    >
      <GroundLines place={place} unit={pixel} expected={expected} />
      <Now place={place} unit={pixel} />
    </svg>
  );
}

/** The place on the line as a slider, frame by frame. */
export function AlongLine() {
  const { desk } = useDesk();
  const frame = useDeskView((v) => v.frame);
  const line = useLines((v) => v.lines.dog?.line ?? v.lines.handler?.line ?? null);
  const clock = desk.clock();
  if (!line || !clock) return null;
  const speed = speedAt(line, desk.now());
  return (
    <input
      type="range"
      className={styles['along']}
      aria-label={words.along}
      aria-valuetext={speed ? words.here(figure(speed)) : words.off}
      min={frameShownAt(clock, line.from)}
      max={frameShownAt(clock, line.to)}
      step={1}
      value={frame}
      onChange={(event) => {
        desk.pause();
        desk.goToFrame(event.target.valueAsNumber);
      }}
    />
  );
}
