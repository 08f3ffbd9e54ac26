import { RotateCw, ScanLine } from 'lucide-react';
import { useState } from 'react';
import { standingWhereClicked, turnedByQuarter } from '../../../../src/course/pictureLay.ts';
import { traceWords as words } from '../../../../src/words/trace.ts';
import { Button } from '../../look/Button.tsx';
import { useCourse } from '../useCourse.ts';
import styles from './UnderlayTools.module.css';

/** What can be done with a picture that lies under the drawing: how strongly it shows, and which way it lies. */
export function UnderlayTools({ onLay }: { readonly onLay: () => void }) {
  const { state, changeCourse } = useCourse();
  const { course } = state;
  const { underlay } = course;
  const [drawn, setDrawn] = useState<number | null>(null);
  if (!underlay) return null;
  const waiting = course.steps.filter(
    (s) => s.onPicture && !course.obstacles.some((o) => o.id === s.obstacleId && o.stand),
  ).length;
  const keep = (): void => {
    if (drawn !== null && drawn !== underlay.strength) {
      changeCourse(words.labels.strength, (c) =>
        c.underlay ? { ...c, underlay: { ...c.underlay, strength: drawn } } : c,
      );
    }
    setDrawn(null);
  };
  return (
    <div className={styles['tools']}>
      <label className={styles['strength']}>
        {words.strength}
        <input
          type="range"
          min="0"
          max="1"
          step="0.05"
          value={drawn ?? underlay.strength}
          onChange={(event) => {
            setDrawn(Number(event.target.value));
          }}
          onPointerUp={keep}
          onKeyUp={keep}
          onBlur={keep}
        />
      </label>
      {underlay.corners && (
        <Button
          kind="quiet"
          icon={<RotateCw aria-hidden />}
          onClick={() => {
            changeCourse(words.labels.turn, (c) =>
              c.underlay ? { ...c, underlay: turnedByQuarter(c.underlay) } : c,
            );
          }}
        >
          {words.turn}
        </Button>
      )}
      <Button kind="quiet" icon={<ScanLine aria-hidden />} onClick={onLay}>
        {words.again}
      </Button>
      {waiting > 0 && (
        <Button
          onClick={() => {
            changeCourse(words.labels.stand, standingWhereClicked);
          }}
        >
          {words.stand(waiting)}
        </Button>
      )}
    </div>
  );
}
