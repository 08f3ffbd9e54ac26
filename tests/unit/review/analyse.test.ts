import { describe, expect, it } from 'vitest';
import { countedCourse } from '../../../src/course/course.ts';
import { analyse } from '../../../src/review/analyse.ts';
import type { Mark } from '../../../src/review/marks.ts';
import { atStart, courseOf, review, steadyClocks, took } from './example.ts';

const event = (kind: 'clockStart' | 'clockStop' | 'barDown', frame: number): Mark => ({
  id: `${kind}-${frame}`,
  footageId: 'film',
  pts: frame,
  unsure: 0,
  note: '',
  kind: 'event',
  event: kind,
});

const clocks = steadyClocks(50);
const threeJumps = courseOf('barJump', 'barJump', 'barJump');
const clean = [
  took(1, 'in', 100),
  took(1, 'out', 120),
  took(2, 'in', 160),
  took(2, 'out', 180),
  took(3, 'in', 230),
  took(3, 'out', 255),
];

describe('splits', () => {
  it('run out to out, the first from the start of the clock', () => {
    const { splits } = analyse(review(threeJumps, clean), clocks);
    expect(splits.map((s) => [s.from, s.to])).toEqual([
      [null, 1],
      [1, 2],
      [2, 3],
    ]);
    // First take-off in [100, 101), first landing in (119, 120]: 19 frames ± 1 at 50 fps.
    expect(splits[0]?.time.value).toBeCloseTo(19 / 50, 9);
    expect(splits[0]?.time.plusMinus).toBeCloseTo(1 / 50, 9);
    expect(splits[1]?.time.value).toBeCloseTo(60 / 50, 9);
  });

  it('add up to the time of the run', () => {
    const { splits, clock } = analyse(review(threeJumps, clean), clocks);
    const sum = splits.reduce((total, s) => total + s.time.value, 0);
    expect(sum).toBeCloseTo(clock?.time.value ?? NaN, 9);
    expect(clock).toMatchObject({ startedBy: 'firstTakeOff', stoppedBy: 'lastLanding', complete: true });
  });

  it('bridge a number that was not taken and say so', () => {
    const { splits, warnings, clock } = analyse(
      review(
        threeJumps,
        clean.filter((m) => m.kind !== 'taken' || m.place !== 2),
      ),
      clocks,
    );
    expect(splits.map((s) => [s.from, s.to])).toEqual([
      [null, 1],
      [1, 3],
    ]);
    expect(warnings).toContainEqual({ warning: 'notTaken', place: 2, try: 1 });
    expect(clock?.complete).toBe(true);
  });

  it('say when marks are out of order', () => {
    const marks = [took(1, 'in', 100), took(1, 'out', 200), took(2, 'in', 140), took(2, 'out', 150)];
    const { warnings } = analyse(review(threeJumps, marks), clocks);
    expect(warnings).toContainEqual({ warning: 'outOfOrder', place: 2, try: 1, before: 1 });
  });

  it('say when an out comes before its in, and when an edge is marked twice', () => {
    const { warnings, taken } = analyse(
      review(threeJumps, [took(1, 'in', 100), took(1, 'out', 90), took(2, 'in', 120), took(2, 'in', 300)]),
      clocks,
    );
    expect(warnings).toContainEqual({ warning: 'inAfterOut', place: 1, try: 1 });
    expect(warnings).toContainEqual({ warning: 'repeatedEdge', place: 2, try: 1, edge: 'in' });
    expect(taken.find((t) => t.place === 2)?.in?.frame).toBe(300);
  });

  it('widen a single mark by the longest time on that kind of obstacle, both ways', () => {
    const { taken } = analyse(review(courseOf('barJump'), [took(1, 'whole', 100)]), clocks);
    expect(taken[0]?.single).toBe(true);
    expect(taken[0]?.on).toBeNull();
    expect(taken[0]?.out?.bracket).toEqual({ from: 99 / 50, to: 101 / 50 + 0.8 });
    expect(taken[0]?.in?.bracket).toEqual({ from: 99 / 50 - 0.8, to: 101 / 50 });
  });

  it('know less of an obstacle of unknown kind: its edge may be first seen or last seen', () => {
    const { splits } = analyse(
      review(countedCourse(2), [took(1, 'in', 100), took(1, 'out', 120), took(2, 'out', 180)]),
      clocks,
    );
    expect(splits[1]?.time.value).toBeCloseTo(60 / 50, 9);
    expect(splits[1]?.time.plusMinus).toBeCloseTo(2 / 50, 9);
  });

  it('count the last try and leave the first one told', () => {
    const marks = [
      took(1, 'in', 10, 1),
      took(1, 'out', 20, 1),
      ...clean.map((m): Mark => (m.kind === 'taken' ? { ...m, id: `${m.id}b`, try: 2 } : m)),
    ];
    const a = analyse(review(threeJumps, marks), clocks);
    expect(a.countedTry).toBe(2);
    expect(a.tries).toEqual([1, 2]);
    expect(a.clock?.start.frame).toBe(100);
    expect(a.taken.filter((t) => t.try === 1)).toHaveLength(1);
  });
});

describe('the clock of the run', () => {
  it('goes by the lines where they are marked', () => {
    const { clock } = analyse(
      review(threeJumps, [...clean, event('clockStart', 90), event('clockStop', 270)]),
      clocks,
    );
    expect(clock).toMatchObject({ startedBy: 'clockStart', stoppedBy: 'clockStop' });
    expect(clock?.time.value).toBeCloseTo(180 / 50, 9);
  });

  it('reads the run so far while it is not finished, and nothing without a start', () => {
    expect(analyse(review(threeJumps, clean.slice(0, 4)), clocks).clock?.complete).toBe(false);
    expect(analyse(review(threeJumps, [took(1, 'out', 50)]), clocks).clock).toBeNull();
    expect(analyse(review(threeJumps, []), clocks).clock).toBeNull();
  });

  it('counts every moment from its start', () => {
    const { events, clock } = analyse(review(threeJumps, [...clean, event('barDown', 150)]), clocks);
    expect(events[0]?.moment.at.value).toBeCloseTo((149.5 - 100.5) / 50, 9);
    expect(clock?.start.at).toEqual({ value: 0, plusMinus: 0, unit: 's' });
  });
});

describe('the start line', () => {
  it('keeps the stay through fakes and shifts', () => {
    const [one] = analyse(
      review(threeJumps, [
        atStart('setUp', 10),
        atStart('fake', 60),
        atStart('shift', 62),
        atStart('release', 110),
      ]),
      clocks,
    ).startLine;
    expect(one).toMatchObject({ verdict: 'kept', fakes: 1, shifts: 1 });
    expect(one?.stay?.value).toBeCloseTo(2, 9);
  });

  it('is broken by a paw before the release, told by how much', () => {
    const [one] = analyse(
      review(threeJumps, [atStart('setUp', 10), atStart('step', 100), atStart('release', 110)]),
      clocks,
    ).startLine;
    expect(one?.verdict).toBe('broken');
    expect(one?.early?.value).toBeCloseTo(0.2, 9);
    expect(one?.stay?.value).toBeCloseTo(1.8, 9);
  });

  it('cannot be told where paw and release fall into one frame', () => {
    const [one] = analyse(
      review(threeJumps, [atStart('step', 110), atStart('release', 110)]),
      clocks,
    ).startLine;
    expect(one?.verdict).toBe('cannotTell');
  });

  it('is kept when the paw moves after the release; broken where there was no release at all', () => {
    const kept = analyse(review(threeJumps, [atStart('release', 100), atStart('step', 105)]), clocks);
    expect(kept.startLine[0]?.verdict).toBe('kept');
    const broken = analyse(review(threeJumps, [atStart('setUp', 10), atStart('step', 105)]), clocks);
    expect(broken.startLine[0]?.verdict).toBe('broken');
  });

  it('tells each try apart', () => {
    const { startLine } = analyse(
      review(threeJumps, [
        atStart('setUp', 10, 1),
        atStart('step', 40, 1),
        atStart('setUp', 200, 2),
        atStart('release', 300, 2),
      ]),
      clocks,
    );
    expect(startLine.map((s) => [s.try, s.verdict])).toEqual([
      [1, 'broken'],
      [2, 'kept'],
    ]);
  });
});

describe('marks that do not fit', () => {
  it('without footage are left out and warned of', () => {
    const stray: Mark = { ...took(1, 'in', 5), footageId: 'elsewhere' };
    const a = analyse(review(threeJumps, [stray]), clocks);
    expect(a.taken).toEqual([]);
    expect(a.warnings).toEqual([{ warning: 'missingFootage', markId: stray.id, footageId: 'elsewhere' }]);
  });

  it('between frames are used with less certainty and warned of', () => {
    const gappy = new Map(
      [...steadyClocks(50)].map(([k, c]) => [
        k,
        { ...c, table: { ...c.table, pts: c.table.pts.filter((_, i) => i % 2 === 0) } },
      ]),
    );
    const a = analyse(review(threeJumps, [took(1, 'out', 101)]), gappy);
    expect(a.warnings.map((w) => w.warning)).toContain('betweenFrames');
  });
});
