import { createStore, type StoreApi } from 'zustand/vanilla';
import { ptsOf } from '../../../../src/time/frameTable.ts';
import { frameIndex } from '../../../../src/time/units.ts';
import type { ReviewState } from '../../../../src/review/entities.ts';
import { dogPoints, handlerPoints, type Track, type TrackMark } from '../../../../src/track/track.ts';
import { bodyPointWords, realLineWords } from '../../../../src/words/realLine.ts';
import type { Desk } from '../desk/desk.ts';
import { framesOfCut } from '../../../../src/review/cells.ts';
import type { Span } from '../line/scale.ts';
import type { Grip } from '../look/Magnified.tsx';
import type { Place } from '../look/magnifier.ts';
import { dropMark, markOn, putMark, trackOf, type TrackKey } from './edits.ts';
import { frameBefore, nextFrame, timeOf } from './strides.ts';

const words = realLineWords.said;

/** What is being marked, and how. */
export interface TrackView {
  readonly who: 'dog' | 'handler';
  readonly dogPoint: (typeof dogPoints)[number];
  readonly handlerPoint: (typeof handlerPoints)[number];
  readonly during: Track['during'];
  /** How the next mark touches: as the frame is expected to show it, or as the coach said for this one. */
  readonly contact: TrackMark['contact'] | null;
  /** Seconds from one mark to the next; null: as usual. */
  readonly step: Readonly<Record<'dog' | 'handler', number | null>>;
  /** The cross-hair of the keyboard; null until a key moves it. */
  readonly cross: Place | null;
  readonly fine: boolean;
  /** Where the hand carries the mark of this frame; null while none is carried. */
  readonly carried: Place | null;
}

/** Seconds between two steps of a handler who runs: about three and a half steps a second (ours). */
const handlerStep = 0.3;
/** While she waits a paw hardly moves: marks lie further apart. Seconds (ours). */
const waitStep = 1;
/** Bounds of the stride that a coach may ask for, seconds. */
export const stepBounds = { least: 0.02, most: 5 } as const;
/** Longer or shorter by this factor a press. */
const stepFactor = 1.25;

/** What this desk cannot know by itself. */
export interface TrackPorts {
  /** Times in tunnels on a clip, and where the marks so far lead into one. */
  hidden(key: TrackKey): readonly Span[];
  /** Times in the air on a clip, by the coach's marks. */
  flights(footageId: string): readonly Span[];
}

/** The hands that mark a line: one body point, a click a stride. */
export interface TrackHands {
  readonly store: StoreApi<TrackView>;
  /** The track in hand; null without a clip. */
  key(): TrackKey | null;
  track(): Track | undefined;
  /** The mark on the frame of the desk. */
  here(): TrackMark | undefined;
  stepSeconds(): number;
  /** How a mark on this frame touches, unless the coach says otherwise. */
  expected(): TrackMark['contact'];
  /** Begins to mark; `during` says whether the run or the wait. */
  open(during?: Track['during']): void;
  set(part: Partial<TrackView>): void;
  setStep(seconds: number | null): void;
  longer(step: 1 | -1): void;
  nextPoint(): void;
  /** A click on the picture: marks this frame and goes on to the next. */
  click(place: Place): void;
  /** The mark of this frame, dragged elsewhere; the frame stays. */
  readonly grip: Grip;
  /** Says how the point touches on this frame: changes its mark, or counts for the next click. */
  touch(contact: TrackMark['contact']): void;
  /** Moves the cross-hair by steps; `seen` is the share of the picture that is on the screen. */
  moveCross(dx: number, dy: number, seen: number): void;
  /** Marks where the cross-hair is. */
  clickCross(): void;
  skip(): void;
  back(): void;
  remove(): void;
}

export function createTrackHands(desk: Desk, ports: TrackPorts): TrackHands {
  const store = createStore<TrackView>()(() => ({
    who: 'dog',
    dogPoint: 'leftFrontPaw',
    handlerPoint: 'leftFoot',
    during: 'run',
    contact: null,
    step: { dog: null, handler: null },
    cross: null,
    fine: false,
    carried: null,
  }));
  const review = (): ReviewState | null => desk.ports.review();

  const key = (): TrackKey | null => {
    const { footageId } = desk.store.getState();
    const { who, dogPoint, handlerPoint, during } = store.getState();
    if (footageId === null) return null;
    return who === 'dog'
      ? { footageId, during, who, point: dogPoint }
      : { footageId, during: 'run', who, point: handlerPoint };
  };
  const track = (): Track | undefined => {
    const [r, k] = [review(), key()];
    return r && k ? trackOf(r, k) : undefined;
  };
  const ptsHere = (): number | null => {
    const clock = desk.clock();
    const { frame } = desk.store.getState();
    return clock && frame < clock.table.pts.length ? ptsOf(clock.table, frameIndex(frame)) : null;
  };
  const here = (): TrackMark | undefined => {
    const at = ptsHere();
    return at === null ? undefined : markOn(track(), at);
  };
  const usualStep = (): number => {
    const { who, during } = store.getState();
    if (who === 'handler') return handlerStep;
    return during === 'wait' ? waitStep : (review()?.header.strideSeconds ?? 0.4);
  };
  const stepSeconds = (): number => {
    const { who, during, step } = store.getState();
    return (during === 'wait' ? null : step[who]) ?? usualStep();
  };
  const expected = (): TrackMark['contact'] => {
    const clock = desk.clock();
    const k = key();
    if (!clock || k?.who !== 'dog') return 'ground';
    const now = timeOf(clock, desk.store.getState().frame);
    return ports.flights(k.footageId).some((f) => now > f.from && now < f.to) ? 'air' : 'ground';
  };
  const lastOf = (footageId: string): number => {
    const clock = desk.clock();
    const cut = review()?.footage.find((f) => f.id === footageId)?.cut;
    return clock ? framesOfCut(clock, desk.store.getState().beyond ? undefined : cut).last : 0;
  };
  const goOn = (): void => {
    const clock = desk.clock();
    const k = key();
    if (!clock || !k) return;
    const marked = track()?.marks.map((m) => m.pts) ?? [];
    const { frame } = desk.store.getState();
    const hidden = k.who === 'dog' && k.during === 'run' ? ports.hidden(k) : [];
    const next = nextFrame(clock, frame, stepSeconds(), marked, hidden, lastOf(k.footageId));
    store.setState({ contact: null });
    if (next === null) desk.say(words.end);
    else desk.goToFrame(next);
  };
  const put = (place: Place, more: Partial<TrackMark> = {}): boolean => {
    const [r, k, at] = [review(), key(), ptsHere()];
    if (!r || !k || at === null) {
      desk.say(words.noClip);
      return false;
    }
    const inside = place.x >= 0 && place.x <= 1 && place.y >= 0 && place.y <= 1;
    if (!inside) {
      desk.say(words.outside);
      return false;
    }
    const before = here();
    const contact = store.getState().contact ?? before?.contact ?? expected();
    const mark: TrackMark = {
      ...(before ?? {}),
      pts: at,
      at: { x: place.x, y: place.y },
      contact: k.during === 'wait' ? 'ground' : contact,
      ...more,
    };
    const act = putMark(r, k, mark, desk.ports.makeId);
    if (act) desk.do(act);
    else desk.say(words.full);
    return act !== null;
  };

  return {
    store,
    key,
    track,
    here,
    stepSeconds,
    expected,
    open(during = 'run') {
      if (!desk.clock()) {
        desk.say(words.noClip);
        return;
      }
      desk.pause();
      store.setState({
        during,
        contact: null,
        ...(during === 'wait' && {
          who: 'dog' as const,
          dogPoint: isPaw(store.getState().dogPoint) ? store.getState().dogPoint : 'leftFrontPaw',
        }),
      });
      desk.enter({ name: 'track' });
      desk.set({ table: false, folded: false, tab: during === 'wait' ? 'start' : 'line' });
    },
    set(part) {
      store.setState({ contact: null, ...part });
    },
    setStep(seconds) {
      const { who, step } = store.getState();
      const held =
        seconds === null || !Number.isFinite(seconds)
          ? null
          : Math.max(stepBounds.least, Math.min(stepBounds.most, seconds));
      store.setState({ step: { ...step, [who]: held } });
    },
    longer(by) {
      const { who, step } = store.getState();
      const next = stepSeconds() * stepFactor ** by;
      store.setState({
        step: { ...step, [who]: Math.max(stepBounds.least, Math.min(stepBounds.most, next)) },
      });
      desk.say(words.step(stepSeconds()));
    },
    nextPoint() {
      const { who, during, dogPoint, handlerPoint } = store.getState();
      if (who === 'handler') {
        store.setState({ handlerPoint: after(handlerPoints, handlerPoint), contact: null });
        desk.say(bodyPointWords[store.getState().handlerPoint]);
        return;
      }
      const list = during === 'wait' ? dogPoints.filter(isPaw) : dogPoints;
      store.setState({ dogPoint: after(list, dogPoint), contact: null });
      desk.say(bodyPointWords[store.getState().dogPoint]);
    },
    click(place) {
      desk.pause();
      if (put(place)) goOn();
    },
    grip: {
      take(place, reach) {
        const at = here()?.at;
        return at !== undefined && near(at, place, reach);
      },
      drag(place) {
        store.setState({ carried: place });
      },
      drop(place) {
        store.setState({ carried: null });
        if (!place) return;
        desk.pause();
        put(place);
      },
    },
    touch(contact) {
      const mark = here();
      if (mark) put(mark.at, { contact });
      else {
        store.setState({ contact });
        desk.say(words.next(contact));
      }
    },
    moveCross(dx, dy, seen) {
      const { cross, fine } = store.getState();
      const size = (fine ? 0.001 : 0.015) * seen;
      const from = cross ?? here()?.at ?? { x: 0.5, y: 0.5 };
      const hold = (v: number): number => Math.max(0, Math.min(1, v));
      store.setState({ cross: { x: hold(from.x + dx * size), y: hold(from.y + dy * size) } });
    },
    clickCross() {
      const { cross } = store.getState();
      if (!cross) {
        store.setState({ cross: here()?.at ?? { x: 0.5, y: 0.5 } });
        return;
      }
      desk.pause();
      if (put(cross)) goOn();
    },
    skip: goOn,
    back() {
      const clock = desk.clock();
      if (!clock) return;
      const to = frameBefore(
        clock,
        desk.store.getState().frame,
        (track()?.marks ?? []).map((m) => m.pts),
      );
      desk.pause();
      store.setState({ contact: null });
      if (to === null) desk.say(words.first);
      else desk.goToFrame(to);
    },
    remove() {
      const [r, k, at] = [review(), key(), ptsHere()];
      const act = r && k && at !== null ? dropMark(r, k, at) : null;
      if (act) desk.do(act);
      else desk.say(words.noneHere);
    },
  };
}

/** Whether two places lie within reach of each other. */
const near = (a: Place, b: Place, reach: Place): boolean =>
  ((a.x - b.x) / reach.x) ** 2 + ((a.y - b.y) / reach.y) ** 2 <= 1;

export const isPaw = (point: string): boolean => point.endsWith('Paw');

function after<T>(list: readonly T[], one: T): T {
  const next = list[(list.indexOf(one) + 1) % list.length];
  return next ?? one;
}
