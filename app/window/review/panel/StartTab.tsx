import { figure, signedFigure, clockReading } from '../../../../src/words/figures.ts';
import type { StartTry } from '../../../../src/review/analysis.ts';
import { sentenceCase, stayVerdictWords, staySentence } from '../../../../src/words/review.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { startPartWords } from '../../../../src/words/trade.ts';
import { Button } from '../../look/Button.tsx';
import { useAnalysis } from '../../stores/react.ts';
import { useDesk, useDeskView } from '../DeskContext.ts';
import { PawsPart } from '../track/PawsPart.tsx';
import { Empty } from './Empty.tsx';
import { MomentRow } from './MomentRow.tsx';
import styles from './StartTab.module.css';

const words = reviewScreenWords.start;

/** The start line, try by try: the stay, its fakes, and each moment with its frame. */
export function StartTab() {
  const { desk } = useDesk();
  const analysis = useAnalysis();
  const looking = useDeskView((v) => v.mode.name === 'start');
  const tries = analysis?.startLine ?? [];
  const look = !looking && (
    <Button
      act="review.start"
      onClick={() => {
        desk.enter({ name: 'start' });
      }}
    >
      {words.start}
    </Button>
  );
  if (tries.length === 0) {
    return (
      <>
        <Empty title={words.empty} text={words.emptyNext}>
          {look}
        </Empty>
        <PawsPart />
      </>
    );
  }
  return (
    <>
      {tries.map((t) => (
        <Try key={t.try} attempt={t} />
      ))}
      {look}
      <PawsPart />
    </>
  );
}

function Try({ attempt: t }: { readonly attempt: StartTry }) {
  return (
    <section className={styles['try']}>
      <h3 className={styles['title']}>
        <span>{words.title(t.try)}</span>
        <span className={styles['verdict']} data-verdict={t.verdict}>
          {stayVerdictWords[t.verdict]}
        </span>
      </h3>
      <p>{staySentence(t)}</p>
      {(t.stay || t.early) && (
        <dl className={styles['figures']}>
          {t.stay && (
            <div>
              <dt>{words.stay}</dt>
              <dd data-figure={`stay-${t.try}`}>{figure(t.stay)}</dd>
            </div>
          )}
          {t.early && (
            <div>
              <dt>{words.early}</dt>
              <dd>{signedFigure(t.early)}</dd>
            </div>
          )}
        </dl>
      )}
      <ul>
        {t.moments.map(({ part, moment }) => (
          <MomentRow
            key={moment.markId}
            markId={moment.markId}
            what={sentenceCase(startPartWords[part])}
            reading={clockReading(moment.at.value)}
          />
        ))}
      </ul>
    </section>
  );
}
