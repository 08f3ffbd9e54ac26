import { describe, expect, test } from 'vitest';
import type { z } from 'zod';
import type { Course } from '../../../src/course/course.ts';
import { likelyLine } from '../../../src/line/likelyLine.ts';
import { ReadingThresholds } from '../../../src/line/reading/thresholds.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { DogSkills } from '../../../src/line/skills.ts';
import { crossArguments } from '../../../src/plan/crossArguments.ts';
import { PlanSheet, type CrossKind } from '../../../src/plan/plan.ts';
import { timePlan } from '../../../src/plan/spare.ts';
import { argumentSentence, leadOutSentence } from '../../../src/words/crossArguments.ts';
import { courseAt } from './scene.ts';

const runner = runnerWith();
const thresholds = ReadingThresholds.parse({});

/** What is said at a cross of a plan on a course, for a dog of these skills. */
function said(course: Course, place: number, kind: CrossKind, skills?: z.input<typeof DogSkills>): string[] {
  const line = likelyLine(course, { runner });
  const known = skills && DogSkills.parse(skills);
  const sheet = PlanSheet.parse({ sides: [{ after: 0, side: 'left' }], crosses: [{ id: 'c', place, kind }] });
  const [time] = line ? timePlan(course, sheet, line, runner, [], known?.verbalTurns).crosses : [];
  if (!line || !time) throw new Error('nothing was timed');
  const told = { course, unit: 'metres', dialect: 'british' } as const;
  return crossArguments(time, { course, line, runner, skills: known, thresholds }).map((a) =>
    argumentSentence(a, told),
  );
}

const turning = courseAt([8, 8], [14, 8], [17, 14, 90]);
const intoPoles = courseAt([6, 6], [12, 6], [18, 15, 50, 'weavePoles']);
const atPoles = courseAt([6, 8], [12, 8, 0, 'weavePoles'], [26, 14, 90]);
const throughTunnel = courseAt([6, 8], [14, 8, 0, 'tunnel'], [17, 16, 120]);

describe('what speaks for and against a cross', () => {
  test('a rear cross has both of its prices, a front cross has none', () => {
    expect(said(turning, 2, 'rear').join()).toMatch(/a better turn, .* but a harder entry/);
    expect(said(turning, 2, 'front')).toEqual([]);
  });

  test('before poles she argues with what the dog has done', () => {
    const count = { done: 3, tried: 10 };
    const weaveEntries = (['on', 'off'] as const).flatMap((side) =>
      (['to30', 'to60', 'to90', 'over90'] as const).map((band) => ({ side, band, count })),
    );
    expect(said(intoPoles, 2, 'front', { weaveEntries }).join()).toMatch(
      /^Into 3 \(the weave poles\) .* She has done such an entry 3 of 10 times\.$/,
    );
    expect(said(intoPoles, 2, 'rear', { weaveEntries }).join()).toMatch(
      /a better turn, .*an entry she has done 3 of 10 times/,
    );
  });

  test('behind her at the poles: a better turn, but as often as it was done', () => {
    expect(said(atPoles, 2, 'rear', { rearCrossAtPoles: { done: 3, tried: 10 } })).toContain(
      'A rear cross at the poles turns her well behind them, but it is an entry she has done 3 of 10 times.',
    );
    expect(said(atPoles, 2, 'rear', { rearCrossAtPoles: { done: 1, tried: 4 } }).join()).toContain(
      'few tries to go by',
    );
    expect(said(atPoles, 2, 'rear', { rearCrossAtPoles: { done: 0, tried: 0 } }).join()).toContain(
      'she has not tried',
    );
    expect(said(atPoles, 2, 'front', { rearCrossAtPoles: { done: 3, tried: 10 } })).toEqual([]);
  });

  test('a word for the turn is cue enough at a tunnel, and is missed where she has none', () => {
    expect(said(throughTunnel, 2, 'front', { verbalTurns: { left: true } })).toEqual([
      'She turns left on a word: said before she goes in, it is cue enough.',
    ]);
    expect(said(throughTunnel, 2, 'front', { verbalTurns: { left: false } })).toEqual([
      'She has no word for left yet: the turn has to be shown.',
    ]);
    expect(said(throughTunnel, 2, 'front', { verbalTurns: { right: true } })).toEqual([]);
  });

  test('behind her she is sent on: told where that is farther than she has been sent', () => {
    const sent = (sentMetres: number) => said(turning, 2, 'rear', { sentMetres }).join();
    expect(sent(0.5)).toMatch(/Behind her you send her on \d\.\d m, and she has been sent 0\.5 m\./);
    expect(sent(20)).not.toContain('send her on');
  });

  test('the lead-out argues with her stay', () => {
    expect(leadOutSentence(6.25, { done: 3, tried: 10 }, 'metres')).toMatch(
      /^You lead out 6\.[23] m from her\. She has kept her stay 3 of 10 times\.$/,
    );
    expect(leadOutSentence(6.25, { done: 0, tried: 0 }, 'feet')).toContain('has not been tried');
  });
});
