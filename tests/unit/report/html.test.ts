import { HtmlValidate } from 'html-validate';
import { describe, expect, test } from 'vitest';
import { reportHtml } from '../../../src/report/html.ts';
import { buildReport } from '../../../src/report/model.ts';
import { stillsWanted, type Still } from '../../../src/report/stills.ts';
import { onePixel, sample } from './sample.ts';

const hostile = {
  script: `<script>alert(1)</script>`,
  image: `"><img src=x onerror=alert(1)>`,
  attribute: `' onmouseover='alert(1)`,
  comment: `--><!-- </style></title>`,
  address: `https://example.org/?a=1&amp;b=<b>`,
  turned: `Bella \u202Egnirob\u2066`,
  hebrew: 'כלב מהיר',
  emoji: '🐕‍🦺 fast & happy',
  control: 'a\u0000b\u0007c\u009bd\uD800e',
};

function withStills(change?: Parameters<typeof sample>[0]) {
  const { review, analysis, clips } = sample(change);
  const still: Still = { base64: onePixel, width: 960, height: 540 };
  const stills = new Map(stillsWanted(review, analysis).map((w) => [w.id, still]));
  return reportHtml(buildReport({ review, analysis, clips, stills }));
}

const hostileReport = () =>
  withStills((raw) => ({
    header: {
      ...raw.header,
      title: `${hostile.script}${hostile.turned}`,
      dog: hostile.image,
      handler: hostile.hebrew,
      ownEvents: [{ id: 'own:tail', label: hostile.attribute }],
      words: {
        wentWell: `${hostile.comment}\n\n${hostile.emoji}`,
        toTrain: hostile.address,
        notes: hostile.control,
        leaveNamesOut: false,
      },
    },
    course: {
      ...raw.course,
      obstacles: raw.course.obstacles.map((o) => ({ ...o, nickname: hostile.image.slice(0, 60) })),
    },
    footage: raw.footage.map((f) => ({ ...f, name: `${hostile.script}.mp4` })),
    crosses: raw.crosses.map((c) => ({ ...c, note: hostile.image })),
  }));

describe('the report file', () => {
  test('is valid HTML, with pictures, without, with nothing marked, and with hostile words', async () => {
    const check = new HtmlValidate({
      extends: ['html-validate:recommended', 'html-validate:standard', 'html-validate:a11y'],
    });
    const empty = sample(() => ({ marks: [], crosses: [], drawings: [] }));
    const bare = sample();
    const files = {
      pictures: withStills(),
      noPictures: reportHtml(buildReport({ ...bare, stills: new Map() })),
      empty: reportHtml(buildReport({ ...empty, stills: new Map() })),
      hostile: hostileReport(),
    };
    for (const [name, html] of Object.entries(files)) {
      const report = await check.validateString(html);
      const found = report.results.flatMap((r) => r.messages.map((m) => `${m.ruleId}: ${m.message}`));
      expect(found, name).toEqual([]);
    }
  });

  test('stands on its own: a strict policy, no script, nothing that loads', () => {
    const html = withStills();
    expect(html).toContain(
      `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:;`,
    );
    expect(html).not.toMatch(/<script|<link|<iframe|<object|<embed|<form|@import|url\(/i);
    expect(html).not.toMatch(/\s(?:src|href|srcset|action|poster)="(?!data:image\/jpeg;base64,)/i);
    expect(html).not.toMatch(/https?:/i);
    expect(html).toMatch(/^<!DOCTYPE html>\n<html lang="en-GB">/);
  });

  test('shows hostile words as written and lets none of them act', () => {
    const html = hostileReport();
    const tags = [...html.matchAll(/<([a-z0-9]+)[\s>]/gi)].map(([, name]) => name);
    expect(tags).not.toContain('script');
    expect(html).not.toMatch(/<img(?![^>]* src="data:image\/jpeg)/);
    expect(html).not.toMatch(/<[^>]*\son\w+=/i);
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(html).toContain('&quot;&gt;&lt;img src=x onerror=alert(1)&gt;');
    expect(html).toContain('&#39; onmouseover=&#39;alert(1)');
    expect(html).toContain('https://example.org/?a=1&amp;amp;b=&lt;b&gt;');
    expect(html).toContain(hostile.hebrew);
    expect(html).toContain('🐕‍🦺 fast &amp; happy');
    expect(html).toContain('a\uFFFDb\uFFFDc\uFFFDd\uFFFDe');
    expect(html).not.toMatch(/[\u202A-\u202E\u2066-\u2069]/);
  });

  test('has one title, headings in order, captions, and words for every picture', () => {
    const html = withStills();
    const levels = [...html.matchAll(/<h([1-6])[\s>]/g)].map(([, level]) => Number(level));
    expect(levels.filter((l) => l === 1)).toHaveLength(1);
    levels.forEach((level, i) => expect(level - (levels[i - 1] ?? 0)).toBeLessThanOrEqual(1));
    expect(html.match(/<table/g)).toHaveLength(html.match(/<caption/g)?.length ?? 0);
    const alts = [...html.matchAll(/<img [^>]*alt="([^"]*)"/g)].map(([, alt]) => alt ?? '');
    expect(alts.length).toBeGreaterThan(10);
    expect(alts.filter((a) => a.trim() === '')).toEqual([]);
    expect(html).toContain('<title>Tansy, second evening on the long course · Coaching report</title>');
  });

  test('tells what went well before anything else, and ends with the cautions and the small print', () => {
    const html = withStills();
    const order = [
      'What went well',
      'The run at a glance',
      'The course and its splits',
      'Crosses, one by one',
      'At the start line',
      'Noted along the way',
      'To train',
      'Stop at any sign of lameness',
      'Notes from your coach',
      'unofficial: the judge’s call stands',
    ].map((text) => html.indexOf(text));
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(Math.min(...order)).toBeGreaterThan(0);
  });

  test('lays the coach’s strokes over the still as vectors', () => {
    const html = withStills();
    expect(html).toContain('<polyline class="ink-persimmon" points="288,216 432,270 576,226.8"');
    expect(html).toContain('Drawn on the footage');
  });

  test('says that pictures are missing, and shows no empty place for them', () => {
    const { review, analysis, clips } = sample();
    const html = reportHtml(buildReport({ review, analysis, clips, stills: new Map() }));
    expect(html).not.toContain('<img');
    expect(html).toContain('The footage was not at hand');
  });

  test('never carries a path of a clip', () => {
    const html = withStills((raw) => ({
      footage: raw.footage.map((f) => ({
        ...f,
        clip: { ...f.clip, path: '/home/someone/secret/evening.mp4' },
      })),
    }));
    expect(html).not.toContain('secret');
  });
});
