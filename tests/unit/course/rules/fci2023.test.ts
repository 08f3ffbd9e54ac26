import { describe, expect, test } from 'vitest';
import { bookProblems } from '../../../../src/course/rules/bookProblems.ts';
import { entriesOf } from '../../../../src/course/rules/entries.ts';
import { fci2023 } from '../../../../src/course/rules/fci2023.ts';
import { ruleBookWords } from '../../../../src/words/ruleBook.ts';

const entries = entriesOf(fci2023);

describe('the worked rule book', () => {
  test('its parts fit together', () => {
    expect(bookProblems(fci2023)).toEqual([]);
  });

  test('every entry says where it comes from; none names a section, since none was read', () => {
    expect(entries.length).toBeGreaterThan(60);
    for (const e of entries) {
      const told = `${e.source.text} ${e.remark ?? ''}`;
      expect(told, e.name).not.toMatch(/\b[A-Z]\.\d|§|\bsection\b|\barticle\b/i);
      expect(ruleBookWords.provenance(e), e.name).toContain(e.source.text);
    }
  });

  test('what nobody read is never called read: the regulations themselves occur from memory alone', () => {
    const regulations = entries.filter((e) => e.source.kind === 'original');
    expect(regulations.length).toBeGreaterThan(5);
    for (const e of regulations) expect(e.status, e.name).toBe('memory');
  });

  test('a page that retells the rules is told as one', () => {
    const spacing = entries.find((e) => e.name === 'course.spacing');
    expect(spacing && ruleBookWords.provenance(spacing)).toBe(
      'FCI changes from 1 January 2012 (jps.pesprotebe.cz); a page that retells the rules; an earlier edition; read',
    );
  });

  test('a list of the entries has each once', () => {
    const names = entries.map((e) => e.name);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toContain('scoring.faults.knockDown');
    expect(names).toContain('equipment.aFrame.apex');
    expect(names).toContain('times.standard.0.rule');
  });
});
