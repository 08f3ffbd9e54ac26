import { useEffect, useState } from 'react';
import { letGo } from '../keys/letGo.ts';
import { useReview, useWorkbench } from '../stores/react.ts';
import type { Workbench } from '../stores/workbench.ts';
import { createClipHands } from './clip/clipHands.ts';
import { createCutHands } from './clip/cutHands.ts';
import { useClipActs } from './clip/useClipActs.ts';
import { DeskContext, useDesk, useDeskView, useLook, useOpenReview, type ReviewDesk } from './DeskContext.ts';
import { createDesk, type Player } from './desk/desk.ts';
import { createHands } from './desk/hands.ts';
import { createGround } from './ground/ground.ts';
import { groundPorts } from './ground/groundPorts.ts';
import { useGroundActs } from './ground/useGroundActs.ts';
import { KeyStrip } from './KeyStrip.tsx';
import { LineUpDialog } from './LineUpDialog.tsx';
import { createLook } from './look/look.ts';
import { PictureLight } from './look/PictureLight.tsx';
import { LineOfTime } from './LineOfTime.tsx';
import { Panel } from './panel/Panel.tsx';
import { Picture } from './Picture.tsx';
import styles from './ReviewScreen.module.css';
import { createStills } from './stills.ts';
import { Strip } from './Strip.tsx';
import { TopLine } from './TopLine.tsx';
import { Transport } from './Transport.tsx';
import { createLinesStore } from './track/linesStore.ts';
import { ReviewClip } from './ReviewClip.tsx';
import { createTrackHands, type TrackHands } from './track/trackHands.ts';
import { useFollowLines } from './track/useFollowLines.ts';
import { useTrackActs } from './track/useTrackActs.ts';
import { trackPorts } from './track/trackPorts.ts';
import { useReviewActs } from './useReviewActs.ts';

interface Made extends ReviewDesk {
  setPlayer(player: Player | null): void;
}

function makeDesk(workbench: Workbench): Made {
  const { review, preferences } = workbench;
  let player: Player | null = null;
  const desk = createDesk({
    review: () => review.getState().state,
    clocks: () => review.getState().clocks,
    apply: (label, changes) => void review.apply(label, changes),
    makeId: () => crypto.randomUUID(),
    player: () => player,
  });
  const lines = createLinesStore();
  const track: TrackHands = createTrackHands(
    desk,
    trackPorts(review, desk, lines, () => track.stepSeconds()),
  );
  return {
    desk,
    lines,
    track,
    hands: createHands(desk),
    clipHands: createClipHands(desk),
    cutHands: createCutHands(desk),
    stills: createStills(),
    look: createLook(desk, {
      kept: () => preferences.getState(),
      onKept: (on) => preferences.subscribe(on),
      keep: (look) => void preferences.change(look),
      reviewId: () => review.getState().id,
      clipId: (id) => review.getState().state?.footage.find((f) => f.id === id)?.clipId ?? null,
    }),
    ground: createGround(desk, groundPorts(workbench, desk)),
    setPlayer(next) {
      player = next;
      if (next) desk.brief(next);
    },
  };
}

/** The review screen: the picture first, the run on a line of time under it, and one key for every act. */
export default function ReviewScreen() {
  const workbench = useWorkbench();
  const [made] = useState(() => makeDesk(workbench));
  useEffect(
    () => () => {
      made.stills.close();
    },
    [made],
  );
  useEffect(() => {
    const stop = made.look.listen();
    window.addEventListener('pagehide', made.look.keepNow);
    return () => {
      window.removeEventListener('pagehide', made.look.keepNow);
      stop();
    };
  }, [made]);
  return (
    <DeskContext value={made}>
      <Layout setPlayer={made.setPlayer} />
    </DeskContext>
  );
}

function Layout({ setPlayer }: { readonly setPlayer: (player: Player | null) => void }) {
  const { desk } = useDesk();
  const { lookAt } = useWorkbench();
  const review = useOpenReview();
  const clocks = useReview((v) => v.clocks);
  const folded = useDeskView((v) => v.folded);
  const strip = useLook((v) => v.strip);
  useEffect(() => {
    desk.settle();
    desk.dropLostSelection();
    const asked = lookAt.take((id) => desk.ordered().some((t) => t.mark.id === id));
    if (asked !== null) desk.goToMark(asked);
  }, [desk, review, clocks, lookAt]);
  useReviewActs();
  useClipActs();
  useGroundActs();
  useTrackActs();
  useFollowLines();

  return (
    <div
      className={styles['screen']}
      data-folded={folded}
      data-strip={strip}
      onPointerUp={(event) => {
        letGo(event.target);
      }}
    >
      <PictureLight />
      <TopLine />
      <Picture setPlayer={setPlayer} />
      {!folded && <Panel />}
      <Transport />
      <Strip />
      <LineOfTime />
      <KeyStrip />
      <LineUpDialog />
      <ReviewClip />
    </div>
  );
}
