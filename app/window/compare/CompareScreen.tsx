import { useEffect } from 'react';
import { readyWorkers } from '../../../src/frames/workers.ts';
import { compareWords as words, mostCompared } from '../../../src/words/compare.ts';
import { Button } from '../look/Button.tsx';
import { useWorkbench } from '../stores/react.ts';
import { Beside } from './Beside.tsx';
import { Chooser } from './Chooser.tsx';
import styles from './CompareScreen.module.css';
import { DifferentCourses } from './DifferentCourses.tsx';
import { differ } from './differ.ts';
import { useRuns } from './useRuns.ts';

/** Compare: two to four runs side by side; with fewer, the choice of them. */
export default function CompareScreen({ reviewIds }: { readonly reviewIds: readonly string[] }) {
  const different = [...new Set(reviewIds)];
  const twice = different.length < reviewIds.length;
  if (different.length < 2) return <Chooser chosenFirst={different} note={twice ? words.sameTwice : null} />;
  const ids = different.slice(0, mostCompared);
  const note = twice ? words.sameTwice : different.length > ids.length ? words.tooMany : null;
  return <Runs ids={ids} note={note} />;
}

function Runs({ ids, note }: { readonly ids: readonly string[]; readonly note: string | null }) {
  const { route } = useWorkbench();
  const opened = useRuns(ids);
  // While the runs are asked for, what decodes their pictures loads.
  useEffect(() => {
    readyWorkers(ids.length);
  }, [ids.length]);
  if (opened.stage === 'opening')
    return (
      <section className={styles['wait']}>
        <h1>{words.title}</h1>
        <p>{words.opening}</p>
      </section>
    );
  if (opened.stage === 'failed')
    return (
      <section className={styles['wait']}>
        <h1>{words.title}</h1>
        <p role="alert">{words.gone(opened.why)}</p>
        <p>{words.goneNext}</p>
        <p>
          <Button
            kind="main"
            onClick={() => {
              route.go({ screen: 'compare', reviewIds: ids.filter((id) => id !== opened.id).slice(0, 1) });
            }}
          >
            {words.acts.choose}
          </Button>
        </p>
      </section>
    );
  return differ(opened.runs) ? (
    <DifferentCourses runs={opened.runs} note={note} />
  ) : (
    <Beside runs={opened.runs} note={note} />
  );
}
