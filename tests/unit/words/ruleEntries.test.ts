import { describe, expect, test } from 'vitest';
import type { RuleBook } from '../../../src/course/rules/book.ts';
import { EquipmentRules } from '../../../src/course/rules/equipment.ts';
import { entriesOf } from '../../../src/course/rules/entries.ts';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { bookTold, entryLabel, type EntryTold } from '../../../src/words/ruleEntries.ts';
import { book, ours } from '../course/rules/books.ts';

const all = (of: RuleBook): EntryTold[] => bookTold(of, 'british').flatMap((g) => [...g.entries]);
const told = (of: RuleBook, name: string): readonly string[] | undefined =>
  all(of).find((e) => e.rule.name === name)?.told;
const entry = <T>(value: T) => ({ value, source: ours });

/** A book with every entry that there can be about equipment. */
function everyEquipment(): RuleBook {
  const sizes: Record<string, Record<string, unknown>> = {};
  for (const [kind, schema] of Object.entries(EquipmentRules.shape)) {
    for (const name of Object.keys(schema.unwrap().shape)) {
      const single = EquipmentRules.safeParse({ [kind]: { [name]: entry({ least: 1, most: 2 }) } }).success;
      (sizes[kind] ??= {})[name] = entry(
        single ? { least: 1, most: 2 } : [{ category: 'A', least: 1, most: 1 }],
      );
    }
  }
  return book({ equipment: EquipmentRules.parse(sizes) });
}

describe('every entry of a book is told', () => {
  test.each([
    ['the worked book', fci2023],
    ['all of the equipment', everyEquipment()],
  ])('%s', (_name, of) => {
    const entries = all(of);
    expect(entries.map((e) => e.rule.name).toSorted()).toEqual(
      entriesOf(of)
        .map((e) => e.name)
        .toSorted(),
    );
    for (const { rule, label, told: lines } of entries) {
      expect(lines, rule.name).not.toEqual([]);
      // A name of the data is no label: what has none of its own would stand as it is.
      expect(label, rule.name).not.toBe(rule.name);
      expect([label, ...lines].join(' '), rule.name).not.toMatch(/undefined|NaN|\[object/);
      expect(rule.source.text).not.toBe('');
    }
  });

  test('where it comes from stays with it, from memory too', () => {
    const memory = all(fci2023).filter((e) => e.rule.status === 'memory');
    expect(memory.map((e) => e.rule.name)).toContain('course.length');
  });
});

test('the figures are those of the book', () => {
  expect(told(fci2023, 'categories')).toEqual([
    'S, Small: below 35 cm',
    'M, Medium: 35 cm to below 43 cm',
    'I, Intermediate: 43 cm to below 48 cm',
    'L, Large: 48 cm and more',
  ]);
  expect(told(fci2023, 'bars')).toContain('L: 55 to 60 cm');
  expect(told(fci2023, 'times.maximum.1.rule')).toEqual(['for jumping', 'length of the course over 2.5 m/s']);
  expect(told(fci2023, 'times.standard.0.rule')?.at(-1)).toBe(
    'the best dog’s time and 15 % more, rounded up to 1 s',
  );
  expect(told(fci2023, 'scoring.timeFaults')).toEqual([
    '1 fault for each second over the course time, to hundredths',
  ]);
  expect(told(fci2023, 'scoring.contacts')).toContain('dog walk: the way down');
});

test('ends that are open, and forms that the worked book does not use', () => {
  const of = (least?: number, most?: number) =>
    told(
      book({
        course: {
          obstacles: entry({
            ...(least === undefined ? {} : { least }),
            ...(most === undefined ? {} : { most }),
          }),
        },
      }),
      'course.obstacles',
    );
  expect([of(15, 22), of(15), of(undefined, 22), of()]).toEqual([
    ['15 to 22'],
    ['15 at the least'],
    ['22 at the most'],
    ['any'],
  ]);
  const more = book({
    times: {
      standard: [{ rule: entry({ form: 'stated' as const }) }],
      maximum: [
        {
          rule: entry({
            ...{ form: 'timesStandard' as const, usual: 2, least: 1.5 },
            rounding: { toSeconds: 0.5, way: 'down' as const },
          }),
        },
      ],
    },
    scoring: {
      timeFaults: entry({ points: 1, perSeconds: 5, counting: 'begun' as const }),
      eliminations: entry(['own:too noisy' as const, 'collar' as const]),
      levels: [
        entry({ id: 'start', name: 'First steps', beginners: true, notCounted: ['refusal' as const] }),
      ],
    },
  });
  expect(told(more, 'times.standard.0.rule')).toEqual(['as the judge states it']);
  expect(told(more, 'times.maximum.0.rule')).toEqual([
    '2 × the standard course time, never below 1.5 ×, cut to 0.5 s',
  ]);
  expect(told(more, 'scoring.timeFaults')).toEqual([
    '1 fault for each 5 seconds over the course time, each one begun counts whole',
  ]);
  expect(told(more, 'scoring.eliminations')).toEqual(['too noisy and ran with a collar']);
  expect(told(more, 'scoring.levels.0')).toEqual([
    'First steps (start)',
    'for beginners',
    'not counted: refusals',
  ]);
});

test('a name that no book has is told as it is, whatever it is', () => {
  for (const name of ['', 'constructor', 'scoring.runs.toString', 'equipment.aFrame.valueOf', 'x.y.z'])
    expect(entryLabel(name, 'american')).toBe(name);
  expect(entryLabel('equipment.tyre.aperture', 'american')).toBe('Tire: aperture');
});
