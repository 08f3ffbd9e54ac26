import { frameAt } from '../../../../src/time/frameTable.ts';
import { pts } from '../../../../src/time/units.ts';
import { leftOutSentence, realLineWords } from '../../../../src/words/realLine.ts';
import { useDesk, useLines } from '../DeskContext.ts';
import styles from './LinePage.module.css';

const words = realLineWords.leftOut;

/** Marks that say nothing of the line, and why. */
export function LeftOutPart() {
  const { desk } = useDesk();
  const { dog, handler } = useLines((v) => v.lines);
  const all = [dog, handler].flatMap((l) => l?.leftOut.map((o) => ({ ...o, track: l.track })) ?? []);
  const table = desk.clock()?.table;
  if (all.length === 0 || !table) return null;
  return (
    <details className={styles['part']}>
      <summary>{words.title(all.length)}</summary>
      <ul>
        {all.slice(0, 200).map(({ mark, why, track }, i) => {
          const frame = frameAt(table, pts(mark.pts));
          return (
            <li key={i}>
              <button
                type="button"
                className={styles['go']}
                onClick={() => {
                  desk.pause();
                  desk.goTo(track.footageId, frame);
                }}
              >
                {leftOutSentence(why, track.point, frame)}
              </button>
            </li>
          );
        })}
      </ul>
    </details>
  );
}
