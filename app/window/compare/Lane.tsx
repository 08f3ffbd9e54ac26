import { useRef } from 'react';
import type { SideBySide } from '../../../src/review/compare/sideBySide.ts';
import { compareWords as words, gapTold, letterOf } from '../../../src/words/compare.ts';
import { clockReading } from '../../../src/words/figures.ts';
import { addressOf } from '../stores/route.ts';
import { useClips } from '../stores/react.ts';
import { useLock } from './courseTime.ts';
import styles from './Lane.module.css';
import { laneUse } from './laneUse.ts';
import type { Lockstep } from './lockstep.ts';
import { useLanePicture } from './useLanePicture.ts';
import type { ComparedRun } from './useRuns.ts';

interface LaneProps {
  readonly run: ComparedRun;
  readonly index: number;
  readonly count: number;
  readonly lockstep: Lockstep;
  readonly side: SideBySide;
  /** How often another clip was asked for. */
  readonly turn: number;
}

/** One run: its picture and what it is. */
export function Lane({ run, index, count, lockstep, side, turn }: LaneProps) {
  const { state } = run;
  const clips = useClips();
  const canvas = useRef<HTMLCanvasElement>(null);
  const { use, at, of } = laneUse(run, turn);
  const clip = use && clips.get(use.clipId);
  const clock = use && run.clocks.get(use.id);
  const showing = useLanePicture({ canvas, lockstep, index, count, use, clip, clock, run });
  const view = useLock(lockstep, (v) => v.lanes[index] ?? null);
  const letter = letterOf(index);
  const { header } = state;
  return (
    <article className={styles['lane']} aria-label={words.lane(letter, header.title)}>
      <header className={styles['about']}>
        <span className={styles['letter']} data-run={index}>
          {letter}
        </span>
        <a
          className={styles['title']}
          href={addressOf({ screen: 'review', reviewId: run.id })}
          title={words.toReview}
        >
          {header.title}
        </a>
        <Standing run={run} index={index} lockstep={lockstep} side={side} />
      </header>
      <div
        className={styles['picture']}
        style={clip ? ({ '--shape': clip.width / clip.height } as React.CSSProperties) : undefined}
      >
        <canvas
          ref={canvas}
          className={styles['canvas']}
          data-lane={index}
          data-frame={view?.frame}
          data-shown={showing === null && view !== null}
          aria-hidden
        />
        {showing !== null && (
          <p className={styles['notice']} role="status">
            {showing}
          </p>
        )}
        {showing === null && view === null && (
          <p className={styles['notice']} role="status">
            {words.picture.nothing}
          </p>
        )}
        {view && view.away !== 0 && (
          <p className={styles['away']} role="status">
            {view.away < 0
              ? words.picture.before(clockReading(-view.away))
              : words.picture.after(clockReading(view.away))}
          </p>
        )}
        {use && of > 1 && <p className={styles['clip']}>{words.clip(use.name, at + 1, of)}</p>}
      </div>
    </article>
  );
}

/** Where this run stands at what is shown: the measure by its clock, every other by its gap at the last number. */
function Standing({ run, index, lockstep, side }: Pick<LaneProps, 'run' | 'index' | 'lockstep' | 'side'>) {
  const frame = useLock(lockstep, (v) => v.lanes[index]?.frame ?? null);
  const { taken, countedTry } = run.analysis;
  if (index === 0) return <span className={styles['stand']}>{words.measureFirst}</span>;
  if (frame === null) return null;
  const last = taken
    .filter((t) => t.try === countedTry && t.out && t.out.frame <= frame)
    .reduce<(typeof taken)[number] | null>((best, t) => (best && best.place >= t.place ? best : t), null);
  const gap = side.gaps[index]?.find((g) => g.place === last?.place);
  if (!gap) return null;
  return <span className={styles['stand']}>{words.standing(gap.place, gapTold(gap.gap))}</span>;
}
