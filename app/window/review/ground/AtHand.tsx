import { useEffect, useRef } from 'react';
import { groundWords } from '../../../../src/words/groundPage.ts';
import { sentenceCase } from '../../../../src/words/review.ts';
import { Button } from '../../look/Button.tsx';
import { useDesk, useDeskView, useGround } from '../DeskContext.ts';
import { useLit } from '../look/PictureLight.tsx';
import { useStageCount } from '../useLookedAt.ts';
import styles from './GroundPage.module.css';
import type { Scene } from './scene.ts';

const words = groundWords.page;

/** The point at hand: its name, what lies under the cross-hair, and what can be done with it. */
export function AtHand({ scene }: { readonly scene: Scene }) {
  const { ground } = useDesk();
  const part = useGround((v) => v.part);
  const point = scene.points.find((p) => p.known.id === part);
  if (!point)
    return (
      <section className={styles['part']}>
        <h3 className={styles['name']}>{words.atHand}</h3>
        <p className={styles['soft']}>{words.none}</p>
        <Button act="review.ground.next" onClick={ground.next}>
          {words.take}
        </Button>
      </section>
    );
  const clicked = point.state === 'clicked' || point.state === 'aside' || point.state === 'agreed';
  return (
    <section className={styles['part']}>
      <h3 className={styles['name']}>{words.atHand}</h3>
      <p className={styles['strong']} data-at-hand={point.known.id} aria-live="polite">
        {sentenceCase(point.known.name)}
      </p>
      <CloseUp scene={scene} name={point.known.name} />
      <div className={styles['row']}>
        <Button kind="main" act="review.ground.set" onClick={ground.set}>
          {words.set}
        </Button>
        {point.state === 'proposed' && (
          <Button act="review.ground.agree" onClick={ground.agree}>
            {words.agree}
          </Button>
        )}
        {clicked ? (
          <Button act="review.ground.remove" onClick={ground.remove}>
            {words.remove}
          </Button>
        ) : null}
        <Button act="review.ground.next" onClick={ground.skip}>
          {clicked ? words.take : words.skip}
        </Button>
      </div>
    </section>
  );
}

/** The close-up shows so many pixels of the picture across, this many times enlarged. */
const across = 56;
const enlarged = 6;
const tall = 30;

/** The picture under the cross-hair, enlarged; a finger hides nothing of it. */
function CloseUp({ scene, name }: { readonly scene: Scene; readonly name: string }) {
  const at = useGround((v) => v.at);
  const canvas = useRef<HTMLCanvasElement>(null);
  const picture = useWholeFrame(scene);
  const lit = useLit();
  const { width, height } = scene.picture;
  useEffect(() => {
    const paper = canvas.current?.getContext('2d');
    if (!paper) return;
    const draw = (): void => {
      const { current: bitmap } = picture;
      paper.clearRect(0, 0, across * enlarged, tall * enlarged);
      if (!bitmap) return;
      const scale = bitmap.width / width;
      paper.imageSmoothingEnabled = false;
      paper.drawImage(
        bitmap,
        (at.x * width - across / 2) * scale,
        (at.y * height - tall / 2) * scale,
        across * scale,
        tall * scale,
        0,
        0,
        across * enlarged,
        tall * enlarged,
      );
    };
    draw();
    return picture.onCame(draw);
  }, [at, width, height, picture]);
  return (
    <div className={styles['closeUp']}>
      <canvas
        ref={canvas}
        width={across * enlarged}
        height={tall * enlarged}
        style={lit}
        role="img"
        aria-label={words.closeUp(name)}
      />
    </div>
  );
}

/** The frame on the desk in all its pixels, and who is told when it has come. */
interface WholeFrame {
  readonly current: ImageBitmap | null;
  onCame(on: () => void): () => void;
}

function useWholeFrame({ footageId, picture: { width } }: Scene): WholeFrame {
  const { stills } = useDesk();
  const frame = useDeskView((v) => v.frame);
  const playing = useDeskView((v) => v.playing);
  const stage = useStageCount();
  const held = useRef<{ bitmap: ImageBitmap | null; on: Set<() => void>; face: WholeFrame } | null>(null);
  held.current ??= made();
  const box = held.current;
  useEffect(() => {
    if (playing) return;
    let gone = false;
    stills.small({ footageId, frame }, width).then(
      (bitmap) => {
        if (gone) bitmap.close();
        else {
          box.bitmap?.close();
          box.bitmap = bitmap;
          for (const on of box.on) on();
        }
      },
      () => undefined,
    );
    return () => {
      gone = true;
    };
  }, [stills, footageId, frame, width, playing, stage, box]);
  useEffect(
    () => () => {
      box.bitmap?.close();
      box.bitmap = null;
    },
    [box],
  );
  return box.face;
}

function made() {
  const box: { bitmap: ImageBitmap | null; on: Set<() => void>; face: WholeFrame } = {
    bitmap: null,
    on: new Set<() => void>(),
    face: {
      get current() {
        return box.bitmap;
      },
      onCame(on) {
        box.on.add(on);
        return () => box.on.delete(on);
      },
    },
  };
  return box;
}
