import { strFromU8, unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { reportRoom } from '../../../src/host/report.ts';
import { Preferences } from '../../../src/host/contract/shapes.ts';
import { analysisDocument } from '../../../src/report/analysisDocument.ts';
import { clocksOf } from '../../../src/review/readDocument.ts';
import { sample } from '../report/sample.ts';

const around = { preferences: Preferences.parse({}), book: undefined, clips: new Map() };

test('the figures of a review are one archive: tables, captions of its clip, and what analyse tells', () => {
  const { document, review, analysis } = sample();
  const tables = [...clocksOf(document)].map(([id, clock]) => {
    const use = review.footage.find((f) => f.id === id);
    return [use?.clipId ?? '', clock.table] as const;
  });
  const { name, bytes } = reportRoom.figures({ ...around, review, frames: new Map(tables) });
  expect(name).toMatch(/-figures\.zip$/);
  const files = unzipSync(bytes);
  const folder = name.replace(/\.zip$/, '');
  expect(Object.keys(files)).toEqual(
    expect.arrayContaining([`${folder}/splits.csv`, `${folder}/analysis.json`]),
  );
  expect(Object.keys(files).filter((f) => f.endsWith('.vtt'))).toHaveLength(2 * review.footage.length);
  const told: unknown = JSON.parse(strFromU8(files[`${folder}/analysis.json`] ?? new Uint8Array()));
  expect(told).toEqual(JSON.parse(JSON.stringify(analysisDocument(review, analysis))));
});

test('where names are left out, no file holds or bears one', () => {
  const { review } = sample((raw) => {
    Object.assign(raw.header.words, { leaveNamesOut: true });
  });
  const { name, bytes } = reportRoom.figures({ ...around, review, frames: new Map() });
  const files = unzipSync(bytes);
  expect(files[`${name.replace(/\.zip$/, '')}/analysis.json`]).toBeUndefined();
  const all = Object.entries(files)
    .map(([at, content]) => at + strFromU8(content))
    .join('\n');
  for (const person of [review.header.dog, review.header.handler]) {
    expect(person).not.toBe('');
    expect(all).not.toContain(person);
  }
});
