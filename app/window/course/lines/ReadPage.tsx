import { PencilLine, Undo2 } from 'lucide-react';
import { useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { courseLengths } from '../../../../src/course/courseLength.ts';
import { obstacleAt } from '../../../../src/course/course.ts';
import { nodesOf } from '../../../../src/line/lineNodes.ts';
import type { Remark } from '../../../../src/line/reading/remark.ts';
import { needs } from '../../../../src/line/reading/needs.ts';
import { readCourse } from '../../../../src/line/reading/readCourse.ts';
import { wantedLength, wantedLine } from '../../../../src/line/wantedLine.ts';
import type { PlanSheet } from '../../../../src/plan/plan.ts';
import { withInUse } from '../../../../src/plan/sheets.ts';
import { lengthWords } from '../../../../src/words/drawing.ts';
import { readPageWords as words } from '../../../../src/words/planPage.ts';
import { needSentence, remarkSentence } from '../../../../src/words/reading.ts';
import { obstacleName } from '../../../../src/words/review.ts';
import { useActs } from '../../keys/useActs.ts';
import { Button } from '../../look/Button.tsx';
import { usePreferences, useWorkbench } from '../../stores/react.ts';
import { useBoard } from '../BoardContext.ts';
import { useCourse } from '../useCourse.ts';
import { useLines, useRunningLines } from './LinesContext.ts';
import { shownLines, type ShownLine } from './linesDesk.ts';
import { readOverlay, withoutInHand } from './readOverlay.ts';
import styles from './ReadPage.module.css';
import { useGripInHand, useOverlay } from './useOverlay.ts';

/** How many remarks are worth telling before any number is chosen. */
const mostTold = 6;

/** The course read aloud: its lines, what is worth talking about, and what lies at the number in hand. */
export function ReadPage({
  selected,
  onSelect,
}: {
  readonly selected: number | null;
  readonly onSelect: (place: number) => void;
}) {
  const { keyboard } = useWorkbench();
  const { state, changePlan } = useCourse();
  const { desk, of } = useRunningLines();
  const board = useBoard();
  const dialect = usePreferences((p) => p.dialect);
  const thresholds = usePreferences((p) => p.reading);
  const view = useStore(desk, (v) => v);
  const { course, line } = view;
  const { skills, runner } = of();
  const [lit, setLit] = useState<Remark | null>(null);
  const reading = useMemo(
    () => (line ? readCourse({ course, line, thresholds, skills, runner }) : null),
    [course, line, thresholds, skills, runner],
  );
  const unit = board.desk.unit();
  const tell = (remark: Remark): string => remarkSentence(remark, { course, unit, dialect });

  const here = reading?.remarks.filter((r) => selected !== null && r.numbers[0] === selected) ?? [];
  const told = useMemo(
    () => reading?.remarks.toSorted((a, b) => b.weight - a.weight).slice(0, mostTold) ?? [],
    [reading],
  );
  // A remark that no longer is one is not lit; while something is dragged, the same remark answers anew.
  const litNow = lit && reading?.remarks.find((r) => sameRemark(r, lit));
  useEffect(() => {
    setLit(null);
  }, [selected]);
  const wanted = useMemo(
    () =>
      view.sheet.wantedLine ? wantedLine(view.sheet.wantedLine.nodes, view.sheet.wantedLine.tension) : null,
    [view.sheet],
  );
  const hands = {
    desk,
    awayLabel: words.putBack,
    keep: (label: string, change: (sheet: PlanSheet) => PlanSheet) => {
      changePlan(label, (p) => withInUse(p, change));
    },
  };
  const overlay = readOverlay(view, wanted, litNow ? [litNow] : here, selected, hands);
  useOverlay(overlay);
  const { inHand, next, drop } = useGripInHand(overlay, withoutInHand, hands);
  useActs({ 'course.nextSpot': next, 'course.dropSpot': drop });

  if (!line || !reading) {
    return (
      <section className={styles['page']}>
        <h2>{words.title}</h2>
        <p>{words.needs}</p>
        <ul className={styles['list']}>
          {needs(state.course).map((need) => (
            <li key={need.need}>{needSentence(need)}</li>
          ))}
        </ul>
      </section>
    );
  }
  return (
    <div className={styles['page']}>
      <LinesPart />
      {selected !== null && (
        <section className={styles['part']}>
          <h2>{words.at(selected, obstacleName(obstacleAt(course, selected), dialect))}</h2>
          <Landing number={selected} />
          {here.length === 0 && <p className={styles['soft']}>{words.nothing}</p>}
          <Remarks remarks={here} tell={tell} lit={litNow ?? null} onLit={setLit} />
        </section>
      )}
      <section className={styles['part']}>
        <h2>{words.most}</h2>
        <Remarks
          remarks={told}
          tell={tell}
          lit={litNow ?? null}
          onLit={(remark) => {
            const [first] = remark?.numbers ?? [];
            if (first !== undefined) onSelect(first);
            setLit(remark);
          }}
        />
        {selected === null && <p className={styles['soft']}>{words.pick}</p>}
        <p className={styles['soft']} role="status">
          {inHand === null
            ? words.landing.how
            : words.inHand(inHandName(inHand), keyboard.keyFor('course.dropSpot'))}
        </p>
      </section>
    </div>
  );
}

/** What a grip of this page is called. */
function inHandName(grip: string): string {
  const [what, n] = grip.split(' ');
  return what === 'landing' ? words.landing.grip(Number(n)) : words.lines.node;
}

const sameRemark = (a: Remark, b: Remark): boolean =>
  a.remark === b.remark &&
  a.numbers.join() === b.numbers.join() &&
  (a.remark !== 'trap' || b.remark !== 'trap' || a.obstacleId === b.obstacleId);

interface RemarksProps {
  readonly remarks: readonly Remark[];
  readonly tell: (remark: Remark) => string;
  readonly lit: Remark | null;
  readonly onLit: (remark: Remark | null) => void;
}

function Remarks({ remarks, tell, lit, onLit }: RemarksProps) {
  return (
    <ul className={styles['list']}>
      {remarks.map((remark, i) => (
        <li key={i}>
          <button
            type="button"
            className={styles['remark']}
            aria-pressed={remark === lit}
            onClick={() => {
              onLit(remark === lit ? null : remark);
            }}
          >
            {tell(remark)}
          </button>
        </li>
      ))}
    </ul>
  );
}

/** The three lines: how long each is, which are shown, and the coach's own. */
function LinesPart() {
  const { desk } = useLines();
  const { state, changePlan } = useCourse();
  const board = useBoard();
  const { line, range, show, course, sheet } = useStore(desk, (v) => v);
  const unit = board.desk.unit();
  const l = words.lines;
  const own = sheet.wantedLine;
  const toggle = (): void => {
    if (own) {
      changePlan(l.labels.back, (p) => withInUse(p, ({ wantedLine: _, ...s }) => s));
    } else if (line) {
      const nodes = [...nodesOf(line)];
      changePlan(l.labels.draw, (p) => withInUse(p, (s) => ({ ...s, wantedLine: { nodes, tension: 0.5 } })));
    }
  };
  useActs({ 'course.wanted': line ? toggle : undefined });
  if (!line) return null;
  const { centres, wheelPath } = courseLengths(state.course.obstacles.length > 0 ? course : state.course);
  const measured = wheelPath.known ? wheelPath : centres;
  const seconds = (s: number): string => `${s.toFixed(1)} s`;
  const figures: Record<ShownLine, string> = {
    likely: `${lengthWords(line.length, unit)}, ${seconds(line.seconds)}`,
    wanted: own ? lengthWords(wantedLength(own.nodes, own.tension), unit) : l.asComputed,
    measured: measured.known ? lengthWords(measured.metres, unit) : '–',
  };
  const blocked = line.stretches.filter((s) => s.blocked && s.to !== null);
  return (
    <section className={styles['part']}>
      <h2>{l.title}</h2>
      <ul className={styles['lines']}>
        {shownLines.map((which) => (
          <li key={which}>
            <label className={styles['line']}>
              <input
                type="checkbox"
                checked={show[which]}
                onChange={(event) => {
                  desk.show(which, event.target.checked);
                }}
              />
              <span className={styles[which]} aria-hidden />
              <span>{l[which]}</span>
              <span className={styles['figure']}>{figures[which]}</span>
            </label>
          </li>
        ))}
      </ul>
      {range && (
        <p className={styles['soft']}>
          {l.range} {l.to(lengthWords(range.tight.length, unit), lengthWords(range.wide.length, unit))},{' '}
          {l.to(seconds(range.tight.seconds), seconds(range.wide.seconds))}
        </p>
      )}
      {blocked.map((s) => (
        <p key={s.to}>{l.blocked(String(s.to))}</p>
      ))}
      <div className={styles['row']}>
        <Button
          icon={own ? <Undo2 aria-hidden /> : <PencilLine aria-hidden />}
          act="course.wanted"
          onClick={toggle}
        >
          {own ? l.back : l.draw}
        </Button>
        {own && (
          <label className={styles['tension']}>
            {l.tension}
            <input
              type="range"
              min={0}
              max={1}
              step={0.05}
              defaultValue={own.tension}
              onChange={(event) => {
                const tension = Number(event.target.value);
                desk.draft((s) => (s.wantedLine ? { ...s, wantedLine: { ...s.wantedLine, tension } } : s));
              }}
              onPointerUp={keepTension}
              onBlur={keepTension}
              onKeyUp={keepTension}
            />
          </label>
        )}
      </div>
    </section>
  );

  function keepTension(event: { readonly currentTarget: HTMLInputElement }): void {
    const tension = Number(event.currentTarget.value);
    desk.draft(null);
    // What is shown is the draft already; what counts is what was kept.
    if (state.plan.wantedLine?.tension === tension) return;
    changePlan(l.labels.tension, (p) =>
      withInUse(p, (s) => (s.wantedLine ? { ...s, wantedLine: { ...s.wantedLine, tension } } : s)),
    );
  }
}

/** What is said of where she lands after a number, and the way back. */
function Landing({ number }: { readonly number: number }) {
  const { changePlan } = useCourse();
  const { desk } = useLines();
  const moved = useStore(desk, (v) => v.sheet.landings?.some((l) => l.number === number) ?? false);
  if (!moved) return null;
  return (
    <div className={styles['row']}>
      <p>{words.landing.moved(number)}</p>
      <Button
        onClick={() => {
          changePlan(words.landing.backLabel(number), (p) =>
            withInUse(p, (s) => ({ ...s, landings: (s.landings ?? []).filter((l) => l.number !== number) })),
          );
        }}
      >
        {words.landing.back}
      </Button>
    </div>
  );
}
