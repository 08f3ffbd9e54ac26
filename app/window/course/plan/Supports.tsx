import { HandHelping, Trash2 } from 'lucide-react';
import { supportEnds, type Support, type SupportEnd } from '../../../../src/plan/plan.ts';
import { planPageWords } from '../../../../src/words/planPage.ts';
import { useActs } from '../../keys/useActs.ts';
import { Button } from '../../look/Button.tsx';
import { SelectField } from '../../look/Field.tsx';
import { useCourse } from '../useCourse.ts';
import styles from './PlanPage.module.css';

const words = planPageWords.support;
const ends = supportEnds.map((end) => [end, words.ends[end]] as const);

/** Where the handler stays with the dog at the number in hand. */
export function Supports({ selected }: { readonly selected: number }) {
  const { state, changePlan } = useCourse();
  const here = state.plan.supports.filter((s) => s.place === selected);
  const add = (): void => {
    const support: Support = { id: crypto.randomUUID(), place: selected, until: 'committed' };
    changePlan(words.label(selected), (p) => ({
      ...p,
      supports: [...p.supports, support].sort((a, b) => a.place - b.place),
    }));
  };
  useActs({ 'course.addSupport': here.length === 0 ? add : undefined });
  return (
    <div className={styles['row']}>
      {here.length === 0 && (
        <Button icon={<HandHelping aria-hidden />} act="course.addSupport" onClick={add}>
          {words.add}
        </Button>
      )}
      {here.map((support) => (
        <div key={support.id} className={styles['support']}>
          <SelectField<SupportEnd>
            label={words.label(selected)}
            value={support.until}
            options={ends}
            onChange={(until) => {
              changePlan(words.label(selected), (p) => ({
                ...p,
                supports: p.supports.map((s) => (s.id === support.id ? { ...s, until } : s)),
              }));
            }}
          />
          <Button
            kind="quiet"
            icon={<Trash2 aria-hidden />}
            aria-label={words.removeNamed(selected)}
            onClick={() => {
              changePlan(words.removeLabel(selected), (p) => ({
                ...p,
                supports: p.supports.filter((s) => s.id !== support.id),
              }));
            }}
          >
            {words.remove}
          </Button>
        </div>
      ))}
    </div>
  );
}
