import { expect, test } from 'vitest';
import { inFonts, type FontName } from '../../../src/host/reportPdf/letters.ts';

const has = (font: FontName, point: number): boolean =>
  ({
    regular: point < 0x250,
    strong: point < 0x250,
    hebrew: point >= 0x590 && point < 0x600,
    arabic: point >= 0x600 && point < 0x700,
    signs: point > 0x1f000,
  })[font];
const told = (text: string) => inFonts(text, 'regular', has).map((p) => `${p.font}:${p.text}`);

test('text is set in the fonts that have its letters, words of one script together with their spaces', () => {
  expect(told('Run 2')).toEqual(['regular:Run 2']);
  expect(told('a כלב מהיר b')).toEqual(['regular:a ', 'hebrew:כלב מהיר', 'regular: b']);
  expect(told('🐕 x')).toEqual(['signs:🐕', 'regular: x']);
});

test('what no font has is a box; joiners and turners of direction that no font knows are left out', () => {
  expect(told('犬')).toEqual(['regular:□']);
  expect(told('a\u202Eb\u200Dc\u0000')).toEqual(['regular:abc']);
  expect(told('')).toEqual([]);
  expect(told('a\r\nb')).toEqual(['regular:a\nb']);
});
