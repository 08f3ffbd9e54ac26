import type { GroundRole, GroundShape } from '../../../../src/line/groundShapes.ts';
import { data, themes, type ThemeName } from '../../../../src/look/tokens.ts';
import { toBoard, type Camera, type Size } from './camera.ts';
import { paintLabel, type Look, type Paper } from './paint.ts';

const inks = (theme: ThemeName): Record<GroundRole, string> => {
  const t = themes[theme];
  return {
    likely: t.accent,
    range: t.accent,
    wanted: t.pine,
    measured: t.textSoft,
    handler: t.focus,
    dog: t.accent,
    remark: t.tight,
    trap: t.late,
    spot: t.focus,
  };
};

/** What lies under the numbers: all that is long or wide. */
const underNumbers: ReadonlySet<GroundShape['shape']> = new Set(['way', 'area', 'fan']);

/** Paints what lies over the course, in the order of the list; numbers lie over lines and under what can be held. */
export function paintOverlay(
  paper: Paper,
  look: Look,
  shapes: readonly GroundShape[],
  numbers: (paper: Paper) => void,
): void {
  paintShapes(
    paper,
    look,
    shapes.filter(({ shape }) => underNumbers.has(shape)),
  );
  numbers(paper);
  paintShapes(
    paper,
    look,
    shapes.filter(({ shape }) => !underNumbers.has(shape)),
  );
}

function paintShapes(paper: Paper, look: Look, shapes: readonly GroundShape[]): void {
  const ink = inks(look.theme);
  const edge = themes[look.theme].raised;
  paper.lineJoin = 'round';
  paper.lineCap = 'round';
  for (const shape of shapes) {
    const colour = ink[shape.as];
    paper.strokeStyle = colour;
    paper.fillStyle = colour;
    switch (shape.shape) {
      case 'way':
        paper.lineWidth = shape.pixels ?? 2.5;
        paper.setLineDash(shape.dashed ? [7, 6] : []);
        trace(paper, look, shape.points);
        paper.stroke();
        paper.setLineDash([]);
        break;
      case 'area':
        paper.globalAlpha = 0.16;
        trace(paper, look, shape.points);
        paper.closePath();
        paper.fill();
        paper.globalAlpha = 1;
        break;
      case 'fan': {
        const at = toBoard(look.camera, look.size, shape.at);
        // The board's y runs down, headings run counter-clockwise on the ground.
        const middle = (-shape.headingDegrees * Math.PI) / 180;
        const half = (shape.half * Math.PI) / 180;
        paper.beginPath();
        paper.moveTo(at.x, at.y);
        paper.arc(at.x, at.y, shape.metres * look.camera.scale, middle - half, middle + half);
        paper.closePath();
        paper.globalAlpha = 0.14;
        paper.fill();
        paper.globalAlpha = 0.7;
        paper.lineWidth = 1;
        paper.stroke();
        paper.globalAlpha = 1;
        break;
      }
      case 'dot': {
        const { x, y } = toBoard(look.camera, look.size, shape.at);
        paper.beginPath();
        paper.arc(x, y, shape.pixels, 0, 2 * Math.PI);
        paper.fillStyle = shape.full === true ? colour : edge;
        paper.fill();
        paper.lineWidth = 2;
        paper.strokeStyle = shape.full === true ? edge : colour;
        paper.stroke();
        break;
      }
      case 'body':
        paintBody(paper, look, shape);
        break;
      case 'label': {
        const { x, y } = toBoard(look.camera, look.size, shape.at);
        paintLabel(paper, look, shape.text, x, y - 20);
        break;
      }
    }
  }
  paper.lineCap = 'butt';
}

/** A dog is a slim drop, a handler a round one with shoulders; both point where they look. */
function paintBody(paper: Paper, look: Look, body: Extract<GroundShape, { shape: 'body' }>): void {
  const t = themes[look.theme];
  const { x, y } = toBoard(look.camera, look.size, body.at);
  const size = Math.max(body.as === 'dog' ? 8 : 9, (body.as === 'dog' ? 0.42 : 0.36) * look.camera.scale);
  paper.save();
  paper.translate(x, y);
  paper.rotate((-body.headingDegrees * Math.PI) / 180);
  paper.fillStyle = body.as === 'dog' ? data.orange : t.focus;
  paper.strokeStyle = t.text;
  paper.lineWidth = 1.5;
  paper.beginPath();
  if (body.as === 'dog') {
    paper.moveTo(size * 1.3, 0);
    paper.quadraticCurveTo(size * 0.5, size * 0.55, -size, size * 0.35);
    paper.quadraticCurveTo(-size * 1.2, 0, -size, -size * 0.35);
    paper.quadraticCurveTo(size * 0.5, -size * 0.55, size * 1.3, 0);
  } else {
    paper.ellipse(0, 0, size * 0.55, size, 0, 0, 2 * Math.PI);
    paper.moveTo(size * 1.15, 0);
    paper.arc(size * 0.6, 0, size * 0.45, 0, 2 * Math.PI);
  }
  paper.fill();
  paper.stroke();
  paper.restore();
}

function trace(
  paper: Paper,
  look: Look,
  points: readonly { readonly x: number; readonly y: number }[],
): void {
  paper.beginPath();
  points.forEach((p, i) => {
    const { x, y } = toBoard(look.camera, look.size, p);
    if (i === 0) paper.moveTo(x, y);
    else paper.lineTo(x, y);
  });
}

/** Paints an overlay on a sheet of its own, once a frame at the most and only where it or the view is another. */
export interface OverlayPainter {
  ask(): void;
  stop(): void;
}

interface Shown {
  readonly shapes: readonly GroundShape[];
  readonly camera: Camera;
  readonly size: Size;
  readonly theme: ThemeName;
  readonly unit: Look['unit'];
  /** Paints the numbers that stand still; another one where they are others. */
  readonly numbers: (paper: Paper) => void;
}

export function createOverlayPainter(sheet: HTMLCanvasElement, now: () => Shown): OverlayPainter {
  const paper = sheet.getContext('2d');
  let asked = 0;
  let painted: readonly unknown[] = [];
  const paint = (): void => {
    asked = 0;
    const { shapes, camera, size, theme, unit, numbers } = now();
    if (!paper || size.width === 0 || size.height === 0) return;
    const ratio = window.devicePixelRatio;
    const facts = [shapes, camera, size, theme, unit, numbers, ratio];
    if (facts.every((fact, i) => fact === painted[i])) return;
    painted = facts;
    sheet.hidden = shapes.length === 0;
    if (sheet.hidden) return;
    const [w, h] = [Math.round(size.width * ratio), Math.round(size.height * ratio)];
    if (sheet.width !== w) sheet.width = w;
    if (sheet.height !== h) sheet.height = h;
    paper.setTransform(ratio, 0, 0, ratio, 0, 0);
    paper.clearRect(0, 0, size.width, size.height);
    paintOverlay(paper, { camera, size, theme, unit }, shapes, numbers);
  };
  return {
    ask() {
      if (asked === 0) asked = requestAnimationFrame(paint);
    },
    stop() {
      cancelAnimationFrame(asked);
    },
  };
}
