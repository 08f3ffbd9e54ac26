import { useMemo } from 'react';
import { obstacleAt } from '../../../../src/course/course.ts';
import { middle } from '../../../../src/time/bracket.ts';
import { takenFromLine } from '../../../../src/track/takenFromLine.ts';
import { clockReading, figure } from '../../../../src/words/figures.ts';
import { realLineWords } from '../../../../src/words/realLine.ts';
import { wrongSentence } from '../../../../src/words/realLineSentences.ts';
import { obstacleName } from '../../../../src/words/review.ts';
import { Button } from '../../look/Button.tsx';
import { useAnalysis, usePreferences } from '../../stores/react.ts';
import { useDesk, useLines, useOpenReview } from '../DeskContext.ts';
import { GoToTime } from '../GoToTime.tsx';
import styles from './LinePage.module.css';
import { acceptProposed, isProposed, markedPlaces, type Proposed } from './proposals.ts';

const words = realLineWords.proposed;

/** Obstacles taken, as the line has them. The coach takes them over or does not; her own marks stay as they are. */
export function ProposedPart() {
  const { desk } = useDesk();
  const review = useOpenReview();
  const dialect = usePreferences((p) => p.dialect);
  const line = useLines((v) => v.lines.dog?.line ?? null);
  const course = useLines((v) => v.course);
  const footageId = useLines((v) => v.footageId);
  const analysis = useAnalysis();
  // The try in which she is at the end of the line.
  const attempt = line ? desk.hand(line.to).try : 1;
  const told = useMemo(
    () => (line && course ? takenFromLine(line, course, markedPlaces(review, attempt)) : null),
    [line, course, review, attempt],
  );
  if (!told || !course || !footageId) return null;
  const proposed = told.taken.filter(isProposed);
  const wrong = told.taken.filter((t) => !isProposed(t));
  const start = analysis?.clock ? middle(analysis.clock.start.bracket) : 0;
  const accept = (list: readonly Proposed[]): void => {
    const now = desk.ports.review();
    // On the clip at hand where that shows it.
    const clips = [...desk.ports.clocks()]
      .map(([of, clock]) => ({ footageId: of, clock }))
      .sort((a, b) => Number(b.footageId === footageId) - Number(a.footageId === footageId));
    const act = now ? acceptProposed(now, course, list, { clips, try: attempt }, desk.ports.makeId) : null;
    if (act) desk.do(act);
    else desk.say(words.nothing);
  };
  return (
    <section className={styles['part']} aria-label={words.title}>
      <div className={styles['head']}>
        <h3>{words.title}</h3>
        {proposed.length > 1 && (
          <Button
            onClick={() => {
              accept(proposed);
            }}
          >
            {words.all}
          </Button>
        )}
      </div>
      {proposed.length === 0 && <p className={styles['soft']}>{words.none}</p>}
      <ul>
        {proposed.map((p) => (
          <li key={p.as.place} className={styles['proposal']} data-proposed={p.as.place}>
            <GoToTime at={p.through.at.value}>
              {p.as.place} {obstacleName(obstacleAt(course, p.as.place), dialect)},{' '}
              {figure({ ...p.through.at, value: p.through.at.value - start })}
              {p.through.inside === 'maybe' && ` ${words.maybe}`}
            </GoToTime>
            <Button
              kind="quiet"
              aria-label={words.acceptOne(p.as.place)}
              onClick={() => {
                accept([p]);
              }}
            >
              {words.accept}
            </Button>
          </li>
        ))}
      </ul>
      {wrong.length > 0 && (
        <ul>
          {wrong.map((t) => (
            <li key={t.through.at.value}>
              <GoToTime at={t.through.at.value}>
                {wrongSentence(
                  'wrong' in t.as ? t.as.wrong : 'order',
                  obstacleName(
                    course.obstacles.find((o) => o.id === t.obstacleId),
                    dialect,
                  ),
                  clockReading(t.through.at.value - start),
                )}
              </GoToTime>
            </li>
          ))}
        </ul>
      )}
      <p className={styles['soft']}>{words.hint}</p>
    </section>
  );
}
