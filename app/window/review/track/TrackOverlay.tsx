import { useCallback, useMemo } from 'react';
import { project } from '../../../../src/ground/camera.ts';
import { frameAt, ptsOf } from '../../../../src/time/frameTable.ts';
import { frameIndex, pts as ticks } from '../../../../src/time/units.ts';
import { sampleAt } from '../../../../src/track/samples.ts';
import { usePreferences } from '../../stores/react.ts';
import { useDesk, useDeskView, useLines, useLook, useOpenReview, useTrack } from '../DeskContext.ts';
import type { Placing } from '../../../../src/track/drawn.ts';
import { GroundLines } from './GroundLines.tsx';
import styles from './TrackOverlay.module.css';
import { useExpectedLines } from './useExpectedLines.ts';

interface Size {
  readonly width: number;
  readonly height: number;
}

/** What belongs to the real line, laid exactly over the picture: the lines, the marks, the cross-hair. */
export function TrackOverlay({ width, height }: Size) {
  const { look } = useDesk();
  useLook((v) => v.magnifiers);
  const marking = useDeskView((v) => v.mode.name === 'track');
  const onPage = useDeskView((v) => v.tab === 'line' || v.tab === 'map');
  const ground = useLines((v) => v.ground);
  const camera = ground?.fit.camera;
  const place: Placing = useCallback((p) => (camera ? project(camera, p) : null), [camera]);
  // About what a pixel of the screen is in the picture, under the magnifier too.
  const unit = width / 900 / look.magnifier().zoom;
  return (
    <svg className={styles['over']} viewBox={`0 0 ${width} ${height}`} aria-hidden data-track-overlay>
      <rect className={styles['sheet']} width={width} height={height} data-sheet />
      {camera && (onPage || marking) && <Lines place={place} unit={unit} />}
      {marking && <Marks width={width} height={height} unit={unit} />}
      {marking && <CrossHair width={width} height={height} unit={unit} />}
    </svg>
  );
}

/** What is shown of the lines over the footage, seconds before and after the frame, and between two paintings. */
const [before, after, painted] = [2.5, 4, 0.25];

function Lines({ place, unit }: { readonly place: Placing; readonly unit: number }) {
  const { desk } = useDesk();
  const expected = useExpectedLines();
  const near = usePreferences((p) => p.realLine.over === 'near');
  useDeskView((v) => v.frame);
  // In steps, so that the lines are not painted anew at each frame.
  const step = Math.round(desk.now() / painted);
  const about = useMemo(
    () => (near ? { from: step * painted - before, to: step * painted + after } : null),
    [near, step],
  );
  return (
    <>
      <GroundLines place={place} unit={unit} expected={expected} about={about} />
      <Now place={place} unit={unit} />
    </>
  );
}

/** Where dog and handler are on their lines at the frame on the screen. */
export function Now({ place, unit }: { readonly place: Placing; readonly unit: number }) {
  const { desk } = useDesk();
  useDeskView((v) => v.frame);
  const look = usePreferences((p) => p.realLine);
  const { dog, handler } = useLines((v) => v.lines);
  const now = desk.now();
  const dot = (who: 'dog' | 'handler') => {
    const line = (who === 'dog' ? dog : handler)?.line;
    const here = look[who] && line ? sampleAt(line, now) : null;
    const at = here && place(here);
    return at && <circle className={styles['now']} data-now={who} cx={at.x} cy={at.y} r={6 * unit} />;
  };
  return (
    <>
      {dot('handler')}
      {dot('dog')}
    </>
  );
}

/** Frames to either side whose marks are shown too, seconds of the run. */
const about = 2;

function Marks({ width, height, unit }: Size & { readonly unit: number }) {
  const { desk, track } = useDesk();
  useOpenReview();
  const frame = useDeskView((v) => v.frame);
  useTrack((v) => v);
  const carried = useTrack((v) => v.carried);
  const clock = desk.clock();
  const marks = track.track()?.marks ?? [];
  if (!clock || frame >= clock.table.pts.length) return null;
  const here = ptsOf(clock.table, frameIndex(frame));
  const seconds = (at: number): number => ((at - here) * clock.table.timeBase.num) / clock.table.timeBase.den;
  return (
    <g>
      {marks
        .filter((m) => Math.abs(seconds(m.pts)) <= about)
        .map((m) => {
          const on = m.pts === here;
          const at = on && carried ? carried : m.at;
          const [x, y] = [at.x * width, at.y * height];
          if (!on)
            return (
              <circle
                key={m.pts}
                className={styles['mark']}
                data-contact={m.contact}
                data-mark={frameAt(clock.table, ticks(m.pts))}
                cx={x}
                cy={y}
                r={3 * unit}
                strokeWidth={1.5 * unit}
              />
            );
          return (
            <g key={m.pts}>
              <circle className={styles['here']} cx={x} cy={y} r={9 * unit} strokeWidth={2 * unit} />
              <circle
                className={styles['mark']}
                data-contact={m.contact}
                data-mark={frame}
                data-here
                cx={x}
                cy={y}
                r={3 * unit}
                strokeWidth={1.5 * unit}
              />
            </g>
          );
        })}
    </g>
  );
}

function CrossHair({ width, height, unit }: Size & { readonly unit: number }) {
  const cross = useTrack((v) => v.cross);
  if (!cross) return null;
  const [x, y] = [cross.x * width, cross.y * height];
  const [near, far] = [4 * unit, 22 * unit];
  const d = [
    `M${x - far} ${y}H${x - near}M${x + near} ${y}H${x + far}`,
    `M${x} ${y - far}V${y - near}M${x} ${y + near}V${y + far}`,
  ].join('');
  return (
    <g data-cross>
      <path className={styles['crossCasing']} d={d} strokeWidth={4 * unit} />
      <path className={styles['cross']} d={d} strokeWidth={1.5 * unit} />
    </g>
  );
}
