import { AlignCenterVertical, MapPin, X } from 'lucide-react';
import { useStore } from 'zustand';
import { distance } from '../../../../src/course/pose.ts';
import { placeOf, spotId, withSpot, type PlanPlace } from '../../../../src/plan/places.ts';
import { withInUse } from '../../../../src/plan/sheets.ts';
import { suggestedWait, waitFrom } from '../../../../src/plan/wait.ts';
import { leadOutSentence } from '../../../../src/words/crossArguments.ts';
import { lengthWords } from '../../../../src/words/drawing.ts';
import { waitSentence } from '../../../../src/words/plan.ts';
import { planPageWords } from '../../../../src/words/planPage.ts';
import { Button } from '../../look/Button.tsx';
import { useBoard } from '../BoardContext.ts';
import { useLines } from '../lines/LinesContext.ts';
import { useCourse } from '../useCourse.ts';
import styles from './PlanPage.module.css';

const words = planPageWords.start;

/** Where the dog waits and where the handler releases her. */
export function StartSpots() {
  const board = useBoard();
  const { desk, of } = useLines();
  const { changePlan } = useCourse();
  const course = useStore(desk, (v) => v.course);
  const sheet = useStore(desk, (v) => v.sheet);
  const unit = board.desk.unit();
  const put = (spot: PlanPlace, at: { x: number; y: number } | null, label: string): void => {
    changePlan(label, (p) => withInUse(p, (s) => withSpot(s, spot, at)));
    board.setState({ chosen: [], line: null, grip: at ? spotId(spot) : null });
  };
  const suggested = suggestedWait(course, of().runner);
  const from = sheet.wait && waitFrom(course, sheet.wait, of().runner);
  const stay = of().skills?.stay;
  const waits = useStore(desk, (v) => v.line?.stretches[0]?.points[0]);
  const rows = [
    { spot: { is: 'wait' }, name: words.wait },
    { spot: { is: 'leadOut' }, name: words.leadOut },
  ] as const;
  return (
    <section className={styles['part']}>
      <h2>{words.title}</h2>
      {rows.map(({ spot, name }) => {
        const at = placeOf(sheet, spot);
        return (
          <div key={spot.is} className={styles['spot']}>
            <div>
              <p>
                {name}:{' '}
                <span className={at ? undefined : styles['soft']}>
                  {at ? words.at(lengthWords(at.x, unit), lengthWords(at.y, unit)) : words.notSet}
                </span>
              </p>
              {spot.is === 'wait' && from && <p className={styles['small']}>{waitSentence(from, unit)}</p>}
              {spot.is === 'leadOut' && at && waits && stay && (
                <p className={styles['small']}>{leadOutSentence(distance(waits, at), stay, unit)}</p>
              )}
            </div>
            <div className={styles['row']}>
              {spot.is === 'wait' && suggested && (
                <Button
                  kind="quiet"
                  icon={<AlignCenterVertical aria-hidden />}
                  title={words.inLineWhy}
                  onClick={() => {
                    put(spot, suggested.at, words.inLine);
                  }}
                >
                  {words.inLine}
                </Button>
              )}
              {at ? (
                <Button
                  kind="quiet"
                  icon={<X aria-hidden />}
                  aria-label={words.takeAwayNamed(name)}
                  onClick={() => {
                    put(spot, null, words.takeAwayNamed(name));
                  }}
                >
                  {''}
                </Button>
              ) : (
                <Button
                  kind="quiet"
                  icon={<MapPin aria-hidden />}
                  aria-label={words.placeNamed(name)}
                  onClick={() => {
                    put(spot, nearStart(board.camera(), suggested?.at, spot.is), words.placeNamed(name));
                  }}
                >
                  {words.place}
                </Button>
              )}
            </div>
          </div>
        );
      })}
    </section>
  );
}

/** Where a spot that has no place yet is put, to be moved from there. */
function nearStart(
  seen: { readonly x: number; readonly y: number },
  suggested: { readonly x: number; readonly y: number } | undefined,
  is: 'wait' | 'leadOut',
): { x: number; y: number } {
  const { x, y } = suggested ?? seen;
  return is === 'wait' ? { x, y } : { x: x + 1, y: y + 1 };
}
