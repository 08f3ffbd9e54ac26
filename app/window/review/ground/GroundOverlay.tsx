import { memo, useEffect, useMemo, useRef } from 'react';
import type { Course } from '../../../../src/course/course.ts';
import type { Fit } from '../../../../src/ground/fit.ts';
import { errorMap } from '../../../../src/ground/groundError.ts';
import { pinholeOf } from '../../../../src/ground/pinhole.ts';
import { groundWords, smallLength } from '../../../../src/words/groundPage.ts';
import { usePreferences } from '../../stores/react.ts';
import { useDesk, useDeskView, useGround, useLook } from '../DeskContext.ts';
import { useFitted } from '../look/useFitted.ts';
import { courseSeen, errorSeen, type SeenShape } from '../../../../src/ground/seen.ts';
import { bringInSight } from './inSight.ts';
import styles from './GroundOverlay.module.css';
import type { PointShown, Scene } from './scene.ts';
import { groundOf } from './scene.ts';
import { useScene } from './useScene.ts';

const words = groundWords;

/** The course as the fit has it, laid exactly over the picture; while it is fitted, its points and the cross-hair too. */
export function GroundOverlay({ width, height }: { readonly width: number; readonly height: number }) {
  const { look } = useDesk();
  const box = useRef<HTMLDivElement>(null);
  const size = useFitted(box, height / width);
  const fitting = useDeskView((v) => v.mode.name === 'ground');
  const page = useDeskView((v) => v.tab === 'ground' && !v.folded);
  const course = useGround((v) => v.course);
  const error = useGround((v) => v.error);
  useLook((v) => v.magnifiers);
  const zoom = look.magnifier().zoom;
  const scene = useScene();
  if (typeof scene === 'string' || (!fitting && !page)) return <div ref={box} className={styles['box']} />;
  const { fit } = scene;
  /** Pixels of the picture for one of the screen. */
  const pixel = size.width > 0 ? width / size.width / zoom : 1;
  const clicked = scene.clip.counted.size;
  return (
    <div ref={box} className={styles['box']}>
      <div className={styles['sheet']} style={{ width: size.width, height: size.height }} data-ground>
        <svg
          className={styles['drawing']}
          viewBox={`0 0 ${width} ${height}`}
          role="img"
          aria-label={words.overlay.label(clicked)}
        >
          {error && fit && <Errors fit={fit} course={scene.course} pixel={pixel} />}
          {course && fit && <Seen fit={fit} course={scene.course} pixel={pixel} />}
          {fitting && <Points scene={scene} pixel={pixel} />}
        </svg>
        {fitting && <CrossHair scene={scene} zoom={zoom} />}
      </div>
    </div>
  );
}

interface Layer {
  readonly fit: Fit;
  readonly course: Course;
  /** Pixels of the picture for one of the screen. */
  readonly pixel: number;
}

const pathOf = (points: readonly { readonly x: number; readonly y: number }[]): string =>
  `M${points.map((p) => `${p.x.toFixed(2)} ${p.y.toFixed(2)}`).join('L')}`;

const Seen = memo(function Seen({ fit, course, pixel }: Layer) {
  const shapes = useMemo(() => courseSeen(course, fit.camera, pinholeOf(fit)?.at), [course, fit]);
  return (
    <g data-layer="course">
      {shapes.map((shape, i) => (
        <SeenPiece key={i} shape={shape} pixel={pixel} />
      ))}
    </g>
  );
});

function SeenPiece({ shape, pixel }: { readonly shape: SeenShape; readonly pixel: number }) {
  if (shape.shape === 'number')
    return (
      <text
        className={styles['number']}
        x={shape.at.x}
        y={shape.at.y}
        fontSize={14 * pixel}
        strokeWidth={3 * pixel}
      >
        {shape.text}
      </text>
    );
  const d = `${pathOf(shape.points)}${shape.shape === 'area' ? 'Z' : ''}`;
  return (
    <>
      <path
        className={styles['under']}
        data-upright={shape.upright}
        d={d}
        strokeWidth={(shape.upright ? 2 : 3) * pixel}
      />
      <path
        className={styles[shape.shape]}
        data-as={shape.as}
        data-upright={shape.upright}
        d={d}
        strokeWidth={(shape.upright ? 1 : 1.5) * pixel}
      />
    </>
  );
}

/** How strongly a band of the expected error is painted: the surer, the less lies over the picture. */
const strength = [0, 0.12, 0.26, 0.42, 0.58] as const;
/** Metres between the figures of the expected error. */
const between = 5;

const Errors = memo(function Errors({ fit, course, pixel }: Layer) {
  const map = useMemo(() => errorMap(fit, groundOf(course), 1), [fit, course]);
  const patches = useMemo(() => errorSeen(map, fit.camera), [map, fit]);
  const lengths = usePreferences((p) => p.lengths);
  const each = Math.max(1, Math.round(between / map.step));
  const half = Math.floor(each / 2);
  return (
    <g data-layer="error">
      {patches.map((p) => (
        <path
          key={`${p.column} ${p.row}`}
          className={styles['patch']}
          d={`${pathOf(p.corners)}Z`}
          opacity={strength[p.band]}
        />
      ))}
      {patches
        .filter((p) => p.column % each === half && p.row % each === half)
        .map((p) => (
          <text
            key={`${p.column} ${p.row}`}
            className={styles['figure']}
            x={p.corners.reduce((all, c) => all + c.x / 4, 0)}
            y={p.corners.reduce((all, c) => all + c.y / 4, 0)}
            fontSize={13 * pixel}
            strokeWidth={3 * pixel}
          >
            {smallLength(p.centimetres, lengths)}
          </text>
        ))}
    </g>
  );
});

function Points({ scene, pixel }: { readonly scene: Scene; readonly pixel: number }) {
  const part = useGround((v) => v.part);
  const { width, height } = scene.picture;
  const worst = scene.fit?.worst ?? null;
  return (
    <g data-layer="points">
      {[...scene.points, ...scene.others].map((p) => {
        // The cross-hair stands on what is not clicked yet.
        if (!p.at || (p.known.id === part && p.state === 'proposed')) return null;
        const x = p.at.x * width;
        const y = p.at.y * height;
        const mark = markOf(p, (p.state === 'proposed' ? 4 : 5) * pixel);
        return (
          <g key={p.known.id} transform={`translate(${x} ${y})`} data-part={p.known.id} data-state={p.state}>
            <path className={styles['halo']} d={mark} strokeWidth={4 * pixel} />
            <path className={styles[looksOf(p)]} d={mark} strokeWidth={1.5 * pixel} />
            {p.known.id === worst && p.judged && Math.hypot(p.judged.off.x, p.judged.off.y) >= 0.5 && (
              <circle className={styles['off']} r={10 * pixel} strokeWidth={2 * pixel} />
            )}
          </g>
        );
      })}
    </g>
  );
}

const looksOf = ({ state }: PointShown): string =>
  state === 'clicked' ? 'clicked' : state === 'aside' ? 'aside' : 'proposed';

/** Clicked: a cross. Left out: a cross in a box. Agreed to: a diamond with a dot. Shown by the fit: a diamond. */
function markOf({ state }: PointShown, r: number): string {
  const cross = `M${-r} ${-r}L${r} ${r}M${-r} ${r}L${r} ${-r}`;
  const diamond = `M0 ${-r}L${r} 0L0 ${r}L${-r} 0Z`;
  switch (state) {
    case 'clicked':
      return cross;
    case 'aside':
      return `${cross}M${-r} ${-r}H${r}V${r}H${-r}Z`;
    case 'agreed':
      return `${diamond}M${-r / 5} 0H${r / 5}`;
    default:
      return diamond;
  }
}

/** The cross-hair of the part at hand: arrow keys move it while it has the focus. */
function CrossHair({ scene, zoom }: { readonly scene: Scene; readonly zoom: number }) {
  const { ground, look } = useDesk();
  const at = useGround((v) => v.at);
  const part = useGround((v) => v.part);
  const aims = useGround((v) => v.aims);
  const hair = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    hair.current?.focus({ preventScroll: true });
    bringInSight(look, ground.store.getState().at);
  }, [aims, look, ground]);
  const point = scene.points.find((p) => p.known.id === part);
  if (!point) return null;
  return (
    <button
      ref={hair}
      type="button"
      className={styles['hair']}
      style={{ left: `${at.x * 100}%`, top: `${at.y * 100}%`, transform: `scale(${1 / zoom})` }}
      aria-label={words.page.crossHair(point.known.name)}
      data-own-arrows
      onClick={ground.set}
      data-keeps-focus
      onKeyDown={(event) => {
        const by = arrows[event.key];
        if (!by || event.ctrlKey || event.metaKey || event.altKey) return;
        event.preventDefault();
        ground.move(by[0], by[1], event.shiftKey);
      }}
    >
      <svg viewBox="-20 -20 40 40" aria-hidden>
        <path d="M-18 0H-4M4 0H18M0 -18V-4M0 4V18" stroke="var(--stage-surround)" strokeWidth="4" />
        <path d="M-18 0H-4M4 0H18M0 -18V-4M0 4V18" stroke="var(--ink-persimmon)" strokeWidth="2" />
      </svg>
    </button>
  );
}

const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
