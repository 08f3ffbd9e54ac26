import { obstacleAt } from '../../../../src/course/course.ts';
import type { CrossAnalysis } from '../../../../src/review/analysis.ts';
import { turnsFrom } from '../../../../src/review/turnsFrom.ts';
import { figure, signedFigure } from '../../../../src/words/figures.ts';
import {
  crossSentence,
  crossVerdictWords,
  edgeWord,
  turnsFromSentence,
} from '../../../../src/words/review.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { crossWords } from '../../../../src/words/trade.ts';
import { Button } from '../../look/Button.tsx';
import { useAnalysis } from '../../stores/react.ts';
import { useDesk, useDeskView, useOpenReview } from '../DeskContext.ts';
import { useCrossLookedAt, useMovingPart } from '../useLookedAt.ts';
import { AroundCross } from './AroundCross.tsx';
import styles from './CrossesTab.module.css';
import { Empty } from './Empty.tsx';
import { FoundCrosses } from './FoundCrosses.tsx';
import { momentsOf, type Kind } from './momentsOf.ts';
import { PlannedRows } from './PlannedRows.tsx';
import { RunBys } from './RunBys.tsx';
import { Still } from './Still.tsx';

const words = reviewScreenWords.crosses;

/** Every cross with its verdict; the one that is looked at shows its frames side by side. */
export function CrossesTab() {
  const { hands } = useDesk();
  const analysis = useAnalysis();
  const { plan } = useOpenReview();
  const crosses = analysis?.crosses ?? [];
  const open = useCrossLookedAt()?.id ?? null;
  const mode = useDeskView((v) => v.mode.name);
  const look = mode !== 'cross' && mode !== 'crossKind' && (
    <Button
      act="review.cross"
      onClick={() => {
        hands.openCross();
      }}
    >
      {words.start}
    </Button>
  );
  return (
    <div className={styles['crosses']}>
      {crosses.length === 0 && <Empty title={words.empty} text={words.emptyNext} />}
      {crosses.map((c) => (
        <CrossCard key={c.id} cross={c} open={c.id === open} />
      ))}
      {look}
      <FoundCrosses />
      <RunBys />
      {analysis && <PlannedRows plans={plan.crosses} analysis={analysis} />}
    </div>
  );
}

function CrossCard({ cross, open }: { readonly cross: CrossAnalysis; readonly open: boolean }) {
  const { hands } = useDesk();
  const { course } = useOpenReview();
  const kind = obstacleAt(course, cross.place)?.kind ?? 'unknown';
  return (
    <section className={styles['card']} data-open={open}>
      <h3 className={styles['title']}>
        <button
          type="button"
          className={styles['head']}
          aria-expanded={open}
          onClick={() => {
            hands.lookAtCross(cross.id);
          }}
        >
          <strong>{cross.place}</strong>
          <span>{crossWords[cross.kind]}</span>
          <span className={styles['verdict']} data-verdict={cross.verdict}>
            {crossVerdictWords[cross.verdict]}
          </span>
        </button>
      </h3>
      <p className={styles['sentence']} data-figure={`cross-${cross.place}`}>
        {crossSentence(cross, kind)}
      </p>
      {open && <CloseUp cross={cross} kind={kind} />}
    </section>
  );
}

function CloseUp({ cross, kind }: { readonly cross: CrossAnalysis; readonly kind: Kind }) {
  const { desk, hands } = useDesk();
  const { crosses } = useOpenReview();
  const marking = useDeskView((v) => 'open' in v.mode && v.mode.open.cross.id === cross.id);
  const stored = crosses.find((c) => c.id === cross.id);
  const moments = momentsOf(cross, kind);
  const part = useMovingPart(moments);
  const turns = turnsFrom(cross, kind);
  return (
    <>
      <dl className={styles['figures']}>
        {cross.lead && (
          <div>
            <dt>{words.lead}</dt>
            <dd>
              {signedFigure(cross.lead)}
              {cross.leadFrames && <span className={styles['soft']}>{signedFigure(cross.leadFrames)}</span>}
            </dd>
          </div>
        )}
        {cross.finish && (
          <div>
            <dt>{words.finish}</dt>
            <dd>
              {sized(cross.finish)} {cross.finish.value >= 0 ? words.before('') : words.after('')}
              {edgeWord(kind, 'out')}
            </dd>
          </div>
        )}
        {cross.afterCommitted && (
          <div>
            <dt>{words.afterCommitted}</dt>
            <dd>{signedFigure(cross.afterCommitted)}</dd>
          </div>
        )}
      </dl>
      {turns && (
        <p className={styles['sentence']} data-figure={`turns-${cross.place}`}>
          <span className={styles['soft']}>{words.turnsFrom}</span> {turnsFromSentence(turns, kind)}
        </p>
      )}
      <ul className={styles['stills']}>
        {moments.map((m) => (
          <Still key={m.moment.markId} what={m.what} moment={m.moment} lead={m.lead} part={part} />
        ))}
      </ul>
      <AroundCross cross={cross} />
      {stored && (
        <p className={styles['acts']}>
          <Button
            kind="quiet"
            act="review.table"
            onClick={() => {
              desk.set({ table: true });
            }}
          >
            {reviewScreenWords.table.open}
          </Button>
          {!marking && (
            <Button
              kind="quiet"
              onClick={() => {
                hands.editCross(stored);
              }}
            >
              {words.edit}
            </Button>
          )}
          <Button
            kind="quiet"
            onClick={() => {
              hands.dropCross(stored);
            }}
          >
            {words.remove}
          </Button>
        </p>
      )}
    </>
  );
}

const sized = (q: NonNullable<CrossAnalysis['finish']>): string => figure({ ...q, value: Math.abs(q.value) });
