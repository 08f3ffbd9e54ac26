import { coachingReport as words } from '../words/coachingReport.ts';
import type { CourseMap, MapShape } from '../course/courseMap.ts';
import type { CrossCard, StripMark } from './crossCards.ts';
import { escaped } from './escape.ts';
import { at, signHtml } from './htmlPieces.ts';
import type { MapLine } from './mapLines.ts';
import type { BandPiece } from './model.ts';

/** Widest the line of time gets before it runs on in a second row, and the narrowest a stretch may be, pixels. */
const rowWidth = 900;
const narrowest = 27;
const fastest = 34;

/**
 * The run on one line of time, to scale. One small drawing a stretch, each as wide as it was long, so that the
 * line runs on in the next row where the page is narrow. The splits table says the same in text.
 */
export function bandHtml(band: readonly BandPiece[]): string {
  if (band.length === 0) return '';
  const total = band.reduce((sum, b) => sum + b.seconds, 0);
  const scale = total > 0 ? Math.min(fastest, (rowWidth - narrowest) / total) : fastest;
  const pieces = band.map((b, i) => {
    const width = Math.round(Math.max(narrowest, b.seconds * scale));
    const x = width - 13;
    const tag = b.cross
      ? `<g transform="translate(${at(x - 7)} 45)" class="v-${b.cross.verdict}">${bare(signHtml(b.cross.verdict))}</g>`
      : '';
    const seen = b.events
      .slice(0, 4)
      .map((_, k) => `<path class="seen" d="M${at(x - 17 - k * 9)} 25l4 5-4 5-4-5z"/>`)
      .join('');
    const first = i === 0 ? ' lead-in' : '';
    return `<svg width="${at(width)}" height="64"><path class="run${first}" d="M0 36H${at(width)}"/><path class="post" d="M${at(x)} 36V22"/><rect class="plate" x="${at(x - 11.5)}" y="1" width="23" height="21" rx="4"/><text x="${at(x)}" y="16" text-anchor="middle">${b.to}</text>${seen}${tag}</svg>`;
  });
  return `<figure><div class="band" role="img" aria-label="${escaped(words.band)}">${pieces.join('')}</div><figcaption aria-hidden="true">${escaped(words.bandCaption)}${keyHtml(band)}</figcaption></figure>`;
}

/** What the signs on the line of time mean: only those that stand there. */
function keyHtml(band: readonly BandPiece[]): string {
  const seen = new Map(band.flatMap((b) => (b.cross ? [[b.cross.verdict, b.cross.words] as const] : [])));
  const signs = [...seen].map(
    ([verdict, meaning]) => `<span class="key v-${verdict}">${signHtml(verdict)}${escaped(meaning)}</span>`,
  );
  return signs.length === 0 ? '' : ` ${escaped(words.bandCrosses)} ${signs.join(' ')}`;
}

const bare = (svg: string): string => svg.replace(/^<svg[^>]*>/, '').replace(/<\/svg>$/, '');

/** The moments of a cross in order and to scale; brackets are bars, the flight is shaded. */
export function stripHtml(strip: CrossCard['strip']): string {
  if (strip.marks.length === 0) return '';
  const [from, to] = strip.flight ?? [0, 0];
  const air = strip.flight
    ? `<rect class="air" x="${at(from)}%" y="32" width="${at(to - from)}%" height="24"/>`
    : '';
  return `<svg class="strip" role="img" aria-label="${escaped(words.strip)}">${air}<line class="axis" x1="0%" x2="100%" y1="44" y2="44"/>${strip.marks.map(stripMark).join('')}</svg>`;
}

function stripMark(m: StripMark): string {
  const middle = m.left + m.width / 2;
  return `<g class="p-${m.part}"><line class="stem" x1="${at(m.dot)}%" x2="${at(middle)}%" y1="22" y2="38"/><rect class="span" x="${at(m.left)}%" y="38" width="${at(m.width)}%" height="12" rx="2"/><circle class="dot" cx="${at(m.dot)}%" cy="12" r="11"/><text x="${at(m.dot)}%" y="12">${m.n}</text></g>`;
}

/** The number of a moment as it stands on the strip. */
export function momentDot(n: number, part: string): string {
  return `<svg class="n" width="24" height="24" viewBox="0 0 24 24" aria-hidden="true"><g class="p-${part}"><circle class="dot" cx="12" cy="12" r="11"/><text x="12" y="12">${n}</text></g></svg>`;
}

/** The length of a split beside the longest. */
export function shareHtml(share: number): string {
  return `<svg class="share" aria-hidden="true"><rect width="${at(share * 100)}%" height="5" rx="2"/></svg>`;
}

/** The course map as a vector drawing. */
export function mapHtml(map: CourseMap | null, lines: readonly MapLine[] = []): string {
  if (!map) return '';
  const text = mapTold(map, lines);
  const over = lines
    .map(({ as, points }) => {
      const line = points.map(([x, y]) => `${at(x)},${at(y)}`).join(' ');
      const dashed = as === 'wanted' ? ` stroke-dasharray="${at(map.textSize / 3)}"` : '';
      return `<polyline class="casing" points="${line}" stroke-width="${at(map.textSize / 4)}"/><polyline class="l-${as}" points="${line}" stroke-width="${at(map.textSize / 7)}"${dashed}/>`;
    })
    .join('');
  const drawn = (numbers: boolean): string =>
    map.shapes
      .filter(({ shape }) => (shape === 'number') === numbers)
      .map((s) => mapShape(s, map.textSize))
      .join('');
  return `<figure class="map${isTall(map) ? ' tall' : ' wide'}"><svg viewBox="0 0 ${at(map.width)} ${at(map.height)}" role="img" aria-label="${escaped(text)}"><g font-size="${at(map.textSize)}">${drawn(false)}${over}${drawn(true)}</g></svg><figcaption aria-hidden="true">${escaped(text)}</figcaption></figure>`;
}

/** What a map and the lines over it show, in words. */
export function mapTold(map: CourseMap, lines: readonly MapLine[]): string {
  const text = map.toScale ? words.mapText(map.numbers) : words.numbersOnly(map.numbers);
  const [first, second] = lines;
  if (!first) return text;
  return `${text} ${words.lines[second ? 'both' : first.as]}`;
}

/** True of a map that fits beside a table better than above it. */
export function isTall(map: CourseMap): boolean {
  return map.height > map.width * 1.25;
}

function mapShape(s: MapShape, textSize: number): string {
  switch (s.shape) {
    case 'path': {
      const d = s.points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${at(x)} ${at(y)}`).join('');
      return s.points.length < 2
        ? ''
        : `<path class="m-${s.as}" d="${d}${s.closed ? 'z' : ''}" stroke-width="${at(s.width)}"/>`;
    }
    case 'dot':
      return `<circle class="m-${s.as}" cx="${at(s.x)}" cy="${at(s.y)}" r="${at(s.r)}" stroke-width="${at(textSize / 10)}"/>`;
    case 'number':
      return `<text x="${at(s.x)}" y="${at(s.y)}">${escaped(s.text)}</text>`;
  }
}
