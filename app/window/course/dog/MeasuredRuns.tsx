import { ArrowDownToLine, Search } from 'lucide-react';
import { useEffect, useMemo, useRef, useState } from 'react';
import type { Dog } from '../../../../src/line/dog.ts';
import { dogNamed } from '../../../../src/line/dog.ts';
import { fitRunner, fittedFigures, ownFigures } from '../../../../src/line/runnerFit.ts';
import { runnerFitWords as words } from '../../../../src/words/runnerFit.ts';
import { obstacleWords } from '../../../../src/words/trade.ts';
import { Button } from '../../look/Button.tsx';
import { useLibrary, usePreferences, useWorkbench } from '../../stores/react.ts';
import styles from './DogPage.module.css';
import { readRuns, type RunsRead } from './readRuns.ts';
import type { DogDesk } from './useDogDesk.ts';

/** What her reviews tell of how she runs, and the one act that makes it her own. */
export function MeasuredRuns({ desk, dog }: { readonly desk: DogDesk; readonly dog: Dog }) {
  const bench = useWorkbench();
  const reviews = useLibrary((v) => v.reviews);
  const hers = useMemo(() => reviews.filter((r) => dogNamed([dog], r.dog)).map((r) => r.id), [reviews, dog]);
  const [done, setDone] = useState<number | null>(null);
  const [read, setRead] = useState<RunsRead | null>(null);
  const gone = useRef(false);
  useEffect(() => {
    gone.current = false;
    return () => {
      gone.current = true;
    };
  }, []);
  const look = (): void => {
    setRead(null);
    setDone(0);
    readRuns(bench, hers, setDone, () => gone.current)
      .then(setRead)
      .catch((error: unknown) => {
        bench.notices.getState().trouble(error);
      })
      .finally(() => {
        setDone(null);
      });
  };
  return (
    <section className={styles['part']}>
      <h2>{words.title}</h2>
      <p className={styles['soft']}>{words.intro}</p>
      {hers.length === 0 ? (
        <p>{words.none(dog.name)}</p>
      ) : (
        <div>
          <Button
            icon={<Search aria-hidden />}
            aria-disabled={done !== null}
            onClick={() => done === null && look()}
          >
            {words.look(dog.name, hers.length)}
          </Button>
        </div>
      )}
      <p role="status">
        {done !== null
          ? words.working(done, hers.length)
          : read && words.found(read.runs.length, read.opened, read.withLine, read.failed)}
      </p>
      {read && done === null && <FittedTable desk={desk} dog={dog} read={read} />}
    </section>
  );
}

/** Each figure as it is now and as her runs have it. */
function FittedTable({
  desk,
  dog,
  read,
}: {
  readonly desk: DogDesk;
  readonly dog: Dog;
  readonly read: RunsRead;
}) {
  const lengths = usePreferences((p) => p.lengths);
  const trade = obstacleWords[usePreferences((p) => p.dialect)];
  const fit = useMemo(() => fitRunner(read.runs), [read]);
  const own = useMemo(() => ownFigures(fit), [fit]);
  const told = fittedFigures.filter((figure) => own[figure] !== undefined);
  const same = told.every((figure) => dog.runner[figure] === own[figure]);
  return (
    <>
      <table className={styles['fitted']}>
        <thead>
          <tr>
            <th scope="col">{words.columns.figure}</th>
            <th scope="col">{words.columns.now}</th>
            <th scope="col">{words.columns.fitted}</th>
          </tr>
        </thead>
        <tbody>
          {fittedFigures.map((figure) => (
            <tr key={figure} className={own[figure] === undefined ? styles['soft'] : undefined}>
              <th scope="row">{words.figure(figure, trade, lengths)}</th>
              <td>{words.now(figure, dog.runner[figure], lengths)}</td>
              <td>{words.fitted(figure, fit[figure], lengths)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className={styles['small']}>{words.sure}</p>
      {told.length === 0 ? (
        <p>{words.tooFew}</p>
      ) : same ? (
        <p>{words.same}</p>
      ) : (
        <div>
          <Button
            kind="main"
            icon={<ArrowDownToLine aria-hidden />}
            onClick={() => {
              desk.change(words.took, (d) => ({ ...d, runner: { ...d.runner, ...own } }));
            }}
          >
            {words.take}
          </Button>
        </div>
      )}
    </>
  );
}
