import { obstacleAt } from '../../../../src/course/course.ts';
import type { ObstacleKind } from '../../../../src/course/kinds.ts';
import type { RefusalKind } from '../../../../src/course/refusals.ts';
import type { CrossKind } from '../../../../src/plan/plan.ts';
import type { ReviewState } from '../../../../src/review/entities.ts';
import type { Cross, CrossPart, CueKind, EventMark, Mark, StartPart } from '../../../../src/review/marks.ts';
import { markName } from '../../../../src/words/review.ts';
import { lineUpWords } from '../../../../src/words/lineUp.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { placeOfEvent } from '../marking/atHand.ts';
import { changeCross, markCross, openCrossAt, removeCross, type OpenCross } from '../marking/crosses.ts';
import {
  moveMark,
  nextUnsure,
  removeMark,
  setNote,
  setPlace,
  setUnsure,
  shiftNumbers,
} from '../marking/edit.ts';
import { markStart, noteEvent, noteNewKind } from '../marking/events.ts';
import { hasRoom, numbersOf } from '../marking/numbers.ts';
import type { Timed } from '../marking/order.ts';
import { addStroke, clearDrawing, takeStrokeOff } from '../marking/pen.ts';
import { lineUpByMoment } from '../marking/sharedMoment.ts';
import { take } from '../marking/take.ts';
import type { Desk } from './desk.ts';
import { spotAt } from './place.ts';

const words = reviewScreenWords.said;

/** What the hands do: marks made and changed. Each method is one press. */
export interface Hands {
  take(edge: 'in' | 'out' | 'whole'): void;
  typeDigit(digit: number): void;
  openEvents(): void;
  note(event: EventMark['event'], refusal?: RefusalKind): void;
  /** Notes a moment of the start line from the list of events. */
  noteStart(part: 'step' | 'fake' | 'release'): void;
  noteOwn(index: number): void;
  noteNew(label: string): void;
  /** Opens the list of refusals, or of new kinds, for the event that the list was opened for. */
  narrow(to: 'refusal' | 'newKind'): void;
  openCross(): void;
  editCross(cross: Cross): void;
  /** Goes to the first moment of a cross and shows its close-up. */
  lookAtCross(crossId: string): void;
  crossMoment(part: CrossPart, cue?: CueKind): void;
  askKind(): void;
  chooseKind(kind: CrossKind): void;
  dropCross(cross: Cross): void;
  startMoment(part: StartPart): void;
  nextTry(): void;
  /** Shows a moment on this clip that another clip shows too; the second press lines them up. */
  sameMoment(): void;
  move(): void;
  nudge(by: number, id?: string): void;
  /** After a number: goes to where it was marked. Else opens the chosen mark to be written on. */
  enter(): void;
  unsure(): void;
  setUnsure(mark: Mark, frames: number): void;
  setNote(mark: Mark, note: string): void;
  setPlace(mark: Mark, place: number | undefined): void;
  shift(mark: Mark, by: -1 | 1): void;
  remove(id?: string): void;
  addStroke(points: readonly number[]): void;
  strokeBack(): void;
  clearDrawing(): void;
  leave(): void;
}

/** Puts hands on a desk. */
export function createHands(desk: Desk): Hands {
  const { ports, store } = desk;
  const review = (): ReviewState | null => ports.review();
  const kindAt = (place: number | undefined): ObstacleKind => {
    const r = review();
    return (r && place !== undefined ? obstacleAt(r.course, place)?.kind : undefined) ?? 'unknown';
  };

  const placeOf = (mark: Mark): number | undefined => {
    if (mark.kind === 'start') return undefined;
    if (mark.kind !== 'cross') return mark.place;
    return review()?.crosses.find((c) => c.id === mark.crossId)?.place;
  };

  const nameOf = (mark: Mark): string => {
    const place = placeOf(mark);
    const own =
      mark.kind === 'event' ? review()?.header.ownEvents.find((e) => e.id === mark.event)?.label : undefined;
    const name = markName(mark, kindAt(place), own ?? null);
    return place === undefined ? name : words.at(name, place);
  };

  const spent = { place: null, try: null };

  /** The press that an event lies at: where its list was opened, else now. */
  const eventSpot = (): ReturnType<Desk['spot']> => {
    const { mode } = store.getState();
    return 'at' in mode ? mode.at : desk.spot();
  };

  const eventDone = (): void => {
    desk.set({ typed: spent });
    desk.enter({ name: 'obstacles' });
  };

  const note = (event: EventMark['event'], refusal?: RefusalKind, label: string | null = null): void => {
    const r = review();
    const spot = eventSpot();
    if (!r || !spot) return;
    const place = placeOfEvent(event, desk.hand(spot.now), numbersOf(r.course));
    desk.do(noteEvent(r, event, place, spot, ports.makeId, refusal, label));
    eventDone();
  };

  const moment = (open: OpenCross, part: CrossPart, cue?: CueKind): void => {
    const r = review();
    const spot = desk.spot();
    if (!r || !spot) return;
    const stored = r.crosses.some((c) => c.id === open.cross.id);
    desk.do(markCross(r, { ...open, stored }, part, cue, kindAt(open.cross.place), spot, ports.makeId));
    desk.set({ usualKind: open.cross.kind });
  };

  const shown = (mark: Mark): { clock: NonNullable<ReturnType<Desk['clock']>>; frame: number } | null => {
    const clock = ports.clocks().get(mark.footageId);
    const t = desk.ordered().find((x) => x.mark.id === mark.id);
    return clock && t ? { clock, frame: t.frame } : null;
  };

  const byId = (id: string | undefined): Mark | null =>
    id === undefined ? desk.selectedMark() : (review()?.marks.find((m) => m.id === id) ?? null);

  return {
    take(edge) {
      const r = review();
      const spot = desk.spot();
      if (!r || !spot) return;
      const act = take(edge, desk.ordered(), r, desk.hand(), spot, ports.makeId);
      if (!act) {
        desk.say(words.allTaken(numbersOf(r.course).list.length));
        return;
      }
      desk.do(act);
      desk.set({ typed: spent, watched: true });
    },
    typeDigit(digit) {
      const r = review();
      if (!r) return;
      const numbers = numbersOf(r.course);
      const before = store.getState().typed;
      const longer = (before.place ?? 0) * 10 + digit;
      const place = hasRoom(numbers, longer) ? longer : digit;
      if (place === 0) {
        desk.set({ typed: { ...before, place: null } });
        return;
      }
      if (!hasRoom(numbers, place)) {
        desk.say(words.noSuchNumber(place, numbers.list.at(-1) ?? 0));
        return;
      }
      const { mode } = store.getState();
      if (mode.name === 'cross') {
        const { cross, act } = changeCross(r, mode.open.cross, { place });
        const stored = r.crosses.some((c) => c.id === cross.id);
        if (stored) desk.do(act);
        desk.enter({ name: 'cross', open: { cross, stored } });
        desk.set({ typed: { ...before, place } });
        return;
      }
      desk.set({ typed: { ...before, place } });
    },
    openEvents() {
      const at = desk.spot();
      if (at) desk.enter({ name: 'events', at });
    },
    note: (event, refusal) => {
      note(event, refusal);
    },
    noteStart(part) {
      const spot = eventSpot();
      if (!spot) return;
      desk.do(markStart(part, desk.hand(spot.now).try, spot, ports.makeId));
      eventDone();
    },
    noteOwn(index) {
      const own = review()?.header.ownEvents[index];
      if (own) note(own.id, undefined, own.label);
    },
    noteNew(label) {
      const r = review();
      const { mode } = store.getState();
      if (!r || !('at' in mode)) return;
      const place = placeOfEvent('own:', desk.hand(mode.at.now), numbersOf(r.course));
      const act = noteNewKind(r, label, place, mode.at, ports.makeId);
      if (act) desk.do(act);
      eventDone();
    },
    narrow(to) {
      const { mode } = store.getState();
      if ('at' in mode) desk.enter({ name: to, at: mode.at });
    },
    openCross() {
      const r = review();
      if (!r || !desk.clock()) return;
      const selected = desk.selectedMark();
      const own = selected?.kind === 'cross' ? r.crosses.find((c) => c.id === selected.crossId) : undefined;
      const open = own
        ? { cross: own, stored: true }
        : openCrossAt(r, desk.hand(), store.getState().usualKind, ports.makeId);
      desk.enter({ name: 'cross', open });
      desk.set({ typed: spent, tab: 'crosses' });
    },
    editCross(cross) {
      desk.enter({ name: 'cross', open: { cross, stored: true } });
      desk.set({ tab: 'crosses' });
    },
    lookAtCross(crossId) {
      const first = desk.ordered().find((t) => t.mark.kind === 'cross' && t.mark.crossId === crossId);
      desk.showTab('crosses');
      if (first) desk.goToMark(first.mark.id);
    },
    crossMoment(part, cue) {
      const { mode } = store.getState();
      if (mode.name === 'cross') moment(mode.open, part, cue);
    },
    askKind() {
      const { mode } = store.getState();
      if (mode.name === 'cross') desk.enter({ name: 'crossKind', open: mode.open });
    },
    chooseKind(kind) {
      const r = review();
      const { mode } = store.getState();
      if (!r || mode.name !== 'crossKind') return;
      const { cross, act } = changeCross(r, mode.open.cross, { kind });
      const stored = r.crosses.some((c) => c.id === cross.id);
      if (stored) desk.do(act);
      desk.enter({ name: 'cross', open: { cross, stored } });
      desk.set({ usualKind: kind });
    },
    dropCross(cross) {
      const r = review();
      if (!r) return;
      desk.do(removeCross(r, cross));
      desk.enter({ name: 'obstacles' });
    },
    startMoment(part) {
      const spot = desk.spot();
      if (!spot) return;
      const hand = desk.hand();
      desk.do(markStart(part, hand.try, spot, ports.makeId));
      desk.set({ typed: { ...store.getState().typed, try: null } });
    },
    nextTry() {
      const { typed } = store.getState();
      const attempt = Math.min(20, desk.hand().try + 1);
      desk.set({ typed: { ...typed, try: attempt } });
      desk.say(words.nextTry(attempt));
    },
    move() {
      const mark = desk.selectedMark();
      const spot = desk.spot();
      if (mark && spot) desk.do(moveMark(mark, spot, nameOf(mark)));
      else if (!mark) desk.say(words.nothingSelected);
    },
    nudge(by, id) {
      const mark = byId(id);
      const at = mark && shown(mark);
      if (!mark || !at) {
        desk.say(words.nothingSelected);
        return;
      }
      desk.pause();
      const frame = Math.max(0, Math.min(at.clock.table.pts.length - 1, at.frame + by));
      if (frame === at.frame) return;
      // Marked while the run was playing: now it is looked at frame by frame.
      const unsure = mark.unsure > 3 ? 0 : mark.unsure;
      desk.do(moveMark(mark, spotAt(mark.footageId, at.clock, frame, unsure), nameOf(mark)));
      desk.goTo(mark.footageId, frame);
    },
    enter() {
      const { typed } = store.getState();
      if (typed.place !== null) {
        const { place } = typed;
        desk.set({ typed: { ...typed, place: null } });
        if (!desk.goToPlace(place)) desk.say(words.notMarkedYet(place));
      } else if (desk.selectedMark()) desk.set({ editing: true, folded: false, tab: 'marks' });
      else desk.say(words.nothingSelected);
    },
    unsure() {
      const mark = desk.selectedMark();
      if (mark) desk.do(setUnsure(mark, nextUnsure(mark.unsure), nameOf(mark)));
      else desk.say(words.nothingSelected);
    },
    setUnsure(mark, frames) {
      if (frames !== mark.unsure) desk.do(setUnsure(mark, frames, nameOf(mark)));
    },
    setNote(mark, note) {
      if (note !== mark.note) desk.do(setNote(mark, note, nameOf(mark)));
    },
    setPlace(mark, place) {
      const r = review();
      if (!r || placeOf(mark) === place) return;
      const act = setPlace(r, mark, place, nameOf(mark));
      if (act) desk.do(act);
      else desk.say(words.noSuchNumber(place ?? 0, numbersOf(r.course).list.at(-1) ?? 0));
    },
    shift(mark, by) {
      const r = review();
      const from = desk.ordered().find((t) => t.mark.id === mark.id);
      if (!r || !from || from.mark.kind !== 'taken') return;
      const act = shiftNumbers(r, from as Timed<typeof from.mark>, desk.ordered(), by);
      if (act) desk.do(act);
      else desk.say(words.noRoomToShift(numbersOf(r.course).list.at(-1) ?? 0));
    },
    remove(id) {
      const mark = byId(id);
      if (mark) desk.do(removeMark(mark, nameOf(mark)));
      else desk.say(words.nothingSelected);
    },
    addStroke(points) {
      const r = review();
      const spot = desk.spot();
      if (!r || !spot) return;
      const act = addStroke(r, spot, { ink: store.getState().ink, points: [...points] }, ports.makeId);
      if (act) desk.do(act);
    },
    strokeBack() {
      const r = review();
      const spot = desk.spot();
      const act = r && spot && takeStrokeOff(r, spot);
      if (act) desk.do(act);
    },
    clearDrawing() {
      const r = review();
      const spot = desk.spot();
      const act = r && spot && clearDrawing(r, spot);
      if (act) desk.do(act);
    },
    sameMoment() {
      const { mode, footageId, frame } = store.getState();
      const r = review();
      if (mode.name !== 'moment' || footageId === null || !r) return;
      desk.pause();
      if (!mode.first) {
        desk.enter({ name: 'moment', first: { footageId, frame } });
        desk.otherClip();
        desk.say(lineUpWords.mode.second);
        return;
      }
      if (mode.first.footageId === footageId) {
        desk.say(lineUpWords.mode.sameClip);
        return;
      }
      const act = lineUpByMoment(r, ports.clocks(), mode.first, { footageId, frame });
      desk.enter({ name: 'obstacles' });
      if (act) desk.do(act);
    },
    leave() {
      const { mode, editing, table, typed } = store.getState();
      if (editing) desk.set({ editing: false });
      else if (table) desk.set({ table: false });
      else if (mode.name === 'look') desk.enter(mode.from);
      else if (mode.name === 'crossKind') desk.enter({ name: 'cross', open: mode.open });
      else if (mode.name !== 'obstacles') {
        desk.enter({ name: 'obstacles' });
        desk.set({ typed: spent });
      } else if (typed.place !== null || typed.try !== null) desk.set({ typed: spent });
      else if (store.getState().loopFrom !== null) desk.set({ loopFrom: null });
      else if (store.getState().loop) desk.toggleLoop();
      else desk.set({ selected: null });
    },
  };
}
