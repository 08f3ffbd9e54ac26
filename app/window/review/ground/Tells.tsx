import { useMemo } from 'react';
import type { Fit } from '../../../../src/ground/fit.ts';
import { groundWords, smallLength } from '../../../../src/words/groundPage.ts';
import { obstacleName } from '../../../../src/words/review.ts';
import { obstacleAt } from '../../../../src/course/course.ts';
import { Button } from '../../look/Button.tsx';
import { usePreferences } from '../../stores/react.ts';
import { useDesk, useDeskView, useGround } from '../DeskContext.ts';
import { useHand } from '../useHand.ts';
import { errorBounds } from '../../../../src/ground/seen.ts';
import { GroundMap } from './GroundMap.tsx';
import styles from './GroundPage.module.css';
import type { Scene } from './scene.ts';
import { clickedUp, tellsOf } from './tells.ts';

const words = groundWords.page;

/** What a click on the ground tells with this camera: here, along the stretch, over the ring, and from a higher stand. */
export function Tells({ scene, fit }: { readonly scene: Scene; readonly fit: Fit }) {
  const { ground } = useDesk();
  const lengths = usePreferences((p) => p.lengths);
  const dialect = usePreferences((p) => p.dialect);
  const fitting = useDeskView((v) => v.mode.name === 'ground');
  const part = useGround((v) => v.part);
  const course = useGround((v) => v.course);
  const error = useGround((v) => v.error);
  const hand = useHand();
  const piece = scene.known.find((k) => k.id === part)?.part.obstacleId;
  const numbered = scene.course.steps.find((s) => s.obstacleId === piece)?.number ?? null;
  const place = (fitting ? numbered : null) ?? hand.place;
  const { stretch, course: built, places } = scene;
  const tells = useMemo(
    () => tellsOf({ stretch, course: built, places }, fit, place),
    [stretch, built, places, fit, place],
  );
  const cm = (v: number): string => smallLength(v, lengths);
  const called = (n: number): string => {
    const name = obstacleName(obstacleAt(built, n), dialect);
    return name === '' ? String(n) : `${n}, ${name},`;
  };
  return (
    <section className={styles['part']}>
      <h3 className={styles['name']}>{words.tells}</h3>
      {stretch && (
        <p className={styles['strong']} data-figure="ground-stretch">
          {tells.along
            ? words.along(stretch.from, stretch.to, cm(tells.along.least), cm(tells.along.most))
            : words.alongUnseen(stretch.from, stretch.to)}
        </p>
      )}
      {tells.here && (
        <p data-figure="ground-here">
          {tells.here.centimetres === null
            ? words.unseen(called(tells.here.place))
            : words.at(called(tells.here.place), cm(tells.here.centimetres))}
        </p>
      )}
      {tells.middle && <p>{words.middle(cm(tells.middle.centimetres), tells.middle.seen)}</p>}
      <GroundMap scene={scene} map={tells.map} place={place} />
      <ul className={styles['legend']} aria-label={words.legend}>
        {[0, 1, 2, 3, 4].map((band) => (
          <li key={band}>
            <i data-band={band} aria-hidden />
            {band < errorBounds.length
              ? `≤ ${smallLength(errorBounds[band] ?? 0, lengths)}`
              : `> ${smallLength(errorBounds.at(-1) ?? 0, lengths)}`}
          </li>
        ))}
      </ul>
      <p className={styles['soft']}>
        {tells.higher
          ? words.higher(
              tells.higher.now,
              tells.higher.then,
              cm(tells.higher.centimetres),
              tells.higher.lost,
              lengths,
            )
          : words.heightUnknown}
      </p>
      {tells.raised !== null && (
        <p className={styles['soft']} data-figure="ground-raised">
          {words.raised(cm(100 * clickedUp), cm(tells.raised))}
        </p>
      )}
      <div className={styles['row']} role="group" aria-label={words.layers}>
        <Button
          {...(fitting ? { act: 'review.ground.course' as const } : {})}
          pressed={course}
          onClick={() => {
            ground.toggle('course');
          }}
        >
          {words.course}
        </Button>
        <Button
          {...(fitting ? { act: 'review.ground.error' as const } : {})}
          pressed={error}
          onClick={() => {
            ground.toggle('error');
          }}
        >
          {words.error}
        </Button>
      </div>
    </section>
  );
}
