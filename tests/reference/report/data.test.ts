import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Browser } from 'playwright';
import { csvOf } from '../../../src/report/data/csv.ts';
import { captionsOf } from '../../../src/report/data/captions.ts';
import { dataTables } from '../../../src/report/data/tables.ts';
import { webVtt } from '../../../src/report/data/webVtt.ts';
import { clocksOf } from '../../../src/review/readDocument.ts';
import { startChromium } from '../../e2e/shell/chromium.ts';
import { sample } from '../../unit/report/sample.ts';

const hostile = [
  '=HYPERLINK("http://x.invalid")',
  '@SUM(A1)',
  'a, "b"\r\nc;d',
  '<script>alert(1)</script> --> & more',
  'כלב 🐕',
  '../../etc/passwd',
];

const {
  review,
  analysis,
  document: file,
} = sample((raw) => {
  raw.marks.forEach((m, i) => {
    if ('kind' in m && m.kind === 'event') Object.assign(m, { note: hostile[i % hostile.length] });
  });
});

// Papa Parse, an RFC 4180 reader that shares no code with the library that writes.
describe('tables read back by another library', () => {
  const read = (text: string): string[][] => {
    const { data, errors } = Papa.parse<string[]>(text, { skipEmptyLines: false, newline: '\r\n' });
    expect(errors).toEqual([]);
    return data.slice(0, -1);
  };

  test('each has its rows, as wide as its head, and every figure with all its digits', () => {
    for (const table of dataTables(review, analysis)) {
      const [head, ...rows] = read(csvOf(table));
      expect(head).toEqual(table.columns);
      expect(rows).toHaveLength(table.rows.length);
      rows.forEach((row, i) => {
        row.forEach((cell, k) => {
          const meant = table.rows[i]?.[k];
          if (typeof meant === 'number') expect(Number(cell)).toBe(meant);
          else if (meant === null) expect(cell).toBe('');
        });
      });
    }
    expect(dataTables(review, analysis).map((t) => t.rows.length)).toEqual([
      analysis.splits.length,
      analysis.taken.length,
      analysis.crosses.length,
      analysis.startLine.length,
      analysis.events.length,
    ]);
  });

  test('what people wrote is there as written, and nothing of it is a formula', () => {
    const events = dataTables(review, analysis).find((t) => t.name === 'events');
    if (!events) throw new Error('no events');
    const notes = read(csvOf(events)).map((row) => row.at(-1) ?? '');
    for (const text of hostile.filter((h) => analysis.events.some((e) => e.mark.note === h)))
      expect(notes.map((n) => n.replace(/^'/, ''))).toContain(text);
    for (const note of notes) expect(note).not.toMatch(/^[=+@\t\r]/);
  });
});

// The WebVTT parser of Chromium itself (W3C WebVTT).
describe('captions read by a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startChromium();
  });
  afterAll(() => browser.close());

  test('are the same cues at the same times, shown as written', async () => {
    const clock = clocksOf(file).get('f1');
    if (!clock) throw new Error('no clip');
    const captions = captionsOf(review, analysis, 'f1', clock.table);
    const page = await browser.newPage();
    for (const list of [captions.chapters, captions.remarks]) {
      expect(list.length).toBeGreaterThan(4);
      const cues = await page.evaluate(
        async (url) => {
          const video = document.body.appendChild(document.createElement('video'));
          const track = video.appendChild(document.createElement('track'));
          track.src = url;
          const loaded = new Promise((done, fail) => {
            track.onload = done;
            track.onerror = fail;
          });
          track.track.mode = 'hidden';
          await loaded;
          return [...(track.track.cues ?? [])].map((cue) => ({
            from: cue.startTime,
            to: cue.endTime,
            text: (cue as VTTCue).getCueAsHTML().textContent,
          }));
        },
        `data:text/vtt;charset=utf-8,${encodeURIComponent(webVtt(list))}`,
      );
      expect(cues).toHaveLength(list.length);
      list.forEach((caption, i) => {
        expect(cues[i]?.from).toBeCloseTo(caption.from, 2);
        expect(cues[i]?.to).toBeCloseTo(caption.to, 2);
        expect(cues[i]?.text).toBe(caption.text.replace(/[\r\n]+/g, '\n').trim());
      });
    }
    await page.close();
  });
});
