import { courseFileOf } from '../../course/file/courseFile.ts';
import { courseNamespace } from '../../course/file/courseInSvg.ts';
import type { Course } from '../../course/course.ts';
import { font } from '../../look/tokens.ts';
import { escaped } from '../escape.ts';
import { boardBase, boardInk, edgeWidth, inkOf, sheetInk, strongWeight, thinnest, toneInk } from './ink.ts';
import type { PaperDrawing, PaperShape } from './paper.ts';

/**
 * A drawing as an SVG file (SVG 2, W3C) that other programs can open: its size in millimetres, its own units inside,
 * all text as text. The course goes along as JSON in `metadata`, from which it is read back whole.
 */
export function courseSvg(drawing: PaperDrawing, course: Course): string {
  const { width, height, unit, title, shapes } = drawing;
  const mm = (v: number): string => `${n(v * unit)}mm`;
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}" height="${mm(height)}" viewBox="0 0 ${n(width)} ${n(height)}" font-family="${escaped(font)}">
<title>${escaped(title)}</title>
<metadata><course xmlns="${courseNamespace}">${jsonInXml(courseFileOf(course))}</course></metadata>
<rect width="${n(width)}" height="${n(height)}" fill="${sheetInk}"/>
${shapes.map((s) => drawn(s, unit)).join('\n')}
</svg>
`;
}

/**
 * JSON as it may stand in XML 1.0: markup characters become references, and what XML does not allow or allow unchanged
 * (control characters, U+FFFE, U+FFFF) becomes an escape of JSON's own. Nothing is lost.
 */
function jsonInXml(value: unknown): string {
  return JSON.stringify(value)
    .replace(
      // eslint-disable-next-line no-control-regex -- control characters are what is looked for
      /[\u0000-\u001F\u007F-\u009F\u2028\u2029\uFFFE\uFFFF]/g,
      (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
    )
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;');
}

/** A length to a hundredth of a millimetre on metres, without trailing noughts. */
const n = (v: number): string => String(Math.round(v * 1e5) / 1e5);

function drawn(s: PaperShape, unit: number): string {
  switch (s.shape) {
    case 'path': {
      if (s.points.length < 2) return '';
      const d = `M${s.points.map(([x, y]) => `${n(x)} ${n(y)}`).join('L')}${s.closed ? 'Z' : ''}`;
      const ink = inkOf(s.as);
      const width = Math.max(s.width, thinnest / unit);
      const dash = ink.dash ? ` stroke-dasharray="${n(ink.dash[0] * width)} ${n(ink.dash[1] * width)}"` : '';
      const join = ink.round ? ' stroke-linejoin="round"' : '';
      const one = (stroke: string, wide: number): string =>
        `<path d="${d}" fill="none" stroke="${stroke}" stroke-width="${n(wide)}"${dash}${join}/>`;
      const edge = ink.edge ? one(ink.edge, width + (2 * edgeWidth) / unit) : '';
      return edge + (ink.stroke ? one(ink.stroke, width) : '');
    }
    case 'dot': {
      const ink = inkOf(s.as);
      const stroke = ink.stroke ? ` stroke="${ink.stroke}" stroke-width="${n(thinnest / unit)}"` : '';
      return `<circle cx="${n(s.x)}" cy="${n(s.y)}" r="${n(s.r)}" fill="${ink.fill ?? 'none'}"${stroke}/>`;
    }
    case 'board':
      return `<rect x="${n(s.x - s.width / 2)}" y="${n(s.y - s.height / 2)}" width="${n(s.width)}" height="${n(s.height)}" rx="${n(s.height / 6)}" fill="${boardInk.fill}" stroke="${boardInk.edge}" stroke-width="${n(thinnest / unit)}"/><text x="${n(s.x)}" y="${n(s.y + s.textSize * boardBase)}" font-size="${n(s.textSize)}" font-weight="${strongWeight}" text-anchor="middle" fill="${boardInk.text}">${escaped(s.text)}</text>`;
    case 'text':
      return `<text x="${n(s.x)}" y="${n(s.y)}" font-size="${n(s.textSize)}"${s.tone === 'strong' ? ` font-weight="${strongWeight}"` : ''} text-anchor="${anchors[s.from]}" fill="${toneInk[s.tone]}">${escaped(s.text)}</text>`;
    case 'picture':
      // A drawing carries no picture of somebody else's map.
      return '';
  }
}

const anchors = { left: 'start', middle: 'middle', right: 'end' } as const;
