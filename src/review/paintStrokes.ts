import { inks } from '../look/tokens.ts';
import type { Shape } from './penStrokes.ts';

/** The parts of a canvas that painting needs. */
export interface Paper {
  beginPath(): void;
  moveTo(x: number, y: number): void;
  lineTo(x: number, y: number): void;
  stroke(): void;
  strokeStyle: unknown;
  lineWidth: number;
  lineCap: 'butt' | 'round' | 'square';
  lineJoin: 'bevel' | 'miter' | 'round';
}

/** Dark edge around the ink, so that every ink shows on grass, sand and sky alike. */
const edge = 'rgb(0 0 0 / 55%)';

/** Paints shapes on a canvas whose picture is `width` by `height` of its own pixels. */
export function paintStrokes(paper: Paper, shapes: readonly Shape[], width: number, height: number): void {
  paper.lineCap = 'round';
  paper.lineJoin = 'round';
  for (const shape of shapes) {
    const thick = Math.max(2, shape.width * Math.max(width, height));
    trace(paper, shape.points, width, height);
    paper.strokeStyle = edge;
    paper.lineWidth = thick + Math.max(2, thick * 0.5);
    paper.stroke();
    paper.strokeStyle = inks[shape.ink];
    paper.lineWidth = thick;
    paper.stroke();
  }
}

function trace(paper: Paper, points: readonly number[], width: number, height: number): void {
  paper.beginPath();
  paper.moveTo((points[0] ?? 0) * width, (points[1] ?? 0) * height);
  for (let i = 2; i + 1 < points.length; i += 2) {
    paper.lineTo((points[i] ?? 0) * width, (points[i + 1] ?? 0) * height);
  }
  // A dot: a line of no length is not drawn everywhere.
  if (points.length === 4 && points[0] === points[2] && points[1] === points[3]) {
    paper.lineTo((points[0] ?? 0) * width + 0.01, (points[1] ?? 0) * height);
  }
}
