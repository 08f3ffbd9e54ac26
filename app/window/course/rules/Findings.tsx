import { CircleCheck, CircleHelp, TriangleAlert } from 'lucide-react';
import { memo, useMemo, useState } from 'react';
import type { CourseFinding } from '../../../../src/course/courseFindings.ts';
import type { RuleBook } from '../../../../src/course/rules/book.ts';
import { heightCautions } from '../../../../src/words/cautions.ts';
import { courseCheckWords, type GroundUnit } from '../../../../src/words/courseCheck.ts';
import { ruleBookWords } from '../../../../src/words/ruleBook.ts';
import { entryLabel } from '../../../../src/words/ruleEntries.ts';
import { rulesPageWords as words } from '../../../../src/words/rulesPage.ts';
import { usePreferences } from '../../stores/react.ts';
import { useBoard } from '../BoardContext.ts';
import { choose, choosePlace } from '../board/choosing.ts';
import { counted, findingGroups, type FindingGroup } from './findingGroups.ts';
import styles from './RulesPage.module.css';

interface FindingsProps {
  readonly findings: readonly CourseFinding[];
  readonly unit: GroundUnit;
  readonly book: RuleBook;
}

/**
 * What the book makes of the course, rule by rule in the order of the book. Rules that are kept altogether wait behind
 * one line, so that what is left to look at is all that meets the eye.
 */
export function Findings({ findings, unit, book }: FindingsProps) {
  const groups = useMemo(() => findingGroups(findings), [findings]);
  const [open, setOpen] = useState(false);
  const sums = counted(groups);
  const kept = groups.filter((g) => g.off.length === 0 && g.open.length === 0);
  return (
    <section className={styles['part']}>
      <p className={styles['sum']}>
        {groups.length === 0 ? words.nothingToCheck : words.sum(sums.off, sums.open, sums.held)}
      </p>
      {groups
        .filter((g) => !kept.includes(g))
        .map((group) => (
          <Rule key={group.rule.name} group={group} unit={unit} />
        ))}
      {kept.length > 0 && (
        <details
          className={styles['kept']}
          onToggle={(event) => {
            setOpen(event.currentTarget.open);
          }}
        >
          <summary>{words.kept(kept.length)}</summary>
          {open && kept.map((group) => <Rule key={group.rule.name} group={group} unit={unit} />)}
        </details>
      )}
      {book.bars && (
        <ul className={styles['caution']} aria-label={words.cautions}>
          {heightCautions.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

function Rule({ group, unit }: { readonly group: FindingGroup; readonly unit: GroundUnit }) {
  const dialect = usePreferences((p) => p.dialect);
  const [open, setOpen] = useState(false);
  const { rule, off, open: untold, held } = group;
  const [first] = [...off, ...untold, ...held];
  const list = (verdict: FindingProps['verdict'], findings: readonly CourseFinding[]) =>
    findings.map((f) => (
      <Finding
        key={keyOf(f)}
        verdict={verdict}
        text={courseCheckWords.told(f, unit, true)}
        numbers={f.numbers}
      />
    ));
  return (
    <div className={styles['rule']}>
      <h3>{entryLabel(rule.name, dialect)}</h3>
      {first?.about.what === 'spacing' && <p>{courseCheckWords.spacing[first.about.measured]}</p>}
      <ul>
        {list('off', off)}
        {list('open', untold)}
        {held.length <= fewHeld && list('held', held)}
      </ul>
      {held.length > fewHeld && (
        <details
          onToggle={(event) => {
            setOpen(event.currentTarget.open);
          }}
        >
          <summary>{words.held(held.length)}</summary>
          {open && <ul>{list('held', held)}</ul>}
        </details>
      )}
      <p className={styles['source']}>{words.source(ruleBookWords.provenance(rule))}</p>
      {rule.remark !== undefined && <p className={styles['source']}>{rule.remark}</p>}
    </div>
  );
}

/** So many findings that hold stand in the open; more wait behind a line. */
const fewHeld = 2;

const keyOf = ({ about, numbers }: CourseFinding): string => `${JSON.stringify(about)} ${numbers.join(' ')}`;

interface FindingProps {
  readonly verdict: 'off' | 'open' | 'held';
  readonly text: string;
  readonly numbers: readonly number[];
}

const icons = { off: TriangleAlert, open: CircleHelp, held: CircleCheck } as const;

/** One sentence; a press shows the obstacles it is about. While something is dragged, few of them change. */
const Finding = memo(
  function Finding({ verdict, text, numbers }: FindingProps) {
    const board = useBoard();
    const Icon = icons[verdict];
    const show = (): void => {
      const { steps, obstacles } = board.shown();
      const ids = numbers.flatMap((n) => steps.find((s) => s.number === n)?.obstacleId ?? []);
      const there = [...new Set(ids)].filter((id) => obstacles.some((o) => o.id === id && o.stand));
      const [first] = numbers;
      if (there.length > 1) choose(board, there, first);
      else choosePlace(board, first ?? null);
    };
    const said = verdict === 'held' ? undefined : words.verdicts[verdict];
    return (
      <li className={styles[verdict]}>
        <Icon aria-hidden />
        {numbers.length === 0 ? (
          <span>
            {text}
            {said !== undefined && <span className={styles['unseen']}> ({said})</span>}
          </span>
        ) : (
          <button
            type="button"
            className={styles['show']}
            title={words.show(numbers.slice(0, 8))}
            onClick={show}
          >
            {text}
            {said !== undefined && <span className={styles['unseen']}> ({said})</span>}
          </button>
        )}
      </li>
    );
  },
  (a, b) => a.text === b.text && a.verdict === b.verdict && a.numbers.join() === b.numbers.join(),
);
