import { Columns2 } from 'lucide-react';
import { useEffect, useRef, useState } from 'react';
import { readyWorkers } from '../../../src/frames/workers.ts';
import { otherCourse } from '../../../src/review/compare/sameCourse.ts';
import type { ReviewState } from '../../../src/review/entities.ts';
import type { ReviewSummary } from '../../../src/host/contract/shapes.ts';
import { compareWords, mostCompared } from '../../../src/words/compare.ts';
import { dayInList, libraryWords } from '../../../src/words/library.ts';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import { useLibrary, useWorkbench } from '../stores/react.ts';
import type { Workbench } from '../stores/workbench.ts';
import styles from './Chooser.module.css';

const words = compareWords.choose;

interface ChooserProps {
  /** Chosen from the start; runs of the first one's course come first. */
  readonly chosenFirst: readonly string[];
  readonly note: string | null;
}

/** The choice of the runs: a list to tick, by key and by hand; runs of the same course stand first. */
export function Chooser({ chosenFirst, note }: ChooserProps) {
  const { route, notices } = useWorkbench();
  const known = useLibrary((view) => view.known);
  const all = useLibrary((view) => view.reviews);
  const [chosen, setChosen] = useState<readonly string[]>(chosenFirst);
  const there = chosen.filter((id) => all.some((r) => r.id === id));
  // The order hangs on the run one came with alone: rows that move while they are ticked get the wrong tick.
  const given = chosenFirst.find((id) => all.some((r) => r.id === id)) ?? null;
  const of = given ?? there[0] ?? null;
  const same = useSameCourse(of, all);
  const list = useRef<HTMLDivElement>(null);

  // While runs are being chosen, what will decode their pictures loads.
  const lanes = Math.max(2, there.length);
  useEffect(() => {
    readyWorkers(lanes);
  }, [lanes]);

  const reviews = all.toReversed();
  const isSame = (r: ReviewSummary): boolean => r.id !== of && same?.has(r.id) === true;
  const groups: readonly (readonly [string, readonly ReviewSummary[]])[] =
    given === null
      ? [[words.runs, reviews]]
      : [
          [words.sameCourse, [...reviews.filter((r) => r.id === given), ...reviews.filter(isSame)]],
          // Until it is known where each belongs, none of the others can be ticked.
          [words.others, same === null ? [] : reviews.filter((r) => r.id !== given && !isSame(r))],
        ];

  const turn = (id: string): void => {
    if (there.includes(id)) setChosen(there.filter((x) => x !== id));
    else if (there.length >= mostCompared) notices.getState().say(words.full);
    else setChosen([...there, id]);
  };
  const begin = (): void => {
    if (there.length < 2) notices.getState().say(words.few);
    else route.go({ screen: 'compare', reviewIds: there });
  };
  const step = (by: 1 | -1) => (): void => {
    const boxes = [...(list.current?.querySelectorAll('input') ?? [])];
    const here = boxes.findIndex((box) => box === document.activeElement);
    const next = here < 0 ? (by > 0 ? 0 : boxes.length - 1) : here + by;
    boxes[Math.max(0, Math.min(boxes.length - 1, next))]?.focus();
  };
  useActs({ 'compare.down': step(1), 'compare.up': step(-1), 'compare.begin': begin });

  return (
    <div className={styles['screen']}>
      <header className={styles['head']}>
        <h1>{compareWords.title}</h1>
        <p className={styles['soft']}>{words.chosen(there.length)}</p>
        <Button kind="main" icon={<Columns2 aria-hidden />} act="compare.begin" onClick={begin}>
          {words.begin(there.length)}
        </Button>
      </header>
      <div ref={list} className={styles['list']}>
        {note !== null && (
          <p className={styles['note']} role="alert">
            {note}
          </p>
        )}
        <h2>{words.title}</h2>
        <p className={styles['soft']}>{words.intro}</p>
        {known && all.length === 0 && <p>{words.none}</p>}
        {known && all.length === 1 && <p>{words.one}</p>}
        {groups.map(
          ([title, runs]) =>
            runs.length > 0 && (
              <fieldset key={title} className={styles['group']}>
                <legend>{title}</legend>
                {title === words.sameCourse && same === null && (
                  <p className={styles['soft']} role="status">
                    {words.looking}
                  </p>
                )}
                {runs.map((review) => (
                  <Choice
                    key={review.id}
                    review={review}
                    chosen={there.includes(review.id)}
                    same={given === null && isSame(review)}
                    onTurn={() => {
                      turn(review.id);
                    }}
                  />
                ))}
              </fieldset>
            ),
        )}
      </div>
    </div>
  );
}

interface ChoiceProps {
  readonly review: ReviewSummary;
  readonly chosen: boolean;
  /** Says that it is of the same course as the run that was ticked first. */
  readonly same: boolean;
  readonly onTurn: () => void;
}

function Choice({ review, chosen, same, onTurn }: ChoiceProps) {
  const { title, dog, handler, day, obstacles } = review;
  const about = [
    libraryWords.team(dog, handler),
    day === '' ? '' : dayInList(day),
    words.obstacles(obstacles),
    same ? words.isSame : '',
  ].filter((part) => part !== '');
  return (
    <label className={styles['choice']}>
      <input type="checkbox" checked={chosen} onChange={onTurn} />
      <span className={styles['title']}>{title}</span>
      <span className={styles['soft']}>{about.join(' · ')}</span>
    </label>
  );
}

/** Most runs whose courses are read to find those of the same course; the newest. */
const mostRead = 40;

/** Ids of the runs of the same course; null while they are looked for, or where none is chosen. */
function useSameCourse(of: string | null, all: readonly ReviewSummary[]): ReadonlySet<string> | null {
  const { host } = useWorkbench();
  const [found, setFound] = useState<{ readonly of: string; readonly ids: ReadonlySet<string> } | null>(null);
  const count = all.find((r) => r.id === of)?.obstacles;
  // Another count of obstacles is another course: those need not be read.
  const near = all
    .filter((r) => r.id !== of && r.obstacles === count)
    .slice(-mostRead)
    .map((r) => r.id);
  const list = JSON.stringify(near);
  useEffect(() => {
    if (of === null) return;
    let gone = false;
    const look = async (): Promise<void> => {
      const mine = await readOnce(host, of);
      const ids = new Set<string>();
      for (const id of JSON.parse(list) as string[]) {
        const other = gone ? null : await readOnce(host, id);
        if (mine && other && !otherCourse(mine.course, other.course)) ids.add(id);
      }
      if (!gone) setFound({ of, ids });
    };
    void look();
    return () => {
      gone = true;
    };
  }, [host, of, list]);
  return found?.of === of ? (found?.ids ?? null) : null;
}

/** A review as it stands now; null where it cannot be had. */
function readOnce(host: Workbench['host'], reviewId: string): Promise<ReviewState | null> {
  return new Promise((resolve) => {
    let told = false;
    let stop: (() => void) | null = null;
    const end = (state: ReviewState | null): void => {
      told = true;
      stop?.();
      resolve(state);
    };
    stop = host.subscribe(
      'review',
      { reviewId },
      (event) => {
        if (!told && event.type === 'whole') end(event.state);
      },
      () => {
        if (!told) end(null);
      },
    );
    if (told) stop();
  });
}
