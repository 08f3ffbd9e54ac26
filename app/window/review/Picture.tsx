import { useCallback, useEffect, useRef, useState, type RefObject } from 'react';
import { wantsWorkingCopy } from '../../../src/frames/open.ts';
import { openStage, type Stage } from '../../../src/frames/stage.ts';
import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import type { FrameTable } from '../../../src/time/frameTable.ts';
import { frameIndex } from '../../../src/time/units.ts';
import { clockReading } from '../../../src/words/figures.ts';
import { lineUpWords } from '../../../src/words/lineUp.ts';
import { reviewScreenWords } from '../../../src/words/reviewScreen.ts';
import { useClips, useReview, useWorkbench } from '../stores/react.ts';
import { whyOf } from '../stores/notices.ts';
import { copyWords } from '../../../src/words/copies.ts';
import { ClipNotice } from './ClipNotice.tsx';
import { CopyNote } from './CopyNote.tsx';
import { useDesk, useDeskView, useOpenReview } from './DeskContext.ts';
import type { Player } from './desk/desk.ts';
import { stagePlayer } from './desk/stagePlayer.ts';
import { LightTable } from './LightTable.tsx';
import { Layers } from './look/Layers.tsx';
import { Magnified } from './look/Magnified.tsx';
import { useGroundHands } from './ground/useGroundHands.ts';
import { GroundOverlay } from './ground/GroundOverlay.tsx';
import { useTrackHands } from './track/useTrackHands.ts';
import { TrackOverlay } from './track/TrackOverlay.tsx';
import { DrawingOverlay } from './DrawingOverlay.tsx';
import styles from './Picture.module.css';

const words = reviewScreenWords.picture;

/** How the clip on the stage stands. */
type Showing =
  | { readonly is: 'opening' | 'shown' }
  | { readonly is: 'trouble'; readonly why: string; readonly wantsCopy: boolean };

/** The footage: plays, or stands still on exactly the frame asked for. The largest thing on the screen. */
export function Picture({ setPlayer }: { readonly setPlayer: (player: Player | null) => void }) {
  const review = useOpenReview();
  const clips = useClips();
  const footageId = useDeskView((v) => v.footageId);
  const mode = useDeskView((v) => v.mode.name);
  const use = review.footage.find((f) => f.id === footageId);
  const clip = use && clips.get(use.clipId);
  const frames = useReview((v) => (footageId === null ? undefined : v.clocks.get(footageId)?.table));
  const groundHands = useGroundHands();
  const trackHands = useTrackHands();
  const table = useDeskView((v) => v.table);
  const box = useRef<HTMLDivElement>(null);
  const { showing, shown } = useStage(box, footageId, clip, frames, setPlayer);

  return (
    <section className={styles['picture']} aria-label={words.label} data-pen={mode === 'pen'}>
      <Magnified
        shape={clip ? clip.height / clip.width : 1}
        over={
          clip &&
          showing.is === 'shown' && (
            <>
              <GroundOverlay width={clip.width} height={clip.height} />
              <TrackOverlay width={clip.width} height={clip.height} />
              <DrawingOverlay shape={clip.height / clip.width} />
            </>
          )
        }
        {...groundHands}
        {...trackHands}
      >
        <div ref={box} className={styles['stage']} data-shown={showing.is === 'shown'} />
        <Layers shown={shown} />
      </Magnified>
      {clip && showing.is === 'shown' && <CopyNote clip={clip} />}
      {showing.is === 'shown' && <Away />}
      {table && <LightTable />}
      {showing.is !== 'shown' && (
        <ClipNotice
          clip={clip}
          anyFootage={review.footage.length > 0}
          opening={showing.is === 'opening'}
          why={showing.is === 'trouble' ? showing.why : null}
          wantsCopy={showing.is === 'trouble' && showing.wantsCopy}
        />
      )}
    </section>
  );
}

/** Says so where this clip has no frame at the instant that was asked for, and what is shown instead. */
function Away() {
  const away = useDeskView((v) => v.away);
  if (away === 0) return null;
  const seconds = clockReading(Math.abs(away));
  return (
    <p className={styles['away']} role="status">
      {away < 0 ? lineUpWords.away.before(seconds) : lineUpWords.away.after(seconds)}
    </p>
  );
}

/** Keeps a stage in the box and the clip of the desk on it. */
function useStage(
  box: RefObject<HTMLDivElement | null>,
  footageId: string | null,
  clip: ClipSummary | undefined,
  table: FrameTable | undefined,
  setPlayer: (player: Player | null) => void,
): { readonly showing: Showing; readonly shown: () => number | null } {
  const { desk, stills } = useDesk();
  const { shell } = useWorkbench();
  const [stage, setStage] = useState<Stage | null>(null);
  const [showing, setShowing] = useState<Showing>({ is: 'opening' });

  useEffect(() => {
    const container = box.current;
    if (!container) return;
    const made = openStage(container);
    setStage(made);
    return () => {
      setStage(null);
      void made.close();
      container.replaceChildren();
    };
  }, [box]);

  const { mediaId, width, height, rotation, copied } = useFile(clip);

  useEffect(() => {
    if (!stage || !table || mediaId === null || footageId === null) return;
    let gone = false;
    let player: ReturnType<typeof stagePlayer> | null = null;
    const stopTrouble = stage.onTrouble((trouble) => {
      desk.say(trouble.message);
    });
    setShowing({ is: 'opening' });
    const before = desk.store.getState().frame;
    // The frame that was on the screen comes back before anything is shown: the file may be another one of this clip.
    const open = async (): Promise<void> => {
      // There is no further copy to be had of a working copy: where it cannot be decoded, the browser's player is left.
      const by = copied ? 'either' : 'decoding';
      await stage.open({ url: shell.mediaUrl(mediaId), table, width, height, rotation }, { by });
      if (gone || before === 0) return;
      // Where that frame cannot be had, the player says so when it is asked for it below.
      await stage.seek(frameIndex(Math.min(before, table.pts.length - 1))).catch(() => undefined);
    };
    open().then(
      () => {
        if (gone) return;
        player = stagePlayer(playedStage(stage), {
          frame: desk.played,
          playing: desk.setPlaying,
          stepped: desk.goToFrame,
          trouble(error) {
            if (!gone) desk.say(whyOf(error).why);
          },
        });
        stills.setMaker({
          footageId,
          picture: (frame, most) => {
            const { window } = stage;
            return window
              ? window.picture(frameIndex(frame), most)
              : Promise.reject(new Error('the clip was closed'));
          },
        });
        setPlayer(player);
        void player.show(desk.store.getState().frame);
        setShowing({ is: 'shown' });
      },
      (error: unknown) => {
        if (gone) return;
        const why = error instanceof Error && 'code' in error ? error.message : whyOf(error).why;
        setShowing({ is: 'trouble', why, wantsCopy: wantsWorkingCopy(error) });
      },
    );
    return () => {
      gone = true;
      stopTrouble();
      player?.leave();
      setPlayer(null);
      stills.setMaker(null);
      desk.setPlaying(false);
      setShowing({ is: 'opening' });
      void stage.close();
    };
  }, [stage, table, mediaId, width, height, rotation, copied, footageId, desk, stills, shell, setPlayer]);

  const shown = useCallback(() => stage?.window?.shown() ?? null, [stage]);
  return { showing, shown };
}

/** The file that a clip is shown from. */
interface ShownFile {
  readonly mediaId: string | null;
  readonly width: number;
  readonly height: number;
  readonly rotation: ClipSummary['rotation'];
  readonly copied: boolean;
}

/**
 * The file to show a clip from. When its working copy is ready the picture goes over to it, but not in mid-play: what
 * is on the screen then stays until the run is stopped.
 */
function useFile(clip: ClipSummary | undefined): ShownFile {
  const { desk } = useDesk();
  const playing = useDeskView((v) => v.playing);
  const [held, setHeld] = useState<{ readonly clip: ClipSummary; readonly file: ShownFile } | null>(null);
  const now = clip && fileOf(clip);
  const goesOver = now && held?.clip.id === clip.id && held.file.mediaId !== now.mediaId;
  const stays = goesOver && playing && held.clip.frames === clip.frames && now.copied;
  const file = stays ? held.file : (now ?? nothing);
  useEffect(() => {
    if (!clip || stays) return;
    if (goesOver && file.copied && held.file.mediaId !== null) desk.say(copyWords.switched);
    if (held?.clip !== clip) setHeld({ clip, file });
  }, [clip, file, goesOver, stays, held, desk]);
  return file;
}

const nothing: ShownFile = { mediaId: null, width: 0, height: 0, rotation: 0, copied: false };

function fileOf({ mediaId, shown, rotation, copy }: ClipSummary): ShownFile {
  return { mediaId, ...shown, rotation, copied: copy !== null };
}

function playedStage(stage: Stage): Parameters<typeof stagePlayer>[0] {
  return {
    get mode() {
      return stage.mode;
    },
    get rate() {
      return stage.rate;
    },
    set rate(rate) {
      stage.rate = rate;
    },
    get muted() {
      return stage.muted;
    },
    set muted(muted) {
      stage.muted = muted;
    },
    play: () => stage.play(),
    pause: () => stage.pause(),
    seek: (index) => stage.seek(frameIndex(index)),
    travel: (by, until) => stage.travel(by, frameIndex(until)),
    halt: () => stage.halt(),
    frame: () => stage.frame(),
    setLoop(loop) {
      stage.loop = loop && { from: frameIndex(loop.from), to: frameIndex(loop.to) };
    },
    onFrame: (listener) => stage.onFrame(listener),
    onMode: (listener) => stage.onMode(listener),
  };
}
