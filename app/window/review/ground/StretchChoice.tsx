import { groundWords } from '../../../../src/words/groundPage.ts';
import { useDesk, useDeskView, useGround, useOpenReview } from '../DeskContext.ts';
import styles from './GroundPage.module.css';
import { stretchFromId } from './useGroundActs.ts';

const words = groundWords.page;

/** From which number to which the points are asked for: one stretch is fitted in a few clicks. */
export function StretchChoice() {
  const { ground } = useDesk();
  const { course } = useOpenReview();
  const stretch = useGround((v) => v.stretch);
  const fitting = useDeskView((v) => v.mode.name === 'ground');
  const numbers = course.steps.map((s) => s.number).toSorted((a, b) => a - b);
  if (!fitting || numbers.length < 2) return null;
  const [first = 1] = numbers;
  const choose = (from: number, to: number): void => {
    ground.setStretch({ from: Math.min(from, to), to: Math.max(from, to) });
  };
  return (
    <section className={styles['part']}>
      <h3 className={styles['name']}>{words.stretch}</h3>
      <div
        className={styles['row']}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return;
          event.preventDefault();
          ground.aim();
        }}
      >
        <label>
          {words.from}{' '}
          <select
            id={stretchFromId}
            value={stretch?.from ?? ''}
            onChange={(event) => {
              const from = Number(event.target.value);
              if (event.target.value === '') ground.setStretch(null);
              else choose(from, stretch && stretch.to > from ? stretch.to : from + 1);
            }}
          >
            <option value="">{words.whole}</option>
            {numbers.slice(0, -1).map((n) => (
              <option key={n} value={n}>
                {n}
              </option>
            ))}
          </select>
        </label>
        {stretch && (
          <label>
            {words.to}{' '}
            <select
              value={stretch.to}
              onChange={(event) => {
                choose(stretch.from, Number(event.target.value));
              }}
            >
              {numbers
                .filter((n) => n > (stretch.from || first))
                .map((n) => (
                  <option key={n} value={n}>
                    {n}
                  </option>
                ))}
            </select>
          </label>
        )}
      </div>
      {stretch && <p className={styles['soft']}>{words.stretchHint}</p>}
    </section>
  );
}
