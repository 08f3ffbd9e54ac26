import { useEffect, useEffectEvent, useState } from 'react';
import { libraryWords } from '../../../src/words/library.ts';
import type { FilePurpose } from '../../../src/host/contract/shell.ts';
import { likelyPurpose, picked } from '../library/intake.ts';
import { useBringIn } from '../library/useBringIn.ts';
import { useWorkbench } from '../stores/react.ts';
import styles from './DropPlace.module.css';

const words = libraryWords.drop;

const carriesFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') === true;

/** The whole window takes files that are dropped on it; while they hover it says what will become of them. */
export function DropPlace() {
  const { shell, intake, notices, route } = useWorkbench();
  const bringIn = useBringIn();
  const [over, setOver] = useState(false);
  const take = useEffectEvent(bringIn.take);

  useEffect(() => {
    // Enter and leave come for every element on the way; only their balance says whether the pointer is inside.
    let depth = 0;
    const enter = (event: DragEvent): void => {
      if (!carriesFiles(event)) return;
      depth += 1;
      setOver(true);
    };
    const leave = (event: DragEvent): void => {
      if (!carriesFiles(event)) return;
      depth = Math.max(0, depth - 1);
      if (depth === 0) setOver(false);
    };
    const drop = (event: DragEvent): void => {
      depth = 0;
      setOver(false);
      if (!carriesFiles(event)) return;
      const files = picked(shell, [...(event.dataTransfer?.files ?? [])]);
      const of = (purpose: FilePurpose) => files.filter((file) => likelyPurpose(file.name) === purpose);
      for (const purpose of ['picture', 'course', 'rules'] as const) {
        const [file] = of(purpose);
        if (file && !intake.offer(purpose, file)) notices.getState().say(words.elsewhere[purpose]);
      }
      const into = route.getState().route.screen === 'review' ? 'open' : undefined;
      take([...of('video'), ...of('review'), ...of('dog')], into);
      if (files.length === 0) notices.getState().say(words.nothing);
    };
    window.addEventListener('dragenter', enter);
    window.addEventListener('dragleave', leave);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragenter', enter);
      window.removeEventListener('dragleave', leave);
      window.removeEventListener('drop', drop);
    };
  }, [shell, intake, notices, route]);

  if (!over) return null;
  return (
    <div className={styles['place']}>
      <p className={styles['title']}>{words.title}</p>
      <p>{words.text}</p>
    </div>
  );
}
