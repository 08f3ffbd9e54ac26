import type { Course } from './course.ts';
import { boardsOf } from './boards.ts';
import { equipmentShapes, type PlanPoint, type PlanShape } from './planShapes.ts';
import { drawnSteps, orderLine } from './sequence.ts';
import { tunnelLine } from './tunnelLine.ts';
import { drawnSizes } from './equipment.ts';

/** A shape of the map in the map's own units, y down. */
export type MapShape =
  PlanShape | { readonly shape: 'number'; readonly x: number; readonly y: number; readonly text: string };

export interface CourseMap {
  readonly width: number;
  readonly height: number;
  /** Height of a number, in the map's units. */
  readonly textSize: number;
  readonly toScale: boolean;
  /** The point of the ground at its top left corner, where it is drawn to scale. */
  readonly corner?: { readonly x: number; readonly y: number };
  readonly numbers: number;
  readonly shapes: readonly MapShape[];
}

/** How many of its text heights a map is wide: keeps numbers at 13 px or more on a 360 px page. */
const widthInText = 25;

/**
 * The map of a drawn course, else of the numbers clicked on the judge's map, else null.
 * @param numberSize height of a number in the map's units, where it is not to fit a page as wide as a phone's
 */
export function courseMap(course: Course, numberSize?: number): CourseMap | null {
  return drawnMap(course, numberSize) ?? numbersMap(course, numberSize);
}

function numbersMap(course: Course, numberSize?: number): CourseMap | null {
  const steps = course.steps.filter((s) => s.onPicture);
  const picture = course.mapPicture;
  if (steps.length < 2 || !picture) return null;
  const width = 100;
  const height = (width * picture.height) / picture.width;
  // A picture many times longer than wide cannot be printed on a page in any useful way.
  if (height > width * 4 || height < width / 8) return null;
  const at = steps.map((s) => ({
    text: String(s.number),
    x: (s.onPicture?.x ?? 0) * width,
    y: (s.onPicture?.y ?? 0) * height,
  }));
  const textSize = numberSize ?? width / widthInText;
  return {
    width,
    height,
    textSize,
    toScale: false,
    numbers: steps.length,
    shapes: [
      { shape: 'path', points: at.map((p) => [p.x, p.y] as const), width: textSize / 10, as: 'order' },
      ...at.map((p): MapShape => ({ shape: 'dot', x: p.x, y: p.y, r: textSize * 0.75, as: 'spot' })),
      ...at.map((p): MapShape => ({ shape: 'number', ...p })),
    ],
  };
}

interface Frame {
  readonly x0: number;
  readonly y1: number;
  readonly width: number;
  readonly height: number;
}

/** Metres of grass around the equipment. */
const margin = 2;

function drawnMap(course: Course, numberSize?: number): CourseMap | null {
  const standing = course.obstacles.flatMap((o) => (o.stand ? [{ obstacle: o, stand: o.stand }] : []));
  if (standing.length < 2) return null;
  const frame = frameOf(course);
  const textSize = numberSize ?? frame.width / widthInText;
  const at = (x: number, y: number): PlanPoint => [x - frame.x0, frame.y1 - y];
  const line = (
    points: readonly { readonly x: number; readonly y: number }[],
    as: 'order' | 'start' | 'finish',
    width: number,
  ): MapShape => ({ shape: 'path', as, width, points: points.map((p) => at(p.x, p.y)) });
  const steps = drawnSteps(course);
  const shapes: MapShape[] = [
    {
      shape: 'path',
      as: 'ring',
      width: textSize / 12,
      closed: true,
      points: course.ring
        ? [
            at(0, 0),
            at(course.ring.width, 0),
            at(course.ring.width, course.ring.length),
            at(0, course.ring.length),
          ]
        : [
            [0, 0],
            [frame.width, 0],
            [frame.width, frame.height],
            [0, frame.height],
          ],
    },
    line(orderLine(steps), 'order', textSize / 10),
    ...(course.startLine ? [line([course.startLine.from, course.startLine.to], 'start', textSize / 8)] : []),
    ...(course.finishLine
      ? [line([course.finishLine.from, course.finishLine.to], 'finish', textSize / 8)]
      : []),
    ...standing.flatMap(({ obstacle, stand }) => equipmentShapes(obstacle, stand, at)),
    ...boardsOf(steps, textSize).map((board): MapShape => {
      const [x, y] = at(board.x, board.y);
      return {
        shape: 'number',
        x: within(x, textSize, frame.width),
        y: within(y, textSize, frame.height),
        text: String(board.number),
      };
    }),
  ];
  return {
    width: frame.width,
    height: frame.height,
    textSize,
    toScale: true,
    corner: { x: frame.x0, y: frame.y1 },
    numbers: course.steps.length,
    shapes,
  };
}

const within = (v: number, edge: number, size: number): number => Math.min(size - edge, Math.max(edge, v));

function frameOf(course: Course): Frame {
  const points = course.obstacles.flatMap((o) =>
    o.stand
      ? o.kind === 'tunnel'
        ? tunnelLine(o.stand, drawnSizes(o.kind, o.sizes).tunnelLength)
        : [o.stand]
      : [],
  );
  for (const line of [course.startLine, course.finishLine]) if (line) points.push(line.from, line.to);
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  const ring = course.ring;
  const x0 = Math.min(ring ? 0 : Infinity, Math.min(...xs) - margin);
  const x1 = Math.max(ring ? ring.width : -Infinity, Math.max(...xs) + margin);
  const y0 = Math.min(ring ? 0 : Infinity, Math.min(...ys) - margin);
  const y1 = Math.max(ring ? ring.length : -Infinity, Math.max(...ys) + margin);
  return { x0, y1, width: x1 - x0, height: y1 - y0 };
}
