import { Download } from 'lucide-react';
import type { ReportFile } from '../../../src/host/contract/shapes.ts';
import { handOverWords as words } from '../../../src/words/handOver.ts';
import { Button } from '../look/Button.tsx';
import styles from './SaveCopy.module.css';
import { useSaveCopy } from './useSaveCopy.ts';

interface WrittenProps {
  readonly file: ReportFile;
}

/** Saves a copy of a written file. */
export function SaveCopy({ file }: WrittenProps) {
  const save = useSaveCopy();
  return (
    <Button icon={<Download aria-hidden />} onClick={() => void save(file, words.saved)}>
      {words.save}
    </Button>
  );
}

/** Where a written file lies. */
export function PlaceOf({ file }: WrittenProps) {
  return (
    <p className={styles['place']}>
      {words.place} <span className={styles['path']}>{file.path}</span>
    </p>
  );
}
