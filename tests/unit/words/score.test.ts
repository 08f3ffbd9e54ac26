import { describe, expect, test } from 'vitest';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { eliminationKinds } from '../../../src/course/rules/runRules.ts';
import { scoreWords } from '../../../src/words/score.ts';
import { book, knockDowns, ours, refusals, score } from '../course/rules/books.ts';

describe('a score in words', () => {
  test('says where the faults come from and the class of result', () => {
    const s = score(fci2023, { time: 68.17, events: [...knockDowns(2), ...refusals('ranBy')] });
    expect(scoreWords.told(s)).toBe('18.17 faults (15.00 on the course and 3.17 for time), Good; 1 refusal.');
    expect(scoreWords.told(score(fci2023, { time: 92 }))).toMatch(/, no class; 0 refusals\.$/);
    expect(scoreWords.told(score(fci2023, { run: 'training' }))).toBe(
      '0.00 faults (0.00 on the course and 0.00 for time); 0 refusals.',
    );
  });

  test('says what ended the run and where, in a name for every reason', () => {
    for (const why of eliminationKinds) {
      const told = scoreWords.ended({
        why,
        place: 7,
        rule: { name: 'x', source: { text: 'x', kind: 'own', edition: 'this' }, status: 'seen' },
      });
      expect(told).toMatch(/ at 7$/);
      expect(told).not.toContain('undefined');
    }
    const own = book({ scoring: { eliminations: { value: ['own:constructor'], source: ours } } });
    expect(
      scoreWords.told(score(own, { events: [{ kind: 'elimination', why: 'own:constructor', place: 3 }] })),
    ).toBe('Eliminated: constructor at 3.');
  });

  test('says what is missing', () => {
    expect(scoreWords.told(score(fci2023, { time: null }))).toBe(
      'No score yet: the time of the run is not known.',
    );
  });

  test('says why something did not count', () => {
    const twice = score(fci2023, {
      events: [
        { kind: 'refusal', how: 'ranBy', place: 4, approach: 1 },
        { kind: 'refusal', how: 'stopped', place: 4, approach: 1 },
        { kind: 'missedContact', obstacle: 'aFrame', zone: 'up', place: 5 },
      ],
    });
    expect(twice.notCounted.map((n) => scoreWords.notCounted(n))).toEqual([
      'refusal (stopped in front) at 4: counted already, one approach is one refusal.',
      'missed contact at 5: this contact zone is not judged.',
    ]);
  });
});
