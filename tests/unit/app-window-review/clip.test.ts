import { describe, expect, it } from 'vitest';
import { createClipHands, saidOfTimes, type ClipHands } from '../../../app/window/review/clip/clipHands.ts';
import { createCutHands, type CutHands } from '../../../app/window/review/clip/cutHands.ts';
import { ready } from '../../../app/window/review/clip/cutEdits.ts';
import { lineContent } from '../../../app/window/review/line/content.ts';
import { analyse } from '../../../src/review/analyse.ts';
import type { FootageUse } from '../../../src/review/document.ts';
import type { ClipClock } from '../../../src/time/bracket.ts';
import { bench, clocks, emptyReview, type Bench } from './bench.ts';

interface ClipBench extends Bench {
  readonly clip: ClipHands;
  readonly cut: CutHands;
  readonly rates: number[];
  use(): FootageUse;
  clock(): ClipClock;
}

/** A bench whose clock follows the footage, as the store's does. */
function clipBench(part: Partial<FootageUse> = {}): ClipBench {
  const start = emptyReview();
  const [first] = start.footage;
  if (!first) throw new Error('the bench has no footage');
  const all = clocks();
  const { table } = all.get('f1') ?? {};
  if (!table) throw new Error('the bench has no clock');
  const review = { ...start, footage: [{ ...first, ...part }] };
  const live: { bench?: Bench } = {};
  const follow = new (class extends Map<string, ClipClock> {
    override get(id: string): ClipClock | undefined {
      const use = live.bench?.review().footage.find((f) => f.id === id) ?? review.footage[0];
      return use && { table, speed: use.speed, offset: use.offset, rate: use.rate };
    }
  })(all);
  const made = bench(review, follow);
  live.bench = made;
  const rates: number[] = [];
  made.player.setSpeed = (rate) => void rates.push(rate);
  const use = (): FootageUse => {
    const found = made.review().footage[0];
    if (!found) throw new Error('the footage is gone');
    return found;
  };
  return {
    ...made,
    clip: createClipHands(made.desk),
    cut: createCutHands(made.desk),
    rates,
    use,
    clock: () => follow.get('f1') as ClipClock,
  };
}

const frame = (b: Pick<Bench, 'desk'>): number => b.desk.store.getState().frame;
const said = (b: Bench): string => b.desk.store.getState().said.text;

describe('saying how fast a clip was filmed', () => {
  it('says all of it, by one press, undoable by its label', () => {
    const b = clipBench();
    b.clip.openSpeed(8);
    b.clip.sayWhole('slow');
    expect(b.use().speed).toEqual([{ from: 0, speed: 1 / 8 }]);
    expect(b.labels).toEqual(['clip filmed: 8 times slower']);
    b.clip.sayWhole('life');
    expect(b.use().speed).toEqual([{ from: 0, speed: 1 }]);
  });

  it('says stretches from the playhead on, and takes a change away', () => {
    const b = clipBench();
    b.clip.openSpeed(null);
    b.at(100);
    b.clip.sayFrom('slow');
    b.at(300);
    b.clip.sayFrom('life');
    expect(b.use().speed).toEqual([
      { from: 0, speed: 1 },
      { from: 2, speed: 0.25 },
      { from: 6, speed: 1 },
    ]);
    b.at(350);
    b.clip.takeAway();
    expect(b.use().speed).toHaveLength(2);
    b.at(50);
    b.clip.takeAway();
    expect(said(b)).toMatch(/no change of speed before/);
  });

  it('lets splits and run time be those of life', () => {
    const b = clipBench();
    b.at(100);
    b.hands.take('in');
    b.at(140);
    b.hands.take('out');
    b.at(340);
    b.hands.take('in');
    b.at(400);
    b.hands.take('out');
    const times = (): number[] =>
      analyse(b.review(), new Map([['f1', b.clock()]])).splits.map((s) => s.time.value);
    const before = times();
    b.clip.openSpeed(4);
    b.clip.sayWhole('slow');
    times().forEach((t, i) => {
      expect(t).toBeCloseTo((before[i] ?? 0) / 4, 9);
    });
    expect(before.length).toBe(2);
  });

  it('works a speed out from a clock in the picture, with its plus or minus', () => {
    const b = clipBench();
    b.clip.openSpeed(null);
    b.at(100);
    b.clip.count('from');
    b.at(500);
    b.clip.count('to');
    b.clip.byClock(2, 0.01);
    const [piece] = b.use().speed;
    expect(piece?.speed).toBeCloseTo(0.25, 3);
    expect(piece?.plusMinus).toBeGreaterThan(0.01 / 8);
    b.clip.byClock(0, 0.01);
    expect(said(b)).toMatch(/too close/);
    b.at(50);
    b.clip.count('to');
    b.clip.byClock(2, 0.01);
    expect(said(b)).toMatch(/first one, then a later one/);
  });

  it('does not work one out across a change of speed', () => {
    const b = clipBench({
      speed: [
        { from: 0, speed: 1 },
        { from: 4, speed: 0.5 },
      ],
    });
    b.clip.openSpeed(null);
    b.at(100);
    b.clip.count('from');
    b.at(500);
    b.clip.count('to');
    b.clip.byClock(2, 0.01);
    expect(said(b)).toMatch(/two stretches/);
    expect(b.labels).toEqual([]);
  });

  it('holds every number of times within give or take', () => {
    const { speed, plusMinus } = saidOfTimes(4, 0.5);
    expect(speed - plusMinus).toBeCloseTo(1 / 4.5, 12);
    expect(speed + plusMinus).toBeCloseTo(1 / 3.5, 12);
  });

  it('keeps the place of a cut clip on the clock of the run', () => {
    const b = clipBench({ cut: { from: 400, to: 1600 }, offset: -4 });
    expect(b.desk.now()).toBeCloseTo(0, 12);
    b.clip.openSpeed(4);
    b.clip.sayWhole('slow');
    b.desk.toEnd('first');
    expect(b.desk.now()).toBeCloseTo(0, 12);
  });

  it('shows slowed stretches on the line of time', () => {
    const b = clipBench({
      speed: [
        { from: 0, speed: 1 },
        { from: 4, speed: 0.25 },
        { from: 12, speed: 1 },
      ],
    });
    const all = new Map([['f1', b.clock()]]);
    const [band] = lineContent(b.review(), analyse(b.review(), all), all).clips;
    expect(band?.slowed).toEqual([{ from: 4, to: 6 }]);
  });
});

describe('slow motion played as fast as it was', () => {
  it('plays each stretch at its own rate, and as the file does again', () => {
    const b = clipBench({
      speed: [
        { from: 0, speed: 1 },
        { from: 4, speed: 0.125 },
      ],
    });
    b.desk.toggleAsFilmed();
    b.desk.play();
    b.desk.played(150);
    b.desk.played(250);
    expect(b.rates).toEqual([1, 8]);
    expect(said(b)).toMatch(/as fast as it was/);
    b.desk.faster(1);
    expect(b.rates.at(-1)).toBe(16);
    b.desk.toggleAsFilmed();
    expect(b.rates.at(-1)).toBe(2);
  });

  it('says so where it cannot be played that fast', () => {
    const b = clipBench({ speed: [{ from: 0, speed: 1 / 32 }] });
    b.desk.toggleAsFilmed();
    expect(said(b)).toMatch(/1\/2 of real speed/);
  });
});

describe('a clip of several dogs', () => {
  it('is cut by pressing where runs begin and end', () => {
    const b = clipBench();
    b.cut.end();
    expect(said(b)).toMatch(/where a run begins/);
    for (const [from, to] of [
      [100, 400],
      [900, 1200],
      [500, 800],
    ] as const) {
      b.at(from);
      b.cut.begin();
      b.at(to);
      b.cut.end();
    }
    const runs = b.use().runs ?? [];
    expect(ready(runs).map((r) => [r.from, r.to])).toEqual([
      [200, 800],
      [1000, 1600],
      [1800, 2400],
    ]);
    expect(b.labels).toEqual([
      'run 1 begins',
      'run 1 ends',
      'run 2 begins',
      'run 2 ends',
      'run 2 begins',
      'run 2 ends',
    ]);
    const [first] = runs;
    b.cut.name(first?.id ?? '', { dog: 'Kees' });
    b.cut.made('f1', new Map([[first?.id ?? '', 'review-1']]));
    expect(ready(b.use().runs ?? [])).toHaveLength(2);
    expect(b.use().runs?.[0]).toMatchObject({ dog: 'Kees', reviewId: 'review-1' });
    b.at(1000);
    b.cut.remove();
    expect(b.use().runs).toHaveLength(2);
  });

  it('begins anew where a begun run was not ended, and refuses an end before its beginning', () => {
    const b = clipBench();
    b.at(300);
    b.cut.begin();
    b.at(200);
    b.cut.end();
    expect(said(b)).toMatch(/cannot end before/);
    b.cut.begin();
    expect(b.use().runs).toEqual([
      { id: expect.any(String) as string, from: 400, to: null, dog: '', handler: '' },
    ]);
  });
});

describe('a review of a part of a clip', () => {
  const cut = { from: 400, to: 1600 };

  it('opens at its beginning and keeps to it: stepping, ends, line of time', () => {
    const b = clipBench({ cut });
    expect(frame(b)).toBe(200);
    b.desk.step(-10);
    expect(frame(b)).toBe(200);
    b.desk.toEnd('last');
    expect(frame(b)).toBe(800);
    b.desk.step(10);
    expect(frame(b)).toBe(800);
    expect(b.desk.whole()).toEqual({ from: 4, to: 16.02 });
    b.desk.goToTime(0);
    expect(frame(b)).toBe(200);
  });

  it('opens there too where the frames come after the review', () => {
    const late = new Map<string, ClipClock>();
    const start = emptyReview();
    const b = bench({ ...start, footage: start.footage.map((f) => ({ ...f, cut })) }, late);
    expect(frame(b)).toBe(0);
    for (const [id, c] of clocks()) late.set(id, c);
    b.desk.settle();
    expect(frame(b)).toBe(200);
    expect(b.player.shown).toEqual([200]);
  });

  it('stops playing at its end, and begins again from its beginning', () => {
    const b = clipBench({ cut });
    b.desk.play();
    b.desk.played(799);
    expect(b.desk.store.getState().playing).toBe(true);
    b.desk.played(801);
    expect(b.desk.store.getState().playing).toBe(false);
    expect(frame(b)).toBe(800);
    b.desk.play();
    expect(frame(b)).toBe(200);
  });

  it('lets one look beyond it, and at a mark that lies outside', () => {
    const b = clipBench({ cut });
    b.cut.toggleBeyond();
    b.desk.step(-50);
    b.at(20);
    b.hands.take('in');
    expect(frame(b)).toBe(20);
    expect(b.desk.whole()).toEqual({ from: 0, to: 40 });
    b.cut.toggleBeyond();
    expect(frame(b)).toBe(200);
    b.desk.toMark(-1);
    expect([frame(b), b.desk.store.getState().beyond]).toEqual([20, true]);
  });

  it('can be changed, but not turned round, and given up', () => {
    const b = clipBench({ cut });
    b.at(250);
    b.cut.begin();
    b.at(700);
    b.cut.end();
    expect(b.use().cut).toEqual({ from: 500, to: 1400 });
    b.cut.toggleBeyond();
    b.at(900);
    b.cut.begin();
    expect(said(b)).toMatch(/cannot begin after/);
    b.cut.wholeClip();
    expect(b.use().cut).toBeUndefined();
    expect(b.labels.at(-1)).toBe('whole clip');
  });

  it('shows its own part on the line of time', () => {
    const b = clipBench({ cut });
    const all = new Map([['f1', b.clock()]]);
    const analysis = analyse(b.review(), all);
    expect(lineContent(b.review(), analysis, all).whole).toEqual({ from: 4, to: 16.02 });
    expect(lineContent(b.review(), analysis, all, true).whole).toEqual({ from: 0, to: 40 });
  });
});
