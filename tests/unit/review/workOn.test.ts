import { describe, expect, it } from 'vitest';
import type { Analysis, CrossAnalysis, EventRow, Moment, StartTry } from '../../../src/review/analysis.ts';
import type { EventMark } from '../../../src/review/marks.ts';
import { workOn, type Stage, type WorkOn } from '../../../src/review/workOn.ts';
import { runSeconds } from '../../../src/time/units.ts';
import type { Quantity } from '../../../src/time/quantity.ts';

const moment = (at: number): Moment => ({
  markId: `m${at}`,
  footageId: 'film',
  pts: at,
  frame: at,
  bracket: { from: runSeconds(at), to: runSeconds(at) },
  at: { value: at, plusMinus: 0, unit: 's' },
});
const event = (kind: EventMark['event'], place: number | null, at = 1): EventRow => ({
  mark: { id: `e${kind}${at}`, footageId: 'film', pts: at, unsure: 0, note: '', kind: 'event', event: kind },
  ownLabel: null,
  place,
  moment: moment(at),
});
const cross = (place: number, verdict: CrossAnalysis['verdict']): CrossAnalysis => ({
  id: `c${place}`,
  place,
  kind: 'front',
  nickname: '',
  plannedId: null,
  verdict,
  reason: 'cueAfterCommitment',
  open: [],
  lead: null,
  leadFrames: null,
  finish: null,
  afterCommitted: null,
  stride: 0.4,
  cues: [],
  parts: { cueBegins: moment(place) },
  deadline: null,
});
const attempt = (verdict: StartTry['verdict']): StartTry => ({
  try: 1,
  verdict,
  stay: null,
  early: null,
  fakes: 0,
  shifts: 0,
  moments: [{ part: 'step', moment: moment(0) }],
});
const run = (of: Partial<Pick<Analysis, 'startLine' | 'crosses' | 'events'>>) => ({
  startLine: [],
  crosses: [],
  events: [],
  ...of,
});
const themes = ({ first, also }: WorkOn): [string[], string[]] => [
  first.map((i) => i.theme),
  also.map((i) => i.theme),
];
const everything = run({
  startLine: [attempt('broken')],
  crosses: [cross(3, 'late'), cross(7, 'tooEarly'), cross(9, 'inTime')],
  events: [event('barDown', 4), event('missedContact', 6), event('worried', 8), event('wide', 3)],
});

describe('what to work on', () => {
  it('goes by the dog’s stage: waiting and a happy run for a green dog, handling for a finished one', () => {
    const of = (stage: Stage): string[] => themes(workOn(everything, stage))[0];
    expect(of('green')).toEqual(['stay', 'happy']);
    expect(of('growing')).toEqual(['stay', 'contact']);
    expect(of('finished')).toEqual(['lateCross', 'contact']);
  });

  it('takes a green dog’s bars as information, however many', () => {
    const bars = run({ events: [1, 2, 3, 4].map((n) => event('barDown', n, n)) });
    expect(themes(workOn(bars, 'green'))).toEqual([[], ['bar']]);
    expect(themes(workOn(bars, 'finished'))).toEqual([['bar'], []]);
  });

  it('weighs the seconds surely lost, and not those the plus or minus leaves open', () => {
    const lost = (plusMinus: number): ReadonlyMap<number, Quantity> =>
      new Map([[3, { value: 3, plusMinus, unit: 's' }]]);
    const two = run({ events: [event('wide', 3), event('missedContact', 6)] });
    expect(themes(workOn(two, 'finished', lost(1)))[0]).toEqual(['turn', 'contact']);
    expect(themes(workOn(two, 'finished', lost(4)))[0]).toEqual(['contact', 'turn']);
  });

  it('tells a late cross once, with where to look, and its wide turn costs no second time', () => {
    const found = workOn(
      run({ crosses: [cross(3, 'late')], events: [event('lateCross', 3), event('wide', 3)] }),
      'growing',
      new Map([[3, { value: 0.5, plusMinus: 0.1, unit: 's' }]]),
    );
    expect(found.first.map((i) => [i.theme, i.instances.length, i.surelyLost])).toEqual([
      ['lateCross', 1, 0.5],
      ['turn', 1, 0],
    ]);
    expect(found.first[0]?.instances[0].moment?.pts).toBe(3);
  });

  it('puts the coach’s word before its own: what she named first, and nothing that she set aside', () => {
    const said = { first: ['bar' as const], notNow: ['stay' as const] };
    const told = themes(workOn(everything, 'green', new Map(), said));
    expect(told[0]).toEqual(['bar', 'happy']);
    expect(told[1]).toContain('stay');
    // Named first and not seen: nothing is made up.
    expect(themes(workOn(run({}), 'green', new Map(), said))).toEqual([[], []]);
    const three = { first: ['bar' as const, 'turn' as const, 'stay' as const], notNow: [] };
    expect(themes(workOn(everything, 'green', new Map(), three))[0]).toEqual(['bar', 'turn', 'stay']);
  });

  it('puts at most two first, leaves out nothing, and has nothing to say of a clean run', () => {
    const { first, also } = workOn(everything, 'growing');
    expect(first).toHaveLength(2);
    expect(also).toHaveLength(5);
    expect(workOn(run({ crosses: [cross(9, 'inTime')], startLine: [attempt('kept')] }), 'green')).toEqual({
      first: [],
      also: [],
    });
    expect(themes(workOn(run({ events: [event('own:whistle', 1)] }), 'green'))).toEqual([[], []]);
  });
});
