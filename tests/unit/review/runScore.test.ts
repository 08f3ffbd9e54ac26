import { describe, expect, it } from 'vitest';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { hundredths } from '../../../src/course/rules/hundredths.ts';
import type { TimesOfClass } from '../../../src/course/rules/courseTime.ts';
import type { RefusalKind } from '../../../src/course/refusals.ts';
import { analyse } from '../../../src/review/analyse.ts';
import type { EventMark, Mark } from '../../../src/review/marks.ts';
import { scoreOfRun, type RunScore } from '../../../src/review/runScore.ts';
import { scorePartWords } from '../../../src/words/scorePart.ts';
import { courseOf, review, steadyClocks, took } from './example.ts';

const rate = 50;
let serial = 0;
const happened = (event: EventMark['event'], frame: number, place?: number, refusal?: RefusalKind): Mark => ({
  id: `event-${++serial}`,
  footageId: 'film',
  pts: frame,
  unsure: 0,
  note: '',
  kind: 'event',
  event,
  ...(place === undefined ? {} : { place }),
  ...(refusal ? { refusal } : {}),
});
const course = courseOf('barJump', 'weavePoles', 'aFrame', 'barJump');
/** Four obstacles from frame 100 to frame 2100: 40 s to within a frame. */
const ran = (last = 2100, attempt = 1): Mark[] => [
  took(1, 'in', 100, attempt),
  took(1, 'out', 125, attempt),
  took(2, 'in', 300, attempt),
  took(2, 'out', 400, attempt),
  took(3, 'in', 900, attempt),
  took(3, 'out', 1000, attempt),
  took(4, 'in', last - 25, attempt),
  took(4, 'out', last, attempt),
];
const stated = (standard: number, maximum = 80): TimesOfClass => ({
  standard: { known: true, time: hundredths(standard), stated: true, rule: null },
  maximum: { known: true, time: hundredths(maximum), stated: true, rule: null },
  belowLeast: null,
});
const scored = (
  marks: readonly Mark[],
  run: 'trial' | 'training' | 'class' = 'trial',
  times: TimesOfClass | null = stated(45),
): RunScore =>
  scoreOfRun(fci2023, {
    analysis: analyse(review(course, [...marks]), steadyClocks(rate, 2500)),
    run,
    times,
  });

describe('the score of a run from its marks', () => {
  it('two wrong entries and a run-out eliminate at an FCI trial and do not stop a training run', () => {
    const marks = [
      ...ran(),
      happened('missedEntry', 310, 2),
      happened('missedEntry', 500, 2),
      happened('refusal', 850, 3, 'ranBy'),
    ];
    expect(scored(marks).score).toMatchObject({
      unofficial: true,
      outcome: 'eliminated',
      refusals: 3,
      because: [{ why: 'refusals', place: 3 }],
    });
    expect(scored(marks, 'training').score).toMatchObject({
      outcome: 'scored',
      refusals: 3,
      courseFaults: 1500,
    });
  });

  it('a run-out told as a refusal and as a wrong entry within a second is one refusal', () => {
    const marks = [...ran(), happened('refusal', 310, 2, 'ranBy'), happened('missedEntry', 340, 2)];
    expect(scored(marks).score).toMatchObject({ refusals: 1, courseFaults: 500 });
    expect(
      scored([...ran(), happened('refusal', 310, 2), happened('missedEntry', 420, 2)]).score,
    ).toMatchObject({ refusals: 2 });
  });

  it('bars and contacts cost what the book says, and what no book judges is only noted', () => {
    const { score, onlyNoted } = scored([
      ...ran(),
      happened('barDown', 120, 1),
      happened('missedContact', 990, 3),
      happened('wide', 1100, 3),
      happened('poppedOut', 350, 2),
      happened('own:whistle', 360, 2),
    ]);
    expect(score).toMatchObject({ outcome: 'scored', courseFaults: 1000, timeFaults: 0, total: 1000 });
    expect(onlyNoted.map((row) => row.mark.event)).toEqual(['poppedOut', 'own:whistle', 'wide']);
  });

  it('says both scores where the plus or minus of the time lies across the course time', () => {
    // From [100, 101] to (2099, 2100]: 39.98 s, plus or minus one frame of 0.02 s.
    const { score, between } = scored(ran(), 'trial', stated(39.98));
    expect(score).toMatchObject({ outcome: 'scored', total: 0, time: 3998 });
    expect(between?.fastest).toMatchObject({ total: 0 });
    expect(between?.slowest).toMatchObject({ total: 2 });
    expect(scored(ran(), 'trial', stated(41)).between).toBeNull();
    const said = (run: RunScore): string =>
      run.between ? scorePartWords.between(run.between.fastest, run.between.slowest) : '';
    expect(said(scored(ran(), 'trial', stated(39.98)))).toBe(
      'The plus or minus of the time leaves it open between 0.00 and 0.02 faults.',
    );
    // Over the course time at both ends: no limit lies between, and none is spoken of.
    expect(said(scored(ran(), 'trial', stated(39)))).toBe(
      'The plus or minus of the time leaves it open between 0.96 and 1.00 faults.',
    );
    // The class changes with a hundredth: 5 faults on the course and 0.97 or 1.01 for time.
    const edge = scored([...ran(), happened('barDown', 120, 1)], 'trial', stated(38.99));
    expect(edge.between?.fastest).toMatchObject({ result: { id: 'excellent' } });
    expect(said(edge)).toMatch(
      /lies across a limit\. At its fastest: .*Excellent.* At its slowest: .*Very Good/i,
    );
    expect(edge.between?.slowest).toMatchObject({ result: { id: 'veryGood' } });
  });

  it('has no score for time before the last number is taken, nor without a course time', () => {
    expect(scored(ran().slice(0, -1)).score).toMatchObject({ outcome: 'open', open: ['time'] });
    expect(scored(ran(), 'trial', null).score).toMatchObject({ outcome: 'open', open: ['standardTime'] });
    expect(scored([], 'trial').score).toMatchObject({ outcome: 'open' });
  });

  it('a second set-up ends a trial and is normal in training; what lies before it does not count', () => {
    const marks = [
      took(1, 'in', 20),
      happened('barDown', 30, 1),
      ...ran(2100, 2),
      happened('barDown', 110, 1),
    ];
    expect(scored(marks).score).toMatchObject({ outcome: 'eliminated', because: [{ why: 'restarted' }] });
    const training = scored(marks, 'training');
    expect(training.score).toMatchObject({ outcome: 'scored', courseFaults: 500 });
    expect(training.outside.map((row) => row.mark.pts)).toEqual([30]);
  });

  it('an off-course ends a trial by the name the book has for it', () => {
    expect(scored([...ran(), happened('offCourse', 500, 3)]).score).toMatchObject({
      outcome: 'eliminated',
      because: [{ why: 'wrongOrder', place: 3 }],
    });
  });

  it('marks in impossible order read no time below nought', () => {
    const marks = [took(1, 'in', 500), took(1, 'out', 520), took(4, 'in', 100), took(4, 'out', 120)];
    expect(scored(marks).score).toMatchObject({ outcome: 'scored', time: 0 });
  });
});
