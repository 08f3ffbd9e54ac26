import { Minus, Plus } from 'lucide-react';
import { useEffect, useRef } from 'react';
import { obstacleAt } from '../../../src/course/course.ts';
import { obstacleKinds, type ObstacleKind } from '../../../src/course/kinds.ts';
import { courseWords as words } from '../../../src/words/course.ts';
import { listed } from '../../../src/words/locale.ts';
import { obstacleWords } from '../../../src/words/trade.ts';
import { Button } from '../look/Button.tsx';
import { KeptField, SelectField } from '../look/Field.tsx';
import { NumberBoard } from '../map/NumberBoard.tsx';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import { highest, sharing, standingAbove, withCount, withObstacle } from './edit.ts';
import styles from './ObstacleTable.module.css';
import { useCourse } from './useCourse.ts';

interface ObstacleTableProps {
  readonly selected: number | null;
  readonly onSelect: (place: number) => void;
  readonly onAdd: () => void;
}

/** The obstacles in order, to be filled in by keyboard: Enter goes on to the next row of the same column. */
export function ObstacleTable({ selected, onSelect, onAdd }: ObstacleTableProps) {
  const { notices } = useWorkbench();
  const { state, changeCourse } = useCourse();
  const { course } = state;
  const dialect = usePreferences((p) => p.dialect);
  const box = useRef<HTMLDivElement>(null);
  const kinds = obstacleKinds.map(
    (kind) => [kind, kind === 'unknown' ? words.unknownKind : obstacleWords[dialect][kind]] as const,
  );
  const last = highest(course);

  useEffect(() => {
    if (selected === null) return;
    box.current?.querySelector(`tr[data-place="${selected}"]`)?.scrollIntoView({ block: 'nearest' });
  }, [selected]);

  const goTo = (place: number, column: string): void => {
    const cell = box.current?.querySelector<HTMLElement>(`tr[data-place="${place}"] [data-cell="${column}"]`);
    cell?.focus();
    if (cell instanceof HTMLInputElement) cell.select();
  };
  const steps = (place: number, column: string) => (event: React.KeyboardEvent) => {
    const at = course.steps.findIndex((step) => step.number === place);
    const by = event.key === 'Enter' ? 1 : column === 'nickname' ? (arrows[event.key] ?? 0) : 0;
    const to = course.steps[at + by];
    if (by === 0 || !to) return;
    event.preventDefault();
    goTo(to.number, column);
  };
  const removeLast = (): void => {
    const standing = standingAbove(state, last - 1);
    if (standing > 0) notices.getState().say(words.countKeep(last - 1, standing));
    else changeCourse(words.labels.remove(last), (c) => withCount(c, highest(c) - 1));
  };

  return (
    <section className={styles['section']}>
      <div className={styles['head']}>
        <h2>{words.inOrder}</h2>
        <Button icon={<Plus aria-hidden />} act="course.addObstacle" onClick={onAdd}>
          {words.add}
        </Button>
        <Button icon={<Minus aria-hidden />} onClick={removeLast}>
          {words.removeLast}
        </Button>
      </div>
      <div ref={box} className={styles['scroll']}>
        <table className={styles['table']}>
          <thead>
            <tr>
              <th scope="col">{words.columns.number}</th>
              <th scope="col">{words.columns.nickname}</th>
              <th scope="col">{words.columns.kind}</th>
              <th scope="col">{words.columns.plan}</th>
            </tr>
          </thead>
          <tbody>
            {course.steps.map(({ number }) => {
              const obstacle = obstacleAt(course, number);
              const others = sharing(course, number);
              const crosses = state.plan.crosses.filter((cross) => cross.place === number);
              return (
                <tr
                  key={number}
                  data-place={number}
                  data-selected={number === selected}
                  onFocus={() => {
                    if (number !== selected) onSelect(number);
                  }}
                >
                  <th scope="row">
                    <NumberBoard
                      place={number}
                      name={words.choose(number)}
                      selected={number === selected}
                      onSelect={onSelect}
                    />
                  </th>
                  <td>
                    <KeptField
                      label={words.nicknameOf(number)}
                      bare
                      data-cell="nickname"
                      maxLength={60}
                      value={obstacle?.nickname ?? ''}
                      {...(number === 1 ? { placeholder: words.nicknameHint } : {})}
                      onKeyDown={steps(number, 'nickname')}
                      onKeep={(text) => {
                        changeCourse(words.labels.nickname(number), (c) =>
                          withObstacle(c, number, { nickname: text.trim() }),
                        );
                      }}
                    />
                  </td>
                  <td>
                    <SelectField<ObstacleKind>
                      label={words.kindOf(number)}
                      bare
                      data-cell="kind"
                      value={obstacle?.kind ?? 'unknown'}
                      options={kinds}
                      onKeyDown={steps(number, 'kind')}
                      onChange={(kind) => {
                        changeCourse(words.labels.kind(number), (c) => withObstacle(c, number, { kind }));
                      }}
                    />
                  </td>
                  <td className={styles['plan']}>
                    {crosses.map((cross) => (
                      <span key={cross.id}>{words.plan.short(cross.kind, cross.secondChoice)}</span>
                    ))}
                    {others.length > 0 && (
                      <span className={styles['soft']}>{words.sharedWith(listed(others.map(String)))}</span>
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
    </section>
  );
}

const arrows: Readonly<Record<string, 1 | -1>> = { ArrowDown: 1, ArrowUp: -1 };
