import { noFitSentence, fitWarningSentence, setAsideSentence } from '../../../../src/words/ground.ts';
import { bumpSentence, groundWords, smallLength } from '../../../../src/words/groundPage.ts';
import { frameAt } from '../../../../src/time/frameTable.ts';
import { pts as asPts } from '../../../../src/time/units.ts';
import { Button } from '../../look/Button.tsx';
import { usePreferences, useWorkbench } from '../../stores/react.ts';
import { useDesk, useDeskView, useOpenReview } from '../DeskContext.ts';
import { Empty } from '../panel/Empty.tsx';
import { AtHand } from './AtHand.tsx';
import { GroundMap } from './GroundMap.tsx';
import styles from './GroundPage.module.css';
import { PointList } from './PointList.tsx';
import type { Scene } from './scene.ts';
import { StretchChoice } from './StretchChoice.tsx';
import { Tells } from './Tells.tsx';
import { onGroundThere } from './tells.ts';
import { useScene } from './useScene.ts';

const words = groundWords.page;

/** The page beside the picture on which the course is fitted to it, and what this camera then tells of the ground. */
export function GroundPage() {
  const { ground } = useDesk();
  const { route } = useWorkbench();
  const { id } = useOpenReview();
  const fitting = useDeskView((v) => v.mode.name === 'ground');
  const scene = useScene();
  if (scene === 'noFootage') return <Empty title={words.noFootage} text={words.noFootageNext} />;
  if (scene === 'noCourse')
    return (
      <Empty title={words.noCourse} text={words.noCourseNext}>
        <Button
          onClick={() => {
            route.go({ screen: 'course', reviewId: id });
          }}
        >
          {words.toCourse}
        </Button>
      </Empty>
    );
  return (
    <div className={styles['page']}>
      {!fitting && (
        <>
          {!scene.held && <p className={styles['soft']}>{words.intro}</p>}
          <Button kind="main" act="review.ground" onClick={ground.open}>
            {words.begin}
          </Button>
        </>
      )}
      {fitting && <AtHand scene={scene} />}
      <Standing scene={scene} />
      {fitting && !scene.fit && (
        <section className={styles['part']}>
          <GroundMap scene={scene} map={null} place={null} />
          <p className={styles['soft']}>{words.mapHint}</p>
        </section>
      )}
      <StretchChoice />
      {scene.fit && <Tells scene={scene} fit={scene.fit} />}
      <PointList scene={scene} />
      <Fits scene={scene} />
    </div>
  );
}

/** How the fit stands: how well its points agree, which is off, what to know and what to do. */
function Standing({ scene }: { readonly scene: Scene }) {
  const { ground, desk } = useDesk();
  const lengths = usePreferences((p) => p.lengths);
  const { clip, known, fit, movedHere } = scene;
  const nameOf = (id: string): string => known.find((k) => k.id === id)?.name ?? id;
  const table = desk.clock()?.table;
  const frameOf = (at: number): number => (table ? frameAt(table, asPts(at)) : 0);
  const { result, off, lost } = clip;
  const bump = off && bumpSentence(off.bump, frameOf(off.pts), nameOf);
  const worst = fit && fit.worst !== null ? fit.points.find((p) => p.id === fit.worst) : undefined;
  const worstAt = known.find((k) => k.id === worst?.id)?.at;
  const aside = result.fitted ? result.points.filter((p) => !p.used) : [];
  const px = worst ? Math.hypot(worst.off.x, worst.off.y) : 0;
  const there = fit && worstAt ? onGroundThere(fit, worstAt, px) : null;
  return (
    <section className={styles['part']} aria-live="polite">
      {result.fitted ? (
        <p className={styles['strong']} data-figure="ground-fit">
          {spareOf(scene) ? words.fitted(used(scene), rootMean(scene)) : words.exact(used(scene))}{' '}
          {result.numbers.length > 8 && words.lens}
        </p>
      ) : (
        <p className={styles['strong']}>{noFitSentence(result, nameOf)}</p>
      )}
      {bump !== null && <p className={styles['heed']}>{bump}</p>}
      {movedHere && (
        <>
          <p className={styles['heed']}>{words.movedHere}</p>
          <Button act="review.ground.refit" onClick={ground.refit}>
            {words.refit}
          </Button>
        </>
      )}
      {worst && px >= 0.05 && (
        <p>
          {words.offWorst(nameOf(worst.id), px, there === null ? null : smallLength(there, lengths))}{' '}
          <button type="button" className={styles['go']} onClick={ground.worst}>
            {words.toWorst}
          </button>
        </p>
      )}
      {aside.map((p) => (
        <p key={p.id} className={styles['heed']}>
          {setAsideSentence(nameOf(p.id))}{' '}
          <button
            type="button"
            className={styles['go']}
            onClick={() => {
              ground.open();
              ground.take(p.id);
            }}
          >
            {words.toWorst}
          </button>
        </p>
      ))}
      {lost.length > 0 && <p className={styles['heed']}>{words.lost(lost.length)}</p>}
      {result.fitted &&
        result.warnings.map((w) => (
          <p key={w.warning} className={styles['soft']}>
            {fitWarningSentence(w, nameOf)}
          </p>
        ))}
    </section>
  );
}

const usedOf = ({ clip }: Scene) => (clip.result.fitted ? clip.result.points.filter((p) => p.used) : []);
const used = (scene: Scene): number => usedOf(scene).length;

/** True where points are left over that check the others. */
const spareOf = (scene: Scene): boolean =>
  scene.clip.result.fitted && 2 * used(scene) > scene.clip.result.numbers.length;

/** Root mean square of the distances of the points that agree, pixels. */
function rootMean(scene: Scene): number {
  const points = usedOf(scene);
  return Math.sqrt(points.reduce((all, p) => all + p.off.x ** 2 + p.off.y ** 2, 0) / points.length);
}

/** The fits along this clip: a new one begins where the camera was moved. */
function Fits({ scene }: { readonly scene: Scene }) {
  const { desk, ground } = useDesk();
  const { fits } = useOpenReview();
  const fitting = useDeskView((v) => v.mode.name === 'ground');
  const table = desk.clock()?.table;
  const mine = fits
    .filter((f) => f.footageId === scene.footageId)
    .map((fit) => ({ fit, frame: fit.span && table ? frameAt(table, asPts(fit.span.from)) : 0 }))
    .toSorted((a, b) => a.frame - b.frame);
  if (mine.length === 0) return null;
  return (
    <section className={styles['part']}>
      <h3 className={styles['name']}>{words.fits}</h3>
      <ul>
        {mine.map(({ fit, frame }) => (
          <li key={fit.id}>
            <button
              type="button"
              className={styles['go']}
              aria-current={fit.id === scene.held?.id}
              onClick={() => {
                desk.pause();
                desk.goToFrame(frame);
              }}
            >
              {words.fitFrom(frame, fit.points.filter((p) => p.agreed !== true).length)}
            </button>
          </li>
        ))}
      </ul>
      <p className={styles['soft']}>{words.again}</p>
      {fitting && (
        <div className={styles['row']}>
          <Button act="review.ground.refit" onClick={ground.refit}>
            {words.refit}
          </Button>
          <Button kind="quiet" act="review.ground.over" onClick={ground.startOver}>
            {words.over}
          </Button>
        </div>
      )}
    </section>
  );
}
