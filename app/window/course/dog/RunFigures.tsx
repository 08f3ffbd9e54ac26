import { withFigure, type Dog, type RunnerFigure } from '../../../../src/line/dog.ts';
import { dogWords as words, typedFigure } from '../../../../src/words/dog.ts';
import { obstacleWords } from '../../../../src/words/trade.ts';
import { KeptField } from '../../look/Field.tsx';
import { usePreferences, useWorkbench } from '../../stores/react.ts';
import styles from './DogPage.module.css';
import type { DogDesk } from './useDogDesk.ts';

interface PartProps {
  readonly desk: DogDesk;
  readonly dog: Dog;
}

/** How she runs: each figure her own, or as assumed. */
export function RunFigures({ desk, dog }: PartProps) {
  return (
    <section className={styles['part']}>
      <h2>{words.runs}</h2>
      <p className={styles['soft']}>{words.runsIntro}</p>
      {words.groups.map(([title, figures]) => (
        <div key={title} className={styles['group']} role="group" aria-label={title}>
          <h3>{title}</h3>
          {figures.map((figure) => (
            <Figure key={figure} desk={desk} dog={dog} figure={figure} />
          ))}
        </div>
      ))}
    </section>
  );
}

/** One figure: empty gives the assumed one back. */
function Figure({ desk, dog, figure }: PartProps & { readonly figure: RunnerFigure }) {
  const { notices } = useWorkbench();
  const dialect = usePreferences((p) => p.dialect);
  const lengths = usePreferences((p) => p.lengths);
  const trade = obstacleWords[dialect];
  const own = dog.runner[figure];
  const label = words.figure(figure, trade, lengths);
  const state = own === undefined ? words.assumed(figure, lengths) : words.own(figure, own, lengths);
  return (
    <div className={own === undefined ? styles['figure'] : styles['ownFigure']}>
      <KeptField
        label={label}
        hint={`${state}; ${words.why(figure)}`}
        inputMode="decimal"
        value={own === undefined ? '' : words.shown(figure, own, lengths)}
        placeholder={words.usual(figure, lengths)}
        onKeep={(text) => {
          const typed = typedFigure(figure, text, lengths);
          if (typed === null) notices.getState().say(words.notAFigure(figure, trade, lengths));
          else desk.change(label, (d) => withFigure(d, figure, typed));
        }}
      />
    </div>
  );
}
