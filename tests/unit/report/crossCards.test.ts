import { describe, expect, test } from 'vitest';
import type { CrossReason } from '../../../src/review/analysis.ts';
import { buildReport } from '../../../src/report/model.ts';
import { lineText } from '../../../src/report/pieces.ts';
import { crossSentence, staySentence, type CrossTold } from '../../../src/words/verdicts.ts';
import { sample } from './sample.ts';

const cards = (change?: Parameters<typeof sample>[0]) => {
  const { review, analysis, clips } = sample(change);
  return buildReport({ review, analysis, clips, stills: new Map() }).crosses;
};

describe('a cross in the report', () => {
  test('is said in a sentence, and the dog is never to blame', () => {
    const [inTime, late, open, rear] = cards().map((c) => [c.verdictWords, lineText(c.sentence)]);
    expect(inTime).toEqual([
      'in time',
      'The cue came 0.717 s ± 0.017 before take-off. That left a stride (0.4 s) to gather.',
    ]);
    expect(late).toEqual([
      'late',
      'The cue came 0.083 s ± 0.017 after take-off. In the air no dog can turn: the dog did nothing wrong.',
    ]);
    expect(open).toEqual([
      'cannot tell at this frame rate',
      'The frames leave open whether the cue came before take-off. A clip with more frames a second could tell.',
    ]);
    expect(rear).toEqual([
      'in time',
      'It began 0.300 s ± 0.017 after the dog was committed to the obstacle and 0.217 s ± 0.017 before take-off.',
    ]);
  });

  test('tells its moments in the order they came, with the deadline in the words of the obstacle', () => {
    const late = cards()[1];
    expect(late?.moments.map((m) => [m.n, m.what])).toEqual([
      [1, 'committed to the obstacle'],
      [2, 'take-off'],
      [3, 'cue begins: feet'],
      [4, 'landing'],
      [5, 'cross finished'],
    ]);
    const tunnel = cards((raw) => ({
      crosses: raw.crosses.map((c) => (c.id === 'c4' ? { ...c, place: 3 } : c)),
    }))[0];
    expect(lineText(tunnel?.sentence ?? [])).toContain('the entry');
    expect(tunnel?.moments.map((m) => m.what)).toContain('exit');
  });

  test('holds the plan against what was run', () => {
    expect(cards().map((c) => lineText(c.plan))).toEqual([
      'Planned: front cross. to be on the right side for the poles',
      'Planned: front cross, else rear cross.',
      'Planned: blind cross.',
      'Not in the plan.',
    ]);
    const second = cards((raw) => ({
      crosses: raw.crosses.map((c) => (c.id === 'c7' ? { ...c, kind: 'rear' } : c)),
    }))[1];
    expect(lineText(second?.plan ?? [])).toContain('The plan’s second choice was run.');
  });

  test('has a strip whose dots keep their order and never touch or leave it', () => {
    for (const { strip, moments } of cards()) {
      expect(strip.marks).toHaveLength(moments.length);
      strip.marks.forEach((m, i) => {
        expect(m.dot).toBeGreaterThanOrEqual(4 - 1e-9);
        expect(m.dot).toBeLessThanOrEqual(96 + 1e-9);
        const before = strip.marks[i - 1];
        if (before) expect(m.dot - before.dot).toBeGreaterThanOrEqual(9 - 1e-9);
      });
    }
  });

  test('with nothing marked gives no verdict, and says what is missing', () => {
    const [card] = cards((raw) => ({ marks: raw.marks.filter((m) => !('crossId' in m)) }));
    expect(card?.verdict).toBe('notMarked');
    expect(lineText(card?.sentence ?? [])).toBe(
      'There is no verdict yet: the cue or take-off is not marked.',
    );
  });
});

describe('sentences of verdicts', () => {
  const reasons: CrossReason[] = [
    'cueBeforeWithStride',
    'cueBeforeWithoutStride',
    'cueAfterCommitment',
    'finishedAfterLanding',
    'begunBeforeCommitted',
    'begunBetween',
    'bracketsOverlap',
    'momentsMissing',
    'pivotStanding',
  ];
  const sized = (piece: string) => ({ piece: { figure: piece }, value: 1 });

  test.each(reasons)(
    '%s reads as whole sentences for every manner, with and without its figures',
    (reason) => {
      for (const manner of ['jumped', 'through', 'woven', 'climbed', 'unknown'] as const) {
        for (const figures of [true, false]) {
          const told: CrossTold<{ figure: string }> = {
            kind: 'front',
            reason,
            open: ['lead', 'stride', 'finish', 'commitment'],
            manner,
            lead: figures ? sized('LEAD') : null,
            finish: figures ? sized('FINISH') : null,
            afterCommitted: figures ? sized('COMMITTED') : null,
            stride: { figure: 'STRIDE' },
          };
          const text = crossSentence(told)
            .map((p) => (typeof p === 'string' ? p : p.figure))
            .join('');
          expect(text).toMatch(/^[A-Z].*\.$/);
          expect(text).not.toMatch(/undefined|null|\[object/);
        }
      }
    },
  );

  test('a broken stay is told by what was measured', () => {
    const text = (...args: Parameters<typeof staySentence<string>>): string => staySentence(...args).join('');
    expect(text('broken', 'STAY', { piece: 'EARLY', value: 1 })).toBe(
      'A paw moved EARLY before the release, STAY after setting up.',
    );
    expect(text('broken', null, null)).toBe('A paw moved; there was no release.');
    expect(text('kept', null, null)).toBe('No paw moved before the release.');
  });
});
