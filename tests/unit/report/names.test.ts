import { describe, expect, test } from 'vitest';
import { Header } from '../../../src/review/document.ts';
import { reportFileStem } from '../../../src/report/fileName.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { buildReport } from '../../../src/report/model.ts';
import { maskFor } from '../../../src/report/names.ts';
import { sample } from './sample.ts';

const header = (of: object): Header => Header.parse({ title: 'A run', ...of });
const leaveNamesOut = { wentWell: '', toTrain: '', notes: '', leaveNamesOut: true };

describe('names left out', () => {
  test('stand nowhere in the file: title, team, texts, notes, clips', () => {
    const { review, analysis, clips } = sample((raw) => ({
      header: {
        ...raw.header,
        words: {
          ...raw.header.words,
          notes: 'Well done, MAREN. Tansy’s turn was tight.',
          leaveNamesOut: true,
        },
      },
      footage: raw.footage.map((f) => ({ ...f, name: 'tansy_1.mp4' })),
      crosses: raw.crosses.map((c) => ({ ...c, note: 'Holt: look at Tansy sooner' })),
    }));
    const html = reportHtml(buildReport({ review, analysis, clips, stills: new Map() }));
    expect(html).not.toMatch(/tansy|maren|holt/i);
    expect(html).toContain('Well done, the handler. the dog’s turn was tight.');
    expect(html).toContain('clip 1');
    expect(reportFileStem(review.header)).not.toMatch(/tansy/i);
  });

  test('masks whole words only, in any script, and text with signs of patterns in it', () => {
    const mask = maskFor(header({ dog: 'Ash', handler: 'Zoë (Z.) O’Neil', words: leaveNamesOut }));
    expect(mask('Ash ashes ASH')).toBe('the dog ashes the dog');
    expect(mask('Zoë and O’Neil')).toBe('the handler and the handler');
    const odd = maskFor(header({ dog: 'R*x (the+great)', words: leaveNamesOut }));
    expect(odd('R*x (the+great) Rex')).toBe('the dog Rex');
  });

  test('without names, or where they may stay, texts are as they were', () => {
    expect(maskFor(header({ words: leaveNamesOut }))('Tansy')).toBe('Tansy');
    expect(maskFor(header({ dog: 'Tansy' }))('Tansy')).toBe('Tansy');
  });
});

describe('the file name', () => {
  test.each([
    ['First evening: a cue too late', 'First-evening-a-cue-too-late-coaching-report'],
    ['../../etc/passwd', 'etc-passwd-coaching-report'],
    ['..', 'coaching-report'],
    ['🐕', 'coaching-report'],
    ['CON', 'CON-coaching-report'],
    ['a/b\\c:d*e?f"g<h>i|j', 'a-b-c-d-e-f-g-h-i-j-coaching-report'],
    ['כלב מהיר', 'כלב-מהיר-coaching-report'],
    ['-rf $(reboot) `x`', 'rf-reboot-x-coaching-report'],
    ['Cafe\u0301', 'Caf\u00E9-coaching-report'],
    ['a\u0000b\nc', 'a-b-c-coaching-report'],
  ])('of %j is %j', (title, name) => {
    expect(reportFileStem(header({ title }))).toBe(name);
  });

  test('is short enough for any disk, and cut between letters', () => {
    const name = reportFileStem(header({ title: '犬'.repeat(200) }));
    expect(Buffer.byteLength(name)).toBeLessThanOrEqual(200);
    expect(name).toMatch(/^犬+-coaching-report$/);
  });
});
