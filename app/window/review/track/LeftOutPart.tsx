import { frameAt } from '../../../../src/time/frameTable.ts';
import { pts } from '../../../../src/time/units.ts';
import { realLineWords } from '../../../../src/words/realLine.ts';
import { leftOutSentence } from '../../../../src/words/realLineSentences.ts';
import { useDesk, useLines, useOpenReview } from '../DeskContext.ts';
import go from '../GoToTime.module.css';
import styles from './LinePage.module.css';

const words = realLineWords.leftOut;

/** Marks that say nothing of the line, and why. */
export function LeftOutPart() {
  const { desk } = useDesk();
  const { footage } = useOpenReview();
  const { dog, handler } = useLines((v) => v.lines);
  const all = [dog, handler].flatMap((l) => l?.leftOut.map((o) => ({ ...o, point: l.point })) ?? []);
  const clocks = desk.ports.clocks();
  if (all.length === 0) return null;
  return (
    <details className={styles['part']}>
      <summary>{words.title(all.length)}</summary>
      <ul>
        {all.slice(0, 200).map(({ mark, why, footageId, point }, i) => {
          const table = clocks.get(footageId)?.table;
          const frame = table ? frameAt(table, pts(mark.pts)) : 0;
          const clip = footage.length > 1 ? footage.find((f) => f.id === footageId)?.name : undefined;
          return (
            <li key={i}>
              <button
                type="button"
                className={go['go']}
                onClick={() => {
                  desk.pause();
                  desk.goTo(footageId, frame);
                }}
              >
                {leftOutSentence(why, point, frame, clip)}
              </button>
            </li>
          );
        })}
      </ul>
    </details>
  );
}
