import { Pause, Play } from 'lucide-react';
import { planPageWords } from '../../../../src/words/planPage.ts';
import { Button } from '../../look/Button.tsx';
import { Tick } from '../../look/Field.tsx';
import styles from './PlanPage.module.css';
import type { Walk } from './useWalk.ts';

const words = planPageWords.walk;

/** Plays the plan on the map. */
export function WalkControls({ walk }: { readonly walk: Walk }) {
  const { through, at, playing, toggle } = walk;
  return (
    <section className={styles['part']}>
      <h2>{words.title}</h2>
      {through === null || toggle === undefined ? (
        <p className={styles['soft']}>{words.none}</p>
      ) : (
        <>
          <div className={styles['walk']}>
            <Button
              icon={playing ? <Pause aria-hidden /> : <Play aria-hidden />}
              act="course.play"
              onClick={toggle}
            >
              {playing ? words.pause : words.play}
            </Button>
            <input
              type="range"
              aria-label={words.label}
              aria-valuetext={words.at(at ?? 0, through.seconds)}
              min={0}
              max={through.seconds}
              step={0.05}
              value={at ?? 0}
              onChange={(event) => {
                walk.seek(Number(event.target.value));
              }}
            />
            <span>{words.at(at ?? 0, through.seconds)}</span>
          </div>
          <Tick label={words.slow} checked={walk.slow} onChange={walk.setSlow} />
        </>
      )}
    </section>
  );
}
