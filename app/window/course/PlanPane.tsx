import { GitFork, Trash2 } from 'lucide-react';
import { useRef } from 'react';
import { obstacleAt } from '../../../src/course/course.ts';
import { crossKinds, type CrossKind, type PlannedCross } from '../../../src/plan/plan.ts';
import { courseWords } from '../../../src/words/course.ts';
import { obstacleName } from '../../../src/words/review.ts';
import { crossWords } from '../../../src/words/trade.ts';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import { KeptArea, KeptField, SelectField } from '../look/Field.tsx';
import { usePreferences } from '../stores/react.ts';
import { withCross, withoutCross } from './edit.ts';
import styles from './PlanPane.module.css';
import { useCourse } from './useCourse.ts';

const words = courseWords.plan;
const labels = courseWords.labels;
const kinds = crossKinds.map((kind) => [kind, crossWords[kind]] as const);
const seconds = [['none', words.noSecond] as const, ...kinds];

/** What is planned at the number in hand: kind of cross, why, and the second choice. */
export function PlanPane({ selected }: { readonly selected: number | null }) {
  const { state, changePlan } = useCourse();
  const dialect = usePreferences((p) => p.dialect);
  const pane = useRef<HTMLElement>(null);
  const planned = state.plan.crosses.filter((cross) => cross.place === selected);
  const name = selected === null ? '' : obstacleName(obstacleAt(state.course, selected), dialect);

  const add = (): void => {
    if (selected === null) return;
    const cross: PlannedCross = { id: crypto.randomUUID(), place: selected, kind: 'front', reason: '' };
    changePlan(labels.addCross(cross.kind, selected), (plan) => withCross(plan, cross));
    requestAnimationFrame(() => {
      pane.current?.querySelector<HTMLElement>('li:last-of-type select')?.focus();
    });
  };
  useActs({ 'course.addCross': selected === null ? undefined : add });

  return (
    <section ref={pane} className={styles['pane']}>
      <div className={styles['head']}>
        <h2>{selected === null ? words.pick : words.title(selected, name)}</h2>
        {selected !== null && (
          <Button icon={<GitFork aria-hidden />} act="course.addCross" onClick={add}>
            {words.add}
          </Button>
        )}
      </div>
      {selected !== null && planned.length === 0 && <p className={styles['soft']}>{words.none}</p>}
      <ul className={styles['list']}>
        {planned.map((cross) => (
          <Planned key={cross.id} cross={cross} />
        ))}
      </ul>
      <KeptArea
        label={words.notes}
        rows={2}
        maxLength={4000}
        placeholder={words.notesHint}
        value={state.plan.notes}
        onKeep={(notes) => {
          changePlan(labels.notes, (plan) => ({ ...plan, notes }));
        }}
      />
    </section>
  );
}

function Planned({ cross }: { readonly cross: PlannedCross }) {
  const { changePlan } = useCourse();
  const change = (next: PlannedCross): void => {
    changePlan(labels.changeCross(cross.place), (plan) => withCross(plan, next));
  };
  return (
    <li className={styles['cross']}>
      <SelectField<CrossKind>
        label={words.kind}
        value={cross.kind}
        options={kinds}
        onChange={(kind) => {
          change({ ...cross, kind });
        }}
      />
      <SelectField<CrossKind | 'none'>
        label={words.second}
        value={cross.secondChoice ?? 'none'}
        options={seconds}
        onChange={(choice) => {
          const { secondChoice: _, ...rest } = cross;
          change(choice === 'none' ? rest : { ...rest, secondChoice: choice });
        }}
      />
      <Button
        kind="quiet"
        icon={<Trash2 aria-hidden />}
        aria-label={words.removeNamed(cross.kind, cross.place)}
        onClick={() => {
          changePlan(labels.removeCross(cross.place), (plan) => withoutCross(plan, cross.id));
        }}
      >
        {words.remove}
      </Button>
      <div className={styles['reason']}>
        <KeptField
          label={words.reason}
          value={cross.reason}
          maxLength={500}
          placeholder={words.reasonHint}
          onKeep={(reason) => {
            change({ ...cross, reason: reason.trim() });
          }}
        />
      </div>
    </li>
  );
}
