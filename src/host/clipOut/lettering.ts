import type { SKRSContext2D } from '@napi-rs/canvas';
import { stage } from '../../look/tokens.ts';
import { anyLetters } from '../courseSheet/fonts.ts';

export const font = (size: number, strong = false): string => `${strong ? 600 : 400} ${size}px ${anyLetters}`;

/** Words as people wrote them, without what is not seen but acts: controls, and marks that turn the reading direction. */
export function lettersOf(text: string): string {
  return text
    .normalize('NFC')
    .replace(/\r\n?/g, '\n')
    .replace(/[^\P{C}\n\u200C\u200D]/gu, '')
    .replace(/[\p{Zl}\p{Zp}]/gu, '\n');
}

/** Words in lines no wider than this; where they need more lines than there are, the last ends in an ellipsis. */
export function linesIn(
  to: SKRSContext2D,
  text: string,
  letters: number,
  width: number,
  most: number,
): readonly string[] {
  to.font = font(letters);
  const fits = (line: string): boolean => to.measureText(line).width <= width;
  const lines: string[] = [];
  for (const paragraph of text.split('\n')) {
    let line = '';
    for (const word of paragraph.split(/\s+/u).filter((w) => w !== '')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (fits(longer)) line = longer;
      else {
        if (line !== '') lines.push(line);
        // A word longer than a line is broken where the line ends.
        line = '';
        for (const letter of word) {
          if (line !== '' && !fits(line + letter)) {
            lines.push(line);
            line = '';
          }
          line += letter;
        }
      }
      if (lines.length > most) break;
    }
    if (line !== '') lines.push(line);
  }
  if (lines.length <= most) return lines;
  const last = Array.from(lines[most - 1] ?? '');
  while (last.length > 0 && !fits(`${last.join('')}…`)) last.pop();
  return [...lines.slice(0, most - 1), `${last.join('').trimEnd()}…`];
}

/** Height of a line, in heights of letters. */
const lineHeight = 1.28;
/** Where letters stand in their line, from its upper edge. */
const baseline = 0.97;

/** Lines of words on a dark ground: from a corner above, or centred above the lower edge. */
export function box(
  to: SKRSContext2D,
  lines: readonly string[],
  at: {
    readonly letters: number;
    readonly x: number;
    readonly y: number;
    readonly from: 'left' | 'right' | 'bottom';
  },
): void {
  if (lines.length === 0) return;
  const { letters, from } = at;
  to.font = font(letters);
  const pad = letters * 0.5;
  const width = Math.max(...lines.map((line) => to.measureText(line).width)) + 2 * pad;
  const height = lines.length * letters * lineHeight + pad;
  const x = from === 'left' ? at.x : from === 'right' ? at.x - width : at.x - width / 2;
  const y = from === 'bottom' ? at.y - height : at.y;
  to.beginPath();
  to.roundRect(x, y, width, height, letters * 0.3);
  to.globalAlpha = 0.82;
  to.fillStyle = stage.surround;
  to.fill();
  to.globalAlpha = 1;
  to.fillStyle = stage.text;
  to.textAlign = 'center';
  lines.forEach((line, i) => {
    to.fillText(line, x + width / 2, y + pad / 2 + (i * lineHeight + baseline) * letters);
  });
}
