import { describe, expect, it } from 'vitest';
import type { CrossKind, PlannedCross } from '../../../src/plan/plan.ts';
import type { Analysis, CrossAnalysis } from '../../../src/review/analysis.ts';
import { plannedAgainstHappened } from '../../../src/review/planned.ts';
import { plannedOutcome } from '../../../src/words/review.ts';

const plan = (id: string, place: number, kind: CrossKind, secondChoice?: CrossKind): PlannedCross => ({
  id,
  place,
  kind,
  reason: '',
  ...(secondChoice ? { secondChoice } : {}),
});
const cross = (
  id: string,
  place: number,
  kind: CrossKind,
  plannedId: string | null = null,
): CrossAnalysis => ({
  id,
  place,
  kind,
  plannedId,
  nickname: '',
  verdict: 'inTime',
  reason: 'begunBetween',
  open: [],
  lead: null,
  leadFrames: null,
  finish: null,
  afterCommitted: null,
  stride: 0.4,
  cues: [],
  parts: {},
  deadline: null,
});
const run = (
  crosses: readonly CrossAnalysis[],
  upTo = 20,
): Pick<Analysis, 'crosses' | 'taken' | 'countedTry'> => ({
  crosses,
  countedTry: 2,
  taken: [
    { try: 1, place: 20 },
    { try: 2, place: upTo },
  ].map((t) => ({
    ...t,
    obstacleId: null,
    kind: 'barJump',
    nickname: '',
    in: null,
    out: null,
    single: false,
    on: null,
  })),
});
const told = (plans: readonly PlannedCross[], of: Parameters<typeof plannedAgainstHappened>[1]) => {
  const { rows, unplanned } = plannedAgainstHappened(plans, of);
  return [rows.map((r) => [r.planned.id, r.as, r.happened?.id ?? null]), unplanned.map((c) => c.id)];
};

describe('planned crosses beside what happened', () => {
  it('"front if ahead, else rear" run as rear is the second choice', () => {
    expect(told([plan('p', 5, 'front', 'rear')], run([cross('c', 5, 'rear')]))).toEqual([
      [['p', 'secondChoice', 'c']],
      [],
    ]);
  });

  it('are as planned, of another kind, elsewhere, left out, not reached, or nobody planned them', () => {
    const plans = [
      plan('other', 4, 'front'),
      plan('as', 2, 'front'),
      plan('else', 8, 'blind'),
      plan('out', 12, 'front'),
      plan('after', 18, 'rear'),
    ];
    const happened = [
      cross('a', 2, 'front'),
      cross('b', 4, 'blind'),
      cross('c', 9, 'blind'),
      cross('d', 14, 'rear'),
    ];
    expect(told(plans, run(happened, 16))).toEqual([
      [
        ['as', 'planned', 'a'],
        ['other', 'otherKind', 'b'],
        ['else', 'elsewhere', 'c'],
        ['out', 'leftOut', null],
        ['after', 'notReached', null],
      ],
      ['d'],
    ]);
  });

  it('go by the coach’s tie first, and no cross serves two plans', () => {
    const plans = [plan('p', 5, 'front'), plan('q', 6, 'front')];
    expect(told(plans, run([cross('c', 5, 'front', 'q')]))).toEqual([
      [
        ['p', 'leftOut', null],
        ['q', 'elsewhere', 'c'],
      ],
      [],
    ]);
    // Tied to a plan that is gone: as if it were not tied.
    expect(told(plans, run([cross('c', 5, 'front', 'gone')]))[0]).toContainEqual(['p', 'planned', 'c']);
  });

  it('at one number, each kind goes to the plan that asks for it', () => {
    const plans = [plan('p', 5, 'front', 'rear'), plan('q', 5, 'rear')];
    expect(told(plans, run([cross('r', 5, 'rear'), cross('f', 5, 'front')]))).toEqual([
      [
        ['p', 'planned', 'f'],
        ['q', 'planned', 'r'],
      ],
      [],
    ]);
    expect(told([], run([cross('c', 1, 'front')]))).toEqual([[], ['c']]);
  });
});

describe('what is said of a planned cross', () => {
  it('is its verdict, and how it differs from the plan', () => {
    const plans = [
      plan('as', 2, 'front'),
      plan('second', 3, 'front', 'rear'),
      plan('other', 4, 'front'),
      plan('else', 8, 'blind'),
      plan('out', 12, 'front'),
      plan('after', 18, 'rear'),
    ];
    const happened = [
      cross('a', 2, 'front'),
      cross('s', 3, 'rear'),
      cross('b', 4, 'blind'),
      cross('c', 9, 'blind'),
    ];
    expect(plannedAgainstHappened(plans, run(happened, 16)).rows.map(plannedOutcome)).toEqual([
      'in time',
      'second choice, in time',
      'blind cross instead, in time',
      'at 9, in time',
      'left out: none is marked',
      'not reached',
    ]);
  });
});
