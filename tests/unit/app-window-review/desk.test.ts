import { describe, expect, it } from 'vitest';
import { frameTable } from '../../../src/time/frameTable.ts';
import { timeBase } from '../../../src/time/timeBase.ts';
import { bench, clocks, emptyReview } from './bench.ts';

describe('getting about', () => {
  it('steps from the frame asked for, and stops at the ends', () => {
    const b = bench();
    b.desk.step(1);
    b.desk.step(10);
    b.desk.step(-1);
    expect(b.player.shown.slice(-3)).toEqual([1, 11, 10]);
    b.desk.step(-100);
    expect(b.desk.store.getState().frame).toBe(0);
    b.desk.toEnd('last');
    b.desk.step(5);
    expect(b.desk.store.getState().frame).toBe(1999);
  });

  it('travels while a key is held, from the frame on screen, and turns round with the other key', async () => {
    const b = bench();
    const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));
    let painted: () => void = () => undefined;
    b.player.show = () => new Promise((resolve) => (painted = resolve));
    b.desk.step(1);
    b.desk.hold(1);
    b.desk.hold(1);
    await settled();
    expect(b.player.journeys).toEqual([]);
    painted();
    await settled();
    expect(b.player.journeys).toEqual([[1, 1999]]);
    b.desk.played(40);
    b.desk.hold(-1);
    await settled();
    expect(b.player.journeys).toEqual([
      [1, 1999],
      [-1, 0],
    ]);
    b.desk.played(31);
    b.desk.release();
    await settled();
    expect(b.player.journeys).toHaveLength(2);
    expect(b.desk.store.getState().frame).toBe(31);
  });

  it('a key let go before the step is on screen travels nowhere', async () => {
    const b = bench();
    let painted: () => void = () => undefined;
    b.player.show = () => new Promise((resolve) => (painted = resolve));
    b.desk.step(1);
    b.desk.hold(1);
    b.desk.release();
    painted();
    await new Promise((resolve) => setTimeout(resolve));
    expect(b.player.journeys).toEqual([]);
  });

  it('walks from mark to mark, also over marks that share a frame', () => {
    const b = bench();
    b.at(100);
    b.hands.take('in');
    b.hands.openEvents();
    b.hands.note('happy');
    b.at(130);
    b.hands.take('out');
    b.at(0);
    const seen = [1, 2, 3, 4].map(() => {
      b.desk.toMark(1);
      return [b.desk.store.getState().frame, b.desk.selectedMark()?.kind];
    });
    expect(seen).toEqual([
      [100, 'taken'],
      [100, 'event'],
      [130, 'taken'],
      [130, 'taken'],
    ]);
    b.desk.toMark(-1);
    b.desk.toMark(-1);
    expect(b.desk.selectedMark()?.kind).toBe('taken');
    expect(b.desk.store.getState().frame).toBe(100);
  });

  it('keeps the instant when the clip is changed, between frame rates and offsets', () => {
    const slow = frameTable(
      timeBase(1, 25),
      Array.from({ length: 500 }, (_, i) => i),
    );
    const both = new Map([...clocks(), ['f2', { table: slow, speed: [], offset: 1, rate: 1 }]] as const);
    const two = {
      ...emptyReview(),
      footage: [
        ...emptyReview().footage,
        { id: 'f2', clipId: 'c2', name: 'end.mp4', speed: [], offset: 1, rate: 1 },
      ],
    };
    const b = bench(two, both);
    b.at(200);
    b.desk.otherClip();
    // Frame 200 at 50 a second is 4.00 s to 4.02 s; a second later on a clip of 25 a second that is frame 75.
    expect(b.desk.store.getState()).toMatchObject({ footageId: 'f2', frame: 75 });
    // Back on the first clip stands the very frame it came from, however often the angle is changed.
    for (let turn = 0; turn < 3; turn++) {
      b.desk.otherClip();
      expect(b.desk.store.getState()).toMatchObject({ footageId: 'f1', frame: 200 });
      b.desk.otherClip();
      expect(b.desk.store.getState()).toMatchObject({ footageId: 'f2', frame: 75, away: 0 });
    }
    b.desk.step(1);
    b.desk.otherClip();
    expect(b.desk.store.getState()).toMatchObject({ footageId: 'f1', frame: 203 });
    // The other clip begins a second later: it has nothing to show, says by how much, and keeps the instant.
    b.at(10);
    b.desk.otherClip();
    const { away } = b.desk.store.getState();
    expect(b.desk.store.getState()).toMatchObject({ footageId: 'f2', frame: 0 });
    expect(away).toBeCloseTo(0.21 - 1, 9);
    b.desk.otherClip();
    expect(b.desk.store.getState()).toMatchObject({ footageId: 'f1', frame: 10, away: 0 });
    b.at(1900);
    b.desk.otherClip();
    expect(b.desk.store.getState().away).toBeCloseTo(38.01 - 21, 9);
    b.desk.step(-1);
    expect(b.desk.store.getState().away).toBe(0);
    expect(b.desk.whole()).toEqual({ from: 0, to: 40 });
  });

  it('goes to an obstacle from the map', () => {
    const b = bench();
    for (const n of [1, 2]) {
      b.at(n * 100);
      b.hands.take('in');
      b.at(n * 100 + 30);
      b.hands.take('out');
    }
    b.desk.goToPlace(1);
    expect(b.desk.store.getState().frame).toBe(100);
    expect(b.desk.goToPlace(4)).toBe(false);
    expect(b.desk.store.getState().frame).toBe(100);
    b.hands.typeDigit(2);
    b.hands.enter();
    expect(b.desk.store.getState().frame).toBe(200);
    expect(b.desk.hand()).toMatchObject({ place: 2, typed: false });
    b.hands.typeDigit(5);
    b.hands.enter();
    expect(b.desk.store.getState().said.text).toContain('5 is not marked yet');
  });
});

describe('playing', () => {
  it('goes through the speeds and stops at the slowest and the fastest', () => {
    const b = bench();
    const speeds = [...Array(6)].map(() => {
      b.desk.faster(-1);
      return b.desk.store.getState().speed;
    });
    expect(speeds).toEqual([1 / 2, 1 / 4, 1 / 8, 1 / 16, 1 / 16, 1 / 16]);
    for (let i = 0; i < 9; i++) b.desk.faster(1);
    expect(b.desk.store.getState().speed).toBe(2);
  });

  it('plays the stretch to the chosen obstacle round and round', () => {
    const b = bench();
    for (const n of [1, 2]) {
      b.at(n * 100);
      b.hands.take('in');
      b.at(n * 100 + 30);
      b.hands.take('out');
    }
    b.desk.toggleLoop();
    expect(b.desk.store.getState().loop).toEqual({ from: 2.6, to: 4.6 });
    b.at(0);
    b.desk.play();
    expect(b.player.shown.at(-1)).toBe(130);
    expect(b.player.loops).toEqual([{ from: 130, to: 230 }]);
    b.desk.toggleLoop();
    expect(b.desk.store.getState().loop).toBeNull();
    expect(b.player.loops.at(-1)).toBeNull();
  });

  it('starts over at the end of the clip', () => {
    const b = bench();
    b.desk.toEnd('last');
    b.desk.play();
    expect(b.player.shown.at(-1)).toBe(0);
    expect(b.desk.store.getState().playing).toBe(true);
  });
});

describe('the view of the line of time', () => {
  it('zooms about the playhead down to ten frames and back to the whole', () => {
    const b = bench();
    b.at(1000);
    for (let i = 0; i < 20; i++) b.desk.zoom(0.5);
    const view = b.desk.view();
    expect(view.to - view.from).toBeCloseTo(0.2, 9);
    expect(view.from).toBeLessThanOrEqual(20);
    expect(view.to).toBeGreaterThanOrEqual(20);
    for (let i = 0; i < 20; i++) b.desk.zoom(2);
    expect(b.desk.store.getState().view).toBeNull();
  });

  it('turns the page when the playhead runs out of sight', () => {
    const b = bench();
    b.desk.setView({ from: 0, to: 2 });
    b.at(150);
    expect(b.desk.view().from).toBeCloseTo(2.7, 9);
    b.at(50);
    expect(b.desk.view().from).toBeLessThan(1);
  });

  it('leaves one thing after the other with the same key', () => {
    const b = bench();
    b.at(100);
    b.hands.take('in');
    b.hands.typeDigit(3);
    b.hands.openCross();
    const mode = b.desk.store.getState().mode;
    if (mode.name !== 'cross') throw new Error('the cross is not open');
    b.desk.enter({ name: 'crossKind', open: mode.open });
    b.hands.leave();
    expect(b.desk.store.getState().mode.name).toBe('cross');
    b.hands.leave();
    expect(b.desk.store.getState().mode.name).toBe('obstacles');
    b.hands.leave();
    expect(b.desk.store.getState().selected).toBeNull();
  });
});

describe('a moment that two clips show', () => {
  const two = (): ReturnType<typeof bench> => {
    const [f1] = emptyReview().footage;
    const [clock] = clocks().values();
    if (!f1 || !clock) throw new Error('the bench has a clip');
    const review = { ...emptyReview(), footage: [f1, { ...f1, id: 'f2', clipId: 'c2', name: 'end.mp4' }] };
    return bench(
      review,
      new Map([
        ['f1', clock],
        ['f2', { ...clock }],
      ]),
    );
  };

  it('lines them up: two presses, one act, and undo has its name', () => {
    const b = two();
    b.desk.enter({ name: 'moment', first: null });
    b.at(300);
    b.hands.sameMoment();
    expect(b.desk.store.getState()).toMatchObject({ footageId: 'f2', mode: { name: 'moment' } });
    b.at(200);
    b.hands.sameMoment();
    expect(b.desk.store.getState().mode.name).toBe('obstacles');
    expect(b.labels).toEqual([expect.stringMatching(/^end\.mp4 lined up by a moment, ± 0\.03 s$/)]);
    const moved = b.review().footage[1];
    // Frames of 0.02 s: the clips begin 100 frames apart, to within half a frame of each and the clocks' drift.
    expect(moved?.offset).toBeCloseTo(2, 9);
    expect(moved?.lineUp).toMatchObject({ to: 'f1', by: 'moment' });
    expect(moved?.lineUp?.plusMinus).toBeGreaterThan(0.02);
    expect(moved?.lineUp?.plusMinus).toBeLessThan(0.025);
  });

  it('needs two clips, and can be left without a trace', () => {
    const b = two();
    b.desk.enter({ name: 'moment', first: { footageId: 'f1', frame: 5 } });
    b.hands.sameMoment();
    expect(b.labels).toEqual([]);
    expect(b.desk.store.getState().said.text).toMatch(/same clip/);
    b.hands.leave();
    expect(b.desk.store.getState().mode.name).toBe('obstacles');
  });
});

describe('round and round between two presses', () => {
  it('plays from the one frame to the other, whichever was pressed first', () => {
    for (const [first, second] of [
      [100, 140],
      [140, 100],
    ] as const) {
      const b = bench();
      b.at(first);
      b.desk.loopHere();
      expect(b.player.loops).toEqual([]);
      b.at(second);
      b.desk.loopHere();
      expect(b.player.loops.at(-1)).toEqual({ from: 100, to: 140 });
      b.desk.loopHere();
      expect(b.player.loops.at(-1)).toBeNull();
    }
  });

  it('waits for another frame where it was pressed twice on one, and can be left', () => {
    const b = bench();
    b.at(100);
    b.desk.loopHere();
    b.desk.loopHere();
    expect(b.player.loops).toEqual([]);
    expect(b.desk.store.getState().loopFrom).not.toBeNull();
    b.hands.leave();
    expect(b.desk.store.getState().loopFrom).toBeNull();
  });

  it('plays the chosen cross round and round, all its moments with room either side', () => {
    const b = bench();
    b.at(200);
    b.hands.openCross();
    b.hands.crossMoment('cueBegins', 'feet');
    b.at(240);
    b.hands.crossMoment('cueEnds');
    b.hands.leave();
    b.desk.toggleLoop();
    expect(b.player.loops.at(-1)).toEqual({ from: 175, to: 265 });
  });
});
