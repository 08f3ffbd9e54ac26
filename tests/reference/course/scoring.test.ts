import { describe, expect, test } from 'vitest';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { hundredths, inUnits } from '../../../src/course/rules/hundredths.ts';
import { rank } from '../../../src/course/rules/ranking.ts';
import { courseTimes } from '../../../src/course/rules/courseTime.ts';
import { faultsForTime } from '../../../src/course/rules/score.ts';
import { book, knockDowns, ours, refusals, score, scored } from '../../unit/course/rules/books.ts';

describe('the published scoring example (DGI Denmark, course times, dgi.dk; read and worked out again)', () => {
  test('65.00 s course time, 68.17 s, two faults, one refusal: 18.17', () => {
    const s = scored(fci2023, { time: 68.17, events: [...knockDowns(2), ...refusals('ranBy')] });
    expect(inUnits(s.timeFaults)).toBe(3.17);
    expect(inUnits(s.courseFaults)).toBe(15);
    expect(inUnits(s.total)).toBe(18.17);
  });

  test('the list of four: faults before time', () => {
    const runs = [
      { id: 'C', score: score(fci2023, { time: 65, events: knockDowns(1) }) },
      { id: 'D', score: score(fci2023, { time: 34.19, events: [...knockDowns(1), ...refusals('stopped')] }) },
      { id: 'B', score: score(fci2023, { time: 70 }) },
      { id: 'A', score: score(fci2023, { time: 47.23 }) },
    ];
    const totals = runs.map((r) => (r.score.outcome === 'scored' ? inUnits(r.score.total) : null));
    expect(totals).toEqual([5, 10, 5, 0]);
    const ranking = rank(fci2023, runs);
    expect(ranking.ranked && ranking.places.map((p) => [p.id, p.place])).toEqual([
      ['A', 1],
      ['B', 2],
      ['C', 3],
      ['D', 4],
    ]);
  });
});

describe('classes of result (FCI text before 2012, k9puppydogs.com: 0-5.99, 6-15.99, 16-25.99)', () => {
  test.each([
    [0, 'excellent'],
    [5.99, 'excellent'],
    [6, 'veryGood'],
    [15.99, 'veryGood'],
    [16, 'good'],
    [25.99, 'good'],
    // The printed text leaves exactly 26 open; no class is the reading taken.
    [26, 'none'],
    [26.01, 'none'],
  ])('%d faults: %s', (faults, result) => {
    // Time faults alone make up the total.
    const s = scored(fci2023, { time: 65 + faults, maximum: null });
    expect(inUnits(s.total)).toBe(faults);
    expect(typeof s.result === 'string' ? s.result : s.result.id).toBe(result);
  });
});

describe('faults and elimination (secondary: kvdedrielinden.be, agility-allstars.sk, and others)', () => {
  test.each([
    ['knock-down', { kind: 'knockDown' }],
    ['missed contact', { kind: 'missedContact' }],
    ['refusal', { kind: 'refusal', how: 'headInTunnel' }],
    ['run-out', { kind: 'refusal', how: 'ranBy' }],
    ['wrong weave entry', { kind: 'refusal', how: 'missedEntry' }],
    ['handler touch', { kind: 'handlerTouch' }],
  ] as const)('%s: 5', (_, event) => {
    expect(inUnits(score(fci2023, { events: [event] }).courseFaults)).toBe(5);
  });

  test('the third refusal over the whole course eliminates, whatever the kinds', () => {
    const two = score(fci2023, { events: refusals('stopped', 'ranBy') });
    expect(two).toMatchObject({ outcome: 'scored', refusals: 2 });
    const three = score(fci2023, { events: refusals('stopped', 'ranBy', 'missedEntry') });
    expect(three).toMatchObject({ outcome: 'eliminated', because: [{ why: 'refusals' }] });
  });

  test('contacts of 2023 (Singapore Kennel Club): A-frame and dog walk down alone, see-saw up and down', () => {
    const missed = (obstacle: 'aFrame' | 'dogWalk' | 'seeSaw', zone: 'up' | 'down') =>
      inUnits(score(fci2023, { events: [{ kind: 'missedContact', obstacle, zone }] }).courseFaults);
    expect(
      (['aFrame', 'dogWalk', 'seeSaw'] as const).map((o) => [missed(o, 'up'), missed(o, 'down')]),
    ).toEqual([
      [0, 5],
      [0, 5],
      [5, 5],
    ]);
  });
});

describe('time faults', () => {
  test('one a second, in hundredths (kvdedrielinden.be; dgi.dk)', () => {
    const rule = fci2023.scoring.timeFaults?.value;
    expect(rule && faultsForTime(rule, hundredths(0.01))).toBe(1);
    expect(scored(fci2023, { time: 65 }).timeFaults).toBe(0);
    expect(scored(fci2023, { time: 65.01 }).timeFaults).toBe(1);
  });

  test('one for five seconds, as another club has it (borders4fun.nl): the rate is the book’s', () => {
    const rate = (counting: 'exact' | 'begun' | 'full') => ({ points: 1, perSeconds: 5, counting });
    const at = (counting: 'exact' | 'begun' | 'full') =>
      [0.01, 4.99, 5, 5.01, 10].map((over) => inUnits(faultsForTime(rate(counting), hundredths(over))));
    expect(at('full')).toEqual([0, 0, 1, 1, 2]);
    expect(at('begun')).toEqual([1, 1, 1, 2, 2]);
    expect(at('exact')).toEqual([0, 0.99, 1, 1, 2]);
  });
});

describe('course times', () => {
  test('twice the standard, never below one and a half of it (DGI Denmark, older wording)', () => {
    const danish = book({
      times: {
        standard: [{ rule: { value: { form: 'stated' }, source: ours } }],
        maximum: [{ rule: { value: { form: 'timesStandard', usual: 2, least: 1.5 }, source: ours } }],
      },
    });
    const at = (stated?: number) =>
      courseTimes(danish, {
        statedStandard: hundredths(65),
        ...(stated === undefined ? {} : { statedMaximum: hundredths(stated) }),
      });
    expect(at().maximum).toMatchObject({ known: true, time: 13000 });
    expect(at(97.5).belowLeast).toBeNull();
    expect(at(97.49).belowLeast).toMatchObject({ least: 9750 });
  });

  test('class 3: best time and 15 %, rounded up to the full second (from memory: FCI 2018)', () => {
    const at = (best: number) => courseTimes(fci2023, { level: '3', bestTime: hundredths(best) }).standard;
    // 40 · 1.15 = 46 exactly; a hundredth more begins the next second.
    expect(at(40)).toMatchObject({ known: true, time: 4600, rule: { status: 'memory' } });
    expect(at(40.01)).toMatchObject({ known: true, time: 4700 });
    expect(at(34.19)).toMatchObject({ known: true, time: 4000 });
  });

  test('the maximum: length over 2.0 m/s, jumping 2.5 m/s (from memory: FCI 2018)', () => {
    const at = (discipline: 'agility' | 'jumping') =>
      courseTimes(fci2023, { discipline, length: 180 }).maximum;
    expect(at('agility')).toMatchObject({ known: true, time: 9000 });
    expect(at('jumping')).toMatchObject({ known: true, time: 7200 });
  });
});
