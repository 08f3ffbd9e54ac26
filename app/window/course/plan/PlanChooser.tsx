import { CopyPlus, Trash2 } from 'lucide-react';
import {
  copied,
  freeName,
  mostOthers,
  takenUp,
  withInUse,
  withoutOther,
} from '../../../../src/plan/sheets.ts';
import { sheetsOf } from '../../../../src/plan/plan.ts';
import { planPageWords } from '../../../../src/words/planPage.ts';
import { Button } from '../../look/Button.tsx';
import { KeptField } from '../../look/Field.tsx';
import { useCourse } from '../useCourse.ts';
import styles from './PlanPage.module.css';
import type { SheetFacts } from './sheetFacts.ts';

const words = planPageWords.plans;

/** The plan in use and those beside it, with what tells them apart. */
export function PlanChooser({ factsOf }: { readonly factsOf: (index: number) => SheetFacts | null }) {
  const { state, changePlan } = useCourse();
  const { plan } = state;
  const nameOf = (name: string): string => (name === '' ? words.unnamed : name);
  return (
    <section className={styles['part']}>
      <KeptField
        label={words.name}
        placeholder={words.nameHint}
        maxLength={80}
        value={plan.name}
        onKeep={(name) => {
          changePlan(words.name, (p) => withInUse(p, (sheet) => ({ ...sheet, name: name.trim() })));
        }}
      />
      {plan.others.length > 0 && (
        <table className={styles['plans']}>
          <caption className={styles['unseen']}>{words.title}</caption>
          <thead>
            <tr>
              <th scope="col">{words.columns.plan}</th>
              <th scope="col">{words.columns.crosses}</th>
              <th scope="col">{words.columns.least}</th>
              <td />
            </tr>
          </thead>
          <tbody>
            {sheetsOf(plan).map((sheet, i) => {
              const facts = factsOf(i);
              return (
                <tr key={i} aria-current={i === 0 ? 'true' : undefined}>
                  <th scope="row">
                    {nameOf(sheet.name)}
                    {i === 0 && <span className={styles['soft']}> {words.inUse}</span>}
                  </th>
                  <td>{sheet.crosses.length}</td>
                  <td className={facts?.late === true ? styles['late'] : undefined}>
                    {facts?.least ?? (sheet.crosses.length === 0 ? words.noCrosses : words.notKnown)}
                  </td>
                  <td className={styles['acts']}>
                    {i > 0 && (
                      <>
                        <Button
                          kind="quiet"
                          aria-label={words.useNamed(nameOf(sheet.name))}
                          onClick={() => {
                            changePlan(words.useNamed(nameOf(sheet.name)), (p) => takenUp(p, i - 1));
                          }}
                        >
                          {words.use}
                        </Button>
                        <Button
                          kind="quiet"
                          icon={<Trash2 aria-hidden />}
                          aria-label={words.removeNamed(nameOf(sheet.name))}
                          onClick={() => {
                            changePlan(words.removeNamed(nameOf(sheet.name)), (p) => withoutOther(p, i - 1));
                          }}
                        >
                          {''}
                        </Button>
                      </>
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      <div>
        <Button
          icon={<CopyPlus aria-hidden />}
          disabled={plan.others.length >= mostOthers}
          title={plan.others.length >= mostOthers ? words.full : undefined}
          onClick={() => {
            changePlan(words.copy, (p) => copied(p, freeName(p, words.copyName)));
          }}
        >
          {words.copy}
        </Button>
      </div>
    </section>
  );
}
