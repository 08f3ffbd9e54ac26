import { HtmlValidate } from 'html-validate';
import { describe, expect, test } from 'vitest';
import { analysisDocument } from '../../../src/report/analysisDocument.ts';
import { reportFileStem } from '../../../src/report/fileName.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { shortReportHtml } from '../../../src/report/htmlShort.ts';
import { buildReport, type ReportInput } from '../../../src/report/model.ts';
import { cutShort, shortOf } from '../../../src/report/short.ts';
import { stillsOffered, stillsWanted } from '../../../src/report/stills.ts';
import type { ReportSays } from '../../../src/review/coachSays.ts';
import { coachingReport as words } from '../../../src/words/coachingReport.ts';
import { figuresIn, valueAt } from './figuresIn.ts';
import { measuredSample } from './measured.ts';
import { onePixel, sample } from './sample.ts';

const nothing = new Map();
const says = (report: Partial<ReportSays>): ReportInput => {
  const { review, analysis, clips } = sample((raw) => {
    Object.assign(raw.header, { report });
  });
  return { review, analysis, clips, stills: nothing };
};
const valid = async (html: string): Promise<string[]> => {
  const check = new HtmlValidate({
    extends: ['html-validate:recommended', 'html-validate:standard', 'html-validate:a11y'],
  });
  const { results } = await check.validateString(html);
  return results.flatMap((r) => r.messages.map((m) => `${m.ruleId}: ${m.message}`));
};

describe('the coach’s hand in the report', () => {
  const ours = buildReport(says({})).sentences;

  test('every sentence on crosses, their plans and starts is open to her', () => {
    expect(ours.map((s) => s.of)).toEqual([
      ...['cross:c4', 'planned:c4', 'cross:c7', 'planned:c7', 'cross:c16', 'planned:c16'],
      ...['cross:c18', 'planned:c18', 'start:1', 'start:2'],
    ]);
    const html = reportHtml(buildReport(says({})));
    const read = html.replace(/<[^>]*>/g, '');
    for (const { ours: text } of ours) expect(read).toContain(text);
  });

  test('her words stand in place of ours, as written, and an emptied sentence is left out', () => {
    const own = [
      { of: 'cross:c7', text: '<b>Sooner</b>, please & thank you', instead: 'x' },
      { of: 'cross:c4', text: '', instead: 'x' },
    ];
    const model = buildReport(says({ own }));
    const html = reportHtml(model);
    expect(html).toContain('&lt;b&gt;Sooner&lt;/b&gt;, please &amp; thank you');
    expect(model.crosses.find((c) => c.id === 'c4')?.sentence).toEqual([]);
    expect(html).not.toContain('<p class="said"></p>');
    // The verdict and its figures are measured; they stay.
    const verdicts = (m: typeof model): string[] => m.crosses.map((c) => c.verdict);
    expect(verdicts(model)).toEqual(verdicts(buildReport(says({}))));
    expect(model.sentences.find((s) => s.of === 'cross:c7')?.own?.instead).toBe('x');
  });

  test('names are left out of her words too, where she leaves names out', () => {
    const { review, analysis, clips } = sample((raw) => {
      const own = [{ of: 'cross:c7', text: 'Tansy waited for Maren.', instead: 'x' }];
      Object.assign(raw.header, { report: { own }, words: { ...raw.header.words, leaveNamesOut: true } });
    });
    const html = reportHtml(buildReport({ review, analysis, clips, stills: nothing }));
    expect(html).toContain('the dog waited for the handler.');
    expect(html).not.toContain('Tansy');
  });

  test('a still that she leaves out is neither made nor shown', () => {
    const all = says({});
    const [first] = stillsOffered(all.review, all.analysis);
    if (!first) throw new Error('no still');
    const { review, analysis, clips } = says({ without: [first.id] });
    const wanted = stillsWanted(review, analysis);
    expect(wanted.map((w) => w.id)).not.toContain(first.id);
    expect(wanted).toHaveLength(stillsOffered(review, analysis).length - 1);
    const stills = new Map(
      stillsOffered(review, analysis).map((w) => [w.id, { base64: onePixel, width: 16, height: 9 }]),
    );
    const count = (html: string): number => html.match(/<img /g)?.length ?? 0;
    const before = count(reportHtml(buildReport({ ...all, stills })));
    expect(count(reportHtml(buildReport({ review, analysis, clips, stills })))).toBe(before - 1);
  });
});

describe('copies', () => {
  test('the student’s has nothing of what the coach noted for herself; her own has it, and says whose it is', () => {
    const input = says({ forCoach: 'Ask <them> about the limp.' });
    const student = reportHtml(buildReport(input));
    const coach = reportHtml(buildReport({ ...input, copy: 'coach' }));
    expect(student).not.toContain('limp');
    expect(student).not.toContain(words.headings.coachNotes);
    expect(coach).toContain('Ask &lt;them&gt; about the limp.');
    expect(coach).toContain(words.alsoSeen);
    expect(coach).toContain('the coach’s own copy');
    const { header } = input.review;
    expect(reportFileStem(header, { short: true, copy: 'coach' })).not.toBe(reportFileStem(header));
  });

  test('in short: valid, verdicts of all crosses, no splits, no stills; what is too long ends at a sentence', async () => {
    const html = shortReportHtml(buildReport(says({})));
    expect(await valid(html)).toEqual([]);
    expect(html).not.toContain('<img');
    expect(html).not.toContain('<table');
    expect(html.match(/class="verdict/g)).toHaveLength(6);
    expect(cutShort('One. Two is here. Three goes on for longer.', 24)).toBe('One. Two is here. …');
    expect(cutShort('wordswithoutend and more of them', 20)).toBe('wordswithoutend and …');
    expect(cutShort('short', 20)).toBe('short');
  });

  test('in short, where not all crosses fit, those that need work are told', () => {
    const model = buildReport(says({}));
    const [first] = model.crosses;
    if (!first) throw new Error('no cross');
    const inTime = Array.from({ length: 8 }, (_, i) => ({
      ...first,
      id: `t${i}`,
      verdict: 'inTime' as const,
    }));
    const short = shortOf({ ...model, crosses: [...inTime, { ...first, id: 'late', verdict: 'late' }] });
    expect(short.crosses).toHaveLength(6);
    expect(short.crosses.map((c) => c.id)).toContain('late');
    expect(short.moreCrosses).toBe(3);
  });
});

describe('what the run says beyond its marks', () => {
  const { review, analysis, clips, facts } = measuredSample();
  const html = reportHtml(buildReport({ review, analysis, clips, facts, stills: nothing }));
  const told: unknown = JSON.parse(JSON.stringify(analysisDocument(review, analysis, facts)));

  test('way and speed of each stretch are those that analyse tells', () => {
    const figures = figuresIn(html).filter((f) => f.path.startsWith('line.'));
    expect(figures.length).toBeGreaterThan(20);
    for (const f of figures)
      expect(valueAt(told, f.path), f.path).toEqual({ value: f.value, plusMinus: f.plusMinus, unit: f.unit });
  });

  test('what the way after a cross took over the wanted line stands with the cross, as analyse tells it', () => {
    const figures = figuresIn(html).filter((f) => /over\.(seconds|metres)$/.test(f.path));
    // Two figures for each cross but one whose way on the line does not have from end to end.
    expect(figures.length).toBeGreaterThanOrEqual(4);
    for (const f of figures)
      expect(valueAt(told, f.path), f.path).toEqual({ value: f.value, plusMinus: f.plusMinus, unit: f.unit });
    expect(html).toContain(words.figures.price(7, 8));
  });

  test('how far her paws moved at the start stands with the try, as analyse tells it', () => {
    const figures = figuresIn(html).filter((f) => f.path.startsWith('paws'));
    expect(figures.map((f) => f.value)).toEqual([6.2, 0.4]);
    for (const f of figures)
      expect(valueAt(told, f.path), f.path).toEqual({ value: f.value, plusMinus: f.plusMinus, unit: 'cm' });
    expect(html).toContain(String(valueAt(told, 'paws[0].words')));
  });

  test('the result is the one that analyse tells, with its rule book, and unofficial', async () => {
    const words = valueAt(told, 'score.words');
    if (typeof words !== 'string') throw new Error('no result');
    expect(words).not.toBe('');
    expect(html).toContain(`<dd>${words}</dd>`);
    expect(html).toContain('Result, unofficial');
    expect(html).toContain('The result is counted by the rule book');
    expect(await valid(html)).toEqual([]);
  });

  test('the line she ran lies on the map, and the map says so', () => {
    const [, points = ''] = /<polyline class="l-real" points="([^"]*)"/.exec(html) ?? [];
    const places = points.split(' ').map((p) => p.split(',').map(Number));
    expect(places.length).toBeGreaterThan(100);
    // Obstacle 3 stands at 5, 17; the map's corner is the ring's far left one at 0, 40.
    const nearest = Math.min(...places.map(([x = 0, y = 0]) => Math.hypot(x - 5, y - (40 - 17))));
    expect(nearest).toBeLessThan(0.5);
    expect(html).toContain(words.lines.real);
  });

  test('where the coach says nothing of training, the run does, with an exercise of her list', () => {
    const quiet = {
      ...review,
      header: { ...review.header, words: { ...review.header.words, toTrain: '' } },
    };
    const exercises = [{ id: 'x', themes: ['entry' as const], title: 'Her <own>', how: 'Slowly.' }];
    const own = reportHtml(
      buildReport({ review: quiet, analysis, clips, facts, exercises, stills: nothing }),
    );
    expect(own).toContain('Her &lt;own&gt;');
    expect(own).toContain(words.byTheRun);
    expect(html).not.toContain(words.byTheRun);
  });
});
