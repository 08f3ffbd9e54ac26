import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Light, Magnifier } from '../../../../src/host/contract/looks.ts';
import { frameAt, ptsOf } from '../../../../src/time/frameTable.ts';
import { frameIndex, pts as asPts } from '../../../../src/time/units.ts';
import { lookWords } from '../../../../src/words/look.ts';
import type { Part } from '../closeUp.ts';
import type { Desk } from '../desk/desk.ts';
import { asFilmed, lit, lightStep, type LightPart } from './light.ts';
import {
  middleFor,
  nextPlace,
  nextZoom,
  placeAt,
  placeUnder,
  placeWithin,
  put,
  shiftTo,
  wholeView,
  withoutPlace,
  withPlace,
  zoomWithin,
  type Fit,
  type Place,
} from './magnifier.ts';

export type LaidOver = 1 | 2 | 3;

/** What is kept of how one looks: it survives a reload and never becomes part of a review. */
export interface KeptLook {
  readonly strip: boolean;
  readonly laidOver: LaidOver;
  readonly lights: Readonly<Record<string, Light>>;
  readonly magnifiers: Readonly<Record<string, Magnifier>>;
}

export interface LookView extends KeptLook {
  /** Frames before and after lie over the still now. */
  readonly laid: boolean;
}

/** Where it is kept, and which clip is looked at. */
export interface LookPorts {
  kept(): KeptLook;
  /** Tells of changes that came from elsewhere. */
  onKept(on: () => void): () => void;
  keep(look: KeptLook): void;
  reviewId(): string | null;
  /** The clip of a footage, by whose id its light is kept. */
  clipId(footageId: string): string | null;
}

/** How the coach looks at the picture: how near, in what light, with what laid over. Alters nothing of the footage. */
export interface Look {
  readonly store: StoreApi<LookView>;
  magnifier(): Magnifier;
  /** Where the magnifier is at the frame on the desk. */
  place(): Place;
  /** The part of the picture that the magnifier shows at a frame. */
  partAt(frame: number): Part;
  light(): Light;
  zoomBy(step: 1 | -1): void;
  /** Enlarges about a point of the box, for the wheel. */
  zoomAbout(factor: number, fit: Fit, point: Place): void;
  /** To the whole picture, or back to how near it was. */
  toggleMagnifier(): void;
  /** By shares of what is seen. */
  move(dx: number, dy: number): void;
  moveTo(place: Place): void;
  setPlace(): void;
  removePlace(pts?: number): void;
  toPlace(step: 1 | -1): void;
  setLight(part: LightPart, value: number): void;
  stepLight(part: LightPart, step: 1 | -1): void;
  resetLight(): void;
  toggleStrip(): void;
  toggleLaid(): void;
  layOver(each: LaidOver): void;
  liftOff(): void;
  /** Keeps what is not kept yet. */
  keepNow(): void;
  /** Follows changes that come from elsewhere; returns the way to stop, which keeps what is not kept yet. */
  listen(): () => void;
}

/** Changes of a gesture are kept together, once the hand rests. Milliseconds. */
const restFor = 300;
/** Clips and reviews whose looks are kept; the oldest go first. */
const mostKept = 100;

export function createLook(desk: Desk, ports: LookPorts): Look {
  const pick = ({ strip, laidOver, lights, magnifiers }: KeptLook): KeptLook => ({
    strip,
    laidOver,
    lights,
    magnifiers,
  });
  const store = createStore<LookView>()(() => ({ ...pick(ports.kept()), laid: false }));
  const backTo = new Map<string, number>();
  let resting: ReturnType<typeof setTimeout> | undefined;

  const keepNow = (): void => {
    if (resting === undefined) return;
    clearTimeout(resting);
    resting = undefined;
    ports.keep(pick(store.getState()));
  };
  const change = (part: Partial<KeptLook>): void => {
    store.setState(part);
    clearTimeout(resting);
    resting = setTimeout(keepNow, restFor);
  };
  const adopt = (): void => {
    if (resting === undefined) store.setState(pick(ports.kept()));
  };

  const footage = (): string | null => desk.store.getState().footageId;
  const key = (): string | null => {
    const id = footage();
    const review = ports.reviewId();
    return id === null || review === null ? null : `${review}/${id}`;
  };
  const magnifier = (): Magnifier => {
    const k = key();
    return (k === null ? undefined : store.getState().magnifiers[k]) ?? wholeView;
  };
  const magnify = (next: Magnifier): void => {
    const k = key();
    if (k !== null) change({ magnifiers: newest(store.getState().magnifiers, k, next) });
  };
  const clip = (): string | null => {
    const id = footage();
    return id === null ? null : ports.clipId(id);
  };
  const light = (): Light => {
    const id = clip();
    return (id === null ? undefined : store.getState().lights[id]) ?? asFilmed;
  };
  const shine = (next: Light): void => {
    const id = clip();
    if (id !== null) change({ lights: newest(store.getState().lights, id, next) });
  };

  /** Presentation time of a frame; null without a clip. */
  const ptsAt = (frame: number): number | null => {
    const clock = desk.clock();
    return clock && frame < clock.table.pts.length ? ptsOf(clock.table, frameIndex(frame)) : null;
  };
  const here = (): number | null => ptsAt(desk.store.getState().frame);
  const place = (): Place => {
    const m = magnifier();
    return placeAt(m, here() ?? 0);
  };
  const moveTo = (to: Place): void => {
    const at = here();
    const m = magnifier();
    if (at === null || m.zoom === 1) return;
    // A place that is set belongs to one frame; a run that plays on would leave a row of them.
    if (m.places.length > 0) desk.pause();
    magnify(put(m, at, to));
  };
  const setZoom = (zoom: number): void => {
    const m = magnifier();
    const next = zoomWithin(zoom);
    if (next === m.zoom) return;
    magnify({ ...m, ...placeWithin(m, next), zoom: next });
  };

  return {
    store,
    magnifier,
    place,
    partAt(frame) {
      const m = magnifier();
      const { x, y } = placeAt(m, ptsAt(frame) ?? 0);
      const size = 1 / m.zoom;
      return { x: x - size / 2, y: y - size / 2, width: size, height: size };
    },
    light,
    zoomBy(step) {
      setZoom(nextZoom(magnifier().zoom, step));
    },
    zoomAbout(factor, fit, point) {
      const m = magnifier();
      const at = here();
      const zoom = zoomWithin(m.zoom * factor);
      if (zoom === m.zoom || at === null) return;
      const under = placeUnder(fit, shiftTo(fit, m.zoom, placeAt(m, at)), point);
      const next = { ...m, zoom };
      // While it follows, the places stay the coach's; the wheel only goes nearer.
      magnify(m.places.length > 0 ? next : put(next, at, middleFor(fit, zoom, under, point)));
    },
    toggleMagnifier() {
      const k = key();
      if (k === null) return;
      const { zoom } = magnifier();
      if (zoom > 1) backTo.set(k, zoom);
      setZoom(zoom > 1 ? 1 : (backTo.get(k) ?? 2));
    },
    move(dx, dy) {
      const { zoom } = magnifier();
      const { x, y } = place();
      moveTo({ x: x + dx / zoom, y: y + dy / zoom });
    },
    moveTo,
    setPlace() {
      const at = here();
      const m = magnifier();
      if (at === null) return;
      if (m.zoom === 1) {
        desk.say(lookWords.said.nearerFirst);
        return;
      }
      desk.pause();
      magnify(withPlace(m, at, placeAt(m, at)));
      desk.say(lookWords.said.placeSet(magnifier().places.length));
    },
    removePlace(pts) {
      const at = pts ?? here();
      const m = magnifier();
      if (at === null || !m.places.some((p) => p.pts === at)) {
        desk.say(lookWords.said.noPlaceHere);
        return;
      }
      magnify(withoutPlace(m, at));
      desk.say(lookWords.said.placeRemoved(magnifier().places.length));
    },
    toPlace(step) {
      const at = here();
      const clock = desk.clock();
      const next = at === null ? undefined : nextPlace(magnifier(), at, step);
      if (!next || !clock) {
        desk.say(lookWords.said.noMorePlaces);
        return;
      }
      desk.pause();
      desk.goToFrame(frameAt(clock.table, asPts(next.pts)));
    },
    setLight(part, value) {
      shine(lit(light(), part, value));
    },
    stepLight(part, step) {
      shine(lit(light(), part, light()[part] + step * lightStep));
      desk.say(lookWords.said.light(part, light()[part]));
    },
    resetLight() {
      shine(asFilmed);
      desk.say(lookWords.said.asFilmed);
    },
    toggleStrip() {
      change({ strip: !store.getState().strip });
    },
    toggleLaid() {
      const laid = !store.getState().laid;
      if (laid) desk.pause();
      store.setState({ laid });
    },
    layOver(each) {
      desk.pause();
      change({ laidOver: each });
      store.setState({ laid: true });
    },
    liftOff() {
      store.setState({ laid: false });
    },
    keepNow,
    listen() {
      adopt();
      const stop = ports.onKept(adopt);
      return () => {
        stop();
        keepNow();
      };
    },
  };
}

/** The record with one entry changed and at its end; the oldest gone where there are too many. */
function newest<T>(record: Readonly<Record<string, T>>, key: string, value: T): Record<string, T> {
  const others = Object.entries(record).filter(([k]) => k !== key);
  return Object.fromEntries([...others.slice(-(mostKept - 1)), [key, value]]);
}
