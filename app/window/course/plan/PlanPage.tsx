import { useMemo } from 'react';
import { useStore } from 'zustand';
import { sheetsOf } from '../../../../src/plan/plan.ts';
import { timePlan, type PlanTimes } from '../../../../src/plan/spare.ts';
import { withInUse } from '../../../../src/plan/sheets.ts';
import { solidGround } from '../../../../src/plan/wayRound.ts';
import type { PlanSheet } from '../../../../src/plan/plan.ts';
import { planPageWords as words } from '../../../../src/words/planPage.ts';
import { useActs } from '../../keys/useActs.ts';
import { useRunningLines } from '../lines/LinesContext.ts';
import { useGripInHand, useOverlay } from '../lines/useOverlay.ts';
import { PlanPane } from '../PlanPane.tsx';
import { useCourse } from '../useCourse.ts';
import { PaceFields } from './PaceFields.tsx';
import { PlanChooser } from './PlanChooser.tsx';
import styles from './PlanPage.module.css';
import { planOverlay, spotNameOf, withoutSpotInHand } from './planOverlay.ts';
import { Sides } from './Sides.tsx';
import { Spare } from './Spare.tsx';
import { spareFigure } from './spareFigure.ts';
import { StartSpots } from './StartSpots.tsx';
import { Supports } from './Supports.tsx';
import { useWalk } from './useWalk.ts';
import { WalkControls } from './WalkControls.tsx';

/** The handling: where dog and handler stand, which side, which cross, and whether there is time for it. */
export function PlanPage({
  selected,
  onSelect,
}: {
  readonly selected: number | null;
  readonly onSelect: (place: number) => void;
}) {
  const { state, changePlan } = useCourse();
  const { desk, of } = useRunningLines();
  const view = useStore(desk, (v) => v);
  const { course, sheet, line } = view;
  const { runner, skills } = of();
  const solid = useMemo(() => solidGround(course), [course]);
  const times = useMemo(
    () => (line ? timePlan(course, sheet, line, runner, solid, skills?.verbalTurns) : null),
    [course, sheet, line, runner, skills, solid],
  );
  const walk = useWalk(line, times);
  const hands = {
    desk,
    awayLabel: words.acts.dropSpot,
    keep: (label: string, change: (sheet: PlanSheet) => PlanSheet) => {
      changePlan(label, (p) => withInUse(p, change));
    },
  };
  const overlay = planOverlay(view, times, walk.now, selected, hands);
  useOverlay(overlay);
  const { inHand, next, drop } = useGripInHand(overlay, withoutSpotInHand, hands);
  useActs({
    'course.nextSpot': next,
    'course.dropSpot': drop,
    'course.play': walk.toggle,
  });
  const sheets = sheetsOf(state.plan);
  const others = useMemo(
    () => sheets.map((s, i) => (i > 0 && line ? timesOf(course, s, line) : null)),
    // eslint-disable-next-line react-hooks/exhaustive-deps -- The plan stands for its sheets.
    [state.plan, line, course],
  );
  function timesOf(c: typeof course, s: PlanSheet, l: NonNullable<typeof line>): PlanTimes {
    return timePlan(c, s, l, runner, solid, skills?.verbalTurns);
  }
  return (
    <div className={styles['page']}>
      <PlanChooser factsOf={(i) => spareFigure(i === 0 ? times : (others[i] ?? null))} />
      <StartSpots />
      <p className={styles['small']} role="status">
        {inHand === null ? words.spots.how : words.spots.inHand(spotNameOf(inHand, sheet))}
      </p>
      <Spare times={times} selected={selected} onSelect={onSelect} />
      <PlanPane selected={selected} />
      {selected !== null && <Supports selected={selected} />}
      <Sides />
      <WalkControls walk={walk} />
      <PaceFields />
    </div>
  );
}
