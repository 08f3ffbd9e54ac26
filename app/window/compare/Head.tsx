import { Clapperboard, Users } from 'lucide-react';
import { compareRemarks } from '../../../src/review/compare/remarks.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { compareWords as words, remarkSentence } from '../../../src/words/compare.ts';
import { Button } from '../look/Button.tsx';
import { useWorkbench } from '../stores/react.ts';
import styles from './Head.module.css';
import type { ComparedRun } from './useRuns.ts';

/** What is compared, the way to other runs, and what the coach has to know before reading a figure. */
export function Head({
  runs,
  note,
}: {
  readonly runs: readonly ComparedRun[];
  readonly note: string | null;
}) {
  const { keyboard, route } = useWorkbench();
  const remarks = compareRemarks(
    runs.map(({ state, analysis }) => ({ course: state.course, footage: state.footage, analysis })),
  ).map(remarkSentence);
  const told = note === null ? remarks : [note, ...remarks];
  return (
    <header className={styles['head']}>
      <h1>{words.title}</h1>
      {told.length > 0 && (
        <ul className={styles['remarks']}>
          {told.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
      <Button
        icon={<Clapperboard aria-hidden />}
        act="clip.compare"
        onClick={() => {
          keyboard.do('clip.compare');
        }}
      >
        {clipWords.acts.open}
      </Button>
      <Button
        icon={<Users aria-hidden />}
        act="compare.choose"
        onClick={() => {
          route.go({ screen: 'compare', reviewIds: runs.slice(0, 1).map((r) => r.id) });
        }}
      >
        {words.acts.choose}
      </Button>
    </header>
  );
}
