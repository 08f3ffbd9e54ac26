import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/review/analyse.ts';
import type { CrossAnalysis } from '../../../src/review/analysis.ts';
import { crossKinds } from '../../../src/plan/plan.ts';
import { judgeCross } from '../../../src/review/crossVerdict.ts';
import type { Mark } from '../../../src/review/marks.ts';
import { least, most, type Quantity } from '../../../src/time/quantity.ts';
import { courseOf, cross, inCross, review, steadyClocks, took } from './example.ts';

function judged(
  kind: Parameters<typeof cross>[0],
  marks: Mark[],
  rate = 30,
  obstacle: Parameters<typeof courseOf>[0] = 'barJump',
): CrossAnalysis {
  const [one] = analyse(review(courseOf(obstacle), marks, [cross(kind)]), steadyClocks(rate)).crosses;
  if (!one) throw new Error('no cross came back');
  return one;
}

describe('front and blind crosses', () => {
  it('are late by 0.10 s when the cue is first seen three frames after the first frame in the air, at 30 fps', () => {
    // Take-off last seen on frame 100, so 101 is the first frame in the air; the cue is first seen on 104.
    const x = judged('front', [
      inCross('cueBegins', 104, 'feet'),
      inCross('takeOff', 100),
      inCross('landing', 112),
    ]);
    expect(x.verdict).toBe('late');
    expect(x.lead?.value).toBeCloseTo(-0.1, 9);
    expect(x.lead?.plusMinus).toBeCloseTo(1 / 30, 9);
    expect(x.leadFrames?.value).toBe(-3);
  });

  it('cannot be told when the cue is first seen one frame before the first frame in the air', () => {
    const x = judged('front', [
      inCross('cueBegins', 100, 'feet'),
      inCross('takeOff', 100),
      inCross('landing', 112),
    ]);
    expect(x.verdict).toBe('cannotTell');
    expect(x.open).toContain('lead');
  });

  it('are tight with less than a stride to gather left, and in time with more', () => {
    const at = (cue: number): string =>
      judged('blind', [
        inCross('cueBegins', cue, 'shoulders'),
        inCross('takeOff', 100),
        inCross('cueEnds', 108),
        inCross('landing', 112),
      ]).verdict;
    // The stride is 0.4 s: 12 frames at 30 fps.
    expect(at(96)).toBe('tight');
    expect(at(80)).toBe('inTime');
    expect(at(89)).toBe('cannotTell');
  });

  it('are late when they are finished after the landing, however early the cue', () => {
    const x = judged('front', [
      inCross('cueBegins', 50, 'slowing'),
      inCross('takeOff', 100),
      inCross('landing', 112),
      inCross('cueEnds', 120),
    ]);
    expect(x.verdict).toBe('late');
    expect(x.reason).toBe('finishedAfterLanding');
    expect(x.finish?.value).toBeCloseTo(-8 / 30, 9);
  });

  it('are in time when finished ten frames before the exit of a tunnel at 60 fps', () => {
    const x = judged(
      'front',
      [
        inCross('cueBegins', 100, 'voice'),
        inCross('takeOff', 160),
        inCross('cueEnds', 230),
        inCross('landing', 240),
      ],
      60,
      'tunnel',
    );
    expect(x.verdict).toBe('inTime');
    expect(x.finish?.value).toBeCloseTo(10 / 60, 9);
  });

  it('on poles and contacts have until she leaves them', () => {
    const marks = [inCross('cueBegins', 130, 'feet'), took(1, 'in', 100), took(1, 'out', 190)];
    for (const kind of ['weavePoles', 'seeSaw', 'dogWalk', 'aFrame'] as const) {
      expect(judged('blind', marks, 30, kind)).toMatchObject({ verdict: 'inTime', deadline: { frame: 190 } });
    }
    expect(judged('blind', marks, 30, 'tunnel')).toMatchObject({ verdict: 'late', deadline: { frame: 100 } });
  });

  it('count from the earliest of several cues', () => {
    const x = judged('front', [
      inCross('cueBegins', 104, 'voice'),
      inCross('cueBegins', 70, 'shoulders'),
      inCross('takeOff', 100),
    ]);
    expect(x.verdict).toBe('inTime');
    expect(x.cues.map((c) => c.cue)).toEqual(['shoulders', 'voice']);
    expect(x.cues[1]?.lead?.value).toBeLessThan(0);
  });

  it('take the deadline from the obstacle where the cross has none of its own', () => {
    const x = judged('front', [inCross('cueBegins', 80, 'feet'), took(1, 'in', 100), took(1, 'out', 112)]);
    expect(x.verdict).toBe('inTime');
    expect(x.deadline?.frame).toBe(100);
  });

  it('say what is missing', () => {
    expect(judged('front', [inCross('cueBegins', 80, 'feet')])).toMatchObject({
      verdict: 'notMarked',
      open: ['lead'],
    });
    expect(judged('front', [])).toMatchObject({ verdict: 'notMarked' });
  });

  it('are not judged on a single mark for the whole obstacle', () => {
    expect(judged('front', [inCross('cueBegins', 80, 'feet'), took(1, 'whole', 100)]).verdict).toBe(
      'notMarked',
    );
  });
});

describe('rear crosses', () => {
  it('are too early when begun before the dog is committed to the obstacle', () => {
    const x = judged('rear', [
      inCross('cueBegins', 80, 'feet'),
      inCross('committed', 90),
      inCross('takeOff', 100),
    ]);
    expect(x.verdict).toBe('tooEarly');
  });

  it('are in time between commitment and take-off', () => {
    const x = judged('rear', [
      inCross('cueBegins', 95, 'feet'),
      inCross('committed', 90),
      inCross('takeOff', 100),
    ]);
    expect(x.verdict).toBe('inTime');
  });

  it('are late after take-off', () => {
    const x = judged('rear', [
      inCross('cueBegins', 105, 'feet'),
      inCross('committed', 90),
      inCross('takeOff', 100),
    ]);
    expect(x.verdict).toBe('late');
  });

  it('cannot be told in the very frame of the commitment, and want it marked', () => {
    expect(
      judged('rear', [inCross('cueBegins', 90, 'feet'), inCross('committed', 90), inCross('takeOff', 100)]),
    ).toMatchObject({
      verdict: 'cannotTell',
      open: ['commitment'],
    });
    expect(judged('rear', [inCross('cueBegins', 95, 'feet'), inCross('takeOff', 100)])).toMatchObject({
      verdict: 'notMarked',
      open: ['commitment'],
    });
  });
});

it('pivots are made standing and are not timed', () => {
  expect(judged('leadOutPivot', []).verdict).toBe('standing');
});

describe('a verdict never outruns its brackets', () => {
  const thresholds = { stride: 0.4 };
  const truthOf = (
    kind: (typeof crossKinds)[number],
    lead: number,
    finish: number,
    after: number,
  ): string => {
    if (kind === 'rear') return lead < 0 ? 'late' : after < 0 ? 'tooEarly' : 'inTime';
    if (lead < 0 || finish < 0) return 'late';
    return lead > thresholds.stride ? 'inTime' : 'tight';
  };

  it('agrees with the truth at each corner of what the figures allow', () => {
    const steps = [-0.5, -0.1, -0.02, 0, 0.02, 0.1, 0.38, 0.42, 0.9];
    const q = (value: number, plusMinus: number): Quantity => ({ value, plusMinus, unit: 's' });
    let given = 0;
    for (const kind of crossKinds.filter((k) => k !== 'leadOutPivot')) {
      for (const lead of steps)
        for (const finish of steps)
          for (const after of steps)
            for (const width of [0.001, 0.03, 0.2]) {
              const figures = {
                lead: q(lead, width),
                finish: q(finish, width),
                afterCommitted: q(after, width),
              };
              const { verdict } = judgeCross(kind, figures, thresholds.stride);
              const corners = new Set(
                [least, most].flatMap((l) =>
                  [least, most].flatMap((f) =>
                    [least, most].map((a) =>
                      truthOf(kind, l(figures.lead), f(figures.finish), a(figures.afterCommitted)),
                    ),
                  ),
                ),
              );
              if (verdict === 'cannotTell')
                expect(corners.size, JSON.stringify({ kind, ...figures })).toBeGreaterThan(0);
              else {
                given++;
                // Late and too early may both be true of one rear cross; any other verdict must be the only one left.
                if (kind === 'rear' && verdict !== 'inTime')
                  expect([...corners].every((c) => c !== 'inTime')).toBe(true);
                else expect([...corners], JSON.stringify({ kind, verdict, ...figures })).toEqual([verdict]);
              }
            }
    }
    expect(given).toBeGreaterThan(1000);
  });
});
