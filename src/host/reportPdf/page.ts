import PDFDocument from 'pdfkit';
import { data, sheetOfPaper, themes } from '../../look/tokens.ts';
import { locale } from '../../words/locale.ts';
import { fontBytes, inFonts, type FontName, type Weight } from './letters.ts';

/** Points round the text of an A4 sheet. */
const margin = 48;
export const ink = { ...themes.paper, sheet: sheetOfPaper, data } as const;

type Struct = PDFKit.PDFStructureElement;

/** What is set in one go. */
export interface Setting {
  readonly size?: number;
  readonly weight?: Weight;
  readonly colour?: string;
  /** What it is to a reader of the structure (ISO 32000-1, 14.8.4). */
  readonly as?: 'P' | 'H1' | 'H2' | 'H3' | 'LBody' | 'Caption' | 'Lbl';
  /** Points below it. */
  readonly below?: number;
  readonly indent?: number;
  readonly align?: 'left' | 'center' | 'right';
}

/** A tagged PDF that is set from top to bottom. */
export interface Page {
  readonly doc: PDFKit.PDFDocument;
  /** Points across the text. */
  readonly width: number;
  /** Makes room for so many points, on a new sheet where this one has not so many left. */
  room(points: number): void;
  /** Leaves points free, by the size of the type. */
  gap(points: number): void;
  /** Opens a part of the document; what is set until it is closed belongs to it. */
  part(as: string, inside: () => void): void;
  text(text: string, setting?: Setting): void;
  /** Text in a column of its own, below where the page stands. */
  column(text: string, x: number, width: number, setting?: Setting): void;
  /** Text at a place, as part of a drawing: no structure of its own. */
  label(text: string, x: number, y: number, setting?: Setting): void;
  /** A rule across, which is of no meaning to a reader of the structure. */
  line(from: number, y: number, to: number, colour: string): void;
  /** Points that a text takes up. */
  heightOf(text: string, width: number, setting?: Setting): number;
  /** A drawing or picture with what it shows in words; `height` points from where the page stands, left free below. */
  figure(words: string, height: number, draw: (x: number, y: number) => void): void;
  /** A place to go to from the outline. */
  mark(title: string): void;
  /** Sheets so far. */
  sheets(): number;
  /** Numbers the sheets and ends the document. */
  end(pageOf: (n: number, all: number) => string): Promise<Uint8Array>;
}

export interface About {
  readonly title: string;
  readonly subject: string;
  readonly keywords: string;
}

/**
 * Begins an A4 document. Nothing in it says when or where it was made.
 * @param scale of all type, and of what is left below it
 */
export function startPage({ title, subject, keywords }: About, scale = 1): Page {
  const doc = new PDFDocument({
    size: 'A4',
    margins: { top: margin, bottom: margin, left: margin, right: margin },
    pdfVersion: '1.7',
    tagged: true,
    lang: locale,
    displayTitle: true,
    bufferPages: true,
    font: undefined,
    info: { Title: title, Subject: subject, Keywords: keywords, Producer: 'Walkback', Creator: 'Walkback' },
  });
  const chunks: Buffer[] = [];
  const ended = new Promise<Uint8Array>((done, fail) => {
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    doc.on('end', () => {
      done(Buffer.concat(chunks));
    });
    doc.on('error', fail);
  });
  for (const name of ['regular', 'strong', 'hebrew', 'arabic', 'signs'] as const)
    doc.registerFont(name, fontBytes(name));
  const has = coverage(doc);
  const width = doc.page.width - 2 * margin;
  const root = doc.struct('Document');
  doc.addStructure(root);
  let inside: Struct = root;

  /** Writes pieces one behind another, as one paragraph. */
  const write = (
    text: string,
    { size = 10.5, weight = 'regular', colour = ink.text }: Setting,
    options: PDFKit.Mixins.TextOptions,
  ): void => {
    const pieces = inFonts(text, weight, has);
    doc.fontSize(size * scale).fillColor(colour);
    if (pieces.length === 0) doc.font(weight).text('', options);
    pieces.forEach((piece, i) => {
      doc.font(piece.font).text(piece.text, { ...options, continued: i < pieces.length - 1 });
    });
  };
  const page: Page = {
    doc,
    width,
    room(points) {
      if (doc.y + points > doc.page.maxY()) doc.addPage();
    },
    gap(points) {
      doc.y += points * scale;
    },
    part(as, set) {
      const before = inside;
      inside = doc.struct(as);
      before.add(inside);
      set();
      inside.end();
      inside = before;
    },
    text(text, setting = {}) {
      const { as = 'P', below = 4, indent = 0 } = setting;
      const parent = inside;
      parent.add(
        doc.struct(as, {}, () => {
          write(text, setting, { width: width - indent, indent: 0, lineGap: 1.5 });
        }),
      );
      doc.moveDown(0);
      doc.y += below * scale;
    },
    column(text, x, wide, setting = {}) {
      inside.add(
        doc.struct(setting.as ?? 'P', {}, () => {
          doc.x = x;
          write(text, setting, { width: wide, lineGap: 1.5, align: setting.align ?? 'left' });
        }),
      );
      doc.x = margin;
    },
    label(text, x, y, setting = {}) {
      const { doc: d } = page;
      const [left, top] = [d.x, d.y];
      const { size = 9, weight = 'regular', colour = ink.text, align } = setting;
      d.font(weight).fontSize(size).fillColor(colour);
      const shown = inFonts(text, weight, has)
        .map((p) => p.text)
        .join('');
      const wide = d.widthOfString(shown);
      const from = align === 'center' ? x - wide / 2 : align === 'right' ? x - wide : x;
      d.text(shown, from, y, { lineBreak: false });
      d.x = left;
      d.y = top;
    },
    line(from, y, to, colour) {
      doc.markContent('Artifact', { type: 'Layout' });
      doc.lineWidth(0.6).strokeColor(colour).moveTo(from, y).lineTo(to, y).stroke();
      doc.endMarkedContent();
    },
    heightOf(text, wide, { size = 10.5, weight = 'regular' } = {}) {
      return doc
        .font(weight)
        .fontSize(size * scale)
        .heightOfString(text, { width: wide, lineGap: 1.5 });
    },
    figure(words, height, draw) {
      page.room(height);
      const [x, y] = [margin, doc.y];
      inside.add(
        doc.struct('Figure', { alt: words }, () => {
          doc.save();
          draw(x, y);
          doc.restore();
        }),
      );
      doc.x = margin;
      doc.y = y + height;
    },
    sheets: () => doc.bufferedPageRange().count,
    mark(title) {
      doc.outline.addItem(title);
    },
    end(pageOf) {
      root.end();
      const { start, count } = doc.bufferedPageRange();
      for (let i = 0; i < count; i++) {
        doc.switchToPage(start + i);
        const { bottom } = doc.page.margins;
        // The foot lies in the margin, where text would begin another sheet.
        doc.page.margins.bottom = 0;
        doc.markContent('Artifact', { type: 'Pagination' });
        page.label(pageOf(i + 1, count), margin + width, doc.page.height - 30, {
          size: 8.5,
          colour: ink.textSoft,
          align: 'right',
        });
        doc.endMarkedContent();
        doc.page.margins.bottom = bottom;
      }
      doc.end();
      return ended;
    },
  };
  return page;
}

/** Which letters each font has. */
function coverage(doc: PDFKit.PDFDocument): (font: FontName, point: number) => boolean {
  const known = new Map<FontName, { hasGlyphForCodePoint(point: number): boolean }>();
  return (name, point) => {
    let font = known.get(name);
    if (!font) {
      doc.font(name);
      // What pdfkit keeps of the font that is set is fontkit's own; its types leave it out.
      font = (doc as unknown as { _font: { font: { hasGlyphForCodePoint(point: number): boolean } } })._font
        .font;
      known.set(name, font);
    }
    return font.hasGlyphForCodePoint(point);
  };
}
