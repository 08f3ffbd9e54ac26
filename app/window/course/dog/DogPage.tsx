import { skillCautions } from '../../../../src/words/cautions.ts';
import { dogWords as words } from '../../../../src/words/dog.ts';
import styles from './DogPage.module.css';
import { Keeping, UndoLast } from './Keeping.tsx';
import { MeasuredRuns } from './MeasuredRuns.tsx';
import { RunFigures } from './RunFigures.tsx';
import { Skills } from './Skills.tsx';
import { useDogDesk } from './useDogDesk.ts';
import { WhichDog } from './WhichDog.tsx';

/** The dog of the review: which one, how she runs, what she can do. */
export function DogPage() {
  const desk = useDogDesk();
  const { dog, kept } = desk;
  return (
    <div className={styles['page']} key={kept?.id}>
      <WhichDog desk={desk} />
      {dog && (
        <>
          <Skills desk={desk} dog={dog} />
          <section className={styles['part']}>
            <h2>{words.cautions}</h2>
            <div className={styles['caution']}>
              {skillCautions.map((line) => (
                <p key={line}>{line}</p>
              ))}
            </div>
          </section>
          <MeasuredRuns desk={desk} dog={dog} />
          <RunFigures desk={desk} dog={dog} />
        </>
      )}
      {kept && <Keeping desk={desk} kept={kept} />}
      {kept && <UndoLast kept={kept} />}
    </div>
  );
}
