import type { Canvas, Image, SKRSContext2D } from '@napi-rs/canvas';
import {
  boardBase,
  boardInk,
  edgeWidth,
  inkOf,
  sheetInk,
  strongWeight,
  thinnest,
  toneInk,
} from '../../report/courseSheet/ink.ts';
import type { PaperDrawing, PaperShape } from '../../report/courseSheet/paper.ts';
import { fontFamily } from './fonts.ts';

/**
 * Paints a drawing on a canvas or a page of a PDF, whose units are already those of the drawing.
 * @param picture the map picture, upright, where the drawing shows one
 */
export function paintDrawing(to: SKRSContext2D, drawing: PaperDrawing, picture: Canvas | Image | null): void {
  to.fillStyle = sheetInk;
  to.fillRect(0, 0, drawing.width, drawing.height);
  for (const shape of drawing.shapes) paint(to, shape, drawing.unit, picture);
}

function paint(to: SKRSContext2D, s: PaperShape, unit: number, picture: Canvas | Image | null): void {
  switch (s.shape) {
    case 'path': {
      const ink = inkOf(s.as);
      const width = Math.max(s.width, thinnest / unit);
      to.beginPath();
      s.points.forEach(([x, y], i) => {
        if (i === 0) to.moveTo(x, y);
        else to.lineTo(x, y);
      });
      if (s.closed) to.closePath();
      to.lineJoin = ink.round ? 'round' : 'miter';
      to.setLineDash(ink.dash ? ink.dash.map((part) => part * width) : []);
      if (ink.edge) stroke(to, ink.edge, width + (2 * edgeWidth) / unit);
      if (ink.stroke) stroke(to, ink.stroke, width);
      to.setLineDash([]);
      return;
    }
    case 'dot': {
      const ink = inkOf(s.as);
      to.beginPath();
      to.arc(s.x, s.y, s.r, 0, 2 * Math.PI);
      if (ink.fill) {
        to.fillStyle = ink.fill;
        to.fill();
      }
      if (ink.stroke) stroke(to, ink.stroke, thinnest / unit);
      return;
    }
    case 'board':
      to.beginPath();
      to.roundRect(s.x - s.width / 2, s.y - s.height / 2, s.width, s.height, s.height / 6);
      to.fillStyle = boardInk.fill;
      to.fill();
      stroke(to, boardInk.edge, thinnest / unit);
      write(to, s.textSize, true);
      to.textAlign = 'center';
      to.fillStyle = boardInk.text;
      to.fillText(s.text, s.x, s.y + s.textSize * boardBase);
      return;
    case 'text':
      write(to, s.textSize, s.tone === 'strong');
      to.textAlign = s.from === 'middle' ? 'center' : s.from;
      to.fillStyle = toneInk[s.tone];
      to.fillText(s.text, s.x, s.y, s.most);
      return;
    case 'picture':
      if (picture) to.drawImage(picture, s.x, s.y, s.width, s.height);
      return;
  }
}

function stroke(to: SKRSContext2D, colour: string, width: number): void {
  to.strokeStyle = colour;
  to.lineWidth = width;
  to.stroke();
}

function write(to: SKRSContext2D, size: number, strong: boolean): void {
  // Letters are kept apart by nothing that is seen: joined into one sign, as "ft" is, they could not be read back.
  to.letterSpacing = `${size / 10_000}px`;
  to.font = `${strong ? strongWeight : 400} ${size}px ${fontFamily}`;
}
