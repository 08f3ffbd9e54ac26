import { describe, expect, test } from 'vitest';
import { analysisDocument } from '../../../src/report/analysisDocument.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { buildReport } from '../../../src/report/model.ts';
import { figure } from '../../../src/words/figures.ts';
import { figuresIn, valueAt } from './figuresIn.ts';
import { sample } from './sample.ts';

const { review, analysis, clips } = sample();
const html = reportHtml(buildReport({ review, analysis, clips, stills: new Map() }));
const told: unknown = JSON.parse(JSON.stringify(analysisDocument(review, analysis)));
const figures = figuresIn(html);

describe('figures of the report', () => {
  test('each is the one that the analysis gives under its path', () => {
    expect(figures.length).toBeGreaterThan(80);
    for (const f of figures) {
      expect(valueAt(told, f.path), f.path).toEqual({ value: f.value, plusMinus: f.plusMinus, unit: f.unit });
    }
  });

  test('all splits, the clock, and what each cross and try was judged by are there', () => {
    const paths = new Set(figures.map((f) => f.path));
    const wanted = [
      'clock.time',
      ...analysis.splits.map((_, i) => `splits[${i}].time`),
      ...analysis.crosses.flatMap((c, i) => [
        ...(c.lead ? [`crosses[${i}].lead`, `crosses[${i}].leadFrames`] : []),
        ...(c.finish && c.kind !== 'rear' ? [`crosses[${i}].finish`] : []),
        ...(c.afterCommitted && c.kind === 'rear' ? [`crosses[${i}].afterCommitted`] : []),
      ]),
      ...analysis.startLine.flatMap((s, i) => [
        ...(s.stay ? [`startLine[${i}].stay`] : []),
        ...(s.verdict === 'broken' && s.early ? [`startLine[${i}].early`] : []),
      ]),
      ...analysis.events.map((_, i) => `events[${i}].moment.at`),
    ];
    expect(wanted.filter((path) => !paths.has(path))).toEqual([]);
    expect(wanted.length).toBeGreaterThan(30);
  });

  test('each is printed by the one catalogue, with its sign or with before and after', () => {
    for (const f of figures.filter((x) => !x.path.endsWith('.stride'))) {
      const q = { value: f.value, plusMinus: f.plusMinus, unit: f.unit };
      expect([figure(q), figure({ ...q, value: Math.abs(q.value) })], f.path).toContain(f.text);
    }
  });

  test('a negative lead is said to be after, by its size', () => {
    expect(html).toMatch(/data-figure="crosses\[1\]\.lead" data-value="-0\.08\d+"[^>]*>0\.083 s/);
    expect(html).toMatch(
      /The cue came <span[^>]*>0\.083 s <span class="pm">± 0\.017<\/span><\/span> after take-off/,
    );
  });
});
