import type { CourseMap, MapShape } from '../../course/courseMap.ts';
import type { CrossVerdict, StayVerdict } from '../../review/analysis.ts';
import type { Picture } from '../../report/pictures.ts';
import type { CrossCard } from '../../report/crossCards.ts';
import { mapTold } from '../../report/htmlDrawings.ts';
import type { MapLine } from '../../report/mapLines.ts';
import type { BandPiece } from '../../report/model.ts';
import { inks } from '../../look/tokens.ts';
import { coachingReport as words } from '../../words/coachingReport.ts';
import { ink, type Page } from './page.ts';

/** Colour of a verdict on white paper; its words stand beside it always. */
export const verdictInk: Readonly<Record<CrossVerdict | StayVerdict, string>> = {
  inTime: ink.inTime,
  kept: ink.inTime,
  tight: ink.tight,
  late: ink.late,
  broken: ink.late,
  tooEarly: ink.late,
  cannotTell: ink.open,
  notMarked: ink.open,
  standing: ink.open,
};

const gap = 10;
const stillsAcross = 3;

/** Stills in rows of three, each with the lines under it; the coach's strokes lie over them as lines. */
export function stillRows(
  page: Page,
  stills: readonly { readonly picture: Picture; readonly lines: readonly string[] }[],
): void {
  const width = (page.width - (stillsAcross - 1) * gap) / stillsAcross;
  for (let i = 0; i < stills.length; i += stillsAcross) {
    const row = stills.slice(i, i + stillsAcross);
    const heights = row.map(({ picture }) => (width * picture.still.height) / picture.still.width);
    const height = Math.min(Math.max(...heights), 2 * width);
    const captions = row.map(({ lines }) =>
      lines.map((l) => page.heightOf(l, width, { size: 9 })).reduce((a, b) => a + b, 0),
    );
    page.room(height + Math.max(...captions) + 8);
    const { y, x } = page.doc;
    row.forEach(({ picture, lines }, k) => {
      const left = x + k * (width + gap);
      page.doc.y = y;
      page.figure(picture.alt, height, () => {
        stillAt(page, picture, left, y, width, height);
      });
      page.doc.y = y + height + 3;
      for (const line of lines) {
        page.doc.x = left;
        page.column(line, left, width, { size: 9, colour: ink.textSoft, as: 'Caption' });
      }
    });
    page.doc.x = x;
    page.doc.y = y + height + Math.max(...captions) + 10;
  }
}

function stillAt(
  { doc }: Page,
  { still, strokes, part }: Picture,
  left: number,
  top: number,
  width: number,
  most: number,
): void {
  const scale = Math.min(width / still.width, most / still.height);
  doc.rect(left, top, still.width * scale, still.height * scale).clip();
  const { size, ...from } = part ?? { x: 0, y: 0, size: 1 };
  const [w, h] = [(still.width * scale) / size, (still.height * scale) / size];
  const [x, y] = [left - from.x * w, top - from.y * h];
  doc.image(Buffer.from(still.base64, 'base64'), x, y, { width: w, height: h });
  for (const s of strokes) {
    const at = (i: number): [number, number] => [x + (s.points[i] ?? 0) * w, y + (s.points[i + 1] ?? 0) * h];
    for (const [colour, thick] of [
      [ink.sheet, w / 100],
      [inks[s.ink], w / 180],
    ] as const) {
      doc.lineWidth(Math.max(1, thick)).lineCap('round').lineJoin('round').strokeColor(colour);
      doc.moveTo(...at(0));
      for (let i = 2; i + 1 < s.points.length; i += 2) doc.lineTo(...at(i));
      doc.stroke();
    }
  }
}

/** The run on one line of time, to scale. */
export function bandFigure(page: Page, band: readonly BandPiece[]): void {
  const total = band.reduce((sum, b) => sum + b.seconds, 0);
  if (!(total > 0)) return;
  page.figure(words.band, 46, (x, y) => {
    const { doc } = page;
    const scale = (page.width - 16) / total;
    let at = x + 4;
    doc
      .lineWidth(2)
      .strokeColor(ink.pine)
      .moveTo(at, y + 22)
      .lineTo(at + total * scale, y + 22)
      .stroke();
    let lastLabel = -Infinity;
    for (const piece of band) {
      at += piece.seconds * scale;
      doc
        .lineWidth(1.2)
        .strokeColor(ink.text)
        .moveTo(at, y + 15)
        .lineTo(at, y + 25)
        .stroke();
      if (at - lastLabel > 11) {
        page.label(String(piece.to), at, y + 3, { size: 8, weight: 'strong', align: 'center' });
        lastLabel = at;
      }
      if (piece.cross) doc.circle(at, y + 33, 4).fill(verdictInk[piece.cross.verdict]);
      piece.events.slice(0, 3).forEach((_, k) => {
        const d = at - 7 - 6 * k;
        doc.polygon([d, y + 19], [d + 3, y + 22], [d, y + 25], [d - 3, y + 22]).fill(ink.accent);
      });
    }
  });
}

/** The moments of a cross in order and to scale: brackets are bars, the flight is shaded. */
export function stripFigure(page: Page, { marks, flight }: CrossCard['strip']): void {
  if (marks.length === 0) return;
  page.figure(words.strip, 44, (x, y) => {
    const { doc } = page;
    const at = (percent: number): number => x + 8 + (percent / 100) * (page.width - 16);
    if (flight) doc.rect(at(flight[0]), y + 18, at(flight[1]) - at(flight[0]), 18).fill(ink.accentSoft);
    doc
      .lineWidth(1)
      .strokeColor(ink.lineStrong)
      .moveTo(at(0), y + 27)
      .lineTo(at(100), y + 27)
      .stroke();
    for (const m of marks) {
      doc.rect(at(m.left), y + 23, Math.max(1, at(m.left + m.width) - at(m.left)), 8).fill(ink.pine);
      doc
        .lineWidth(0.7)
        .strokeColor(ink.textSoft)
        .moveTo(at(m.dot), y + 14)
        .lineTo(at(m.left + m.width / 2), y + 23)
        .stroke();
      doc.circle(at(m.dot), y + 8, 7).fill(ink.pine);
      page.label(String(m.n), at(m.dot), y + 3.5, {
        size: 8.5,
        weight: 'strong',
        colour: ink.onPine,
        align: 'center',
      });
    }
  });
}

/** How high a map is at least, and at the most, points. */
const leastMap = 220;
const mostMap = 340;

/** The room that a map is given. */
export interface MapRoom {
  /** Points at the most. */
  readonly high: number;
  /** Points from the left of the text. */
  readonly left: number;
  readonly wide: number;
}

/** The course as vectors, as wide as its room or as high as fits. */
export function mapFigure(
  page: Page,
  map: CourseMap,
  lines: readonly MapLine[],
  room: MapRoom = { high: mostMap, left: 0, wide: page.width },
): void {
  // On this sheet, if it can still be read there.
  const rest = page.doc.page.maxY() - page.doc.y - 30;
  const high = rest > leastMap ? Math.min(rest, room.high) : room.high;
  const scale = Math.min(room.wide / map.width, high / map.height);
  const told = mapTold(map, lines);
  page.figure(told, map.height * scale + 4, (x, y) => {
    const { doc } = page;
    const left = x + room.left + (room.wide - map.width * scale) / 2;
    const at = (p: readonly [number, number]): [number, number] => [left + p[0] * scale, y + p[1] * scale];
    const draw = (numbers: boolean): void => {
      for (const s of map.shapes)
        if ((s.shape === 'number') === numbers) mapShape(page, s, map.textSize * scale, at, scale);
    };
    draw(false);
    for (const line of lines) wayOver(page, line, at);
    // What can be read lies on top.
    draw(true);
    doc.lineWidth(1);
  });
  page.column(told, page.doc.x + room.left, room.wide, { size: 9, colour: ink.textSoft, as: 'Caption' });
  page.doc.y += 4;
}

/** A way over a map: light beside it, so that it can be told from what lies under it. */
function wayOver(
  { doc }: Page,
  { as, points }: MapLine,
  at: (p: readonly [number, number]) => [number, number],
): void {
  const draw = (width: number, colour: string, opacity: number): void => {
    points.forEach((p, i) => (i === 0 ? doc.moveTo(...at(p)) : doc.lineTo(...at(p))));
    doc.lineCap('round').lineJoin('round').lineWidth(width).strokeColor(colour, opacity).stroke();
  };
  draw(3.2, ink.sheet, 0.75);
  if (as === 'wanted') doc.dash(4, { space: 4 });
  draw(1.6, as === 'real' ? ink.pine : ink.accent, 1);
  doc.undash();
}

/** How large numbers of the map are, points. */
const leastNumber = 7;
const mostNumber = 11;

const strokes: Readonly<Record<string, string>> = {
  order: ink.lineStrong,
  ring: ink.lineStrong,
  start: ink.pine,
  finish: ink.pine,
  tube: ink.data.sky,
  contact: ink.data.yellow,
  wing: ink.textSoft,
  line: ink.line,
};

function mapShape(
  page: Page,
  s: MapShape,
  textSize: number,
  at: (p: readonly [number, number]) => [number, number],
  scale: number,
): void {
  const { doc } = page;
  if (s.shape === 'number') {
    const [x, y] = at([s.x, s.y]);
    const size = Math.min(mostNumber, Math.max(leastNumber, textSize));
    doc
      .circle(x, y, size * (0.35 + 0.22 * s.text.length))
      .fillOpacity(0.85)
      .fill(ink.sheet)
      .fillOpacity(1);
    page.label(s.text, x, y - size * 0.62, { size, weight: 'strong', align: 'center' });
    return;
  }
  const colour = strokes[s.as] ?? ink.text;
  if (s.shape === 'dot') {
    const [x, y] = at([s.x, s.y]);
    doc.circle(x, y, s.r * scale).lineWidth(textSize / 12);
    if (s.as === 'spot') doc.fillAndStroke(ink.sheet, ink.textSoft);
    else doc.fill(colour);
    return;
  }
  const [first, ...rest] = s.points;
  if (!first || rest.length === 0) return;
  doc.moveTo(...at(first));
  for (const p of rest) doc.lineTo(...at(p));
  if (s.closed) doc.closePath();
  doc
    .lineWidth(Math.max(0.4, s.width * scale))
    .strokeColor(colour)
    .lineCap('round')
    .lineJoin('round');
  if (s.as === 'order') doc.dash(3, { space: 3 });
  else doc.undash();
  doc.stroke().undash();
}
