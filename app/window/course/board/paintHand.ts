import type { Course, Obstacle } from '../../../../src/course/course.ts';
import { centreOf } from '../../../../src/course/courseLength.ts';
import { drawnSizes } from '../../../../src/course/equipment.ts';
import { extentOf, footprint } from '../../../../src/course/footprint.ts';
import type { ObstacleKind } from '../../../../src/course/kinds.ts';
import { boardsOf } from '../../../../src/course/boards.ts';
import { equipmentShapes } from '../../../../src/course/planShapes.ts';
import { distance, lengthOf } from '../../../../src/course/pose.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { drawnSteps, type DrawnStep } from '../../../../src/course/sequence.ts';
import { tunnelLine } from '../../../../src/course/tunnelLine.ts';
import { themes } from '../../../../src/look/tokens.ts';
import { lengthWords, drawingWords as words } from '../../../../src/words/drawing.ts';
import type { Board } from './board.ts';
import { toBoard } from './camera.ts';
import { chosenPieces } from './choosing.ts';
import { carried, withGesture, type Gesture } from './gesture.ts';
import {
  onTheGround,
  paintLabel,
  paintNumbers,
  paintPostLine,
  paintScene,
  paintWheel,
  type Look,
  type Paper,
} from './paint.ts';
import { boardSize, carriedScene, layersOf } from './scene.ts';
import { bendHandles, knobOf } from './under.ts';
import { fromLast, newStand } from './verbs.ts';

/** What lies over the drawing and changes with the hand, worked out and not painted yet. */
export interface InHand {
  /** The part of the board that it takes, pixels; null where there is nothing. */
  part(): Part | null;
  paint(paper: Paper): void;
  /** What is carried alone, which looks the same wherever it is: its part, and beyond the board's edges too. */
  readonly carried: { part(): Part | null; paint(paper: Paper): void };
  /** The distances told of what is carried. */
  readonly measures: readonly Measure[];
}

/** A part of the board, pixels. */
export interface Part {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

interface Beyond {
  readonly x: number;
  readonly y: number;
}
/** How far numbers, handles and labels reach beyond the points they belong to, pixels; numbers alone. */
const beyond: Beyond = { x: 110, y: 60 };
const beyondPieces: Beyond = { x: 40, y: 40 };

/**
 * What is chosen, its handles, what is carried with its distances, the piece about to be put down. Only what is carried
 * is worked out, whatever the size of the course.
 */
export function inHand(board: Board, look: Look, base: readonly DrawnStep[]): InHand {
  const gesture = board.gesture();
  const ids = carried(gesture);
  const { tool, place, chosen } = board.getState();
  const shown = board.built();
  const set = new Set(ids);
  const course: Course =
    ids.length > 0
      ? withGesture({ ...shown, obstacles: shown.obstacles.filter((o) => set.has(o.id)) }, gesture)
      : shown;
  const steps = ids.length > 0 ? stepsWith(base, course, set) : base;
  const [held] = ids;
  const measures = held === undefined ? [] : measuresOf(course, held, steps, place, look.unit);
  const handles = ids.length === 0 || gesture?.what === 'bend' ? handlesOf(look, course, chosen) : [];
  const pieces = chosenPieces(board, course);
  const ghost = tool.name === 'put' && !gesture ? board.pointer() : null;
  const wide = gesture?.what === 'box' || gesture?.what === 'wheel' || gesture?.what === 'line';
  const ground = (): readonly GroundPoint[] =>
    [...pieces, ...(ids.length > 0 ? course.obstacles : [])].flatMap((o) =>
      o.stand ? footprint(o, o.stand).flat() : [],
    );
  const points = (): readonly GroundPoint[] => [
    ...ground(),
    ...measures.flatMap((m) => [m.from, m.to]),
    ...handles,
    ...(ghost && tool.name === 'put' ? ghostPoints(board, tool.kind, ghost) : []),
    ...(gesture?.what === 'turn' ? [gesture.about] : []),
  ];
  const paintPieces = (paper: Paper, order: boolean): void => {
    paintChosen(paper, look, pieces);
    if (ids.length === 0) return;
    const scene = carriedScene(course, set, steps);
    paintScene(paper, look, order ? scene : { ...scene, order: new Path2D() });
    paintNumbers(paper, look, boardsOf(scene.steps, boardSize / look.camera.scale), place, true);
  };
  const whole: Part = { x: 0, y: 0, ...look.size };
  return {
    part: () => (wide ? whole : within(partOf(look, points(), beyond), look.size)),
    measures,
    carried: {
      part: () => partOf(look, ground(), beyondPieces),
      paint(paper) {
        paintPieces(paper, false);
      },
    },
    paint(paper) {
      paintPieces(paper, true);
      for (const measure of measures) paintMeasure(paper, look, measure);
      if (gesture) paintGesture(paper, look, gesture, course);
      paintHandles(paper, look, handles);
      if (ghost) paintGhost(paper, look, board);
    },
  };
}

/** The part around points of the ground; null where there are none. */
function partOf({ camera, size }: Look, points: readonly GroundPoint[], by: Beyond): Part | null {
  if (points.length === 0) return null;
  const { x0, y0, x1, y1 } = extentOf(points.map((p) => toBoard(camera, size, p)));
  const [x, y] = [Math.floor(x0 - by.x), Math.floor(y0 - by.y)];
  return { x, y, width: Math.ceil(x1 + by.x) - x, height: Math.ceil(y1 + by.y) - y };
}

/** What of a part lies on the board; null where nothing does. */
function within(part: Part | null, size: Look['size']): Part | null {
  if (!part) return null;
  const [x, y] = [Math.max(0, part.x), Math.max(0, part.y)];
  const width = Math.min(size.width, part.x + part.width) - x;
  const height = Math.min(size.height, part.y + part.height) - y;
  return width > 0 && height > 0 ? { x, y, width, height } : null;
}

/** The steps of the course, those of carried pieces where they are now. */
function stepsWith(
  base: readonly DrawnStep[],
  course: Course,
  ids: ReadonlySet<string>,
): readonly DrawnStep[] {
  const own = course.steps.filter((s) => ids.has(s.obstacleId));
  const moved = new Map(drawnSteps({ ...course, steps: own }).map((s) => [s.step.number, s]));
  return base.map((s) => moved.get(s.step.number) ?? s);
}

function paintChosen(paper: Paper, look: Look, pieces: readonly Obstacle[]): void {
  if (pieces.length === 0) return;
  const t = themes[look.theme];
  const px = 1 / look.camera.scale;
  onTheGround(paper, look, () => {
    const path = new Path2D();
    for (const o of pieces) {
      if (!o.stand) continue;
      for (const quad of footprint(o, o.stand)) {
        quad.forEach((p, i) => {
          if (i === 0) path.moveTo(p.x, p.y);
          else path.lineTo(p.x, p.y);
        });
        path.closePath();
      }
    }
    paper.lineJoin = 'round';
    paper.strokeStyle = t.accent;
    paper.fillStyle = t.accent;
    paper.globalAlpha = 0.28;
    paper.lineWidth = 12 * px;
    paper.stroke(path);
    paper.globalAlpha = 1;
  });
}

/** What can be taken hold of: the points of a bend, and last the knob that turns. */
function handlesOf(look: Look, course: Course, chosen: readonly string[]): readonly GroundPoint[] {
  const knob = knobOf(course, chosen, look.camera.scale);
  return knob ? [...bendHandles(course, chosen), knob] : [];
}

function paintHandles(paper: Paper, look: Look, handles: readonly GroundPoint[]): void {
  const t = themes[look.theme];
  const dots = handles.map((p) => toBoard(look.camera, look.size, p));
  paper.lineWidth = 2;
  paper.strokeStyle = t.accent;
  dots.forEach((p, i) => {
    const turns = i === dots.length - 1;
    paper.fillStyle = turns ? t.accent : t.raised;
    paper.beginPath();
    paper.arc(p.x, p.y, turns ? 6 : 5, 0, 2 * Math.PI);
    paper.fill();
    paper.stroke();
  });
}

/** A straight line on the ground with the words for its length. */
export interface Measure {
  readonly from: GroundPoint;
  readonly to: GroundPoint;
  readonly text: string;
}

/** Straight lines from the middle of a carried piece to those before and behind it, with their lengths. */
function measuresOf(
  course: Course,
  id: string,
  steps: readonly DrawnStep[],
  place: number | null,
  unit: Look['unit'],
): readonly Measure[] {
  const piece = course.obstacles.find((o) => o.id === id);
  if (!piece?.stand) return [];
  const centre = centreOf({ obstacle: piece, stand: piece.stand });
  const own = steps.filter((s) => s.obstacle.id === id);
  const mine = own.find((s) => s.step.number === place) ?? own[0];
  const at = mine ? steps.indexOf(mine) : -1;
  const near = at < 0 ? [steps.at(-1)] : [steps[at - 1], steps[at + 1]];
  return near.flatMap((other): Measure[] => {
    if (!other || other.obstacle.id === id) return [];
    const to = centreOf(other);
    const told = lengthWords(distance(centre, to), unit);
    const n = other.step.number;
    const text =
      n < (steps[at]?.step.number ?? Infinity) ? words.board.fromLast(n, told) : words.board.toNext(n, told);
    return [{ from: centre, to, text }];
  });
}

function paintMeasure(paper: Paper, look: Look, { from, to, text }: Measure): void {
  const p = toBoard(look.camera, look.size, from);
  const q = toBoard(look.camera, look.size, to);
  paper.strokeStyle = themes[look.theme].accent;
  paper.lineWidth = 1;
  paper.beginPath();
  paper.moveTo(p.x, p.y);
  paper.lineTo(q.x, q.y);
  paper.stroke();
  paintLabel(paper, look, text, (p.x + q.x) / 2, (p.y + q.y) / 2);
}

function paintGesture(paper: Paper, look: Look, gesture: Gesture, course: Course): void {
  const t = themes[look.theme];
  switch (gesture.what) {
    case 'box': {
      const a = toBoard(look.camera, look.size, gesture.from);
      const b = toBoard(look.camera, look.size, gesture.to);
      paper.strokeStyle = t.accent;
      paper.lineWidth = 1.5;
      paper.setLineDash([5, 4]);
      paper.strokeRect(Math.min(a.x, b.x), Math.min(a.y, b.y), Math.abs(b.x - a.x), Math.abs(b.y - a.y));
      paper.setLineDash([]);
      return;
    }
    case 'wheel':
      paintWheel(
        paper,
        look,
        gesture.points,
        words.board.wheelPath(lengthWords(lengthOf(gesture.points), look.unit)),
      );
      return;
    case 'line': {
      const { line, which } = gesture;
      paintPostLine(paper, look, line, which, true);
      const middle = toBoard(look.camera, look.size, {
        x: (line.from.x + line.to.x) / 2,
        y: (line.from.y + line.to.y) / 2,
      });
      paintLabel(
        paper,
        look,
        words.board.long(lengthWords(distance(line.from, line.to), look.unit)),
        middle.x,
        middle.y - 18,
      );
      return;
    }
    case 'turn': {
      const at = toBoard(look.camera, look.size, gesture.about);
      const only = course.obstacles[0]?.stand;
      const told = gesture.ids.length === 1 && only ? only.headingDegrees : gesture.degrees;
      paintLabel(paper, look, words.board.degrees(told), at.x, at.y + 30);
      return;
    }
    case 'bend': {
      const o = course.obstacles[0];
      if (!o?.stand) return;
      const length = lengthOf(tunnelLine(o.stand, drawnSizes(o.kind, o.sizes).tunnelLength));
      const at = toBoard(look.camera, look.size, o.stand);
      paintLabel(paper, look, words.board.long(lengthWords(length, look.unit)), at.x, at.y + 30);
      return;
    }
    case 'push':
    case 'grip':
    case 'move':
      return;
  }
}

/** The ground that the piece about to be put down takes. */
function ghostPoints(board: Board, kind: ObstacleKind, pointer: GroundPoint): readonly GroundPoint[] {
  const stand = newStand(board, pointer);
  return [stand, ...footprint(board.usual(kind), stand).flat()];
}

/** The piece that a click would put down. */
function paintGhost(paper: Paper, look: Look, board: Board): void {
  const { tool } = board.getState();
  const pointer = board.pointer();
  if (tool.name !== 'put' || !pointer) return;
  const stand = newStand(board, pointer);
  paper.globalAlpha = 0.6;
  paintScene(paper, look, {
    layers: layersOf(equipmentShapes(board.usual(tool.kind), stand)),
    order: new Path2D(),
    steps: [],
  });
  paper.globalAlpha = 1;
  const far = fromLast(board, stand);
  if (far === null) return;
  const at = toBoard(look.camera, look.size, stand);
  paintLabel(paper, look, words.board.fromPiece(lengthWords(far, look.unit)), at.x, at.y + 34);
}
