import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Cut } from '../../../../src/review/document.ts';
import type { ReviewState } from '../../../../src/review/entities.ts';
import type { Mark } from '../../../../src/review/marks.ts';
import type { Clocks } from '../../../../src/review/moments.ts';
import type { ClipClock } from '../../../../src/time/bracket.ts';
import { runTimeAt } from '../../../../src/time/bracket.ts';
import { speedAt } from '../../../../src/time/captureClock.ts';
import { frameAt, frameSeconds, ptsOf } from '../../../../src/time/frameTable.ts';
import { frameIndex, pts } from '../../../../src/time/units.ts';
import { captureSpeedWords, shareTold, speedTold } from '../../../../src/words/captureSpeed.ts';
import type { Act } from '../marking/act.ts';
import { atHand, type AtHand } from '../marking/atHand.ts';
import { numbersOf } from '../marking/numbers.ts';
import { inOrder, neighbour, type Timed } from '../marking/order.ts';
import { stretchOf } from '../marking/stretch.ts';
import { cellOf, cutSpan, frameShownAt, framesOfCut } from '../../../../src/review/cells.ts';
import { following, within, zoomed, type Span } from '../line/scale.ts';
import { heldKey } from './heldKey.ts';
import { instantOf, instantOn, reactionFrames, spotAt } from './place.ts';
import { fastest, openingView, slowest, speeds, tabs, type DeskView, type Mode, type Tab } from './view.ts';
import { roundsPress } from './rounds.ts';

/** The picture, as the desk drives it. Frames are those of the footage on the desk. */
export interface Player {
  /** Resolves once this frame is on screen, or a later wish took its place. Never rejects. */
  show(frame: number): Promise<void>;
  play(): void;
  pause(): void;
  /**
   * While it plays or stops: steps on from the frame it stops on; resolves once that frame is on screen. Null while
   * it stands still.
   */
  stepOff(by: number): Promise<void> | null;
  /** Travels on, frame by frame, to this frame at most; resolves when it has stopped. Never rejects. */
  travel(by: 1 | -1, until: number): Promise<void>;
  /** Ends travelling on the frame that is on screen. */
  halt(): void;
  setSpeed(speed: number): void;
  setMuted(muted: boolean): void;
  /** Frames to play round and round, both included; null to play on. */
  setLoop(loop: { readonly from: number; readonly to: number } | null): void;
}

/** What the desk stands on. `review` and `clocks` give what is shown now. */
export interface DeskPorts {
  review(): ReviewState | null;
  clocks(): Clocks;
  apply(label: string, changes: Act['changes']): void;
  makeId(): string;
  /** The picture; null while there is none. */
  player(): Player | null;
}

const speedWords = captureSpeedWords.said;

/** Fewest frames the line of time shows. */
const fewestFrames = 10;

/**
 * The desk of the review screen: where one looks, what the hands are at, and everything that a key or the mouse can
 * do about it. Knows no React; runs in plain Node in tests.
 */
export interface Desk {
  readonly store: StoreApi<DeskView>;
  readonly ports: DeskPorts;
  /** Chooses footage where none is chosen or the chosen one has gone; goes to within its cut. */
  settle(): void;
  clock(): ClipClock | null;
  /** Run time of the frame on the desk. */
  now(): number;
  ordered(): readonly Timed[];
  /** The obstacle at hand at the playhead, or at another run time. */
  hand(at?: number): AtHand;
  selectedMark(): Mark | null;
  /** Lets go of a mark that is no longer there. */
  dropLostSelection(): void;
  say(text: string): void;
  set(part: Partial<DeskView>): void;
  enter(mode: Mode): void;
  /** Carries an act out and tells of it. */
  do(act: Act): void;
  /** The spot of a press now; less sure while the run plays. */
  spot(): ReturnType<typeof spotAt> | null;

  goTo(footageId: string, frame: number): void;
  goToFrame(frame: number): void;
  goToTime(at: number): void;
  goToMark(id: string): void;
  /** Goes to where an obstacle was taken, or to what else is marked at it; false where nothing is. */
  goToPlace(place: number): boolean;
  step(by: number): void;
  /** A key is held: travels on, ever faster, until `release`, and not a frame further. */
  hold(by: 1 | -1): void;
  release(): void;
  toMark(step: -1 | 1): void;
  toEnd(end: 'first' | 'last'): void;
  otherClip(): void;
  /** The same instant on another clip. */
  toClip(footageId: string): void;

  play(): void;
  pause(): void;
  /** Told by the picture. */
  played(frame: number): void;
  setPlaying(playing: boolean): void;
  faster(step: -1 | 1): void;
  toggleAsFilmed(): void;
  /** Looks beyond the cut of the clip, or keeps within it again. */
  lookBeyond(beyond: boolean): void;
  toggleMute(): void;
  toggleLoop(): void;
  /** First press: the stretch to play round and round begins at this frame; second: it ends here; third: off. */
  loopHere(): void;
  /** Tells a picture that has just been made how it is to play. */
  brief(player: Player): void;

  whole(): Span;
  view(): Span;
  setView(view: Span): void;
  zoom(factor: number, about?: number): void;
  showAll(run: Span | null): void;
  nextTab(): void;
  showTab(tab: Tab): void;
}

/** Makes the desk. */
export function createDesk(ports: DeskPorts): Desk {
  const store = createStore<DeskView>()(() => openingView);
  const get = store.getState;
  const set = (part: Partial<DeskView>): void => {
    store.setState(part);
  };
  const clockOf = (id: string | null): ClipClock | null =>
    id === null ? null : (ports.clocks().get(id) ?? null);
  const clock = (): ClipClock | null => clockOf(get().footageId);

  let orderedFor: { marks: unknown; clocks: unknown; list: readonly Timed[] } | undefined;
  const ordered = (): readonly Timed[] => {
    const marks = ports.review()?.marks ?? [];
    const clocks = ports.clocks();
    if (orderedFor?.marks !== marks || orderedFor.clocks !== clocks) {
      orderedFor = { marks, clocks, list: inOrder(marks, clocks) };
    }
    return orderedFor.list;
  };

  const timeOf = (c: ClipClock, frame: number): number =>
    runTimeAt(c, ptsOf(c.table, frameIndex(Math.max(0, Math.min(c.table.pts.length - 1, frame)))));

  const now = (): number => {
    const c = clock();
    return c ? timeOf(c, get().frame) : 0;
  };

  /** The cut within which one moves on a clip now. */
  const cutOf = (id: string): Cut | undefined =>
    get().beyond ? undefined : ports.review()?.footage.find((f) => f.id === id)?.cut;

  const limits = (): { readonly first: number; readonly last: number } => {
    const { footageId } = get();
    const c = clock();
    return c && footageId !== null ? framesOfCut(c, cutOf(footageId)) : { first: 0, last: 0 };
  };

  const whole = (): Span => {
    const spans = [...ports.clocks()].map(([id, c]) => cutSpan(c, cutOf(id)));
    if (spans.length === 0) return { from: 0, to: 1 };
    return { from: Math.min(...spans.map((s) => s.from)), to: Math.max(...spans.map((s) => s.to)) };
  };

  const least = (): number => {
    const c = clock();
    if (!c) return 0.1;
    const cell = cellOf(c, get().frame);
    return (cell.to - cell.from) * fewestFrames;
  };

  const follow = (): void => {
    const { view } = get();
    if (!view) return;
    const next = following(view, whole(), now());
    if (next !== view) set({ view: next });
  };

  const say = (text: string): void => {
    set({ said: { text, count: get().said.count + 1 } });
  };

  /** Settles when the frame asked for last is on screen. */
  let shown: Promise<void> = Promise.resolve();

  const goTo = (footageId: string, frame: number): void => {
    const c = clockOf(footageId);
    if (!c) return;
    const { first, last } = framesOfCut(c, cutOf(footageId));
    const index = Math.max(first, Math.min(last, Math.round(frame)));
    const sameClip = footageId === get().footageId;
    set({ footageId, frame: index, away: 0 });
    // Another clip has a player of its own, which begins with this frame once it is there.
    if (sameClip) shown = ports.player()?.show(index) ?? Promise.resolve();
    follow();
  };

  const goToFrame = (frame: number): void => {
    const { footageId } = get();
    if (footageId !== null) goTo(footageId, frame);
  };

  const pause = (): void => {
    if (get().playing) ports.player()?.pause();
  };

  const loopFrames = (loop: Span | null): { from: number; to: number } | null => {
    const c = clock();
    if (!loop || !c) return null;
    const from = frameShownAt(c, loop.from);
    return { from, to: Math.max(from, frameShownAt(c, loop.to)) };
  };

  const setLoop = (loop: Span | null): void => {
    set({ loop, loopFrom: null });
    ports.player()?.setLoop(loopFrames(loop));
  };

  /** Speed of playback at a frame, as a share of the file's speed. */
  const rateAt = (frame: number): number => {
    const { speed, asFilmed } = get();
    const c = clock();
    if (!asFilmed || !c) return speed;
    const last = c.table.pts.length - 1;
    const at = frameSeconds(c.table, frameIndex(Math.max(0, Math.min(last, frame))));
    return Math.max(slowest, Math.min(fastest, speed / speedAt(c.speed, at)));
  };

  let told = 0;
  const tellRate = (): void => {
    const rate = rateAt(get().frame);
    if (rate !== told) ports.player()?.setSpeed(rate);
    told = rate;
  };

  /** The instant asked for last, as long as nothing moved since: angles may be switched round without drifting. */
  let instant: { footageId: string; frame: number; at: number } | undefined;

  const toClip = (id: string): void => {
    const from = clock();
    const to = clockOf(id);
    if (!to || id === get().footageId) return;
    pause();
    const here = get();
    const kept = instant?.footageId === here.footageId && instant.frame === here.frame ? instant.at : null;
    const at = kept ?? (from ? instantOf(from, here.frame) : 0);
    const { frame, away } = instantOn(to, at);
    goTo(id, frame);
    const landed = get().frame;
    // A clip that is cut has no more to show here than its cut.
    const cell = cellOf(to, landed);
    set({ away: landed === frame ? away : at - (landed < frame ? cell.to : cell.from) });
    instant = { footageId: id, frame: landed, at };
  };

  const goToTimed = (t: Timed): void => {
    pause();
    const c = clockOf(t.mark.footageId);
    const cut = c && framesOfCut(c, cutOf(t.mark.footageId));
    if (cut && (t.frame < cut.first || t.frame > cut.last)) set({ beyond: true });
    set({ selected: t.mark.id });
    goTo(t.mark.footageId, t.frame);
  };

  const step = (by: number): void => {
    set({ table: false });
    // The hand-over is on the frame that is on the screen when the run stops, not on the one last told of.
    const stepped = ports.player()?.stepOff(by) ?? null;
    if (stepped) {
      shown = stepped;
      return;
    }
    pause();
    goToFrame(get().frame + by);
  };

  const held = heldKey({
    player: ports.player,
    shown: () => shown,
    end: (by) => (by > 0 ? limits().last : limits().first),
  });

  return {
    store,
    ports,
    settle() {
      const review = ports.review();
      if (clock()) {
        // The frames of a clip, and with them where its cut begins, may come after the review.
        const { first, last } = limits();
        const { frame } = get();
        if (frame < first || frame > last) goToFrame(frame);
      }
      if (clock() || !review) return;
      const use = review.footage.find((f) => ports.clocks().has(f.id)) ?? review.footage[0];
      set({ footageId: use?.id ?? null, frame: 0 });
      set({ frame: limits().first });
    },
    clock,
    now,
    ordered,
    hand(at) {
      const review = ports.review();
      const numbers = review ? numbersOf(review.course) : { list: [], grows: true };
      return atHand(ordered(), numbers, at ?? now(), get().typed);
    },
    selectedMark() {
      const { selected } = get();
      return ports.review()?.marks.find((m) => m.id === selected) ?? null;
    },
    dropLostSelection() {
      const { selected } = get();
      if (selected !== null && !ports.review()?.marks.some((m) => m.id === selected)) set({ selected: null });
    },
    say,
    set,
    enter(mode) {
      set({ mode, editing: false });
    },
    do(act) {
      ports.apply(act.label, act.changes);
      if (act.selects !== undefined) set({ selected: act.selects });
      say(act.label);
    },
    spot() {
      const c = clock();
      const { footageId, frame, playing } = get();
      if (!c || footageId === null) return null;
      return spotAt(footageId, c, frame, playing ? reactionFrames(c, frame, rateAt(frame)) : 0);
    },

    goTo,
    goToFrame,
    goToTime(at) {
      const c = clock();
      if (c) goToFrame(frameShownAt(c, at));
    },
    goToMark(id) {
      const t = ordered().find((x) => x.mark.id === id);
      if (t) goToTimed(t);
    },
    goToPlace(place) {
      const t = ordered().findLast(
        (x) => x.mark.kind === 'taken' && x.mark.place === place && x.mark.edge !== 'out',
      );
      const any = t ?? ordered().find((x) => 'place' in x.mark && x.mark.place === place);
      if (any) goToTimed(any);
      return any !== undefined;
    },
    step,
    hold: held.hold,
    release: held.release,
    toMark(step) {
      const t = neighbour(ordered(), now(), get().selected, step);
      if (t) goToTimed(t);
    },
    toEnd(end) {
      const c = clock();
      if (c) goToFrame(limits()[end]);
    },
    otherClip() {
      const uses = (ports.review()?.footage ?? []).filter((f) => ports.clocks().has(f.id));
      const here = uses.findIndex((f) => f.id === get().footageId);
      const next = uses[(here + 1) % Math.max(1, uses.length)];
      if (next && uses.length > 1) toClip(next.id);
    },
    toClip,

    play() {
      const player = ports.player();
      const c = clock();
      if (!player || !c) return;
      if (get().playing) {
        player.pause();
        return;
      }
      const { loop, frame } = get();
      if (loop && (now() < loop.from || now() >= loop.to)) goToFrame(frameShownAt(c, loop.from));
      else if (frame >= limits().last || frame < limits().first) goToFrame(limits().first);
      set({ watched: true, table: false });
      tellRate();
      player.play();
    },
    pause,
    played(frame) {
      const { last } = limits();
      const c = clock();
      if (get().playing && get().loop === null && c && frame >= last && last < c.table.pts.length - 1) {
        pause();
        goToFrame(last);
        return;
      }
      set(frame === get().frame ? { frame } : { frame, away: 0 });
      if (get().asFilmed) tellRate();
      follow();
    },
    setPlaying(playing) {
      if (playing !== get().playing) set({ playing });
    },
    faster(step) {
      const here = speeds.findIndex((s) => s === get().speed);
      const speed = speeds[Math.max(0, Math.min(speeds.length - 1, here + step))] ?? 1;
      set({ speed });
      tellRate();
    },
    toggleAsFilmed() {
      const asFilmed = !get().asFilmed;
      set({ asFilmed });
      tellRate();
      const c = clock();
      if (!c) return;
      const { frame, speed } = get();
      const life = speedAt(c.speed, frameSeconds(c.table, frameIndex(frame)));
      const rate = rateAt(frame);
      if (!asFilmed) say(speedWords.asFile);
      else if (rate * life < speed * 0.999) say(speedWords.notThatFast(shareTold(rate * life)));
      else say(speedWords.asFilmed(speedTold({ speed: 1 / life })));
    },
    lookBeyond(beyond) {
      set({ beyond, view: null, loop: null });
      ports.player()?.setLoop(null);
      goToFrame(get().frame);
    },
    toggleMute() {
      const muted = !get().muted;
      set({ muted });
      ports.player()?.setMuted(muted);
    },
    toggleLoop() {
      if (get().loop) setLoop(null);
      else {
        const selected = ordered().find((t) => t.mark.id === get().selected);
        const span = selected ? stretchOf(selected, ordered()) : get().view;
        if (span) setLoop(within(span, whole(), least()));
      }
    },
    loopHere() {
      const c = clock();
      if (!c) return;
      const press = roundsPress(c, get());
      if (press.loop !== get().loop) setLoop(press.loop);
      set({ loopFrom: press.loopFrom });
      say(press.said);
    },
    brief(player) {
      const { muted, loop } = get();
      told = rateAt(get().frame);
      player.setSpeed(told);
      player.setMuted(muted);
      player.setLoop(loopFrames(loop));
    },

    whole,
    view: () => get().view ?? whole(),
    setView(view) {
      set({ view: within(view, whole(), least()) });
    },
    zoom(factor, about) {
      const all = whole();
      const next = zoomed(get().view ?? all, all, factor, about ?? now(), least());
      const isAll = next.from <= all.from && next.to >= all.to;
      set({ view: isAll ? null : next });
    },
    showAll(run) {
      const all = whole();
      const wanted = run && within(run, all, least());
      const { view } = get();
      const there =
        wanted && view && Math.abs(view.from - wanted.from) + Math.abs(view.to - wanted.to) < 1e-6;
      set({ view: there || !wanted ? null : wanted });
    },
    nextTab() {
      const { tab, folded } = get();
      const next = tabs[(tabs.indexOf(tab) + 1) % tabs.length] ?? 'marks';
      set(folded ? { folded: false } : { tab: next });
    },
    showTab(tab) {
      // What is clicked on the picture is in hand only beside its page.
      const { mode } = get();
      const stays = mode.name === 'ground' ? tab === 'ground' : tab === 'line' || tab === 'start';
      if ((mode.name === 'ground' || mode.name === 'track') && !stays) set({ mode: { name: 'obstacles' } });
      set({ tab, folded: false });
    },
  };
}

/** The frame of a mark in its own clip. */
export function frameOf(mark: Mark, clocks: Clocks): number | null {
  const c = clocks.get(mark.footageId);
  return c ? frameAt(c.table, pts(mark.pts)) : null;
}
