import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Preferences } from '../../../src/host/contract/shapes.ts';
import { createLook, type KeptLook, type Look } from '../../../app/window/review/look/look.ts';
import { bench, type Bench } from './bench.ts';

interface Kept {
  look: Look;
  b: Bench;
  writes: KeptLook[];
  elsewhere(part: Partial<KeptLook>): void;
}

function make(): Kept {
  let kept: KeptLook = Preferences.parse({});
  const writes: KeptLook[] = [];
  let tell: () => void = () => undefined;
  const b = bench();
  const look = createLook(b.desk, {
    kept: () => kept,
    onKept(on) {
      tell = on;
      return () => {
        tell = () => undefined;
      };
    },
    keep(next) {
      writes.push(next);
      kept = next;
      tell();
    },
    reviewId: () => 'r1',
    clipId: (id) => (id === 'f1' ? 'c1' : null),
  });
  look.listen();
  const elsewhere = (part: Partial<KeptLook>): void => {
    kept = { ...kept, ...part };
    tell();
  };
  return { look, b, writes, elsewhere };
}

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('how one looks', () => {
  it('is kept once a gesture rests, as something that the host can keep', () => {
    const { look, writes } = make();
    look.zoomBy(1);
    look.zoomBy(1);
    for (let i = 0; i < 20; i++) look.move(0.1, 0);
    look.setLight('gamma', 99);
    expect(writes).toEqual([]);
    vi.advanceTimersByTime(1000);
    expect(writes).toHaveLength(1);
    const read = Preferences.parse({ ...Preferences.parse({}), ...writes[0] });
    expect(read.magnifiers['r1/f1']).toEqual({ zoom: 2, x: 0.75, y: 0.5, places: [] });
    expect(read.lights['c1']?.gamma).toBe(2.5);
  });

  it('is kept at once where the screen is left, and once only', () => {
    const { look, writes } = make();
    look.toggleStrip();
    look.keepNow();
    look.keepNow();
    vi.advanceTimersByTime(1000);
    expect(writes.map((w) => w.strip)).toEqual([true]);
  });

  it('takes over what is read later, but not in the middle of a gesture', () => {
    const { look, elsewhere } = make();
    elsewhere({ strip: true });
    expect(look.store.getState().strip).toBe(true);
    look.zoomBy(1);
    elsewhere({ magnifiers: {} });
    expect(look.magnifier().zoom).toBe(1.5);
  });

  it('is kept for a hundred clips, the newest', () => {
    const { look, writes, elsewhere } = make();
    elsewhere({
      lights: Object.fromEntries(
        Array.from({ length: 100 }, (_, i) => [`old${i}`, { brightness: 1.5, contrast: 1, gamma: 1 }]),
      ),
    });
    look.setLight('brightness', 1.2);
    look.keepNow();
    const lights = writes[0]?.lights ?? {};
    expect(Object.keys(lights)).toHaveLength(100);
    expect(lights['old0']).toBeUndefined();
    expect(lights['c1']?.brightness).toBe(1.2);
  });

  it('alters no review', () => {
    const { look, b } = make();
    const before = b.review();
    look.zoomBy(1);
    look.setPlace();
    look.setLight('contrast', 1.4);
    look.toggleLaid();
    expect(b.review()).toBe(before);
    expect(b.labels).toEqual([]);
  });
});

describe('following the dog', () => {
  it('sets places at frames, moves the one of the frame, and walks from place to place', () => {
    const { look, b } = make();
    look.zoomBy(1);
    look.zoomBy(1);
    b.at(10);
    look.setPlace();
    b.at(30);
    look.move(0.4, 0);
    expect(look.magnifier().places.map((p) => p.pts)).toEqual([20, 60]);
    b.at(20);
    expect(look.place().x).toBeCloseTo(0.5 + 0.1, 9);
    look.toPlace(-1);
    expect(b.desk.store.getState().frame).toBe(10);
    look.toPlace(1);
    expect(b.desk.store.getState().frame).toBe(30);
    look.removePlace();
    expect(look.magnifier().places).toHaveLength(1);
    b.at(99);
    look.removePlace();
    expect(look.magnifier().places).toHaveLength(1);
    expect(b.desk.store.getState().said.text).toContain('No place is set');
  });

  it('stops the run before it sets a place', () => {
    const { look, b } = make();
    look.zoomBy(1);
    b.at(10);
    look.setPlace();
    b.desk.play();
    expect(b.desk.store.getState().playing).toBe(true);
    look.move(0.1, 0);
    expect(b.desk.store.getState().playing).toBe(false);
  });

  it('sets no place on the whole picture, and says why', () => {
    const { look, b } = make();
    look.setPlace();
    look.move(0.2, 0.2);
    expect(look.magnifier().places).toEqual([]);
    expect(look.place()).toEqual({ x: 0.5, y: 0.5 });
    expect(b.desk.store.getState().said.text).toContain('nearer');
  });

  it('goes to the whole picture and back with its places', () => {
    const { look, b } = make();
    for (let i = 0; i < 4; i++) look.zoomBy(1);
    b.at(10);
    look.setPlace();
    look.toggleMagnifier();
    expect(look.magnifier().zoom).toBe(1);
    look.toggleMagnifier();
    expect(look.magnifier()).toMatchObject({ zoom: 4, places: [{ pts: 20 }] });
    expect(look.partAt(10)).toEqual({ x: 0.375, y: 0.375, width: 0.25, height: 0.25 });
  });

  it('keeps the place under the pointer when the wheel turns', () => {
    const { look } = make();
    const fit = { width: 960, height: 540, shape: 9 / 16 };
    look.zoomAbout(4, fit, { x: 720, y: 135 });
    expect(look.magnifier().zoom).toBe(4);
    expect(look.place().x).toBeCloseTo(0.75 - 0.25 / 4, 9);
  });
});
