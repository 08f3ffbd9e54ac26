import { useEffect, useMemo, useState } from 'react';
import { sideBySide, type RunBeside } from '../../../src/review/compare/sideBySide.ts';
import { compareWords as words } from '../../../src/words/compare.ts';
import { letGo } from '../keys/letGo.ts';
import { useWorkbench } from '../stores/react.ts';
import { whyOf } from '../stores/notices.ts';
import styles from './Beside.module.css';
import { CompareClip } from './CompareClip.tsx';
import { Details } from './Details.tsx';
import { GapLine } from './GapLine.tsx';
import { Head } from './Head.tsx';
import { Lane } from './Lane.tsx';
import { createLockstep, type Lockstep } from './lockstep.ts';
import { Transport } from './Transport.tsx';
import { useCourseTime } from './courseTime.ts';
import { useBesideActs } from './useBesideActs.ts';
import { useMeasured } from './useMeasured.ts';
import type { ComparedRun } from './useRuns.ts';

/** Runs of one course side by side: the pictures first, held together; the gap under them; then the figures. */
export function Beside({
  runs,
  note,
}: {
  readonly runs: readonly ComparedRun[];
  readonly note: string | null;
}) {
  const { notices } = useWorkbench();
  const [lockstep] = useState(() =>
    createLockstep(runs.length, {
      now: () => performance.now(),
      soon(task) {
        const id = requestAnimationFrame(task);
        return () => {
          cancelAnimationFrame(id);
        };
      },
      trouble: (_, error) => {
        notices.getState().say(error instanceof Error && 'code' in error ? error.message : whyOf(error).why);
      },
    }),
  );
  const rest = useRest(lockstep);
  const measured = useMeasured(runs, rest);
  const beside = useMemo(
    (): readonly RunBeside[] =>
      runs.map(({ analysis }, i) => ({ analysis, lengths: measured?.[i]?.lengths ?? new Map() })),
    [runs, measured],
  );
  const side = useMemo(() => sideBySide(beside), [beside]);
  useEffect(() => {
    lockstep.setRuns(beside);
  }, [lockstep, beside]);
  useEffect(
    () => () => {
      lockstep.pause();
    },
    [lockstep],
  );
  const [parts, setParts] = useState(1);
  const [clips, setClips] = useState(0);
  const course = useCourseTime(lockstep, beside);
  const cycleParts = (): void => {
    setParts((p) => (p % Math.max(1, runs.length - 1)) + 1);
  };
  useBesideActs({
    lockstep,
    course,
    ids: runs.map((r) => r.id),
    onParts: cycleParts,
    onOtherClips: () => {
      setClips((n) => n + 1);
    },
  });

  return (
    <div
      className={styles['screen']}
      onPointerUp={(event) => {
        letGo(event.target);
      }}
    >
      <Head runs={runs} note={note} />
      <CompareClip runs={runs} lockstep={lockstep} turn={clips} />
      <section className={styles['lanes']} aria-label={words.footage}>
        {runs.map((run, i) => (
          <Lane
            key={run.id}
            run={run}
            index={i}
            count={runs.length}
            lockstep={lockstep}
            side={side}
            turn={clips}
          />
        ))}
      </section>
      <Transport lockstep={lockstep} />
      <GapLine runs={runs} side={side} course={course} lockstep={lockstep} />
      {rest && (
        <Details
          runs={runs}
          side={side}
          measured={measured}
          course={course}
          parts={Math.min(parts, runs.length - 1)}
          onParts={setParts}
        />
      )}
    </div>
  );
}

/** The figures wait for the pictures, but no longer than this, milliseconds: a run may have none. */
const longestWait = 1500;

/** True once every run shows its picture: what takes work beside them begins then. */
function useRest(lockstep: Lockstep): boolean {
  const [rest, setRest] = useState(false);
  useEffect(() => {
    const begin = (): void => {
      setRest(true);
    };
    const timer = setTimeout(begin, longestWait);
    const stop = lockstep.store.subscribe(({ lanes }) => {
      if (lanes.every((lane) => lane !== null)) begin();
    });
    return () => {
      clearTimeout(timer);
      stop();
    };
  }, [lockstep]);
  return rest;
}
