import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Course } from '../../../../src/course/course.ts';
import type { PictureSize } from '../../../../src/course/pictureLay.ts';
import type { ReviewState } from '../../../../src/review/entities.ts';
import { partKey } from '../../../../src/ground/parts.ts';
import { lastFrame, ptsOf } from '../../../../src/time/frameTable.ts';
import { frameIndex } from '../../../../src/time/units.ts';
import { groundWords } from '../../../../src/words/groundPage.ts';
import type { Desk } from '../desk/desk.ts';
import type { Grip } from '../look/Magnified.tsx';
import type { Place } from '../look/magnifier.ts';
import { fitRemoved, pointPut, pointRemoved, refitFrom, type GroundEdit, type OnFrame } from './edits.ts';
import { sceneMaker, type PointShown, type Scene } from './scene.ts';
import { nextPoint, type Stretch } from './suggest.ts';

const words = groundWords.said;

/** What the hands are at while the course is fitted, and what is shown over the footage. */
export interface GroundView {
  /** The part at hand, by its key. */
  readonly part: string | null;
  /** The cross-hair, fractions of the picture. */
  readonly at: Place;
  /** Parts that the coach passed over: they are not to be seen. */
  readonly skipped: readonly string[];
  /** Parts that were at hand, the newest last. */
  readonly before: readonly string[];
  readonly stretch: Stretch | null;
  /** Keys move the cross-hair by ten pixels in place of one. */
  readonly ten: boolean;
  readonly course: boolean;
  readonly error: boolean;
  /** Counts the times that the cross-hair was put somewhere by other means than the mouse: it is to be in sight. */
  readonly aims: number;
}

/** What this room cannot know by itself. */
export interface GroundPorts {
  /** The course built by its rule book. */
  course(): Course | null;
  dialect(): 'british' | 'american';
  /** The upright picture of the clip on the desk; null without one. */
  picture(): PictureSize | null;
}

/** Why there is nothing to fit. */
export type NoScene = 'noFootage' | 'noCourse';

/** The hands that fit the course to the picture. Each method is one press. */
export interface Ground {
  readonly store: StoreApi<GroundView>;
  /** What is known at the frame on the desk. */
  scene(): Scene | NoScene;
  open(): void;
  /** Escape: lets go of the part at hand; false where none was. */
  letGo(): boolean;
  take(id: string): void;
  next(): void;
  previous(): void;
  skip(): void;
  move(dx: number, dy: number, ten?: boolean): void;
  toggleStep(): void;
  over(place: Place): void;
  set(): void;
  click(place: Place): void;
  agree(): void;
  remove(): void;
  worst(): void;
  refit(): void;
  startOver(): void;
  setStretch(stretch: Stretch | null): void;
  /** Gives the cross-hair the focus. */
  aim(): void;
  toggle(layer: 'course' | 'error'): void;
  /** Drags a point of the picture. */
  readonly grip: Grip;
}

const opening: GroundView = {
  part: null,
  at: { x: 0.5, y: 0.5 },
  skipped: [],
  before: [],
  stretch: null,
  ten: false,
  course: true,
  error: false,
  aims: 0,
};

/** Makes the hands for a desk. Knows no React; runs in plain Node in tests. */
export function createGround(desk: Desk, ports: GroundPorts): Ground {
  const store = createStore<GroundView>()(() => opening);
  const get = store.getState;
  const set = (part: Partial<GroundView>): void => {
    store.setState(part);
  };

  const sceneOf = sceneMaker();
  /** The frame on which one works; null without a clip. */
  const here = (): OnFrame | null => {
    const { footageId, frame } = desk.store.getState();
    const clock = desk.clock();
    if (footageId === null || !clock) return null;
    return { footageId, pts: ptsOf(clock.table, frameIndex(Math.min(frame, lastFrame(clock.table)))) };
  };
  const scene = (): Scene | NoScene => {
    const on = here();
    const picture = ports.picture();
    const review = desk.ports.review();
    const course = ports.course();
    if (!review || !course || !on || !picture) return 'noFootage';
    const { stretch } = get();
    const made = sceneOf({ course, dialect: ports.dialect(), fits: review.fits, ...on, picture, stretch });
    return made.known.length > 0 ? made : 'noCourse';
  };
  const ready = (): Scene | null => {
    const now = scene();
    return typeof now === 'string' ? null : now;
  };
  const atHand = (now: Scene): PointShown | undefined => {
    const { part } = get();
    return now.points.find((p) => p.known.id === part);
  };

  /** Does an edit of the fits on this frame; false where there is none to do. */
  const doEdit = (make: (fits: Pick<ReviewState, 'fits'>, on: OnFrame) => GroundEdit): boolean => {
    const review = desk.ports.review();
    const on = here();
    if (!review || !on) return false;
    const edit = make(review, on);
    if ('refused' in edit) {
      desk.say(edit.refused);
      return false;
    }
    desk.do(edit);
    return true;
  };

  const take = (id: string | null): void => {
    const now = ready();
    if (!now) return;
    const { part, before, at, aims } = get();
    const point = now.points.find((p) => p.known.id === id);
    set({
      part: point?.known.id ?? null,
      before: part === null || part === id ? before : [...before.filter((b) => b !== part), part].slice(-50),
      at: point?.at ?? at,
      aims: aims + 1,
    });
  };

  const likely = (): string | null => {
    const now = ready();
    if (!now) return null;
    const { skipped, part } = get();
    const clicked = (now.held?.points ?? []).map((p) => partKey(p.part));
    const done = [...clicked, ...skipped, ...(part === null ? [] : [part])];
    const points = now.points.map((p) => p.known);
    return nextPoint(points, done, now.course, now.fit, now.places, clicked)?.id ?? null;
  };

  const next = (): void => {
    const id = likely();
    if (id === null) desk.say(words.noMore);
    take(id);
  };

  const put = ({ known }: PointShown, at: Place, how: 'clicked' | 'agreed'): boolean =>
    doEdit((review, on) => pointPut(review, known, at, on, desk.ports.makeId, how));

  const click = (place: Place): void => {
    desk.pause();
    const now = ready();
    const point = now && atHand(now);
    if (!point) {
      desk.say(words.noneAtHand);
      return;
    }
    set({ at: place, skipped: get().skipped.filter((id) => id !== point.known.id) });
    if (put(point, place, 'clicked')) next();
  };

  /** The point that is being dragged, by its key. */
  let dragged: string | null = null;

  return {
    store,
    scene,
    open() {
      desk.pause();
      desk.enter({ name: 'ground' });
      desk.set({ tab: 'ground', folded: false, table: false });
      const now = ready();
      if (now && !atHand(now)) take(likely());
      else set({ aims: get().aims + 1 });
    },
    letGo() {
      if (get().part === null) return false;
      take(null);
      return true;
    },
    take,
    next,
    skip() {
      const { part, skipped } = get();
      const now = ready();
      const open = now && atHand(now)?.state !== 'clicked' && atHand(now)?.state !== 'aside';
      if (part !== null && open) set({ skipped: [...skipped.filter((id) => id !== part), part] });
      next();
    },
    previous() {
      const { before } = get();
      const last = before.at(-1);
      if (last === undefined) return;
      take(last);
      set({ before: before.slice(0, -1), skipped: get().skipped.filter((id) => id !== last) });
    },
    move(dx, dy, ten = get().ten) {
      const now = ready();
      if (!now) return;
      desk.pause();
      const { at } = get();
      const by = ten ? 10 : 1;
      const inside = (v: number): number => Math.max(0, Math.min(1, v));
      const { width, height } = now.picture;
      const to = { x: inside(at.x + (dx * by) / width), y: inside(at.y + (dy * by) / height) };
      set({ at: to, aims: get().aims + 1 });
    },
    toggleStep() {
      const ten = !get().ten;
      set({ ten });
      desk.say(words.step(ten));
    },
    over(place) {
      if (get().part !== null) set({ at: place });
    },
    set() {
      click(get().at);
    },
    click,
    agree() {
      const now = ready();
      const point = now && atHand(now);
      if (!point) desk.say(words.noneAtHand);
      else if (point.state !== 'proposed' || !point.at) desk.say(words.nothingToAgree);
      else if (put(point, point.at, 'agreed')) next();
    },
    remove() {
      const now = ready();
      const point = now && atHand(now);
      if (!now || !point) desk.say(words.noneAtHand);
      else if (doEdit((review, on) => pointRemoved(review, point.known, on))) take(point.known.id);
    },
    worst() {
      const now = ready();
      const id = now?.fit?.points.find((p) => !p.used)?.id ?? now?.fit?.worst ?? null;
      if (id === null) desk.say(words.noWorst);
      else {
        if (!now?.points.some((p) => p.known.id === id)) set({ stretch: null });
        take(id);
      }
    },
    refit() {
      const now = ready();
      const clock = desk.clock();
      if (!now || !clock) return;
      desk.pause();
      const { frame } = desk.store.getState();
      const last = ptsOf(clock.table, lastFrame(clock.table));
      if (doEdit((review, on) => refitFrom(review, on, { last, frame }, desk.ports.makeId))) {
        set({ skipped: [] });
        next();
      }
    },
    startOver() {
      const now = ready();
      if (!now || !doEdit(fitRemoved)) return;
      set({ skipped: [], part: null });
      next();
    },
    setStretch(stretch) {
      // The list of numbers keeps the focus: arrow keys go on through it.
      const { aims } = get();
      set({ stretch, skipped: [], part: null });
      next();
      set({ aims });
    },
    aim() {
      set({ aims: get().aims + 1 });
    },
    toggle(layer) {
      const on = !get()[layer];
      set({ [layer]: on });
      desk.say(words.layer(layer, on));
    },
    grip: {
      take(place, reach) {
        const now = ready();
        if (!now) return false;
        const { part } = get();
        const away = (p: PointShown): number =>
          p.at ? Math.hypot((p.at.x - place.x) / reach.x, (p.at.y - place.y) / reach.y) : Infinity;
        const near = now.points.filter((p) => away(p) <= 1);
        const best = near.find((p) => p.known.id === part) ?? near.toSorted((a, b) => away(a) - away(b))[0];
        dragged = best?.known.id ?? null;
        return best !== undefined;
      },
      drag(place) {
        if (dragged === null) return;
        if (get().part !== dragged) take(dragged);
        set({ at: place });
      },
      drop(place) {
        const point = ready()?.points.find((p) => p.known.id === dragged);
        dragged = null;
        if (!point) return;
        if (place === null || !put(point, place, 'clicked')) set({ at: point.at ?? get().at });
        else set({ at: place });
      },
    },
  };
}
