import { useEffect, useRef, useState } from 'react';
import type { Moment } from '../../../../src/review/analysis.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import type { Part } from '../closeUp.ts';
import { useDesk, useDeskView } from '../DeskContext.ts';
import { useLit } from '../look/PictureLight.tsx';
import { useStageCount } from '../useLookedAt.ts';
import { Nudges } from './MomentRow.tsx';
import styles from './Still.module.css';

const words = reviewScreenWords.crosses;

interface StillProps {
  readonly what: string;
  readonly moment: Moment;
  readonly lead: string | null;
  /** The part of the picture to show. */
  readonly part: Part;
  /** Told when it was touched. */
  readonly onGo?: () => void;
}

/** The frame of a moment as a small picture; touch it to go there. */
export function Still({ what, moment, lead, part, onGo }: StillProps) {
  const { desk } = useDesk();
  const chosen = useDeskView((v) => v.selected === moment.markId);
  const canvas = useRef<HTMLCanvasElement>(null);
  const lit = useLit();
  const onStage = useDeskView((v) => v.footageId === moment.footageId);
  const missing = usePicture(canvas, moment.footageId, moment.frame, part);
  return (
    <li className={styles['still']} data-chosen={chosen}>
      <button
        type="button"
        className={styles['go']}
        aria-label={words.goTo(what, moment.frame)}
        onClick={() => {
          desk.goToMark(moment.markId);
          onGo?.();
        }}
      >
        <span className={styles['frame']}>
          <canvas
            ref={canvas}
            className={styles['picture']}
            style={onStage ? lit : undefined}
            hidden={missing !== null}
          />
          {missing !== null && <span className={styles['missing']}>{missing}</span>}
        </span>
        <span className={styles['what']}>{what}</span>
        {lead !== null && <span className={styles['lead']}>{lead}</span>}
      </button>
      <span className={styles['foot']}>
        <span className={styles['soft']}>{reviewScreenWords.play.frame(moment.frame)}</span>
        <Nudges markId={moment.markId} what={what} />
      </span>
    </li>
  );
}

/** Paints a part of a frame on a canvas; returns why there is no picture, or null. */
function usePicture(
  canvas: React.RefObject<HTMLCanvasElement | null>,
  footageId: string,
  frame: number,
  part: Part,
): string | null {
  const { stills } = useDesk();
  const stage = useStageCount();
  const [missing, setMissing] = useState<string | null>(null);
  useEffect(() => {
    let gone = false;
    const show = async (): Promise<string | null> => {
      const picture = await stills.of({ footageId, frame });
      if (!picture) return words.otherClip;
      const paper = canvas.current;
      if (!paper || gone) return null;
      paper.width = Math.max(1, Math.round(picture.width * part.width));
      paper.height = Math.max(1, Math.round(picture.height * part.height));
      const { width, height } = paper;
      const from = [picture.width * part.x, picture.height * part.y] as const;
      paper.getContext('2d')?.drawImage(picture, ...from, width, height, 0, 0, width, height);
      return null;
    };
    show().then(
      (why) => {
        if (!gone) setMissing(why);
      },
      () => {
        if (!gone) setMissing(words.noPicture);
      },
    );
    return () => {
      gone = true;
    };
  }, [canvas, stills, footageId, frame, part, stage]);
  return missing;
}
