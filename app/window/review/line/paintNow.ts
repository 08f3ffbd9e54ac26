import type { ClipClock } from '../../../../src/time/bracket.ts';
import { cellOf, framesWithin } from '../../../../src/review/cells.ts';
import { lanes } from './layout.ts';
import type { Colours, Pencil } from './paint.ts';
import { xAt, type Span } from './scale.ts';

/** A frame this wide is drawn as a cell of its own; numbers stand at least this far apart. Pixels. */
const cellFrom = 7;
const numberFrom = 40;

/**
 * Paints the cells of single frames (at frame zoom), the frames at which the magnifier's place was set, and the
 * playhead. Cheap: it runs at every frame of playback.
 */
export function paintNow(
  pen: Pencil,
  clock: ClipClock | null,
  frame: number,
  view: Span,
  width: number,
  colours: Colours,
  font: string,
  places: readonly number[] = [],
): void {
  pen.clearRect(0, 0, width, lanes.height);
  if (!clock) return;
  const here = cellOf(clock, frame);
  const left = xAt(view, width, here.from);
  const right = xAt(view, width, here.to);
  if (right - left >= cellFrom) paintCells(pen, clock, frame, view, width, colours, font);
  for (const place of places) paintPlace(pen, clock, place, view, width, colours);
  const x = (left + right) / 2;
  pen.fillStyle = colours.accent;
  pen.fillRect(x - 1, 0, 2, lanes.ruler.top + 6);
  pen.beginPath();
  pen.moveTo(x - 6, 0);
  pen.lineTo(x + 6, 0);
  pen.lineTo(x, 8);
  pen.closePath();
  pen.fill();
}

/** A ring on the ruler where a place of the magnifier was set. */
function paintPlace(
  pen: Pencil,
  clock: ClipClock,
  frame: number,
  view: Span,
  width: number,
  colours: Colours,
): void {
  const cell = cellOf(clock, frame);
  const x = xAt(view, width, (cell.from + cell.to) / 2);
  if (x < -4 || x > width + 4) return;
  pen.beginPath();
  pen.arc(x, lanes.ruler.top + 1, 3.5, 0, 2 * Math.PI);
  pen.fillStyle = colours.raised;
  pen.fill();
  pen.strokeStyle = colours.accent;
  pen.lineWidth = 1.5;
  pen.stroke();
}

function paintCells(
  pen: Pencil,
  clock: ClipClock,
  frame: number,
  view: Span,
  width: number,
  colours: Colours,
  font: string,
): void {
  const { from, to } = framesWithin(clock, view);
  const { top, height } = lanes.ruler;
  pen.font = `400 13px ${font}`;
  pen.textBaseline = 'alphabetic';
  pen.clearRect(0, top, width, height);
  const here = cellOf(clock, frame);
  const each = xAt(view, width, here.to) - xAt(view, width, here.from);
  const every = [1, 2, 5, 10, 20].find((n) => n * each >= numberFrom) ?? 50;
  for (let f = from; f <= to; f++) {
    const cell = cellOf(clock, f);
    const a = xAt(view, width, cell.from);
    const b = xAt(view, width, cell.to);
    pen.fillStyle = f === frame ? colours.accentSoft : f % 2 === 0 ? colours.sunken : colours.raised;
    pen.fillRect(a, top, b - a, height);
    pen.fillStyle = colours.line;
    pen.fillRect(a, top, 1, height);
  }
  for (let f = Math.ceil(from / every) * every; f <= to; f += every) {
    const a = xAt(view, width, cellOf(clock, f).from);
    pen.fillStyle = f === frame ? colours.text : colours.textSoft;
    pen.fillText(String(f), a + 4, top + 15);
  }
}
