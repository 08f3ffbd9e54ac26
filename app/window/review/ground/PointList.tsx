import { useEffect, useRef } from 'react';
import { groundWords } from '../../../../src/words/groundPage.ts';
import { obstacleName, sentenceCase } from '../../../../src/words/review.ts';
import { listed } from '../../../../src/words/locale.ts';
import { partName } from '../../../../src/words/ground.ts';
import { usePreferences } from '../../stores/react.ts';
import { useDesk, useDeskView, useGround } from '../DeskContext.ts';
import styles from './GroundPage.module.css';
import type { PointShown, Scene } from './scene.ts';
import { piecesOf } from './suggest.ts';

const words = groundWords.page;

/** Everything that the map knows, piece by piece; touch one to take it in hand. */
export function PointList({ scene }: { readonly scene: Scene }) {
  const part = useGround((v) => v.part);
  const dialect = usePreferences((p) => p.dialect);
  const inHand =
    scene.points.find((p) => p.known.id === part)?.known.part.obstacleId ?? (part === null ? null : '');
  const { obstacles, steps } = scene.course;
  const order = [...new Set([...piecesOf(scene.course, null), ...obstacles.map((o) => o.id)])];
  const groups = [...order, ''].flatMap((id) => {
    const points = scene.points.filter((p) => (p.known.part.obstacleId ?? '') === id);
    if (points.length === 0) return [];
    const numbers = steps.filter((s) => s.obstacleId === id).map((s) => s.number);
    const name = obstacleName(
      obstacles.find((o) => o.id === id),
      dialect,
    );
    const title =
      id === '' ? words.ring : numbers.length > 0 ? `${listed(numbers.map(String))}, ${name}` : name;
    return [{ id, title: sentenceCase(title), points }];
  });
  return (
    <section className={styles['part']} aria-label={words.points}>
      <h3 className={styles['name']}>{words.points}</h3>
      {groups.map((g) => (
        <Group key={g.id} {...g} open={g.id === inHand} dialect={dialect} />
      ))}
    </section>
  );
}

interface GroupProps {
  readonly title: string;
  readonly points: readonly PointShown[];
  readonly open: boolean;
  readonly dialect: 'british' | 'american';
}

function Group({ title, points, open, dialect }: GroupProps) {
  const { ground } = useDesk();
  const fitting = useDeskView((v) => v.mode.name === 'ground');
  const part = useGround((v) => v.part);
  const skipped = useGround((v) => v.skipped);
  const box = useRef<HTMLDetailsElement>(null);
  // The piece at hand opens by itself; what the coach opened stays open.
  useEffect(() => {
    if (box.current && open) box.current.open = true;
  }, [open]);
  const clicked = points.filter((p) => p.state === 'clicked' || p.state === 'aside').length;
  return (
    <details ref={box} className={styles['group']}>
      <summary>
        <span>{title}</span>
        <span className={styles['soft']}>{words.clickedOf(clicked, points.length)}</span>
      </summary>
      <ul>
        {points.map((p) => (
          <li key={p.known.id}>
            <button
              type="button"
              className={styles['point']}
              aria-pressed={p.known.id === part}
              onClick={() => {
                if (!fitting) ground.open();
                ground.take(p.known.id);
              }}
            >
              <span>{sentenceCase(partName(p.known.part.part, undefined, dialect))}</span>
              <span className={styles['state']} data-state={p.state}>
                {stateOf(p, skipped.includes(p.known.id))}
              </span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

function stateOf({ state, judged }: PointShown, skipped: boolean): string {
  if (state === 'clicked' && judged && judged.deviations !== null)
    return words.offBy(Math.hypot(judged.off.x, judged.off.y));
  return skipped && state !== 'clicked' && state !== 'aside' ? words.state.skipped : words.state[state];
}
