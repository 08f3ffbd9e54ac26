import type { CrossVerdict, StayVerdict } from '../review/analysis.ts';
import { escaped } from './escape.ts';
import { isFigure, type Figure, type Line } from './pieces.ts';
import type { Picture } from './pictures.ts';

/** A number as it stands in an attribute of a drawing: at most two digits after the point. */
export const at = (n: number): string => String(Number(n.toFixed(2)));

/** A line as HTML: our words as they are, figures with their exact values, people's words set apart. */
export function lineHtml(line: Line): string {
  return line
    .map((piece) => {
      if (typeof piece === 'string') return escaped(piece);
      return isFigure(piece) ? figureHtml(piece) : `<bdi>${escaped(piece.written)}</bdi>`;
    })
    .join('');
}

/** A figure that carries what it was made from, so that every one can be held against the analysis. */
export function figureHtml(f: Figure): string {
  const { value, plusMinus, unit } = f.quantity;
  const [number, ...range] = f.text.split(' ± ');
  const shown =
    range.length === 0
      ? escaped(f.text)
      : `${escaped(number ?? '')} <span class="pm">± ${escaped(range.join(' ± '))}</span>`;
  const data = `data-figure="${escaped(f.path)}" data-value="${value}" data-plus-minus="${plusMinus}" data-unit="${escaped(unit)}"`;
  return `<span class="fig" ${data}>${shown}</span>`;
}

/** A person's longer text: paragraphs at blank lines, line breaks kept, direction by its own script. */
export function writtenHtml(text: string): string {
  return text
    .split(/\r?\n[ \t]*(?:\r?\n)+/)
    .filter((p) => p.trim() !== '')
    .map((p) => `<p class="written" dir="auto">${escaped(p.trim())}</p>`)
    .join('\n');
}

const signs: Record<CrossVerdict | StayVerdict, string> = {
  inTime: '<circle cx="7" cy="7" r="6"/>',
  kept: '<circle cx="7" cy="7" r="6"/>',
  tight:
    '<circle cx="7" cy="7" r="5.5" fill="none" stroke-width="1.5"/><path d="M7 1.5a5.5 5.5 0 0 1 0 11z"/>',
  late: '<path d="M7 1.5l6 11H1z"/>',
  broken: '<path d="M7 1.5l6 11H1z"/>',
  tooEarly: '<path d="M1.5 7l11-6v12z"/>',
  cannotTell: '<circle cx="7" cy="7" r="5.5" fill="none" stroke-width="1.5" stroke-dasharray="3 2"/>',
  notMarked: '<path d="M2 7h10" fill="none" stroke-width="2"/>',
  standing: '<path d="M2.5 2.5h9v9h-9z" fill="none" stroke-width="1.5"/>',
};

/** The sign of a verdict: a shape of its own, so that colour is never alone. Decorative: words stand beside it. */
export function signHtml(verdict: CrossVerdict | StayVerdict): string {
  return `<svg width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">${signs[verdict]}</svg>`;
}

export function verdictHtml(verdict: CrossVerdict | StayVerdict, words: string): string {
  return `<p class="verdict v-${verdict}">${signHtml(verdict)}${escaped(words)}</p>`;
}

/** A still with the coach's strokes over it as vectors. */
export function pictureHtml(picture: Picture): string {
  const { still, strokes, part } = picture;
  const tall = still.height > still.width ? ' tall' : '';
  const size = `width="${at(still.width)}" height="${at(still.height)}"`;
  const image = `<img src="data:image/jpeg;base64,${escaped(still.base64)}" ${size} alt="${escaped(picture.alt)}">`;
  const framed = (inside: string): string => {
    if (!part) return `<div class="pic${tall}">${inside}</div>`;
    const share = (n: number): string => `${at((100 * n) / part.size)}%`;
    const moved = `width:${share(1)};left:${share(-part.x)};top:${share(-part.y)}`;
    return `<div class="pic close${tall}" style="aspect-ratio:${at(still.width)}/${at(still.height)}"><div class="whole" style="${moved}">${inside}</div></div>`;
  };
  if (strokes.length === 0) return framed(image);
  const thick = Math.max(2, still.width / 180);
  const drawn = strokes.map((s) => {
    const points: string[] = [];
    for (let i = 0; i + 1 < s.points.length; i += 2) {
      points.push(`${at((s.points[i] ?? 0) * still.width)},${at((s.points[i + 1] ?? 0) * still.height)}`);
    }
    const line = points.join(' ');
    return `<polyline class="casing" points="${line}" stroke-width="${at(thick * 1.8)}"/><polyline class="ink-${s.ink}" points="${line}" stroke-width="${at(thick)}"/>`;
  });
  const box = `viewBox="0 0 ${at(still.width)} ${at(still.height)}"`;
  return framed(`${image}<svg ${box} ${size} aria-hidden="true">${drawn.join('')}</svg>`);
}

/** A part of the report under its heading; empty where it says nothing. */
export function section(id: string, className: string, heading: string, body: string): string {
  if (body === '') return '';
  const name = className === '' ? '' : ` class="${className}"`;
  return `<section${name} aria-labelledby="${id}">
<h2 id="${id}">${escaped(heading)}</h2>
${body}
</section>`;
}
