import type { FootageUse } from '../../../../src/review/document.ts';
import type { ClipClock } from '../../../../src/time/bracket.ts';
import { calibrated } from '../../../../src/time/calibration.ts';
import { pieceAt, speedAt, type SpeedMap } from '../../../../src/time/captureClock.ts';
import { frameAt, frameSeconds } from '../../../../src/time/frameTable.ts';
import {
  life,
  offsetKeeping,
  speedFrom,
  speedOfStretch,
  wholeClip,
  withoutChange,
  type SaidSpeed,
} from '../../../../src/time/speedEdits.ts';
import { frameIndex, pts } from '../../../../src/time/units.ts';
import { captureSpeedWords, clipSpeedTold, speedTold } from '../../../../src/words/captureSpeed.ts';
import type { Desk } from '../desk/desk.ts';

const words = captureSpeedWords;

/** What the hands do to a clip itself: how fast it was filmed. Each method is one press. */
export interface ClipHands {
  openSpeed(times: number | null): void;
  /** How many times slower than life, give or take how much. */
  setTimes(times: number, doubt: number): void;
  sayWhole(what: 'slow' | 'life'): void;
  sayFrom(what: 'slow' | 'life'): void;
  takeAway(): void;
  /** Takes over what a finding says. */
  use(speed: SpeedMap): void;
  count(end: 'from' | 'to'): void;
  /** The speed of the stretch between the counted frames, from the real seconds between them. */
  byClock(seconds: number, plusMinus: number): void;
}

/** What is usual where nothing is known: 120 frames a second played as 30. */
const usualTimes = 4;

/** The clip on the desk with its clock; null where there is none. */
interface OnDesk {
  readonly use: FootageUse;
  readonly clock: ClipClock;
  /** Media time of the first frame, and of the frame on the screen. */
  readonly first: number;
  readonly at: number;
}

export function createClipHands(desk: Desk): ClipHands {
  const onDesk = (): OnDesk | null => {
    const { footageId, frame } = desk.store.getState();
    const use = desk.ports.review()?.footage.find((f) => f.id === footageId);
    const clock = desk.clock();
    if (!use || !clock) {
      desk.say(words.said.noClip);
      return null;
    }
    const first = frameSeconds(clock.table, frameIndex(0));
    return { use, clock, first, at: frameSeconds(clock.table, frameIndex(frame)) };
  };

  const put = ({ use, clock }: OnDesk, speed: SpeedMap, label: string): void => {
    const offset = offsetKeeping(clock, speed, anchorOf(use, clock));
    const body = { ...use, speed: speed.map((p) => ({ ...p })), offset };
    desk.do({ label, changes: [{ kind: 'footage', id: use.id, body }] });
  };

  const asked = (what: 'slow' | 'life'): SaidSpeed => {
    const { mode } = desk.store.getState();
    return what === 'life' || mode.name !== 'speed' ? life : saidOfTimes(mode.times, mode.doubt);
  };

  return {
    openSpeed(times) {
      const clip = onDesk();
      if (!clip) return;
      const here = speedAt(clip.clock.speed, clip.at);
      const slowed = clip.clock.speed.find((p) => p.speed !== 1);
      const likely = here === 1 ? (slowed ? 1 / slowed.speed : (times ?? usualTimes)) : 1 / here;
      desk.enter({ name: 'speed', times: likely, doubt: 0, from: null, to: null });
      desk.set({ folded: false, table: false });
    },
    setTimes(times, doubt) {
      const { mode } = desk.store.getState();
      if (mode.name !== 'speed' || !(times > 0 && doubt >= 0 && doubt < times)) return;
      desk.enter({ ...mode, times, doubt });
    },
    sayWhole(what) {
      const clip = onDesk();
      const said = asked(what);
      if (clip) put(clip, wholeClip(clip.first, said), words.acts.whole(speedTold(said)));
    },
    sayFrom(what) {
      const clip = onDesk();
      if (!clip) return;
      desk.pause();
      const said = asked(what);
      put(clip, speedFrom(clip.clock.speed, clip.first, clip.at, said), words.acts.from(speedTold(said)));
    },
    takeAway() {
      const clip = onDesk();
      if (!clip) return;
      const left = withoutChange(clip.clock.speed, clip.at);
      if (left) put(clip, left, words.acts.takenAway);
      else desk.say(words.said.nothingToTakeAway);
    },
    use(speed) {
      const clip = onDesk();
      if (clip) put(clip, speed, words.acts.found(clipSpeedTold(speed)));
    },
    count(end) {
      const clip = onDesk();
      const { mode, frame } = desk.store.getState();
      if (!clip || mode.name !== 'speed') return;
      desk.pause();
      desk.enter({ ...mode, [end]: clip.clock.table.pts[frame] ?? null });
      desk.say(end === 'from' ? words.said.countFrom(frame) : words.said.countTo(frame));
    },
    byClock(seconds, plusMinus) {
      const clip = onDesk();
      const { mode } = desk.store.getState();
      if (!clip || mode.name !== 'speed') return;
      const { from, to } = mode;
      if (from === null || to === null || from >= to) {
        desk.say(words.said.twoFrames);
        return;
      }
      const { table, speed } = clip.clock;
      const mediaOf = (at: number): number => frameSeconds(table, frameAt(table, pts(at)));
      if (pieceAt(speed, mediaOf(from)) !== pieceAt(speed, mediaOf(to))) {
        desk.say(words.said.oneStretch);
        return;
      }
      const said = calibrated(table, pts(from), pts(to), seconds, plusMinus);
      if (!said) {
        desk.say(words.said.tooClose);
        return;
      }
      put(clip, speedOfStretch(speed, clip.first, mediaOf(from), said), words.acts.byClock(speedTold(said)));
    },
  };
}

/** So many times slower, give or take, as a speed: the middle of what that allows, plus or minus the rest. */
export function saidOfTimes(times: number, doubt: number): SaidSpeed {
  if (doubt === 0) return { speed: 1 / times, plusMinus: 0 };
  const slowest = 1 / (times + doubt);
  const fastest = 1 / (times - doubt);
  return { speed: (slowest + fastest) / 2, plusMinus: (fastest - slowest) / 2 };
}

/** Where a clip keeps its place on the clock of the run while its speed changes: where the review begins on it. */
function anchorOf(use: FootageUse, clock: ClipClock): ReturnType<typeof pts> {
  return pts(use.cut?.from ?? clock.table.pts[0] ?? 0);
}
