import { Film, Pause, Play, Repeat, Volume2, VolumeX, ZoomIn } from 'lucide-react';
import { obstacleAt } from '../../../src/course/course.ts';
import { rootOf } from '../../../src/review/angles.ts';
import { standingOf } from '../../../src/review/lineUp.ts';
import { clockReading } from '../../../src/words/figures.ts';
import { lineUpWords } from '../../../src/words/lineUp.ts';
import { edgeWord, obstacleName } from '../../../src/words/review.ts';
import { lookWords } from '../../../src/words/look.ts';
import { reviewScreenWords } from '../../../src/words/reviewScreen.ts';
import { Key } from '../keys/Key.tsx';
import { useAnalysis, usePreferences, useReview, useWorkbench } from '../stores/react.ts';
import { AsFilmed, SpeedHere } from './clip/SpeedHere.tsx';
import { useDesk, useDeskView, useLook, useOpenReview } from './DeskContext.ts';
import { middle } from '../../../src/time/bracket.ts';
import styles from './Transport.module.css';
import { useHand } from './useHand.ts';
import { markedSpanOf } from './useLineContent.ts';

const words = reviewScreenWords.play;

/** Playing, the time and frame on the screen, and which obstacle the next mark belongs to. */
export function Transport() {
  return (
    <div className={styles['row']} role="group" aria-label={words.controls}>
      <PlayButton />
      <Reading />
      <Speed />
      <AsFilmed />
      <Switches />
      <Looks />
      <Clips />
      <Said />
      <AtHandBox />
      <Zoom />
    </div>
  );
}

function PlayButton() {
  const { desk } = useDesk();
  const playing = useDeskView((v) => v.playing);
  return (
    <button
      type="button"
      className={styles['play']}
      onClick={() => {
        desk.play();
      }}
    >
      {playing ? <Pause aria-hidden /> : <Play aria-hidden />}
      <span>{playing ? words.pause : words.play}</span>
      <Key act="review.play" />
    </button>
  );
}

/** Seconds since the clock of the run started, and the frame of this clip. */
function Reading() {
  const { desk } = useDesk();
  const analysis = useAnalysis();
  const frame = useDeskView((v) => v.frame);
  // The clip and its clock decide what this frame's time is.
  useDeskView((v) => v.footageId);
  useReview((v) => v.clocks);
  const start = analysis?.clock ? middle(analysis.clock.start.bracket) : 0;
  return (
    <p className={styles['reading']}>
      <strong>{clockReading(desk.now() - start)} s</strong>
      <span>{words.frame(frame)}</span>
      <SpeedHere />
    </p>
  );
}

function Speed() {
  const { desk } = useDesk();
  const speed = useDeskView((v) => v.speed);
  return (
    <div className={styles['speed']} role="group" aria-label={words.speedLabel}>
      <button
        type="button"
        className={styles['small']}
        aria-label={words.slower}
        title={words.slower}
        onClick={() => {
          desk.faster(-1);
        }}
      >
        <Key act="review.slower" />
      </button>
      <output className={styles['speedNow']} aria-live="off">
        {words.speed(speed)}
      </output>
      <button
        type="button"
        className={styles['small']}
        aria-label={words.faster}
        title={words.faster}
        onClick={() => {
          desk.faster(1);
        }}
      >
        <Key act="review.faster" />
      </button>
    </div>
  );
}

function Switches() {
  const { desk } = useDesk();
  const loop = useDeskView((v) => v.loop !== null);
  const muted = useDeskView((v) => v.muted);
  return (
    <>
      <button
        type="button"
        className={styles['small']}
        aria-pressed={loop}
        aria-label={words.loop}
        title={words.loop}
        onClick={() => {
          desk.toggleLoop();
        }}
      >
        <Repeat aria-hidden />
        <Key act="review.loop" />
      </button>
      <button
        type="button"
        className={styles['small']}
        aria-pressed={muted}
        aria-label={words.soundOff}
        title={words.soundOff}
        onClick={() => {
          desk.toggleMute();
        }}
      >
        {muted ? <VolumeX aria-hidden /> : <Volume2 aria-hidden />}
        <Key act="review.mute" />
      </button>
    </>
  );
}

/** Looking closer, and the strip of small frames. */
function Looks() {
  const { desk, hands, look } = useDesk();
  const looking = useDeskView((v) => v.mode.name === 'look');
  const strip = useLook((v) => v.strip);
  useLook((v) => v.magnifiers);
  useDeskView((v) => v.footageId);
  const { zoom } = look.magnifier();
  return (
    <>
      <button
        type="button"
        className={styles['small']}
        aria-pressed={looking}
        aria-label={lookWords.button.look}
        title={lookWords.button.look}
        onClick={() => {
          if (looking) hands.leave();
          else desk.enter({ name: 'look', from: desk.store.getState().mode });
        }}
      >
        <ZoomIn aria-hidden />
        {zoom > 1 && <span>{lookWords.panel.zoom(zoom)}</span>}
        <Key act="review.look" />
      </button>
      <button
        type="button"
        className={styles['small']}
        aria-pressed={strip}
        aria-label={lookWords.button.strip}
        title={lookWords.button.strip}
        onClick={() => {
          look.toggleStrip();
        }}
      >
        <Film aria-hidden />
        <Key act="review.strip" />
      </button>
    </>
  );
}

/** Several clips of one run: the same instant on another. */
function Clips() {
  const { desk } = useDesk();
  const { footage } = useOpenReview();
  const footageId = useDeskView((v) => v.footageId);
  if (footage.length < 2) return null;
  return (
    <div className={styles['clips']} role="group" aria-label={words.clip}>
      <label>
        <span>{words.clip}</span>
        <select
          value={footageId ?? ''}
          onChange={(event) => {
            desk.toClip(event.target.value);
            event.target.blur();
          }}
        >
          {footage.map((f) => (
            <option key={f.id} value={f.id}>
              {f.name}
            </option>
          ))}
        </select>
        <Key act="review.otherClip" />
      </label>
      <LineUpChip />
    </div>
  );
}

/** How the clip on the screen lies to the first one: within how much, or not at all. */
function LineUpChip() {
  const { desk } = useDesk();
  const { footage } = useOpenReview();
  const id = useDeskView((v) => v.footageId) ?? '';
  const standing = standingOf(footage, id);
  const loose = standing === 'loose' || footage.every((f) => standingOf(footage, f.id) !== 'linedUp');
  if (standing === 'first' && !loose) return null;
  return (
    <button
      type="button"
      className={styles['lineUp']}
      data-loose={loose}
      title={lineUpWords.title}
      onClick={() => {
        desk.pause();
        desk.set({ lining: true });
      }}
    >
      {loose ? lineUpWords.chip.loose : lineUpWords.chip.linedUp(rootOf(footage, id).plusMinus)}
      <Key act="review.lineUp" />
    </button>
  );
}

/** What the last press did or could not do. */
function Said() {
  const said = useDeskView((v) => v.said);
  return (
    <p className={styles['said']} role="status" title={said.text}>
      <span key={said.count}>{said.text}</span>
    </p>
  );
}

/** The obstacle at hand, in the trade's words for its kind. */
function AtHandBox() {
  const { course } = useOpenReview();
  const dialect = usePreferences((p) => p.dialect);
  const hand = useHand();
  const mode = useDeskView((v) => v.mode.name);
  if (mode === 'pen') return null;
  if (hand.place === null) {
    return <p className={styles['hand']}>{words.allTaken}</p>;
  }
  const obstacle = obstacleAt(course, hand.place);
  const name = obstacleName(obstacle, dialect);
  const kind = obstacle?.kind ?? 'unknown';
  return (
    <p className={styles['hand']} data-typed={hand.typed}>
      <span className={styles['when']}>{hand.expects === 'out' ? words.now : words.next}</span>
      <strong>{obstacle || course.steps.length === 0 ? hand.place : words.hereMore(hand.place)}</strong>
      {name !== '' && <span className={styles['name']}>{name}</span>}
      {hand.try > 1 && <span className={styles['when']}>{words.try(hand.try)}</span>}
      {mode === 'obstacles' && (
        <>
          <span className={styles['edge']} data-expected={hand.expects === 'in'}>
            <Key act="review.in" /> {edgeWord(kind, 'in')}
          </span>
          <span className={styles['edge']} data-expected={hand.expects === 'out'}>
            <Key act="review.out" /> {edgeWord(kind, 'out')}
          </span>
        </>
      )}
    </p>
  );
}

function Zoom() {
  const { desk } = useDesk();
  const workbench = useWorkbench();
  return (
    <div className={styles['zoom']} role="group" aria-label={reviewScreenWords.line.label}>
      <button
        type="button"
        className={styles['small']}
        aria-label={words.zoomOut}
        title={words.zoomOut}
        onClick={() => {
          desk.zoom(2);
        }}
      >
        <Key act="review.zoomOut" />
      </button>
      <button
        type="button"
        className={styles['small']}
        onClick={() => {
          desk.showAll(markedSpanOf(workbench));
        }}
      >
        {words.all}
        <Key act="review.all" />
      </button>
      <button
        type="button"
        className={styles['small']}
        aria-label={words.zoomIn}
        title={words.zoomIn}
        onClick={() => {
          desk.zoom(0.5);
        }}
      >
        <Key act="review.zoomIn" />
      </button>
    </div>
  );
}
