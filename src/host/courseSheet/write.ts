import { createCanvas, loadImage, PDFDocument, type Canvas, type SKRSContext2D } from '@napi-rs/canvas';
import type { PaperDrawing } from '../../report/courseSheet/paper.ts';
import { courseSheetWords as words } from '../../words/courseSheet.ts';
import { makeFontsReady } from './fonts.ts';
import { paintDrawing } from './paint.ts';

/** Points of PDF to a millimetre (ISO 32000-1, 8.3.2.3: 72 to the inch). */
const points = 72 / 25.4;
/** Pixels of a PNG to a millimetre: a picture of a phone's width stays sharp where a finger enlarges it. */
const pixels = 24;

/** Drawings as a PDF, a page each: true to scale, lines and text as such, its font embedded. */
export function coursePdf(drawings: readonly PaperDrawing[], picture: Canvas | null): Buffer {
  makeFontsReady();
  const title = drawings[0]?.title ?? words.untitled;
  const pdf = new PDFDocument({ title, creator: words.creator, producer: words.creator });
  for (const drawing of drawings) {
    const k = drawing.unit * points;
    // Its types name the browser's context; it gives the canvas package's own.
    const to = pdf.beginPage(drawing.width * k, drawing.height * k) as unknown as SKRSContext2D;
    to.scale(k, k);
    paintDrawing(to, drawing, picture);
    pdf.endPage();
  }
  return pdf.close();
}

/** A drawing as a PNG. */
export async function coursePng(drawing: PaperDrawing, picture: Canvas | null): Promise<Buffer> {
  makeFontsReady();
  const k = drawing.unit * pixels;
  const canvas = createCanvas(Math.round(drawing.width * k), Math.round(drawing.height * k));
  const to = canvas.getContext('2d');
  to.scale(k, k);
  paintDrawing(to, drawing, picture);
  return canvas.encode('png');
}

/** Longest edge of the map picture in what is written, pixels: as much as a sheet of A4 shows. */
const mostEdge = 2400;

/**
 * The map picture made ready: upright, no larger than paper shows, and painted anew, so that nothing of what a camera
 * writes beside it (place, device) goes along.
 * @throws where the bytes are no picture
 */
export async function preparedPicture(
  bytes: Uint8Array,
  upright: { readonly width: number; readonly height: number },
): Promise<Canvas> {
  const image = await loadImage(bytes);
  const scale = Math.min(1, mostEdge / Math.max(upright.width, upright.height));
  const width = Math.max(1, Math.round(upright.width * scale));
  const height = Math.max(1, Math.round(upright.height * scale));
  const canvas = createCanvas(width, height);
  canvas.getContext('2d').drawImage(image, 0, 0, width, height);
  return canvas;
}
