import { describe, expect, test } from 'vitest';
import { buildReport } from '../../../src/report/model.ts';
import { lineText } from '../../../src/report/pieces.ts';
import { sample } from './sample.ts';

const facts = (change?: Parameters<typeof sample>[0]): string[] => {
  const { review, analysis, clips } = sample(change);
  return buildReport({ review, analysis, clips, stills: new Map() }).wentWell.facts.map(lineText);
};

type Raw = Parameters<NonNullable<Parameters<typeof sample>[0]>>[0];
const without = (raw: Raw, ...events: string[]) => ({
  marks: raw.marks.filter((m) => !('event' in m) || !events.includes(String(m.event))),
});

describe('what went well', () => {
  test('is stated as facts: stays, crosses in time, stretches without a fault, rewards', () => {
    expect(facts()).toEqual([
      'The stay was kept in try 2: 6.900 s ± 0.017 from setting up to the release.',
      'The front cross at 4 (bar jump) was in time: the cue came 0.717 s ± 0.017 before take-off.',
      'The rear cross at 18 (bar jump) was in time: the cue came 0.217 s ± 0.017 before take-off.',
      'All 20 obstacles were taken.',
      'From 12 to 20 no fault was marked.',
      'A reward was given.',
    ]);
  });

  test('a fault on any number ends the stretch, wherever it stands', () => {
    const lines = facts((raw) => without(raw, 'refusal', 'missedEntry'));
    expect(lines).toContain('From 11 to 20 no fault was marked.');
    expect(lines).not.toContain('From 1 to 20 no fault was marked.');
  });

  test('a run without a fault says so once', () => {
    const lines = facts((raw) => without(raw, 'refusal', 'missedEntry', 'barDown'));
    expect(lines).toContain('All 20 obstacles were taken, and no fault was marked on the way.');
    expect(lines.filter((l) => l.includes('fault'))).toHaveLength(1);
  });

  test('a fault without a number takes both neighbours out of the stretch', () => {
    const lines = facts((raw) => ({
      marks: [
        ...without(raw, 'refusal', 'missedEntry', 'barDown').marks,
        { id: 'x', footageId: 'f1', pts: 60 * 40, kind: 'event', event: 'offCourse' },
      ],
    }));
    const stretch = lines.find((l) => l.startsWith('From '));
    // 40 s lies within obstacle 9: it may have been there, or on the way from 8.
    expect(stretch).toBe('From 10 to 20 no fault was marked.');
  });

  test('a fault in a try that does not count spoils nothing', () => {
    const lines = facts((raw) => ({
      marks: [
        ...without(raw, 'refusal', 'missedEntry', 'barDown').marks,
        { id: 'x', footageId: 'f1', pts: 60 * 8, kind: 'event', event: 'barDown', place: 3 },
      ],
    }));
    expect(lines).toContain('All 20 obstacles were taken, and no fault was marked on the way.');
  });

  test('nothing is invented where nothing is marked', () => {
    expect(facts(() => ({ marks: [], crosses: [], drawings: [] }))).toEqual([]);
    // Two obstacles and a missing number: no stretch is long enough, and not all were taken.
    expect(
      facts((raw) => ({
        crosses: [],
        drawings: [],
        marks: raw.marks.filter((m) => 'place' in m && 'edge' in m && [1, 2, 4].includes(Number(m.place))),
      })),
    ).toEqual([]);
  });

  test('gives way to the coach’s own words', () => {
    const { review, analysis, clips } = sample((raw) => ({
      header: { ...raw.header, words: { ...raw.header.words, wentWell: ' She waited. ' } },
    }));
    const { wentWell } = buildReport({ review, analysis, clips, stills: new Map() });
    expect(wentWell).toEqual({ coach: 'She waited.', facts: [] });
  });
});
