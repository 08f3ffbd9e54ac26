import type { Board as NumberPlace } from '../../../../src/course/boards.ts';
import type { Course, PostLine } from '../../../../src/course/course.ts';
import { usualRing } from '../../../../src/course/drawing/pieces.ts';
import { gridOf, type LengthUnit } from '../../../../src/course/grid.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import type { PlanRole } from '../../../../src/course/planShapes.ts';
import { data, font, themes, type as typeSizes, type ThemeName } from '../../../../src/look/tokens.ts';
import { toBoard, toGround, type Camera, type Size } from './camera.ts';
import { boardSize, type Scene } from './scene.ts';

export type Paper = CanvasRenderingContext2D;

/** What painting needs to know of how it is looked at. */
export interface Look {
  readonly camera: Camera;
  readonly size: Size;
  readonly theme: ThemeName;
  readonly unit: LengthUnit;
}

/** Thinnest line, pixels. */
const thinnest = 1.5;

/** Turns the paper to metres of the ground; `restore` turns it back. */
export function onTheGround(paper: Paper, { camera, size }: Look, paint: () => void): void {
  paper.save();
  paper.translate(size.width / 2, size.height / 2);
  paper.scale(camera.scale, -camera.scale);
  paper.translate(-camera.x, -camera.y);
  paint();
  paper.restore();
}

const colours = (theme: ThemeName): Record<PlanRole, string> => {
  const t = themes[theme];
  return {
    ring: t.lineStrong,
    order: t.lineStrong,
    start: t.pine,
    finish: t.pine,
    bar: t.text,
    wing: t.textSoft,
    tube: data.sky,
    mouth: t.text,
    plank: t.raised,
    contact: data.yellow,
    pole: t.text,
    spot: t.textSoft,
  };
};

/** The grass, the grid and the ring. */
export function paintRing(paper: Paper, look: Look, course: Course, grid: boolean): void {
  const { theme, size, camera, unit } = look;
  const t = themes[theme];
  // A map picture that lies under the drawing is seen through it.
  const under = course.underlay !== undefined;
  paper.clearRect(0, 0, size.width, size.height);
  paper.fillStyle = course.ring ? t.sunken : t.raised;
  if (!under) paper.fillRect(0, 0, size.width, size.height);
  onTheGround(paper, look, () => {
    const px = 1 / camera.scale;
    if (course.ring && !under) {
      paper.fillStyle = t.raised;
      paper.fillRect(0, 0, course.ring.width, course.ring.length);
    }
    if (grid) paintGrid(paper, look, gridOf(unit));
    // A ring that nobody has said yet is only hinted at.
    const { width, length } = course.ring ?? usualRing;
    paper.strokeStyle = t.lineStrong;
    paper.lineWidth = (course.ring ? 2 : 1) * px;
    if (!course.ring) paper.setLineDash([6 * px, 6 * px]);
    paper.strokeRect(0, 0, width, length);
    paper.setLineDash([]);
  });
}

function paintGrid(
  paper: Paper,
  look: Look,
  { line, strong }: { readonly line: number; readonly strong: number },
): void {
  const { camera, size, theme } = look;
  const t = themes[theme];
  const a = toGround(camera, size, 0, size.height);
  const b = toGround(camera, size, size.width, 0);
  const px = 1 / camera.scale;
  const lines = (step: number, colour: string): void => {
    if (step * camera.scale < 8) return;
    paper.beginPath();
    for (let x = Math.ceil(a.x / step) * step; x <= b.x; x += step) {
      paper.moveTo(x, a.y);
      paper.lineTo(x, b.y);
    }
    for (let y = Math.ceil(a.y / step) * step; y <= b.y; y += step) {
      paper.moveTo(a.x, y);
      paper.lineTo(b.x, y);
    }
    paper.strokeStyle = colour;
    paper.lineWidth = px;
    paper.stroke();
  };
  paper.globalAlpha = 0.35;
  lines(line, t.line);
  paper.globalAlpha = 0.9;
  lines(strong, t.line);
  paper.globalAlpha = 1;
}

/** Equipment as it stands on the grass, and the order between the numbers. */
export function paintScene(paper: Paper, look: Look, scene: Scene): void {
  const t = themes[look.theme];
  const ink = colours(look.theme);
  const px = 1 / look.camera.scale;
  onTheGround(paper, look, () => {
    paper.lineCap = 'butt';
    paper.lineJoin = 'round';
    paper.strokeStyle = ink.order;
    paper.lineWidth = px;
    paper.setLineDash([4 * px, 4 * px]);
    paper.stroke(scene.order);
    paper.setLineDash([]);
    for (const { as, width, dots, path } of scene.layers) {
      paper.strokeStyle = ink[as];
      if (dots) {
        if (as === 'spot') {
          paper.lineWidth = thinnest * px;
          paper.stroke(path);
          continue;
        }
        paper.fillStyle = ink[as];
        paper.fill(path);
        const more = thinnest * px - width;
        if (more > 0) {
          paper.lineWidth = 2 * more;
          paper.stroke(path);
        }
        continue;
      }
      // Wings are told from bars by their thickness, at any scale.
      const thick = as === 'wing' ? Math.max(2 * width, 3.5 * px) : Math.max(width, thinnest * px);
      if (as === 'tube' || as === 'plank') {
        paper.strokeStyle = t.text;
        paper.lineWidth = thick + 2.5 * px;
        paper.stroke(path);
        paper.strokeStyle = ink[as];
      }
      paper.lineWidth = thick;
      paper.stroke(path);
    }
  });
}

/** A start or finish line with its posts; the start is one line, the finish two. */
export function paintPostLine(
  paper: Paper,
  look: Look,
  line: PostLine,
  which: 'start' | 'finish',
  chosen: boolean,
): void {
  const t = themes[look.theme];
  const a = toBoard(look.camera, look.size, line.from);
  const b = toBoard(look.camera, look.size, line.to);
  const far = Math.hypot(b.x - a.x, b.y - a.y) || 1;
  const [nx, ny] = [(-(b.y - a.y) / far) * 2, ((b.x - a.x) / far) * 2];
  paper.strokeStyle = chosen ? t.accent : t.pine;
  paper.fillStyle = paper.strokeStyle;
  paper.lineWidth = 1.5;
  paper.beginPath();
  for (const side of which === 'finish' ? [1, -1] : [0]) {
    paper.moveTo(a.x + nx * side, a.y + ny * side);
    paper.lineTo(b.x + nx * side, b.y + ny * side);
  }
  paper.stroke();
  for (const p of [a, b]) {
    paper.beginPath();
    paper.arc(p.x, p.y, chosen ? 6 : 4, 0, 2 * Math.PI);
    paper.fill();
  }
}

/** Numbers as the judge puts them on the grass: small boards. */
export function paintNumbers(
  paper: Paper,
  look: Look,
  boards: readonly NumberPlace[],
  place: number | null,
  everywhere = false,
): void {
  const t = themes[look.theme];
  paper.font = `600 ${typeSizes.small}px ${font}`;
  paper.textAlign = 'center';
  paper.textBaseline = 'middle';
  paper.lineWidth = 1.5;
  for (const board of boards) {
    const { x, y } = toBoard(look.camera, look.size, board);
    const outside = x < -40 || y < -40 || x > look.size.width + 40 || y > look.size.height + 40;
    // What is carried is painted once and may come in from outside.
    if (outside && !everywhere) continue;
    const text = String(board.number);
    const width = text.length > 2 ? boardSize + 6 : boardSize;
    const now = board.number === place;
    paper.fillStyle = now ? t.accent : t.raised;
    paper.strokeStyle = now ? t.accent : t.lineStrong;
    paper.beginPath();
    paper.roundRect(x - width / 2, y - boardSize / 2, width, boardSize, 3);
    paper.fill();
    paper.stroke();
    paper.fillStyle = now ? t.onAccent : t.text;
    paper.fillText(text, x, y + 1);
  }
}

/** Where the wheel was rolled: a row of short steps, with its length at the end. */
export function paintWheel(paper: Paper, look: Look, path: readonly GroundPoint[], told: string): void {
  const t = themes[look.theme];
  const points = path.map((p) => toBoard(look.camera, look.size, p));
  const last = points.at(-1);
  if (!last) return;
  paper.strokeStyle = t.focus;
  paper.lineWidth = 2;
  paper.setLineDash([2, 4]);
  paper.beginPath();
  points.forEach((p, i) => {
    if (i === 0) paper.moveTo(p.x, p.y);
    else paper.lineTo(p.x, p.y);
  });
  paper.stroke();
  paper.setLineDash([]);
  paintLabel(paper, look, told, last.x, last.y - 18);
}

/** Words on a small sheet over the drawing, centred on a point of the board. */
export function paintLabel(paper: Paper, look: Look, text: string, x: number, y: number): void {
  const t = themes[look.theme];
  paper.font = `600 ${typeSizes.small}px ${font}`;
  paper.textAlign = 'center';
  paper.textBaseline = 'middle';
  const half = paper.measureText(text).width / 2 + 6;
  const at = Math.min(look.size.width - half - 2, Math.max(half + 2, x));
  const down = Math.min(look.size.height - 13, Math.max(13, y));
  paper.fillStyle = t.text;
  paper.beginPath();
  paper.roundRect(at - half, down - 11, 2 * half, 22, 4);
  paper.fill();
  paper.fillStyle = t.ground;
  paper.fillText(text, at, down + 1);
}
